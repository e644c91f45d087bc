"""Compile the numba kernels into their cache, so that the first case does not pay for it.

Run as `python -m claspwright.app.warm_up`; set-up does so once for each state of the kernels. A
coarse invented case goes through the main job, and a tiny solid through the preparation of a
platform: so the kernels are compiled for the very types that they are handed, and none is
forgotten. Those of the distortion are left for the first prediction, which takes a minute itself.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np

from claspwright.app.build_platform import BuildWishes, build_platforms
from claspwright.app.demo_arch import write_case
from claspwright.app.run_case import run_case
from claspwright.base import Progress, part, silent
from claspwright.case import Answers
from claspwright.demo import options_for, scenario
from claspwright.formats import write_stl
from claspwright.geometry import Mesh, ball, box, union

EDGE_MM = 0.6  # the coarsest that the builder makes


def warm_up(*, progress: Progress = silent) -> None:
    """Work a coarse invented case out and build a tiny solid, in a temporary folder."""
    case = scenario("mandible_class_2_mod_1")
    answers = Answers(
        "WARM-UP",
        case.jaw,
        "cocr-lpbf-stress-relieved",
        case.missing,
        not_replaced=case.not_replaced,
        functional_depth_mm=case.functional_depth_mm,
    )
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        options = options_for(case, edge_mm=EDGE_MM)
        write_case(options, answers, folder / "case", progress=part(progress, 0.0, 0.25))
        run_case(folder / "case", folder / "out", progress=part(progress, 0.25, 0.85))
        warm_build(folder, progress=part(progress, 0.85, 1.0))


def warm_build(folder: Path, *, progress: Progress = silent) -> None:
    """Prepare a platform with one tiny solid, a bracket with a knob that hangs over.

    Args:
        folder: where solid and build are written.
        progress: told of the steps.
    """
    knob = ball(1.2, 0.5)
    bracket = union(
        box(np.zeros(3), np.array([7.0, 3.0, 1.5])),
        box(np.zeros(3), np.array([1.5, 3.0, 5.0])),
        Mesh(knob.vertices + [7.0, 1.5, 1.0], knob.faces),
    )
    write_stl(bracket, folder / "bracket.stl")
    wishes = BuildWishes("round-100", processes=1)
    build_platforms([folder / "bracket.stl"], folder / "platform", wishes, progress=progress)


if __name__ == "__main__":
    warm_up()
