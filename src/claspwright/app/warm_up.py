"""Compile the numba kernels into their cache, so that the first case does not pay for it.

Run as `python -m claspwright.app.warm_up`; set-up does so once for each state of the kernels. A
coarse invented case goes through the main job: so the kernels are compiled for the very types that
the job hands them, and none is forgotten.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from claspwright.app.demo_arch import write_case
from claspwright.app.run_case import run_case
from claspwright.base import Progress, part, silent
from claspwright.case import Answers
from claspwright.demo import options_for, scenario

EDGE_MM = 0.6  # the coarsest that the builder makes


def warm_up(*, progress: Progress = silent) -> None:
    """Work a coarse invented case out in a temporary folder and throw it away."""
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
        write_case(options, answers, folder / "case", progress=part(progress, 0.0, 0.3))
        run_case(folder / "case", folder / "out", progress=part(progress, 0.3, 1.0))


if __name__ == "__main__":
    warm_up()
