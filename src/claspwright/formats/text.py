"""What the readers share: limits, raw meshes, and places in text files."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from claspwright.base import Floats, InputError, Ints

MAX_FACES = 4_000_000  # a scan of a whole arch has 0.1 to 1 million triangles
MAX_TEXT_BYTES = 400_000_000  # about 1.5 million triangles as text


@dataclass(frozen=True, slots=True, eq=False)
class RawMesh:
    """Numbers of a file, not yet checked."""

    vertices: Floats  # (V, 3)
    faces: Ints  # (F, 3)
    first_line: int = 0  # line of vertex 0 where vertices stand one a line, else 0
    face_of_vertex: Ints | None = None  # (V,) first face that uses each vertex, for STL

    def place_of_vertex(self, vertex: int) -> str:
        """Where a vertex stands, in the words of its format."""
        if self.face_of_vertex is not None:
            return f"triangle {int(self.face_of_vertex[vertex])}"
        if self.first_line:
            return f"line {self.first_line + vertex}"
        return f"vertex {vertex}"


def too_many(faces: int, place: str) -> None:
    """Raise an InputError where a file holds or announces more triangles than are taken."""
    if faces > MAX_FACES:
        raise InputError(
            f"the file has {faces:,} triangles, the limit is {MAX_FACES:,}",
            place=place,
            remedy="Thin the mesh in the scanning program; 0.1 to 0.2 mm edges are enough.",
        )


def line_of(data: bytes, offset: int) -> int:
    """Number of the line, from 1, that the byte at `offset` stands in."""
    return data.count(b"\n", 0, max(0, offset)) + 1


def read_all(path: Path) -> bytes:
    """The bytes of a file whose size has been checked."""
    return path.read_bytes()


def split_polygon(rows: Ints) -> Ints:
    """(F * (n - 2), 3) triangles from (F, n) polygons, fanned from the first corner."""
    n = rows.shape[1]
    fans = [rows[:, [0, k, k + 1]] for k in range(1, n - 1)]
    return np.stack(fans, axis=1).reshape(-1, 3)
