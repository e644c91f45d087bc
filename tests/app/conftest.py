"""A small invented case, worked out once for all tests that look at results."""

from __future__ import annotations

import os
import pickle
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.worker import TASKS
from claspwright.app.demo_arch import write_case
from claspwright.app.demo_case import answers_of
from claspwright.app.kernel_types import Table
from claspwright.app.run_case import RunResult
from claspwright.app.warm_up import warm_up
from claspwright.base import silent
from claspwright.demo import options_for, scenario


@dataclass(frozen=True)
class Done:
    """A case folder with its results."""

    case: Path
    out: Path
    result: RunResult
    fractions: tuple[float, ...]
    stages: Path  # what a memory kept of it
    called: Table  # kernels that the job called
    compiled: list[str]  # those of them that set-up had not compiled


# in a process of its own, so that only the job's own kernels are seen
WORK = """
import pickle, sys, warnings
from pathlib import Path
from claspwright.app.kernel_types import compiled_here, met
from claspwright.app.memory import FolderMemory
from claspwright.app.run_case import run_case

warnings.simplefilter("error")
root = Path(sys.argv[1])
fractions = []
memory = FolderMemory(root / "stages")
note = lambda fraction, phase: fractions.append(fraction)
date = "2026-11-20"
result = run_case(root / "case", root / "out", date=date, memory=memory, progress=note)
told = result, tuple(fractions), met(), compiled_here()
(root / "told.pickle").write_bytes(pickle.dumps(told))
"""


def small_case(folder: Path, name: str = "mandible_class_3_mod_1") -> Path:
    """A coarse invented case; the geometry is judged elsewhere."""
    case = scenario(name)
    answers = answers_of(case, "TEST-1")
    write_case(options_for(case, seed=3, pose_seed=5, edge_mm=0.45), answers, folder)
    return folder


@pytest.fixture(scope="session")
def warmed() -> None:
    """The kernels as set-up leaves them."""
    warm_up()


@pytest.fixture(scope="session")
def done(tmp_path_factory: pytest.TempPathFactory, warmed: None) -> Done:
    """A case worked out."""
    root = tmp_path_factory.mktemp("done")
    case = small_case(root / "case")
    words = [sys.executable, "-c", WORK, str(root)]
    ended = subprocess.run(words, stderr=subprocess.PIPE, text=True, check=False)
    assert ended.returncode == 0, ended.stderr
    result, fractions, called, compiled = pickle.loads((root / "told.pickle").read_bytes())
    return Done(case, root / "out", result, fractions, root / "stages", called, compiled)


@pytest.fixture(scope="session")
def worked(done: Done, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A laboratory with that case, L-1, worked out as the bench does it; not to be changed."""
    root = tmp_path_factory.mktemp("worked")
    shutil.copytree(done.case, root / "cases" / "L-1")
    shutil.copytree(done.stages, root / ".claspwright" / "stages", copy_function=os.link)
    TASKS["work out"](Laboratory(root), "L-1", {}, silent)
    return root
