"""Write the table of types that set-up compiles kernels for, or hold it against the jobs.

    python tools/kernel_types.py [--check] [--fine]

Works a coarse invented case of each jaw out, and two builds, each in a fresh process, and takes
down what kernels were called for. With `--fine` two of the cases are as fine as those of the
demo. With `--check` nothing is written; what the table lacks or has too much is printed.
"""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app import build_platform, kernel_types
from claspwright.app.demo_arch import write_case
from claspwright.app.demo_case import answers_of
from claspwright.app.kernel_types import Table
from claspwright.app.run_case import run_case
from claspwright.app.slice_solid import SliceWishes, slice_file
from claspwright.demo import options_for, scenario
from claspwright.formats import write_ply, write_stl
from claspwright.geometry import Mesh, ball, box, union

TABLE = Path(kernel_types.__file__).with_name(kernel_types.TABLE)
COARSE_MM = 0.6  # the coarsest that the builder makes
FINE_MM = 0.15
NOTICE = "# Written by tools/kernel_types.py; do not edit.\n"


def work_out(name: str, edge_mm: float, folder: Path) -> None:
    """Write an invented case and work it out."""
    case = scenario(name)
    answers = answers_of(case, "TYPES-1")
    write_case(options_for(case, edge_mm=edge_mm), answers, folder / "case")
    run_case(folder / "case", folder / "out")


class Sent(Executor):
    """Works in this process, but hands values on as a crew does, by pickles and files."""

    def submit(self, work: Callable[..., Any], /, *given: Any, **named: Any) -> Future[Any]:
        """Do it at once."""
        told: Future[Any] = Future()
        told.set_result(pickle.loads(pickle.dumps(work(*pickle.loads(pickle.dumps(given))))))
        return told


@contextmanager
def crew(*asked: Any) -> Iterator[Executor]:
    """Stand in for the processes of a build, whose kernels cannot be seen from here."""
    yield Sent()


def build(folder: Path) -> None:
    """Prepare platforms for a bracket that hangs over, for a framework, and for two solids."""
    knob = ball(1.2, 0.5)
    bracket = union(
        box(np.zeros(3), np.array([7.0, 3.0, 1.5])),
        box(np.zeros(3), np.array([1.5, 3.0, 5.0])),
        Mesh(knob.vertices + [7.0, 1.5, 1.0], knob.faces),
    )
    write_stl(bracket, folder / "bracket.stl")
    wishes = build_platform.BuildWishes("round-100", processes=1)
    build_platform.build_platforms([folder / "bracket.stl"], folder / "alone", wishes)

    results = folder / "results"
    results.mkdir()
    angle = (np.array([9.0, 3.0, 1.5]), np.array([1.0, 3.0, 6.0]))
    write_stl(union(*(box(np.zeros(3), size) for size in angle)), results / "framework.stl")
    model = box(np.array([-1.0, -1.0, -5.0]), np.array([10.0, 4.0, 0.0]))
    write_ply(model, results / "blocked_out.ply")
    (results / "summary.json").write_text(json.dumps({"case_id": "W-1", "path": [0.0, 0.0, 1.0]}))
    other = folder / "other.stl"
    write_stl(box(np.zeros(3), np.array([5.0, 4.0, 2.0])), other)
    wishes = build_platform.BuildWishes("rectangular-250", processes=1)
    build_platform.build_platforms([results], folder / "one", wishes)
    build_platform._crew = crew
    build_platform.build_platforms([results, other], folder / "two", wishes)
    for binary in (False, True):
        slice_file(other, folder / "other.cli", SliceWishes(25.0, 80.0, binary=binary))


JOBS: dict[str, Callable[[Path], None]] = {
    "mandible": lambda folder: work_out("mandible_class_2_mod_1", COARSE_MM, folder),
    "maxilla": lambda folder: work_out("maxilla_class_3_mod_1", COARSE_MM, folder),
    "build": build,
    "fine mandible": lambda folder: work_out("mandible_class_2_mod_1", FINE_MM, folder),
    "fine maxilla": lambda folder: work_out("maxilla_class_1", FINE_MM, folder),
}


def met_by(job: str) -> tuple[Table, list[str]]:
    """What a job calls kernels for, in a fresh process, and what had to be compiled for it."""
    with tempfile.TemporaryDirectory() as name:
        words = [sys.executable, str(Path(__file__).resolve()), "--job", job, name]
        told = subprocess.run(words, capture_output=True, text=True, check=False)
    if told.returncode:
        sys.exit(told.stderr)
    table, compiled = json.loads(told.stdout.splitlines()[-1])
    return _table(_rows(table)), compiled


def called_by(job: str) -> Table:
    """The same; done twice where something was compiled, for parts of kernels are then met too."""
    table, compiled = met_by(job)
    return met_by(job)[0] if compiled else table


def _rows(table: dict[str, Any]) -> set[tuple[str, str, str]]:
    """Module, kernel and types, one row for each."""
    return {
        (m, k, types) for m, own in table.items() for k, given in own.items() for types in given
    }


def _table(rows: Iterable[tuple[str, str, str]]) -> Table:
    table: Table = {}
    for module, kernel, types in sorted(rows):
        own = table.setdefault(module, {})
        own[kernel] = (*own.get(kernel, ()), types)
    return table


def text_of(table: Table) -> str:
    """The table as TOML."""
    lines = [NOTICE]
    for module, kernels in table.items():
        lines.append(f'["{module}"]')
        for kernel, given in kernels.items():
            key = f'"{kernel}"' if "." in kernel else kernel
            lines += [f"{key} = [", *(f'  "{types}",' for types in given), "]"]
        lines.append("")
    return "\n".join(lines)


def main(words: list[str]) -> int:
    """Write or check the table; 1 where it is stale."""
    if words[:1] == ["--job"]:
        JOBS[words[1]](Path(words[2]))
        print(json.dumps([kernel_types.met(), kernel_types.compiled_here()]))
        return 0
    jobs = [job for job in JOBS if "--fine" in words or not job.startswith("fine")]
    rows = set().union(*(_rows(called_by(job)) for job in jobs))
    if "--check" not in words:
        TABLE.write_bytes(text_of(_table(rows)).encode("utf-8"))
        return 0
    known = _rows(kernel_types.listed())
    for complaint, which in (("lacks", rows - known), ("has, but no job calls", known - rows)):
        for row in sorted(which):
            print(f"the table {complaint}: {' '.join(row)}")
    return 1 if rows != known else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
