"""A small invented case, worked out once for all tests that look at results."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.worker import TASKS
from claspwright.app.demo_arch import write_case
from claspwright.app.memory import FolderMemory
from claspwright.app.run_case import RunResult, run_case
from claspwright.base import silent
from claspwright.case import Answers
from claspwright.demo import options_for, scenario


@dataclass(frozen=True)
class Done:
    """A case folder with its results."""

    case: Path
    out: Path
    result: RunResult
    fractions: tuple[float, ...]
    stages: Path  # what a memory kept of it


def small_case(folder: Path, name: str = "mandible_class_3_mod_1") -> Path:
    """A coarse invented case; the geometry is judged elsewhere."""
    case = scenario(name)
    answers = Answers(
        "TEST-1",
        case.jaw,
        "cocr-lpbf-stress-relieved",
        case.missing,
        not_replaced=case.not_replaced,
        functional_depth_mm=case.functional_depth_mm,
    )
    write_case(options_for(case, seed=3, pose_seed=5, edge_mm=0.45), answers, folder)
    return folder


@pytest.fixture(scope="session")
def done(tmp_path_factory: pytest.TempPathFactory) -> Done:
    """A case worked out."""
    root = tmp_path_factory.mktemp("done")
    fractions: list[float] = []

    def note(fraction: float, phase: str) -> None:
        fractions.append(fraction)

    case = small_case(root / "case")
    memory = FolderMemory(root / "stages")
    result = run_case(case, root / "out", date="2026-11-20", memory=memory, progress=note)
    return Done(case, root / "out", result, tuple(fractions), root / "stages")


@pytest.fixture(scope="session")
def worked(done: Done, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A laboratory with that case, L-1, worked out as the bench does it; not to be changed."""
    root = tmp_path_factory.mktemp("worked")
    shutil.copytree(done.case, root / "cases" / "L-1")
    shutil.copytree(done.stages, root / ".claspwright" / "stages", copy_function=os.link)
    TASKS["work out"](Laboratory(root), "L-1", {}, silent)
    return root
