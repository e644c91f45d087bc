"""Measure survey lines against hand-made labels: on teeth, one per side, free above, hidden below.

The labelled scans are research data beside the project, never part of it. Crowns are those that
the program finds itself from marks at the middle of each label; the path is across the occlusal
plane. Prints a table for docs/survey.md.

    python tools/measure_lines.py [FOLDER]
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from measure_dice import SCANS, Labelled, labelled_scans, load, marks_at
from scipy.spatial import KDTree

from claspwright.arch import DentalArch, find_teeth, present_teeth
from claspwright.base import Bools, Floats
from claspwright.geometry import DistanceTree, closest_points, resampled, vertex_normals
from claspwright.survey import Shadow, cast_shadow, read_gauge, survey_fields
from claspwright.survey.lines import HIDDEN_BY_MM, survey_lines

STEP_MM = 0.3  # between the points of a line that are looked at, and of the grid
AWAY_MM = 0.6  # above and below a line
SECTORS = 36  # directions from a crown's centre, seen from above
TOUCH_MM = 0.005  # off the surface, so that a point is not covered by its own faces
BEYOND_MM = 0.5  # of the labelled tooth: the labels' edges are that rough


@dataclass(frozen=True)
class Seen:
    """Survey lines of one arch against its labels."""

    crowns: int
    without: dict[int, float]  # crowns without any line: undercut over 5 % of the crown [mm]
    on_own: float  # share of points that lie on the label of their tooth, or at its edge
    strays: dict[int, float]  # share of points further off, by tooth, where it is not 0
    doubled: float  # share of the directions from a crown's centre that have two lines
    free_above: float
    hidden_below: float


def measure(case: Labelled, arch: DentalArch) -> Seen:
    """Look at the survey lines of an arch at zero tilt."""
    up = np.array([0.0, 0.0, 1.0])
    solid = arch.scan.solid
    tree, shadow = DistanceTree(solid), cast_shadow(solid, up)
    _, block, _ = survey_fields(arch.scan.surface, tree, up, STEP_MM)
    normals = vertex_normals(solid)
    corners = arch.scan.surface.corners
    centres = corners.mean(axis=1)
    on, strays, doubled = [], {}, []
    hidden: dict[float, list[bool]] = {AWAY_MM: [], -AWAY_MM: []}
    found = survey_lines(arch, up, block, tree)
    for code, pieces in found.items():
        lines = [resampled(piece, STEP_MM) for piece in pieces]
        if not lines:
            continue
        points = np.concatenate(lines)
        own = case.labels == code
        label = np.concatenate([corners[own].reshape(-1, 3), centres[own]])
        near = KDTree(label).query(points)[0] < BEYOND_MM + 0.5 * arch.scan.edge_mm
        on += list(near)
        if not near.all():
            strays[code] = float(1.0 - near.mean())
        doubled += list(_doubled(lines, arch.teeth[code].centre))
        for step, over in hidden.items():
            at = closest_points(tree, points + step * up)
            outward = normals[solid.faces[at.faces]].mean(axis=1)
            off = HIDDEN_BY_MM if step > 0 else TOUCH_MM
            over += list(shadow.hides(at.points + off * outward))
    without = {c: _undercut(arch, shadow, c) for c, pieces in found.items() if not pieces}
    return Seen(
        len(found), without, float(np.mean(on)), strays, float(np.mean(doubled)),
        1.0 - float(np.mean(hidden[AWAY_MM])), float(np.mean(hidden[-AWAY_MM])),
    )  # fmt: skip


def _undercut(arch: DentalArch, shadow: Shadow, code: int) -> float:
    """What the gauge reads at least on the deepest twentieth of a crown's vertices [mm]."""
    surface = arch.scan.surface
    own = np.unique(surface.faces[arch.teeth[code].faces])
    points, normals = surface.vertices[own], vertex_normals(surface)[own]
    return float(np.percentile(read_gauge(shadow, points, normals).undercut_mm, 95))


def _doubled(lines: list[Floats], centre: Floats) -> Bools:
    """(N,) of the directions from the centre that have a line: whether they have two."""
    count = np.zeros(SECTORS, np.int64)
    for line in lines:
        off = line - centre
        turn = np.arctan2(off[:, 1], off[:, 0]) / (2.0 * np.pi) + 0.5
        count[np.unique((turn * SECTORS).astype(np.int64) % SECTORS)] += 1
    return count[count > 0] > 1


def arch_of(case: Labelled) -> DentalArch:
    """The arch with the crowns that the program finds from one mark a tooth."""
    missing = [c for c in present_teeth(case.scan.jaw, []) if c not in case.codes]
    return find_teeth(case.scan, marks_at(case, "centroid"), missing)


def main(folder: Path) -> None:
    """Measure all labelled scans."""
    print("| scan | crowns | on the tooth | two lines | free above | hidden below | "
          "without a line | off the tooth |")  # fmt: skip
    print("| --- |" + " --- |" * 7)
    for name in labelled_scans(folder):
        case = load(name, folder)
        seen = measure(case, arch_of(case))
        off = ", ".join(f"{code} {share:.0%}" for code, share in seen.strays.items())
        none = ", ".join(f"{code} ({most:.2f})" for code, most in seen.without.items())
        print(f"| {name} | {seen.crowns} | {seen.on_own:.3f} | {seen.doubled:.3f} | "
              f"{seen.free_above:.3f} | {seen.hidden_below:.3f} | {none or '-'} | "
              f"{off or '-'} |", flush=True)  # fmt: skip


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SCANS)
