"""Values handed from process to process by a file: arrays are written once and read in place.

A pipe copies a value several times on its way, and main memory has to be found for each copy.
"""

from __future__ import annotations

import mmap
import os
import pickle
import tempfile
from pathlib import Path
from typing import Any, Generic, TypeVar, cast

import numpy as np

T = TypeVar("T")
ALIGNED = 64  # bytes; arrays begin at multiples of it


class Parcel(Generic[T]):
    """A value, or the file that it lies in: of the latter only the name goes to other processes.

    Arrays of a value that was read from its file cannot be written to.
    """

    __slots__ = ("_held", "_path")

    def __init__(self, held: T | None, path: Path | None = None) -> None:
        """The value itself, or where it lies."""
        self._held = held
        self._path = path

    @property
    def value(self) -> T:
        """What was laid in; read from the file when it is first asked for in a process."""
        if self._held is None and self._path is not None:
            self._held = _opened(self._path)
        held: Any = self._held  # Any: None may be a value too
        return cast("T", held)

    def __reduce__(self) -> tuple[Any, ...]:
        """The name of the file, or the value where there is none."""
        return Parcel, (self._held if self._path is None else None, self._path)


def laid_aside(value: T, folder: Path | None) -> Parcel[T]:
    """The value in a new file of a folder that every process sees; without a folder the value."""
    if folder is None:
        return Parcel(value)
    arrays: list[pickle.PickleBuffer] = []
    told = pickle.dumps(value, protocol=5, buffer_callback=arrays.append)
    pieces = [memoryview(told), *(array.raw() for array in arrays)]
    sizes = np.array([len(pieces), *(piece.nbytes for piece in pieces)], "<i8")
    handle, name = tempfile.mkstemp(suffix=".parcel", dir=folder)
    with os.fdopen(handle, "wb") as file:
        file.write(sizes.tobytes())
        for piece in pieces:
            file.write(bytes(-file.tell() % ALIGNED))
            file.write(piece)
    return Parcel(None, Path(name))


def _opened(path: Path) -> Any:
    """Any: whatever was laid aside there."""
    with path.open("rb") as file:
        if os.name == "nt":  # where an open file cannot be removed
            whole = memoryview(file.read())
        else:
            whole = memoryview(mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ))
    count = int(np.frombuffer(whole, "<i8", 1)[0])
    at = 8 * (count + 1)
    pieces = []
    for size in np.frombuffer(whole, "<i8", count, 8).tolist():
        at += -at % ALIGNED
        pieces.append(whole[at : at + size])
        at += size
    return pickle.loads(pieces[0], buffers=pieces[1:])
