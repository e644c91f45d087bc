"""A result folder that appears whole or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from claspwright.base import InputError

RESULT_NAMES = frozenset(
    (
        "summary.json",
        "timings.json",
        "case.proposed.toml",
        "findings.json",
        "blocked_out.ply",
        "framework.stl",
        "framework.3mf",
        "framework_to_build.stl",
        "areas.toml",
        "wires.stl",
        "report.pdf",
        "review.html",
    )
)


def check_target(out: Path, case_folder: Path, names: frozenset[str] = RESULT_NAMES) -> None:
    """Refuse a result folder that would change the case or somebody's other files.

    Raises:
        InputError: the place cannot take the results; says why.
    """
    target, case = out.resolve(), case_folder.resolve()
    if target == case or target in case.parents:
        raise InputError(
            "the results would overwrite the case itself",
            place=out.as_posix(),
            remedy="Give a folder outside the case with --out.",
        )
    if out.exists() and not out.is_dir():
        raise InputError(
            "this is a file, not a folder", place=out.as_posix(), remedy="Give a folder with --out."
        )
    others = sorted(f.name for f in out.iterdir() if f.name not in names) if out.exists() else []
    if others:
        raise InputError(
            f"the folder holds other files, such as {others[0]!r}, which a run must not remove",
            place=out.as_posix(),
            remedy="Give a new or empty folder with --out, or one of an earlier run.",
        )


@contextmanager
def whole_folder(out: Path) -> Iterator[Path]:
    """A new folder beside `out` to write into; on success it takes the place of `out`.

    Whatever interrupts the writing, `out` stays as it was and the new folder is removed.
    """
    out = Path(os.path.abspath(out))  # noqa: PTH100 - resolve() would follow a link at `out`
    out.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{out.name}-", suffix=".unfinished", dir=out.parent))
    try:
        yield fresh
        fresh.chmod(0o777 & ~_umask())
        _replace(out, fresh)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


@contextmanager
def side_folder(out: Path) -> Iterator[Path]:
    """A folder beside `out` for what is needed while `out` is made; it is removed in the end."""
    out = Path(os.path.abspath(out))  # noqa: PTH100 - resolve() would follow a link at `out`
    out.parent.mkdir(parents=True, exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=f".{out.name}-", suffix=".unfinished", dir=out.parent))
    try:
        yield made
    finally:
        shutil.rmtree(made, ignore_errors=True)


def _replace(out: Path, fresh: Path) -> None:
    if not out.exists():
        fresh.rename(out)
        return
    earlier = fresh.with_suffix(".earlier")
    out.rename(earlier)
    try:
        fresh.rename(out)
    except BaseException:
        earlier.rename(out)
        raise
    shutil.rmtree(earlier, ignore_errors=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
