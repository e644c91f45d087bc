"""STL, binary and ASCII (check-values J01 to J05)."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.formats._weld_kernels import weld
from claspwright.formats.text import RawMesh, line_of, read_all, too_many

FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
AGAIN = "The file is damaged or was cut off; export or copy the scan again."
_VERTEX = re.compile(rb"\bvertex\b", re.IGNORECASE)


def read_binary_stl(path: Path) -> RawMesh:
    """Read a binary STL whose size fits its header; identical corners become one vertex."""
    with path.open("rb") as file:
        head = file.read(84)
        n = int.from_bytes(head[80:84], "little")
        too_many(n, f"{path.name}, byte 80")
        facets = np.fromfile(file, dtype=FACET, count=n)
    if len(facets) != n:
        raise InputError(
            f"only {len(facets):,} of {n:,} triangles could be read",
            place=f"{path.name}, triangle {len(facets)}",
            remedy=AGAIN,
        )
    with np.errstate(invalid="ignore"):
        return welded(facets["corners"].astype(np.float64))


def read_ascii_stl(path: Path) -> RawMesh:
    """Read an ASCII STL; identical corners become one vertex."""
    data = read_all(path)
    found = len(_VERTEX.findall(data))
    too_many(found // 3, path.name)
    if found == 0:
        raise InputError(
            "the file has no facets", place=f"{path.name}, line 1", remedy="Export it again."
        )
    tail = data[-4096:].lower()
    if found % 3 or b"endsolid" not in tail:
        raise InputError(
            f"the text ends after {found:,} corners, before the solid is closed",
            place=f"{path.name}, line {line_of(data, len(data))}",
            remedy=AGAIN,
        )
    corners = _corners(data, found, path.name)
    return welded(corners.reshape(-1, 3, 3))


def _corners(data: bytes, count: int, name: str) -> Floats:
    """(count, 3) the three numbers after each `vertex`."""
    out = np.empty((count, 3))
    for row, match in enumerate(_VERTEX.finditer(data)):
        start = match.end()
        words = data[start : start + 200].split(None, 3)[:3]
        try:
            out[row] = [float(word) for word in words]
        except ValueError as error:
            raise InputError(
                "three numbers should follow `vertex`",
                place=f"{name}, line {line_of(data, start)}",
                remedy=AGAIN,
            ) from error
    return out


def welded(corners: Floats) -> RawMesh:
    """One vertex for each place, in order of first use, from (F, 3, 3) corners."""
    flat = corners.reshape(-1, 3) + 0.0  # -0.0 becomes 0.0
    which, first = np.empty(len(flat), np.int32), np.empty(len(flat), np.int64)
    count = weld(flat.view(np.uint64), which, first)
    first = first[:count]
    return RawMesh(flat[first], which.reshape(-1, 3), face_of_vertex=(first // 3).astype(np.int32))
