"""Set-up compiles every kernel that the main job and a build call, for the very types they hand it.

Kernels and types are named in a table (`kernel_types.toml`), which tools/kernel_types.py writes.
"""

from __future__ import annotations

import importlib.util
from importlib import import_module
from pathlib import Path
from types import ModuleType

import numba
import numpy as np
import pytest
from numba.core.dispatcher import Dispatcher

from claspwright.app.kernel_types import (
    Table,
    compile_module,
    listed,
    text_of,
    types_of,
)
from claspwright.app.warm_up import TOGETHER, shares, warm_up
from claspwright.base import InputError

from .conftest import Done

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "kernel_types_tool", ROOT / "tools/kernel_types.py"
    )
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def jobs(done: Done, tool: ModuleType) -> dict[str, tuple[Table, list[str]]]:
    """What jobs call kernels for, and what had to be compiled for them."""
    found = {"mandible": (done.called, done.compiled)}
    return found | {job: tool.met_by(job) for job in ("maxilla", "build")}


def rows(table: Table) -> set[str]:
    return {
        f"{module}.{kernel}{types}"
        for module, kernels in table.items()
        for kernel, given in kernels.items()
        for types in given
    }


@pytest.mark.slow
@pytest.mark.parametrize("job", ["mandible", "maxilla", "build"])
def test_a_job_meets_no_kernel_that_set_up_has_not_compiled(
    job: str, jobs: dict[str, tuple[Table, list[str]]]
) -> None:
    called, compiled = jobs[job]
    assert len(rows(called)) > 30
    assert compiled == []
    assert sorted(rows(called) - rows(listed())) == []


@pytest.mark.slow
def test_set_up_compiles_nothing_that_no_job_calls(
    jobs: dict[str, tuple[Table, list[str]]],
) -> None:
    called = set().union(*(rows(table) for table, _ in jobs.values()))
    assert sorted(rows(listed()) - called) == []


def test_no_cache_file_is_written_by_two_processes() -> None:
    """A kernel that calls one of another module is compiled by the process that compiles that."""
    alone = {module: {module} for module in listed()}
    together = alone | {module: set(group) for group in TOGETHER for module in group}
    assert sorted(m for share in shares() for m, _ in share) == sorted(
        {*listed(), *(m for group in TOGETHER for m in group)}
    )
    for module in listed():
        for value in vars(import_module(f"claspwright.{module}")).values():
            if isinstance(value, Dispatcher):
                home = value.py_func.__module__.removeprefix("claspwright.")
                assert home in together[module], (module, home)


@pytest.mark.usefixtures("warmed")
def test_what_lies_in_the_cache_is_not_compiled_again() -> None:
    told: list[float] = []
    assert warm_up(processes=1, progress=lambda fraction, _: told.append(fraction)) == 0
    assert told == sorted(told) and told[-1] == 1.0


def locked(array: np.ndarray) -> np.ndarray:
    array.flags.writeable = False
    return array


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("(float64[:, ::1], int64)", (np.zeros((2, 3)), 4)),
        ("(const(int32[::1]),)", (locked(np.zeros(3, np.int32)),)),
        ("(float32[:, :], uint64[::1, :])",
         (np.zeros((4, 4), np.float32)[::2, ::2], np.zeros((2, 3), np.uint64, order="F"))),
        ("(const(float64[:]), bool)", (locked(np.zeros((4, 4)))[:, 1], True)),
        ("((int32[::1], int32[::1]), float64)", ((np.zeros(2, np.int32),) * 2, 0.5)),
        ("((float64, bool[:, :, ::1]),)", ((1.5, np.zeros((1, 2, 3), np.bool_)),)),
        ("(uint8[::1], int8[::1], int32, float32, uint64)",
         (np.zeros(1, np.uint8), np.zeros(1, np.int8), np.int32(1), np.float32(1), np.uint64(1))),
    ],
)  # fmt: skip
def test_texts_name_the_types_that_numba_sees(text: str, given: tuple[object, ...]) -> None:
    assert types_of(text) == tuple(map(numba.typeof, given))
    assert text_of(types_of(text)) == text


@pytest.mark.parametrize(
    "text",
    ["", "(", "float64", "(float64[0],)", "(float64[::2],)", "(const(int64),)", "(float,)",
     "(__import__('os'),)", "(float64[:, ::1],", "(const(float64[:], 1),)"],
)  # fmt: skip
def test_other_texts_are_refused_and_not_evaluated(text: str) -> None:
    with pytest.raises(InputError, match="no argument types"):
        types_of(text)


def test_a_kernel_that_is_not_there_is_named() -> None:
    with pytest.raises(InputError, match="no kernel gone"):
        compile_module("arch._skirt_kernels", {"gone": ("(int64,)",)})
