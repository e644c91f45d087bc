"""Closest point on a triangle mesh and its sign, by descent through a box tree.

Features of a triangle: 0..2 its vertices, 3..5 the edges from vertex 0, 1, 2 to the next,
6 its inside.

`tree` is always the tuple (triangle corners (F, 3, 3), child boxes, children, leaf start, face
normals (F, 3), edge normals (E, 3), vertex normals (V, 3), edges of each triangle (F, 3),
vertices of each triangle (F, 3)), triangles in the order of the tree.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

DEPTH = 128
FLAT = 1e-20  # squared sine at a corner, under which a triangle is taken for a line


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _on_edge(p: Any, a: Any, b: Any) -> Any:
    """(squared distance, fraction along the edge from a to b) of the closest point."""
    length = along = 0.0
    for i in range(3):
        e = b[i] - a[i]
        length += e * e
        along += e * (p[i] - a[i])
    t = min(max(along / length, 0.0), 1.0) if length > 0.0 else 0.0
    d2 = 0.0
    for i in range(3):
        r = p[i] - a[i] - t * (b[i] - a[i])
        d2 += r * r
    return d2, t


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _on_outline(p: Any, tri: Any) -> Any:
    """Closest point on the three edges: for triangles without area."""
    best, feature, v, w = np.inf, 0, 0.0, 0.0
    for c in range(3):
        d2, t = _on_edge(p, tri[c], tri[(c + 1) % 3])
        if d2 < best:
            best = d2
            feature = c if t <= 0.0 else ((c + 1) % 3 if t >= 1.0 else 3 + c)
            v = t if c == 0 else (1.0 - t if c == 1 else 0.0)
            w = 0.0 if c == 0 else (t if c == 1 else 1.0 - t)
    return best, feature, v, w


@numba.njit(cache=True, nogil=True, error_model="numpy")
def on_triangle(px: float, py: float, pz: float, tri: Any) -> Any:
    """(squared distance, feature, weight of vertex 1, weight of vertex 2) of the closest point.

    Source:
        ericson2005, Real-Time Collision Detection, section 5.1.5.
    """
    ax, ay, az = tri[0, 0], tri[0, 1], tri[0, 2]
    abx, aby, abz = tri[1, 0] - ax, tri[1, 1] - ay, tri[1, 2] - az
    acx, acy, acz = tri[2, 0] - ax, tri[2, 1] - ay, tri[2, 2] - az
    apx, apy, apz = px - ax, py - ay, pz - az
    d1 = abx * apx + aby * apy + abz * apz
    d2 = acx * apx + acy * apy + acz * apz
    if d1 <= 0.0 and d2 <= 0.0:
        return apx * apx + apy * apy + apz * apz, 0, 0.0, 0.0
    bb = abx * abx + aby * aby + abz * abz
    bc = abx * acx + aby * acy + abz * acz
    cc = acx * acx + acy * acy + acz * acz
    if not bb * cc - bc * bc > FLAT * bb * cc:
        return _on_outline((px, py, pz), tri)
    d3 = d1 - bb
    d4 = d2 - bc
    if d3 >= 0.0 and d4 <= d3:
        x, y, z = apx - abx, apy - aby, apz - abz
        return x * x + y * y + z * z, 1, 1.0, 0.0
    vc = d1 * d4 - d3 * d2
    if vc <= 0.0 and d1 >= 0.0 and d3 <= 0.0:
        t = d1 / (d1 - d3)
        x, y, z = apx - t * abx, apy - t * aby, apz - t * abz
        return x * x + y * y + z * z, 3, t, 0.0
    d5 = d1 - bc
    d6 = d2 - cc
    if d6 >= 0.0 and d5 <= d6:
        x, y, z = apx - acx, apy - acy, apz - acz
        return x * x + y * y + z * z, 2, 0.0, 1.0
    vb = d5 * d2 - d1 * d6
    if vb <= 0.0 and d2 >= 0.0 and d6 <= 0.0:
        t = d2 / (d2 - d6)
        x, y, z = apx - t * acx, apy - t * acy, apz - t * acz
        return x * x + y * y + z * z, 5, 0.0, t
    va = d3 * d6 - d5 * d4
    if va <= 0.0 and d4 - d3 >= 0.0 and d5 - d6 >= 0.0:
        t = (d4 - d3) / ((d4 - d3) + (d5 - d6))
        x = apx - abx - t * (acx - abx)
        y = apy - aby - t * (acy - aby)
        z = apz - abz - t * (acz - abz)
        return x * x + y * y + z * z, 4, 1.0 - t, t
    total = va + vb + vc
    v = vb / total
    w = vc / total
    x = apx - v * abx - w * acx
    y = apy - v * aby - w * acy
    z = apz - v * abz - w * acz
    return x * x + y * y + z * z, 6, v, w


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _to_box(px: float, py: float, pz: float, boxes: Any, node: int, o: int) -> Any:
    x = max(max(boxes[node, o] - px, px - boxes[node, o + 3]), 0.0)
    y = max(max(boxes[node, o + 1] - py, py - boxes[node, o + 4]), 0.0)
    z = max(max(boxes[node, o + 2] - pz, pz - boxes[node, o + 5]), 0.0)
    return x * x + y * y + z * z


@numba.njit(cache=True, nogil=True, error_model="numpy")
def nearest(p: Any, limit2: float, seed: int, tree: Any, stack: Any, reach: Any) -> Any:
    """Closest triangle to p = (x, y, z) within a squared distance.

    `seed` is a triangle to start from, or -1. `stack`, `reach`: DEPTH scratch entries.

    Returns:
        (squared distance, triangle or -1, feature, weight of vertex 1, of vertex 2).
    """
    tris, boxes, children, leaf_start = tree[0], tree[1], tree[2], tree[3]
    px, py, pz = p
    best, found, feature, v, w = limit2, -1, 0, 0.0, 0.0
    if seed >= 0:
        d2, kind, s, t = on_triangle(px, py, pz, tris[seed])
        if d2 <= best:
            best, found, feature, v, w = d2, seed, kind, s, t
    stack[0] = 0
    reach[0] = 0.0
    depth = 1
    while depth > 0:
        depth -= 1
        if reach[depth] > best:
            continue
        node = stack[depth]
        if node < 0:
            for i in range(leaf_start[~node], leaf_start[~node + 1]):
                d2, kind, s, t = on_triangle(px, py, pz, tris[i])
                if d2 < best or (d2 == best and found < 0):
                    best, found, feature, v, w = d2, i, kind, s, t
            continue
        left = _to_box(px, py, pz, boxes, node, 0)
        right = _to_box(px, py, pz, boxes, node, 6)
        near = 0 if left <= right else 1
        far_reach = right if near == 0 else left
        near_reach = left if near == 0 else right
        if far_reach <= best:
            stack[depth] = children[node, 1 - near]
            reach[depth] = far_reach
            depth += 1
        if near_reach <= best:
            stack[depth] = children[node, near]
            reach[depth] = near_reach
            depth += 1
    return best, found, feature, v, w


@numba.njit(cache=True, nogil=True, error_model="numpy")
def side_of(p: Any, found: int, feature: int, v: float, w: float, tree: Any) -> Any:
    """-1 inside, +1 outside: by the pseudonormal of the closest feature."""
    tri = tree[0][found]
    if feature == 6:
        normal = tree[4][found]
    elif feature >= 3:
        normal = tree[5][tree[7][found, feature - 3]]
    else:
        normal = tree[6][tree[8][found, feature]]
    dot = 0.0
    for a in range(3):
        on = tri[0, a] + v * (tri[1, a] - tri[0, a]) + w * (tri[2, a] - tri[0, a])
        dot += normal[a] * (p[a] - on)
    return -1.0 if dot < 0.0 else 1.0


@numba.njit(cache=True, nogil=True, error_model="numpy")
def query_points(
    points: Any, limit: float, tree: Any, out_tri: Any, out_weights: Any, out_distance: Any
) -> None:
    """Signed distance of (N, 3) points, each seeded by the one before; +limit where farther."""
    stack = np.empty(DEPTH, np.int32)
    reach = np.empty(DEPTH)
    seed = -1
    for n in range(len(points)):
        p = (points[n, 0], points[n, 1], points[n, 2])
        d2, found, feature, v, w = nearest(p, limit * limit, seed, tree, stack, reach)
        out_tri[n] = found
        out_weights[n, 0] = v
        out_weights[n, 1] = w
        out_distance[n] = limit
        if found >= 0:
            seed = found
            out_distance[n] = np.sqrt(d2) * side_of(p, found, feature, v, w, tree)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def place_found(
    found: Any, inner: Any, order: Any, tris: Any, faces: Any, points: Any, weights: Any
) -> None:
    """Faces, points and weights of what `query_points` found.

    `faces` (N,) takes -1 and `points` (N, 3) stay as they are where nothing was found.
    """
    for n in range(len(found)):
        v, w = inner[n, 0], inner[n, 1]
        u = 1.0 - (v + w)
        weights[n, 0], weights[n, 1], weights[n, 2] = u, v, w
        t = found[n]
        faces[n] = -1
        if t >= 0:
            faces[n] = order[t]
            for a in range(3):
                points[n, a] = u * tris[t, 0, a] + v * tris[t, 1, a] + w * tris[t, 2, a]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _place(i: int, j: int, k: int, turn: Any, origin: Any) -> Any:
    """The point at a node: origin + turn @ (i, j, k)."""
    return (
        origin[0] + turn[0, 0] * i + turn[0, 1] * j + turn[0, 2] * k,
        origin[1] + turn[1, 0] * i + turn[1, 1] * j + turn[1, 2] * k,
        origin[2] + turn[2, 0] * i + turn[2, 1] * j + turn[2, 2] * k,
    )


@numba.njit(cache=True, nogil=True, error_model="numpy")
def query_lattice(
    first: int, last: int, turn: Any, origin: Any, limit: float, tree: Any,
    values: Any, found_tri: Any,
) -> None:  # fmt: skip
    """Signed distance on the planes first:last of a lattice; NaN beyond the limit.

    Node (i, j, k) lies at origin + turn @ (i, j, k). Rows are walked to and fro, so that each
    node is seeded by a neighbour.
    """
    stack = np.empty(DEPTH, np.int32)
    reach = np.empty(DEPTH)
    seed = -1
    rows = values.shape[1]
    columns = values.shape[2]
    for i in range(first, last):
        for jj in range(rows):
            j = jj if (i - first) % 2 == 0 else rows - 1 - jj
            for kk in range(columns):
                k = kk if jj % 2 == 0 else columns - 1 - kk
                p = _place(i, j, k, turn, origin)
                d2, found, feature, v, w = nearest(p, limit * limit, seed, tree, stack, reach)
                found_tri[i, j, k] = found
                values[i, j, k] = np.nan
                if found >= 0:
                    seed = found
                    values[i, j, k] = np.sqrt(d2) * side_of(p, found, feature, v, w, tree)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def refine_lattice(
    first: int, last: int, turn: Any, origin: Any, exact: float, tree: Any,
    coarse: Any, coarse_tri: Any, values: Any, found_tri: Any,
) -> None:  # fmt: skip
    """Fill planes first:last of a lattice from one of twice its step.

    Trilinear between the coarse nodes; exact again where that is nearer than `exact`.
    `found_tri` takes the closest triangle for the next level; shape (0, 0, 0) skips it. A node
    clearly farther from the surface than from its coarse neighbour takes that one's sign.
    """
    step2 = turn[0, 0] ** 2 + turn[1, 0] ** 2 + turn[2, 0] ** 2
    stack = np.empty(DEPTH, np.int32)
    reach = np.empty(DEPTH)
    keep = found_tri.size > 0
    for i in range(first, last):
        ci, di = i // 2, i % 2
        for j in range(values.shape[1]):
            cj, dj = j // 2, j % 2
            for k in range(values.shape[2]):
                ck, dk = k // 2, k % 2
                total = 0.0
                for a in range(di + 1):
                    for b in range(dj + 1):
                        for c in range(dk + 1):
                            total += coarse[ci + a, cj + b, ck + c]
                value = total / ((di + 1) * (dj + 1) * (dk + 1))
                seed = coarse_tri[ci, cj, ck]
                if di + dj + dk > 0 and abs(value) < exact:
                    p = _place(i, j, k, turn, origin)
                    d2, seed, feature, v, w = nearest(p, np.inf, seed, tree, stack, reach)
                    if d2 > 1.25 * (di + dj + dk) * step2:
                        value = np.sqrt(d2) * (-1.0 if coarse[ci, cj, ck] < 0.0 else 1.0)
                    else:
                        value = np.sqrt(d2) * side_of(p, seed, feature, v, w, tree)
                values[i, j, k] = value
                if keep:
                    found_tri[i, j, k] = seed
