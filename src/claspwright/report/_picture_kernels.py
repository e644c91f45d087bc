"""Pixels of a picture: what each meets first, the light on it, and several samples made one."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

FLAT = 1e-12  # of a pixel's area: a face seen from its side
RIM = 1e-9  # how far a pixel may lie outside a face, as a share of it


@numba.njit(cache=True, nogil=True, error_model="numpy")
def seen_points(vertices: Any, rotation: Any, place: Any) -> Any:
    """(V, 3) column, row and height towards the eye of (V, 3) vertices [px, px, mm].

    Args:
        vertices: (V, 3) float64 [mm].
        rotation: (3, 3) float64 world to picture frame.
        place: x and y of the first pixel [mm], columns and rows a mm.
    """
    out = np.empty(vertices.shape)
    for i in range(vertices.shape[0]):
        x, y, z = vertices[i, 0], vertices[i, 1], vertices[i, 2]
        across = rotation[0, 0] * x + rotation[0, 1] * y + rotation[0, 2] * z
        up = rotation[1, 0] * x + rotation[1, 1] * y + rotation[1, 2] * z
        out[i, 0] = (across - place[0]) * place[2]
        out[i, 1] = (up - place[1]) * place[3]
        out[i, 2] = rotation[2, 0] * x + rotation[2, 1] * y + rotation[2, 2] * z
    return out


@numba.njit(cache=True, nogil=True, error_model="numpy")
def draw_faces(
    points: Any, faces: Any, index: int, owner: Any, face: Any, weight: Any, depth: Any
) -> None:
    """Enter the faces of one mesh wherever they lie nearer than what was met before.

    Of faces at one depth the first stays.

    Args:
        points: (V, 3) float64 column, row and height towards the eye [px, px, mm].
        faces: (F, 3) int32.
        index: number of the mesh.
        owner: (H, W) int32 mesh met by each pixel, -1 at first.
        face: (H, W) int32 face met, -1 at first.
        weight: (H, W, 2) float64 weights of the face's second and third corner.
        depth: (H, W) float64 height of what is met, -inf at first [mm].
    """
    height, width = depth.shape
    for f in range(faces.shape[0]):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        x0, y0, z0 = points[a, 0], points[a, 1], points[a, 2]
        x1, y1, z1 = points[b, 0], points[b, 1], points[b, 2]
        x2, y2, z2 = points[c, 0], points[c, 1], points[c, 2]
        left = max(int(np.ceil(min(x0, x1, x2))), 0)
        right = min(int(np.floor(max(x0, x1, x2))), width - 1)
        upper = max(int(np.ceil(min(y0, y1, y2))), 0)
        lower = min(int(np.floor(max(y0, y1, y2))), height - 1)
        if left > right or upper > lower:
            continue
        ax, ay, bx, by = x1 - x0, y1 - y0, x2 - x0, y2 - y0
        area = ax * by - ay * bx
        if abs(area) < FLAT:
            continue
        for row in range(upper, lower + 1):
            cy = row - y0
            for column in range(left, right + 1):
                cx = column - x0
                u = (cx * by - cy * bx) / area
                if u < -RIM:
                    continue
                v = (ax * cy - ay * cx) / area
                if v < -RIM or u + v > 1.0 + RIM:
                    continue
                z = (1.0 - u - v) * z0 + u * z1 + v * z2
                if z > depth[row, column]:
                    depth[row, column] = z
                    owner[row, column] = index
                    face[row, column] = f
                    weight[row, column, 0] = u
                    weight[row, column, 1] = v


@numba.njit(cache=True, nogil=True, error_model="numpy")
def values_met(met: Any, face: Any, weight: Any, faces: Any, values: Any, out: Any) -> None:
    """Values at the vertices of a mesh, weighed at the pixels that meet it.

    Args:
        met: (N,) int64 pixels that meet the mesh, row-major.
        face: (P,) int32 face met by each pixel.
        weight: (P, 2) float64 weights of its second and third corner.
        faces: (F, 3) int32.
        values: (V,) float64.
        out: (N,) float64 result.
    """
    for n in range(met.shape[0]):
        p = met[n]
        f, u, v = face[p], weight[p, 0], weight[p, 1]
        first, second, third = values[faces[f, 0]], values[faces[f, 1]], values[faces[f, 2]]
        out[n] = (1.0 - u - v) * first + u * second + v * third


@numba.njit(cache=True, nogil=True, error_model="numpy")
def light_met(
    met: Any,
    face: Any,
    weight: Any,
    normals: Any,
    lights: Any,
    colours: Any,
    shine: float,
    out: Any,
) -> None:
    """Lit colours of the pixels that meet a mesh; a back side is lit as a front.

    Args:
        met: (N,) int64 pixels that meet the mesh, row-major.
        face: (P,) int32 face met by each pixel.
        weight: (P, 2) float64 weights of its second and third corner.
        normals: (F, 3, 3) float32 normals at the corners of the faces.
        lights: (4, 3) float64 directions to key, fill, half way and eye.
        colours: (1, 3) or (N, 3) float32 colours from 0 to 255.
        shine: strength of the highlight.
        out: (P, 3) float32 result.
    """
    for n in range(met.shape[0]):
        p = met[n]
        f, u, v = face[p], weight[p, 0], weight[p, 1]
        w = 1.0 - u - v
        x = w * normals[f, 0, 0] + u * normals[f, 1, 0] + v * normals[f, 2, 0]
        y = w * normals[f, 0, 1] + u * normals[f, 1, 1] + v * normals[f, 2, 1]
        z = w * normals[f, 0, 2] + u * normals[f, 1, 2] + v * normals[f, 2, 2]
        size = max(np.sqrt(x * x + y * y + z * z), 1e-12)
        if x * lights[3, 0] + y * lights[3, 1] + z * lights[3, 2] < 0.0:
            size = -size
        x, y, z = x / size, y / size, z / size
        key = max(x * lights[0, 0] + y * lights[0, 1] + z * lights[0, 2], 0.0)
        fill = max(x * lights[1, 0] + y * lights[1, 1] + z * lights[1, 2], 0.0)
        half = max(x * lights[2, 0] + y * lights[2, 1] + z * lights[2, 2], 0.0)
        strength = 0.44 + 0.54 * key + 0.20 * fill
        fourth = half * half * half * half
        eighth = fourth * fourth
        spot = 255.0 * shine * eighth * eighth * eighth * eighth * eighth  # the 40th power
        own = n if colours.shape[0] > 1 else 0
        for k in range(3):
            out[p, k] = min(colours[own, k] * strength + spot, 255.0)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def reduce_samples(colours: Any, finish: int, out: Any) -> None:
    """The mean of `finish` by `finish` samples for each pixel, rounded to 0 to 255.

    Args:
        colours: (H finish, W finish, 3) float32.
        finish: samples a pixel along each direction.
        out: (H, W, 3) uint8 result.
    """
    count = finish * finish
    for row in range(out.shape[0]):
        for column in range(out.shape[1]):
            for k in range(3):
                total = 0.0
                for i in range(finish):
                    for j in range(finish):
                        total += colours[row * finish + i, column * finish + j, k]
                out[row, column, k] = np.uint8(min(max(np.rint(total / count), 0.0), 255.0))
