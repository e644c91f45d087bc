"""A file that appears whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from claspwright.base import InputError


def write_whole(path: Path, write: Callable[[Path], object]) -> None:
    """Let `write` fill a new file beside `path`; on success it takes the place of `path`.

    Raises:
        InputError: there is no folder for it, or the place is a folder.
    """
    if path.is_dir() or not path.parent.is_dir():
        raise InputError(
            "no file can be written here",
            place=path.as_posix(),
            remedy="Give a file in a folder that exists with --out.",
        )
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", suffix=".unfinished", dir=path.parent)
    os.close(handle)
    fresh = Path(name)
    try:
        write(fresh)
        with fresh.open("rb") as written:
            os.fsync(written.fileno())
        fresh.chmod(0o666 & ~_umask())
        fresh.replace(path)
    finally:
        fresh.unlink(missing_ok=True)


def write_whole_text(path: Path, text: str) -> None:
    """The same for UTF-8 text with plain line ends on every platform."""
    write_whole(path, lambda fresh: fresh.write_bytes(text.encode("utf-8")))


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
