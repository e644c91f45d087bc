"""Normals of faces and vertices, middles and volume, each mesh walked once."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def face_vectors(vertices: Any, faces: Any) -> Any:
    """(F, 3) cross products of the sides that leave the first corner: twice the area long."""
    out = np.empty((len(faces), 3))
    for f in range(len(faces)):
        i, j, k = faces[f, 0], faces[f, 1], faces[f, 2]
        x, y, z = vertices[i, 0], vertices[i, 1], vertices[i, 2]
        bx, by, bz = vertices[j, 0] - x, vertices[j, 1] - y, vertices[j, 2] - z
        cx, cy, cz = vertices[k, 0] - x, vertices[k, 1] - y, vertices[k, 2] - z
        out[f, 0] = by * cz - bz * cy
        out[f, 1] = bz * cx - bx * cz
        out[f, 2] = bx * cy - by * cx
    return out


@numba.njit(cache=True, nogil=True, error_model="numpy")
def lengths(vectors: Any) -> Any:
    """(N,) lengths of (N, 3) vectors."""
    out = np.empty(len(vectors))
    for n in range(len(vectors)):
        x, y, z = vectors[n, 0], vectors[n, 1], vectors[n, 2]
        out[n] = np.sqrt(x * x + y * y + z * z)
    return out


@numba.njit(cache=True, nogil=True, error_model="numpy")
def units(vectors: Any) -> Any:
    """(N, 3) vectors at length one; zero stays zero."""
    out = np.zeros_like(vectors)
    for n in range(len(vectors)):
        x, y, z = vectors[n, 0], vectors[n, 1], vectors[n, 2]
        length = np.sqrt(x * x + y * y + z * z)
        if length > 0.0:
            out[n, 0], out[n, 1], out[n, 2] = x / length, y / length, z / length
    return out


@numba.njit(cache=True, nogil=True, error_model="numpy")
def summed_at_vertices(vectors: Any, faces: Any, count: int) -> Any:
    """(V, 3) sums of the vectors of the faces round each of `count` vertices.

    All first corners are summed, then all second and third ones, and the three sums are added.
    """
    total = np.zeros((count, 3))
    here = np.empty((count, 3))
    for corner in range(3):
        here[:] = 0.0
        for f in range(len(faces)):
            v = faces[f, corner]
            for a in range(3):
                here[v, a] += vectors[f, a]
        total += here
    return total


@numba.njit(cache=True, nogil=True)
def signed_volume(vertices: Any, faces: Any) -> float:
    """Sum of (a . b x c) / 6 over the faces."""
    total = 0.0
    for f in range(len(faces)):
        a, b, c = faces[f]
        ax, ay, az = vertices[a, 0], vertices[a, 1], vertices[a, 2]
        bx, by, bz = vertices[b, 0], vertices[b, 1], vertices[b, 2]
        cx, cy, cz = vertices[c, 0], vertices[c, 1], vertices[c, 2]
        total += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    return total / 6.0


@numba.njit(cache=True, nogil=True)
def face_middles(vertices: Any, faces: Any, out: Any) -> None:
    """Mean of the corners of each face, out (F, 3)."""
    for f in range(len(faces)):
        a, b, c = faces[f]
        for axis in range(3):
            total = vertices[a, axis] + vertices[b, axis] + vertices[c, axis]
            out[f, axis] = total / 3.0
