"""Light on surfaces: smooth normals, a key and a fill light, soft darkening in hollows."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter, maximum_filter, minimum_filter

from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh
from claspwright.report.colours import mapped
from claspwright.report.hits import Hits
from claspwright.report.scene import Item

PAPER = 255.0
_CREASE = np.cos(np.radians(50.0))  # sharper than this between face and vertex: an edge
_KEY = np.array([-0.45, 0.55, 0.70]) / np.linalg.norm([-0.45, 0.55, 0.70])
_FILL = np.array([0.70, -0.25, 0.55]) / np.linalg.norm([0.70, -0.25, 0.55])


def shaded(
    items: tuple[Item, ...],
    normals: tuple[Floats, ...],
    hits: Hits,
    rotation: Floats,
    pixel_mm: float,
    *,
    outlines: bool = True,
) -> Floats:
    """(H, W, 3) colours from 0 to 255 of what the pixels meet, on white paper.

    Args:
        items: what the scene holds, for colours and values.
        normals: for each item the (V, 3) normals at its vertices.
        hits: what each pixel meets.
        rotation: (3, 3) world to picture frame (z towards the eye).
        pixel_mm: size of a pixel [mm].
        outlines: darken the edge of a nearer surface.
    """
    out = np.full((*hits.item.shape, 3), PAPER)
    for index, (item, smooth) in enumerate(zip(items, normals, strict=True)):
        met = hits.item == index
        if met.any():
            faces = hits.face[met]
            weights = np.stack(
                [1 - hits.second[met] - hits.third[met], hits.second[met], hits.third[met]], axis=1
            )
            base = _base_colours(item, faces, weights)
            normal = _normals(item.mesh, smooth, faces, weights) @ rotation.T
            normal = np.where(normal[:, 2:] < 0, -normal, normal)
            out[met] = _lit(base, normal, item.shine)
    _draw_levels(out, items, hits)
    met = hits.item >= 0
    out[met] *= _hollows(hits, pixel_mm)[met][:, None]
    if outlines:
        out *= _outline(hits, pixel_mm)[..., None]
    return out


def _base_colours(item: Item, faces: Ints, weights: Floats) -> Floats:
    plain = np.broadcast_to(np.array(item.colour, dtype=np.float64), (len(faces), 3))
    if item.values is None:
        return plain
    value = np.einsum("ij,ij->i", item.values[item.mesh.faces[faces]], weights)
    known = np.isfinite(value)
    colours = mapped(np.where(known, value, item.low), item.low, item.high)
    return np.asarray(np.where(known[:, None], colours, plain), dtype=np.float64)


def _normals(mesh: Mesh, smooth: Floats, faces: Ints, weights: Floats) -> Floats:
    """(N, 3) smooth normals that stay sharp over creases."""
    corners = mesh.faces[faces]
    a, b, c = (mesh.vertices[corners[:, n]] for n in range(3))
    flat = np.cross(b - a, c - a)
    flat /= np.maximum(np.linalg.norm(flat, axis=1, keepdims=True), 1e-12)
    corner = smooth[corners]
    sharp = np.einsum("ijk,ik->ij", corner, flat) < _CREASE
    corner = np.where(sharp[..., None], flat[:, None, :], corner)
    normal = np.einsum("ijk,ij->ik", corner, weights)
    length = np.linalg.norm(normal, axis=1, keepdims=True)
    return np.asarray(np.divide(normal, length, out=flat.copy(), where=length > 0))


def _lit(base: Floats, normal: Floats, shine: float) -> Floats:
    key = np.clip(normal @ _KEY, 0, None)
    fill = np.clip(normal @ _FILL, 0, None)
    light = 0.44 + 0.54 * key + 0.20 * fill
    half = _KEY + np.array([0.0, 0.0, 1.0])
    highlight = np.clip(normal @ (half / np.linalg.norm(half)), 0, None) ** 40
    return np.asarray(np.clip(base * light[:, None] + 255 * shine * highlight[:, None], 0, 255))


def _hollows(hits: Hits, pixel_mm: float) -> Floats:
    """Factor below 1 where the surface lies deeper than what surrounds it."""
    met = hits.item >= 0
    floor = float(hits.depth[met].min()) if met.any() else 0.0
    depth = np.where(met, hits.depth, floor)
    factor = np.ones_like(depth)
    for reach_mm, strength in ((0.8, 0.14), (3.0, 0.04)):
        sigma = reach_mm / pixel_mm
        every = max(1, int(sigma // 4))
        small, mask = depth[::every, ::every], met[::every, ::every].astype(np.float64)
        weight = gaussian_filter(mask, sigma / every)
        around: Floats = np.asarray(gaussian_filter(small * mask, sigma / every))
        around = np.divide(around, weight, out=small.copy(), where=weight > 1e-6)
        around = around.repeat(every, 0).repeat(every, 1)[: depth.shape[0], : depth.shape[1]]
        factor -= strength * np.clip((around - depth) / reach_mm, 0.0, 2.0)
    return np.clip(factor, 0.35, 1.0)


def _outline(hits: Hits, pixel_mm: float) -> Floats:
    """Factor below 1 along the edges of nearer surfaces and between items."""
    met = hits.item >= 0
    floor = (float(hits.depth[met].min()) if met.any() else 0.0) - 5.0
    depth = np.where(met, hits.depth, floor)
    jump = maximum_filter(depth, 3) - depth
    edge = np.clip((jump - 6 * pixel_mm - 0.25) / 0.6, 0.0, 1.0)
    between = maximum_filter(hits.item, 3) != minimum_filter(hits.item, 3)
    edge = np.maximum(edge, 0.6 * between)
    return np.asarray(1.0 - 0.62 * edge)


def _draw_levels(out: Floats, items: tuple[Item, ...], hits: Hits) -> None:
    """Contour lines where the values of an item pass its levels."""
    for index, item in enumerate(items):
        met = hits.item == index
        if item.values is None or not item.levels or not met.any():
            continue
        weights = np.stack(
            [1 - hits.second[met] - hits.third[met], hits.second[met], hits.third[met]], axis=1
        )
        corner = item.values[item.mesh.faces[hits.face[met]]]
        value = np.full(met.shape, np.nan)
        value[met] = np.einsum("ij,ij->i", np.nan_to_num(corner, nan=item.low), weights)
        for level in item.levels:
            above = value >= level
            passed = np.zeros(met.shape, dtype=bool)
            passed[:, 1:] |= (above[:, 1:] != above[:, :-1]) & met[:, 1:] & met[:, :-1]
            passed[1:] |= (above[1:] != above[:-1]) & met[1:] & met[:-1]
            out[passed] = 30.0
