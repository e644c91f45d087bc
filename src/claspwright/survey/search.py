"""The search for the path of placement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch, Jaw
from claspwright.base import Finding, Floats, Point, Progress, part, silent
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    distance_field,
    in_chunks,
)
from claspwright.limits import limit
from claspwright.survey import _gauge_kernels as kernels
from claspwright.survey.model import PathOfPlacement
from claspwright.survey.path import path_from_tilts
from claspwright.survey.zones import (
    Spot,
    Zone,
    clasp_zone,
    covered_tissue,
    proximal_zones,
)

STEP_MM = 0.2
PAD_MM = 2.0
BAND_MM = 3.0
WIDEST_TILT_DEG = 10.0  # path.tilt: beyond it the patient cannot follow
COARSE_DEG = 2.0
FINE_DEG = (1.0, 0.5)
TIP_AREA_MM2 = 0.4  # of the deepest part of a zone, which a clasp tip needs
GUIDING_DEG = 5.0  # off the path that still guides
ENOUGH = 0.05  # a tilt must win this much in score to be taken

# Weights of the score; own choice of this program, no source.
PER_ZONE = 1.0  # for a clasp without any undercut
PER_TISSUE_MM3 = 1.0 / 200.0  # of undercut tissue under connector and bases
PER_PROXIMAL_MM3 = 1.0 / 20.0  # of undercut under proximal plates
PER_GUIDING_MM2 = 1.0 / 100.0  # of faces that guide
PER_DEGREE = 0.03  # of tilt


@dataclass(frozen=True, slots=True)
class PathScore:
    """How one path does; the lowest total wins."""

    path: PathOfPlacement
    total: float
    undercut_mm: tuple[float, ...]  # by zone: usable, at this path and at zero tilt alike
    tissue_mm3: float  # undercut of the tissue under connector and bases
    proximal_mm3: float  # undercut of the proximal faces beside the spans
    guiding_mm2: float  # of those faces within 5 degrees of the path
    tilt_deg: float  # of the path against the normal of the occlusal plane


@dataclass(frozen=True, slots=True)
class PathChoice:
    """The chosen path, its score, that of zero tilt, and all paths that were tried."""

    path: PathOfPlacement
    score: PathScore
    untilted: PathScore
    tried: tuple[PathScore, ...]
    findings: tuple[Finding, ...]


def search_path(
    arch: DentalArch, zones: Sequence[Zone], *, progress: Progress = silent
) -> PathChoice:
    """The path of placement that serves all clasps with the least tilt.

    A zone's undercut counts only as far as it exists at zero tilt too, because food pulls
    across the occlusal plane. Tilts up to 10 degrees are tried, first 2 degrees apart, then
    finer about the best. Zero tilt stays unless a tilt does clearly better.

    Args:
        arch: the arch with its teeth and spans.
        zones: (tooth, "buccal" or "lingual", undercut wanted in mm) of each clasp.
        progress: told of the fraction done.

    Raises:
        InputError: a zone names a tooth that does not stand.

    Source:
        check-values B12, B13 for what is weighed; the weights are an own choice.
    """
    judge = _Judge(arch, zones, part(progress, 0.0, 0.4))
    jaw = arch.scan.jaw
    untilted = judge.score(path_from_tilts(jaw))
    tried = {(0.0, 0.0): untilted}
    for n, tilt in enumerate(_disc(COARSE_DEG, WIDEST_TILT_DEG)):
        _try(judge, jaw, tilt, tried)
        progress(0.4 + 0.005 * min(n, 80), "path of placement")
    for step in FINE_DEG:
        best = min(tried, key=lambda tilt: tried[tilt].total)
        for a, b in _disc(step, 1.5 * step):
            _try(judge, jaw, (best[0] + a, best[1] + b), tried)
        progress(0.9, "path of placement")
    best_score = min(tried.values(), key=lambda score: score.total)
    chosen = best_score if best_score.total < untilted.total - ENOUGH else untilted
    progress(1.0, "path of placement")
    return PathChoice(
        chosen.path, chosen, untilted, tuple(tried.values()),
        (_reason(chosen, untilted), *_shortages(zones, chosen, judge)),
    )  # fmt: skip


def _disc(step: float, radius: float) -> list[tuple[float, float]]:
    """Tilts in a disc, the small ones first."""
    count = int(radius / step)
    found = [
        (step * i, step * j)
        for i in range(-count, count + 1)
        for j in range(-count, count + 1)
        if np.hypot(i, j) * step <= radius + 1e-9
    ]
    return sorted(found, key=lambda tilt: (round(np.hypot(*tilt), 9), tilt))


def _try(
    judge: _Judge, jaw: Jaw, tilt: tuple[float, float],
    tried: dict[tuple[float, float], PathScore],
) -> None:  # fmt: skip
    if tilt not in tried and np.hypot(*tilt) <= WIDEST_TILT_DEG + 1e-9:
        tried[tilt] = judge.score(path_from_tilts(jaw, *tilt))


class _Judge:
    """The places that are looked at and the field they are read in."""

    def __init__(self, arch: DentalArch, zones: Sequence[Zone], progress: Progress) -> None:
        self.zones = tuple(zones)
        self.clasps = tuple(clasp_zone(arch, tooth, side) for tooth, side, _ in zones)
        self.proximal = proximal_zones(arch)
        self.tissue = covered_tissue(arch)
        grid = Grid.around(arch.scan.surface.vertices, IDENTITY, STEP_MM, PAD_MM)
        self.field: Field = distance_field(
            DistanceTree(arch.scan.solid), grid, BAND_MM, progress=progress
        )
        zero = np.array([0.0, 0.0, 1.0])
        self.at_zero = tuple(self.depth(spot, zero) for spot in self.clasps)

    def depth(self, spot: Spot, direction: Floats) -> Floats:
        """(N,) mm by which the way out of each point is blocked; a lower bound of the gauge."""
        grid = self.field.grid
        nodes = np.ascontiguousarray(grid.to_nodes(spot.points))
        out = np.empty(len(nodes))
        way = np.ascontiguousarray(direction)

        def work(first: int, last: int) -> None:
            here = slice(first, last)
            kernels.least_along(self.field.values, nodes[here], way, 0.5, grid.spacing, out[here])

        in_chunks(work, len(nodes), 1024)
        return np.maximum(-out, 0.0)

    def score(self, path: PathOfPlacement) -> PathScore:
        direction = path.direction
        usable = [
            deepest(np.minimum(self.depth(spot, direction), zero), spot.areas)
            for spot, zero in zip(self.clasps, self.at_zero, strict=True)
        ]
        tissue = float(self.depth(self.tissue, direction) @ self.tissue.areas)
        proximal = guiding = 0.0
        for spot in self.proximal:
            depth = self.depth(spot, direction)
            proximal += float(depth @ spot.areas)
            off = np.abs(spot.normals @ direction) < np.sin(np.radians(GUIDING_DEG))
            guiding += float(spot.areas[off & (depth < 0.05)].sum())
        tilt = float(np.degrees(np.arccos(np.clip(direction[2], -1.0, 1.0))))
        wanted = [zone[2] for zone in self.zones]
        short = [max(1.0 - u / max(w, 1e-9), 0.0) for u, w in zip(usable, wanted, strict=True)]
        total = (
            PER_ZONE * sum(short) + PER_TISSUE_MM3 * tissue + PER_PROXIMAL_MM3 * proximal
            - PER_GUIDING_MM2 * guiding + PER_DEGREE * tilt
        )  # fmt: skip
        return PathScore(path, total, tuple(usable), tissue, proximal, guiding, tilt)

    def place_of(self, zone: int) -> Point | None:
        """The deepest point of a zone at zero tilt; None where the zone is empty."""
        points = self.clasps[zone].points
        if not len(points):
            return None
        x, y, z = points[int(np.argmax(self.at_zero[zone]))].tolist()
        return (x, y, z)


def deepest(depth: Floats, areas: Floats, area_mm2: float = TIP_AREA_MM2) -> float:
    """The undercut that the deepest `area_mm2` of a zone has at least [mm]."""
    if not len(depth):
        return 0.0
    order = np.argsort(-depth, kind="stable")
    reached = np.cumsum(areas[order]) >= area_mm2
    return float(depth[order[int(np.argmax(reached))]]) if reached.any() else 0.0


def _reason(chosen: PathScore, untilted: PathScore) -> Finding:
    path = chosen.path
    if chosen is untilted:
        text = "The path of placement stands across the occlusal plane: no tilt up to "
        text += f"{WIDEST_TILT_DEG:.0f} degrees serves the clasps, guiding faces and tissue better."
    else:
        text = (
            f"The path of placement is tilted, anterior {path.anterior_tilt_deg:.1f} and right "
            f"lateral {path.right_lateral_tilt_deg:.1f} degrees: {_gains(chosen, untilted)}."
        )
    return Finding(
        rule="path.search",
        severity="note",
        text=text,
        source="guiding planes, undercuts and interference weighed (check-values B12, B13); "
        "the weights are an own choice, no source",
        measured=round(chosen.tilt_deg, 2),
        limit=WIDEST_TILT_DEG,
        unit="deg",
    )


def _gains(chosen: PathScore, untilted: PathScore) -> str:
    parts = []
    for name, now, before, unit, least in (
        ("undercut of the proximal faces", chosen.proximal_mm3, untilted.proximal_mm3, "mm3", 0.5),
        ("undercut tissue", chosen.tissue_mm3, untilted.tissue_mm3, "mm3", 2.0),
        ("guiding faces", chosen.guiding_mm2, untilted.guiding_mm2, "mm2", 1.0),
        (
            "undercut of the weakest clasp",
            min(chosen.undercut_mm, default=0.0),
            min(untilted.undercut_mm, default=0.0),
            "mm",
            0.02,
        ),
    ):
        if abs(now - before) >= least:
            digits = 2 if unit == "mm" else 0
            parts.append(f"{name} {now:.{digits}f} instead of {before:.{digits}f} {unit}")
    return "; ".join(parts) or "it does better in all by a little"


def _shortages(zones: Sequence[Zone], chosen: PathScore, judge: _Judge) -> tuple[Finding, ...]:
    rule = limit("clasp.undercut")
    found = []
    for n, ((tooth, side, wanted), usable) in enumerate(
        zip(zones, chosen.undercut_mm, strict=True)
    ):
        if usable >= 0.9 * wanted:
            continue
        found.append(
            Finding(
                rule="path.undercut",
                severity="note",
                text=f"The {side} face of {tooth} has {usable:.2f} mm of undercut that holds "
                f"across the occlusal plane too, for {wanted:.2f} mm wanted; clasp another face "
                "or tooth, or ask the dentist to shape it.",
                source=rule.cited,
                measured=round(usable, 3),
                limit=wanted,
                unit="mm",
                at_mm=judge.place_of(n),
                component=f"clasp.{tooth}.{side}",
            )
        )
    return tuple(found)
