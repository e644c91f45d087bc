"""Which contours surely lie on metal of the layer below: those with a corner inside it."""

from __future__ import annotations

from typing import Any

import numba

from claspwright.build._nest_kernels import holds


@numba.njit(cache=True, nogil=True, error_model="numpy")
def box_contours(points: Any, start: Any, boxes: Any) -> None:
    """Least x, least y, greatest x and greatest y of each contour, into (C, 4) boxes."""
    for n in range(len(start) - 1):
        boxes[n, 0], boxes[n, 1] = points[start[n], 0], points[start[n], 1]
        boxes[n, 2], boxes[n, 3] = boxes[n, 0], boxes[n, 1]
        for i in range(start[n] + 1, start[n + 1]):
            boxes[n, 0] = min(boxes[n, 0], points[i, 0])
            boxes[n, 1] = min(boxes[n, 1], points[i, 1])
            boxes[n, 2] = max(boxes[n, 2], points[i, 0])
            boxes[n, 3] = max(boxes[n, 3], points[i, 1])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _in_metal(
    x: float, y: float, layer: int, points: Any, start: Any, layer_start: Any, boxes: Any
) -> bool:
    """Whether a point lies in a layer of one body (even-odd)."""
    inside = False
    for n in range(layer_start[layer], layer_start[layer + 1]):
        if boxes[n, 0] <= x <= boxes[n, 2] and boxes[n, 1] <= y <= boxes[n, 3]:
            inside ^= holds(points, start[n], start[n + 1], x, y)
    return inside


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _over(
    n: int, layer: int, points: Any, start: Any, layer_start: Any, boxes: Any, areas: Any,
    others: Any, other_start: Any, other_layer_start: Any, other_boxes: Any,
) -> bool:  # fmt: skip
    """Whether a corner of some body's contours one layer below lies inside contour n.

    Inside means within it and in no hole of its layer, so that it lies in its own metal.
    """
    for m in range(other_layer_start[layer - 1], other_layer_start[layer]):
        if (
            other_boxes[m, 0] > boxes[n, 2] or other_boxes[m, 2] < boxes[n, 0]
            or other_boxes[m, 1] > boxes[n, 3] or other_boxes[m, 3] < boxes[n, 1]
        ):  # fmt: skip
            continue
        for i in range(other_start[m], other_start[m + 1]):
            x, y = others[i, 0], others[i, 1]
            if not holds(points, start[n], start[n + 1], x, y):
                continue
            hole = False
            for h in range(layer_start[layer], layer_start[layer + 1]):
                if areas[h] < 0.0 and holds(points, start[h], start[h + 1], x, y):
                    hole = True
                    break
            if not hole:
                return True
    return False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def surely_held(body: Any, other: Any, out: Any) -> None:
    """Outer contours of a body that surely touch metal of the layer below, its own or the other's.

    A corner of theirs lies in it, or one of its corners lies in their metal. What is not found
    may touch it all the same. The first layer lies on the plate; holes count as held.

    Args:
        body: points, start, layer_start, boxes and areas of the contours.
        other: the same of the other body.
        out: (C,) taken.
    """
    points, start, layer_start, boxes, areas = body
    for layer in range(len(layer_start) - 1):
        for n in range(layer_start[layer], layer_start[layer + 1]):
            out[n] = layer == 0 or areas[n] <= 0.0
            i = start[n]
            while not out[n] and i < start[n + 1]:
                x, y = points[i, 0], points[i, 1]
                out[n] = _in_metal(x, y, layer - 1, points, start, layer_start, boxes) or _in_metal(
                    x, y, layer - 1, other[0], other[1], other[2], other[3]
                )
                i += 1
            if not out[n]:
                out[n] = _over(
                    n, layer, points, start, layer_start, boxes, areas,
                    points, start, layer_start, boxes,
                ) or _over(
                    n, layer, points, start, layer_start, boxes, areas,
                    other[0], other[1], other[2], other[3],
                )  # fmt: skip
