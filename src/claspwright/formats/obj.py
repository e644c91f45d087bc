"""Wavefront OBJ, through trimesh."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.formats.stl import welded
from claspwright.formats.text import RawMesh, line_of, read_all, split_polygon, too_many

AGAIN = "The file is damaged or was cut off; export or copy the scan again."
_FACE = re.compile(rb"^[ \t]*f[ \t]", re.MULTILINE)
_VERTEX = re.compile(rb"^[ \t]*v[ \t]+(.*)$", re.MULTILINE)


def read_obj(path: Path) -> RawMesh:
    """Read all objects of the file as one mesh; polygons are split into triangles.

    Texture and normal seams are undone: identical places become one vertex.
    """
    from trimesh.exchange.obj import load_obj  # slow to import

    data = read_all(path)
    count = len(_FACE.findall(data))
    too_many(count, path.name)
    vertices = _check_vertices(data, path.name)
    _check_indices(data, vertices, path.name)
    if count == 0:
        return RawMesh(np.zeros((vertices, 3)), np.empty((0, 3), dtype=np.int32))
    try:
        loaded = load_obj(io.StringIO(data.decode("latin-1")), skip_materials=True)
    except (ValueError, IndexError, KeyError, TypeError) as error:
        raise InputError("the faces cannot be read", place=path.name, remedy=AGAIN) from error
    parts = list(loaded.get("geometry", {"": loaded}).values())
    return welded(np.concatenate([_corners(part) for part in parts if len(part["faces"])]))


def _corners(part: dict[str, Any]) -> Floats:
    """(F, 3, 3) corners of the triangles of one object; larger polygons are fanned."""
    faces = np.asarray(part["faces"], dtype=np.int32)
    vertices = np.asarray(part["vertices"], dtype=np.float64)
    return vertices[faces if faces.shape[1] == 3 else split_polygon(faces)]


def _check_vertices(data: bytes, name: str) -> int:
    """The number of vertices; each must have at least three numbers."""
    count = 0
    for match in _VERTEX.finditer(data):
        count += 1
        words = match.group(1).split()[:3]
        try:
            numbers = [float(word) for word in words]
            fine = len(numbers) == 3 and bool(np.isfinite(numbers).all())
        except ValueError:
            fine = False
        if not fine:
            raise InputError(
                "a vertex needs three finite numbers",
                place=f"{name}, line {line_of(data, match.start(1))}",
                remedy=AGAIN,
            )
    return count


def _check_indices(data: bytes, vertices: int, name: str) -> None:
    """Refuse faces with indices outside the vertices of the file."""
    for match in _FACE.finditer(data):
        end = data.find(b"\n", match.end())
        words = data[match.end() : end if end >= 0 else len(data)].split(b"#")[0].split()
        try:
            index = np.array([int(word.split(b"/")[0]) for word in words], dtype=np.int64)
            fine = len(index) >= 3 and bool(((index != 0) & (np.abs(index) <= vertices)).all())
        except (ValueError, OverflowError):
            fine = False
        if not fine:
            raise InputError(
                f"a face points outside the {vertices:,} vertices, or has too few corners",
                place=f"{name}, line {line_of(data, match.start() + 1)}",
                remedy=AGAIN,
            )
