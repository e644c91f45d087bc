"""Two scans of one arch: laid on one another, and what differs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.arch.repair import cleaned
from claspwright.arch.topology import border_vertices, edges_of, pieces, twin_pairs
from claspwright.arch.units import guess_unit
from claspwright.base import Bools, Finding, Floats, Ints, Progress, part, silent
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    Rigid,
    closest_points,
    face_areas,
    face_normals,
    register,
)

REACH_MM = 3.0  # what lies further off is not shown by the other scan
LEAST_CHANGE_MM = 0.1  # scans repeat no better over a whole arch
SIGMAS = 4.0  # a change stands out of the noise by this many robust deviations
LEAST_AREA_MM2 = 0.5  # smaller places are noise
SAME_ARCH = 0.4  # least share of the new scan that must lie on the old one
_SOURCE = "own choice: four robust deviations, at least 0.1 mm"


@dataclass(frozen=True, slots=True, eq=False)
class Change:
    """One place where two scans differ; frame of the old scan, mm."""

    at: Floats  # (3,) middle of the place
    area_mm2: float
    greatest_mm: float  # positive: the new scan stands out; negative: something is gone
    tooth: int  # ISO 3950; 0 on tissue, or where no teeth are known


@dataclass(frozen=True, slots=True)
class ToothChange:
    """How one crown differs."""

    tooth: int
    rms_mm: float
    p95_mm: float
    greatest_mm: float  # signed as in Change
    changed_mm2: float  # of its places in `changes`


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Two scans of one arch; frame of the old one, mm."""

    new_to_old: Rigid  # both in mm
    old: Mesh  # cleaned
    offset_mm: Floats  # (V,) of the new scan over each vertex of the old; NaN where not shown
    overlap: float  # share of the compared points within 0.25 mm
    rms_mm: float
    p95_mm: float
    limit_mm: float  # beyond this a place has changed
    changes: tuple[Change, ...]  # largest area first
    teeth: tuple[ToothChange, ...]  # in the order of the codes given
    findings: tuple[Finding, ...]

    @property
    def changed_teeth(self) -> tuple[int, ...]:
        """Crowns on which a place has changed."""
        return tuple(sorted({change.tooth for change in self.changes if change.tooth}))


def compare_scans(
    old: Mesh, new: Mesh, crowns: Mapping[int, Floats] | None = None, *, progress: Progress = silent
) -> Comparison:
    """Lay a new scan on an old one of the same arch and measure what differs.

    Args:
        old: the scan that is compared with, as filed, in any unit.
        new: the other one, in any unit and pose.
        crowns: (N, 3) points on each crown in the frame of the old file, in mm, to name places.
        progress: called with the fraction done.

    Raises:
        InputError: a mesh is no scan of an arch.
    """
    first, _ = cleaned(_in_mm(old))
    second, _ = cleaned(_in_mm(new))
    progress(0.1, "laying one scan on the other")
    found = register(second, first, progress=part(progress, 0.1, 0.7))
    moved = second.moved(found.rigid)
    progress(0.7, "what differs")
    offset = _offsets(first, moved)
    shown = np.isfinite(offset)
    noise = 1.4826 * float(np.median(np.abs(offset[shown]))) if shown.any() else 0.0
    limit = max(LEAST_CHANGE_MM, SIGMAS * noise)
    names = _names(first, crowns or {})
    changes = _changes(first, offset, limit, names)
    teeth = tuple(_tooth(code, offset[names == code], changes) for code in crowns or {})
    sizes = np.abs(offset[shown]) if shown.any() else np.zeros(1)
    rms, p95 = float(np.sqrt((sizes**2).mean())), float(np.percentile(sizes, 95))
    share = float(shown.mean())
    findings = _told(found.overlap, changes, limit, share)
    progress(1.0, "compared")
    return Comparison(
        found.rigid, first, offset, found.overlap, rms, p95, limit, changes, teeth, findings
    )


def _in_mm(mesh: Mesh) -> Mesh:
    return Mesh(mesh.vertices * guess_unit(mesh).mm_per_unit, mesh.faces)


def _offsets(old: Mesh, new: Mesh) -> Floats:
    """(V,) distance from each old vertex to the new surface, positive where that stands out.

    NaN where the new scan shows nothing: beyond its border or REACH_MM.
    """
    near = closest_points(DistanceTree(new), old.vertices, limit=REACH_MM)
    there = near.faces >= 0
    faces = np.maximum(near.faces, 0)
    beyond = border_vertices(new)[new.faces[faces]].any(axis=1)
    gap = old.vertices - near.points
    side = -np.sign(np.einsum("vd,vd->v", gap, face_normals(new)[faces]))
    out = np.where(side == 0, 1.0, side) * np.linalg.norm(gap, axis=1)
    return np.where(there & ~beyond, out, np.nan)


def _names(old: Mesh, crowns: Mapping[int, Floats]) -> Ints:
    """(V,) code of the crown that each old vertex lies on, 0 elsewhere."""
    out = np.zeros(len(old.vertices), dtype=np.int32)
    best = np.full(len(out), np.inf)
    reach = 0.75 * float(np.median(np.linalg.norm(np.diff(old.corners[:, :2], axis=1), axis=2)))
    for code, points in crowns.items():
        gap = np.asarray(cKDTree(points).query(old.vertices, distance_upper_bound=2.0)[0])
        mine = (gap < best) & (gap < max(reach, 0.3))
        out[mine], best[mine] = code, gap[mine]
    return out


def _changes(old: Mesh, offset: Floats, limit: float, names: Ints) -> tuple[Change, ...]:
    """Connected places on which every corner lies beyond the limit."""
    beyond: Bools = np.nan_to_num(np.abs(offset)) > limit
    faces = np.flatnonzero(beyond[old.faces].sum(axis=1) >= 2)
    if not len(faces):
        return ()
    a, b = twin_pairs(edges_of(old.faces[faces]))
    piece = pieces(len(faces), a // 3, b // 3)
    areas = face_areas(old)[faces]
    out = []
    for k in np.flatnonzero(np.bincount(piece, areas) > LEAST_AREA_MM2):
        mine = faces[piece == k]
        corners = np.unique(old.faces[mine])
        values = np.nan_to_num(offset[corners])
        at = np.average(old.corners[mine].mean(axis=1), axis=0, weights=areas[piece == k])
        codes, count = np.unique(names[corners], return_counts=True)
        extreme = float(values[np.argmax(np.abs(values))])
        area = float(areas[piece == k].sum())
        out.append(Change(at, area, extreme, int(codes[np.argmax(count)])))
    return tuple(sorted(out, key=lambda change: -change.area_mm2))


def _tooth(code: int, offset: Floats, changes: tuple[Change, ...]) -> ToothChange:
    values = offset[np.isfinite(offset)]
    area = sum(change.area_mm2 for change in changes if change.tooth == code)
    if not len(values):
        return ToothChange(code, np.nan, np.nan, np.nan, area)
    extreme = float(values[np.argmax(np.abs(values))])
    rms = float(np.sqrt((values**2).mean()))
    return ToothChange(code, rms, float(np.percentile(np.abs(values), 95)), extreme, area)


def _told(
    overlap: float, changes: tuple[Change, ...], limit: float, share: float
) -> tuple[Finding, ...]:
    if overlap < SAME_ARCH:
        text = (
            f"Only {overlap:.0%} of the new scan lies on the old one: they do not show the same "
            "arch, or one of them is mirrored."
        )
        return (
            Finding(
                "scans.same_arch", "stop", text, _SOURCE, round(overlap, 3), SAME_ARCH, "share"
            ),
        )
    out = []
    if share < 0.9:
        text = f"The new scan shows {share:.0%} of what the old one showed."
        out.append(Finding("scans.coverage", "look", text, _SOURCE, round(share, 3), 0.9, "share"))
    teeth = sorted({change.tooth for change in changes if change.tooth})
    if not changes:
        text = f"Both scans show the same within {limit:.2f} mm: nothing asked for the new one."
        out.append(Finding("scans.change", "note", text, _SOURCE, 0.0, limit, "mm"))
    for change in changes[:12]:
        where = f"tooth {change.tooth}" if change.tooth else "tissue or an unnamed place"
        word = "stands out" if change.greatest_mm > 0 else "is gone"
        text = f"{where}: up to {abs(change.greatest_mm):.2f} mm {word}, {change.area_mm2:.1f} mm2."
        at = (float(change.at[0]), float(change.at[1]), float(change.at[2]))
        out.append(
            Finding("scans.change", "look", text, _SOURCE, round(change.greatest_mm, 3),
                    round(limit, 3), "mm", at, f"tooth.{change.tooth}" if change.tooth else "")
        )  # fmt: skip
    if teeth:
        names = ", ".join(map(str, teeth))
        text = f"Changed teeth: {names}; what was made on the old scan is stale there."
        out.append(Finding("scans.teeth", "look", text, _SOURCE, float(len(teeth))))
    return tuple(out)
