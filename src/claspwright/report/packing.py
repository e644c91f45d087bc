"""Meshes packed for a web page: 16-bit positions, small differences, deflate, base64.

Layout of the inflated bytes, V vertices and F faces, all little-endian byte planes (all low
bytes, then all next bytes, and so on):

* positions: for x, y and z in turn V differences modulo 65536 to the vertex before, 2 planes;
* faces: F differences of the first (lowest) index to that of the face before, then F second
  minus first, then F third minus first, 4 planes each;
* values, where there are any: V bytes; 0: no value, 1 to 255: low to high.
"""

from __future__ import annotations

import base64
import zlib
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError
from claspwright.geometry import Mesh

_TOP = 65535.0


@dataclass(frozen=True, slots=True, eq=False)
class Packed:
    """A mesh as text, and what a reader needs to unpack it."""

    text: str
    vertices: int
    faces: int
    low: tuple[float, float, float]  # mm, of position 0
    high: tuple[float, float, float]  # mm, of position 65535
    with_values: bool


def packed(
    mesh: Mesh, values: Floats | None = None, *, low: float = 0.0, high: float = 1.0
) -> Packed:
    """Pack a mesh, with a value at each vertex between `low` and `high` (not above 0: none)."""
    if not len(mesh.faces):
        raise InputError("a mesh without faces cannot be shown")
    floor, top = mesh.bounds
    span = np.maximum(top - floor, 1e-6)
    steps = np.rint((mesh.vertices - floor) / span * _TOP).astype(np.uint16)
    order = np.argsort(_interleaved(steps), kind="stable")
    place = np.empty(len(order), dtype=np.int64)
    place[order] = np.arange(len(order))
    steps = steps[order]
    planes = [_planes(np.diff(steps[:, c], prepend=np.uint16(0))) for c in range(3)]
    planes += [_planes(column) for column in _face_steps(place[mesh.faces])]
    if values is not None:
        share = np.clip((values[order] - low) / (high - low), 0.0, 1.0)
        known = np.isfinite(values[order]) & (values[order] > 0)
        planes.append(np.where(known, 1 + np.rint(254 * share), 0).astype(np.uint8).tobytes())
    text = base64.b64encode(zlib.compress(b"".join(planes), 6)).decode("ascii")
    a, b = floor.tolist(), (floor + span).tolist()
    return Packed(
        text, len(mesh.vertices), len(mesh.faces), (a[0], a[1], a[2]), (b[0], b[1], b[2]),
        values is not None,
    )  # fmt: skip


def _interleaved(steps: NDArray[np.uint16]) -> NDArray[np.uint64]:
    """(V,) Morton codes: neighbours in space become neighbours in the file."""
    code = np.zeros(len(steps), dtype=np.uint64)
    for axis in range(3):
        bits = steps[:, axis].astype(np.uint64)
        for shift, mask in (
            (32, 0x00FF00000000FFFF), (16, 0x00FF0000FF0000FF), (8, 0xF00F00F00F00F00F),
            (4, 0x30C30C30C30C30C3), (2, 0x9249249249249249),
        ):  # fmt: skip
            bits = (bits | (bits << np.uint64(shift))) & np.uint64(mask)
        code |= bits << np.uint64(axis)
    return code


def _face_steps(faces: NDArray[np.int64]) -> tuple[NDArray[np.uint32], ...]:
    """First index as differences, second and third from the first; the lowest index first."""
    lead = faces.argmin(axis=1)
    turned = np.take_along_axis(faces, (lead[:, None] + np.arange(3)) % 3, axis=1)
    turned = turned[np.lexsort((turned[:, 2], turned[:, 1], turned[:, 0]))]
    first = np.diff(turned[:, 0], prepend=0)
    return tuple(
        c.astype(np.uint32)
        for c in (first, turned[:, 1] - turned[:, 0], turned[:, 2] - turned[:, 0])
    )


def _planes(column: NDArray[np.uint16] | NDArray[np.uint32]) -> bytes:
    """The bytes of a column, all low ones first."""
    little = column.astype(column.dtype.newbyteorder("<"))
    return little.view(np.uint8).reshape(len(column), -1).T.tobytes()
