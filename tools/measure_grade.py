"""How far the surface of the final grade lies from the same lines drawn on half its grid.

measure_grade.py --crowns FOLDER [--person a] [--seed 1] [--case NAME ...]

A case is surveyed on half the step of a run and its framework built there; the preview of that
survey lays the same lines and draws them on the step of a run. What lies between the two surfaces
is what the step makes of the shape. Needs some 12 GB.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from framework_measures import gaps_by_area, worked_out

from claspwright.app.demo_arch import read_crowns
from claspwright.demo import EIGHT
from claspwright.framework import build, preview
from claspwright.geometry import DistanceTree, Mesh, closest_points, face_areas
from claspwright.survey import survey

SHARES = (0.5, 0.95, 0.99, 0.999)  # of the surface
MOST_NODES = 900_000_000
OVER_MM = 0.1


@dataclass(frozen=True, slots=True)
class Apart:
    """How far one surface lies from another one."""

    within_mm: tuple[float, ...]  # distance that SHARES of its area do not pass
    most_mm: float
    share_over: float  # of its area, further than OVER_MM


def apart(one: Mesh, other: Mesh) -> Apart:
    """Distances from the middles of the faces of one closed mesh to another one."""
    gap = np.abs(closest_points(DistanceTree(other), one.middles).distance)
    area = face_areas(one)
    within = tuple(gaps_by_area(gap, area, SHARES).tolist())
    return Apart(within, float(gap.max()), float(area[gap > OVER_MM].sum() / area.sum()))


def main(arguments: Sequence[str] | None = None) -> int:
    """Print a line a case and direction."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--crowns", type=Path, required=True)
    parser.add_argument("--person", default="a")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--case", nargs="*", default=[case.name for case in EIGHT])
    given = parser.parse_args(arguments)
    for case in (case for case in EIGHT if case.name in given.case):
        crowns = read_crowns(given.crowns, given.person, case.jaw)
        work = worked_out(case.name, crowns, seed=given.seed)
        assert work.arch is not None and work.surveyed is not None and work.design is not None
        step = work.surveyed.scan_field.grid.spacing
        fine = survey(work.arch, work.surveyed.path, spacing_mm=step / 2, most_nodes=MOST_NODES)
        twice = 2 * fine.scan_field.grid.spacing
        solid = build(work.arch, fine, work.design).solid
        drawn = preview(work.arch, fine, work.design).solid
        for words, found in (("to", apart(drawn, solid)), ("from", apart(solid, drawn))):
            shares = ", ".join(
                f"{100 * share:g} % within {1000 * gap:.1f} um"
                for share, gap in zip(SHARES, found.within_mm, strict=True)
            )
            print(
                f"{case.name} {given.person}: drawn on {twice:.3f} mm {words} {twice / 2:.3f} mm: "
                f"{shares}, at most {1000 * found.most_mm:.0f} um, "
                f"{100 * found.share_over:.3f} % over {OVER_MM} mm",
                flush=True,
            )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
