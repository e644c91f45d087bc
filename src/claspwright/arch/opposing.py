"""The opposing arch in bite relation, and whether the bite record bears it out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch.mirror import NEAR_MM, mirror_findings
from claspwright.arch.model import MasterScan
from claspwright.arch.registration import register
from claspwright.arch.units import guess_unit
from claspwright.base import Finding, Floats
from claspwright.geometry import DistanceTree, Mesh, closest_points, kept_faces

BORNE_OUT = 0.8  # share of the record that must lie so near
FITS = 0.6  # share of what the record shows of the opposing arch that must lie on it
EACH = 0.1  # share that each arch must have of it
REACH_MM = 4.0  # arches in relation come at least this near to one another
SAMPLES = 4000
_SOURCE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class _Relation:
    """How well a bite record lies on the two arches, as shares of the record."""

    on_either: float
    on_master: float
    on_opposing: float
    median_mm: float

    @property
    def holds(self) -> bool:
        return self.on_either >= BORNE_OUT and min(self.on_master, self.on_opposing) >= EACH


def align_opposing(
    opposing: Mesh, bite: Mesh | None, scan: MasterScan
) -> tuple[Mesh, tuple[Finding, ...]]:
    """Bring the opposing arch into the arch frame of the master scan.

    Intra-oral scans in bite relation share one frame already; the bite record is held against
    both. Where it does not bear that out, the record is laid on the master arch and the opposing
    arch on the record. Where that does not fit either, the opposing arch is given as it was
    filed, with a `stop`.

    Args:
        opposing: the opposing scan, in the frame of the master file.
        bite: the bite record in that frame, None where there is none.
        scan: the master scan.

    Returns:
        The opposing arch in the arch frame, and what was found.

    Raises:
        InputError: the size of the opposing scan fits no unit.
    """
    unit = guess_unit(opposing)
    factor = unit.mm_per_unit
    moved = Mesh(opposing.vertices * factor, opposing.faces).moved(scan.scan_to_arch)
    trees = DistanceTree(scan.surface), DistanceTree(moved)
    if bite is None:
        return moved, (_without_record(trees[0], moved),)
    record = scan.scan_to_arch.apply(_thinned(bite.vertices * factor))
    as_filed = _relation(trees, record)
    if as_filed.holds:
        return moved, (_judged(as_filed),)
    surface = Mesh(bite.vertices * factor, bite.faces).moved(scan.scan_to_arch)
    return _through_record(moved, surface, scan, as_filed)


def bite_in_place(bite: Mesh, opposing: Mesh, scan: MasterScan, *, laid: bool) -> Mesh:
    """The bite record in the arch frame.

    Args:
        bite: the record, in the frame of the master file.
        opposing: the opposing scan as filed, whose size tells the unit.
        scan: the master scan.
        laid: lay it on the master arch, as `align_opposing` did where the files did not fit.
    """
    factor = guess_unit(opposing).mm_per_unit
    filed = Mesh(bite.vertices * factor, bite.faces).moved(scan.scan_to_arch)
    return filed.moved(register(filed, scan.surface).motion) if laid else filed


def _through_record(
    opposing: Mesh, record: Mesh, scan: MasterScan, as_filed: _Relation
) -> tuple[Mesh, tuple[Finding, ...]]:
    """Lay the record on the master arch, and the opposing arch on the record."""
    on_master = register(record, scan.surface)
    laid = record.moved(on_master.motion)
    rest = _beyond(laid, scan.surface)
    on_opposing = register(rest, opposing)
    placed = opposing.moved(on_opposing.motion.inverse())
    trees = DistanceTree(scan.surface), DistanceTree(placed)
    relation = _relation(trees, _thinned(laid.vertices))
    fits = min(on_master.overlap / EACH, on_opposing.overlap / FITS) > 1
    if not (relation.holds and fits):
        return opposing, (*mirror_findings(scan, opposing, record), _judged(as_filed))
    moved = Finding(
        "bite.moved",
        "look",
        "The scans were not filed in bite relation; the opposing arch was moved into it through "
        f"the bite record, which fits the master arch to {on_master.residual_um:.0f} um and the "
        f"opposing arch to {on_opposing.residual_um:.0f} um. See that the teeth meet.",
        _SOURCE,
        measured=round(max(on_master.residual_um, on_opposing.residual_um), 1),
        limit=1000.0 * NEAR_MM,
        unit="um",
    )
    return placed, (moved, _judged(relation))


def _beyond(record: Mesh, master: Mesh) -> Mesh:
    """The part of a record that does not lie on the master arch."""
    found = closest_points(DistanceTree(master), record.vertices, limit=5.0)
    off = np.asarray(np.abs(found.distance) > 2 * NEAR_MM)
    kept = np.asarray(off[record.faces].all(axis=1))
    return kept_faces(record, kept) if kept.any() else record


def _relation(trees: tuple[DistanceTree, DistanceTree], record: Floats) -> _Relation:
    master, opposing = (
        np.minimum(np.abs(closest_points(tree, record, limit=5.0).distance), 5.0) for tree in trees
    )
    nearest = np.minimum(master, opposing)
    return _Relation(
        float((nearest < NEAR_MM).mean()),
        float((master < NEAR_MM).mean()),
        float((opposing < NEAR_MM).mean()),
        float(np.median(nearest)),
    )


def _judged(relation: _Relation) -> Finding:
    share = 100.0 * relation.on_either
    if relation.holds:
        return Finding(
            "bite.relation",
            "note",
            f"The bite record lies on both arches: {share:.0f} % of it within {NEAR_MM} mm, "
            f"median {relation.median_mm:.2f} mm.",
            _SOURCE,
            measured=round(relation.median_mm, 3),
            limit=NEAR_MM,
            unit="mm",
        )
    return Finding(
        "bite.relation",
        "stop",
        f"Only {share:.0f} % of the bite record lies within {NEAR_MM} mm of the arches, so they "
        "are not in bite relation. Export master, opposing and bite in one frame; clearances are "
        "not to be trusted until then.",
        _SOURCE,
        measured=round(share, 1),
        limit=100.0 * BORNE_OUT,
        unit="%",
    )


def _without_record(master: DistanceTree, opposing: Mesh) -> Finding:
    """No bite record: say so, and whether the arches could be in relation at all."""
    samples = _thinned(opposing.vertices)
    found = closest_points(master, samples, limit=4 * REACH_MM).distance
    nearest = float(np.minimum(np.abs(found), 4 * REACH_MM).min())
    if nearest <= REACH_MM:
        return Finding(
            "bite.record",
            "look",
            "There is no bite record: the opposing arch is taken to be in bite relation as it was "
            "scanned. See on the review page that the teeth meet.",
            _SOURCE,
        )
    return Finding(
        "bite.relation",
        "stop",
        f"There is no bite record, and the opposing arch stays at least {nearest:.0f} mm away from "
        "the master. Export both in bite relation, or add the bite record.",
        _SOURCE,
        measured=round(nearest, 1),
        limit=REACH_MM,
        unit="mm",
    )


def _thinned(points: Floats) -> Floats:
    """At most SAMPLES of the points, evenly taken."""
    step = max(1, len(points) // SAMPLES)
    return points[::step]
