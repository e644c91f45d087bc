"""Light on surfaces: smooth normals, a key and a fill light, soft darkening in hollows."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter, maximum_filter, minimum_filter

from claspwright.base import Floats, Singles
from claspwright.geometry import Mesh, face_normals, vertex_normals
from claspwright.report._picture_kernels import light_met, values_met
from claspwright.report.hits import Hits, Indices
from claspwright.report.scene import Item

PAPER = 255.0
_CREASE = np.cos(np.radians(50.0))  # sharper than this between face and vertex: an edge
_KEY = np.array([-0.45, 0.55, 0.70]) / np.linalg.norm([-0.45, 0.55, 0.70])
_FILL = np.array([0.70, -0.25, 0.55]) / np.linalg.norm([0.70, -0.25, 0.55])
_EYE = np.array([0.0, 0.0, 1.0])
_HALF = (_KEY + _EYE) / np.linalg.norm(_KEY + _EYE)


def corner_normals(mesh: Mesh) -> Singles:
    """(F, 3, 3) normals at the corners of the faces: smooth, but sharp over creases."""
    flat = face_normals(mesh)
    corner = vertex_normals(mesh)[mesh.faces]
    sharp = np.einsum("ijk,ik->ij", corner, flat) < _CREASE
    return np.where(sharp[..., None], flat[:, None, :], corner).astype(np.float32)


def shaded(
    items: tuple[Item, ...],
    normals: tuple[Singles, ...],
    hits: Hits,
    rotation: Floats,
    pixel_mm: float,
    *,
    outlines: bool = True,
) -> Singles:
    """(H, W, 3) colours from 0 to 255 of what the pixels meet, on white paper.

    Args:
        items: what the scene holds, for colours and values.
        normals: for each item the normals at the corners of its faces.
        hits: what each pixel meets.
        rotation: (3, 3) world to picture frame (z towards the eye).
        pixel_mm: size of a pixel [mm].
        outlines: darken the edge of a nearer surface.
    """
    shape = hits.item.shape
    out = np.full((shape[0] * shape[1], 3), PAPER, dtype=np.float32)
    lights = np.stack([_KEY, _FILL, _HALF, _EYE]) @ rotation
    face, weight = hits.face.reshape(-1), hits.weight.reshape(-1, 2)
    for index, (item, corners) in enumerate(zip(items, normals, strict=True)):
        met = np.flatnonzero(hits.item == index)
        if not len(met):
            continue
        colours = np.array([item.colour], dtype=np.float32)
        if item.values is not None:
            value = np.empty(len(met))
            values_met(met, face, weight, np.array(item.mesh.faces), np.array(item.values), value)
            colours = _value_colours(item, value)
            _draw_levels(colours, value, item, met, shape)
        light_met(met, face, weight, corners, lights, colours, item.shine, out)
    factor = _hollows(hits, pixel_mm)
    if outlines:
        factor *= _outline(hits, pixel_mm)
    out *= factor.reshape(-1, 1)
    return out.reshape(*shape, 3)


def _value_colours(item: Item, value: Floats) -> Singles:
    known = value >= item.plain_below  # false where there is no value
    colours = np.empty((len(value), 3), dtype=np.float32)
    colours[:] = item.colour
    colours[known] = item.colours(value[known])
    return colours


def _hollows(hits: Hits, pixel_mm: float) -> Singles:
    """Factor below 1 where the surface lies deeper than what surrounds it."""
    met = hits.item >= 0
    floor = float(hits.depth[met].min()) if met.any() else 0.0
    depth = np.where(met, hits.depth, floor).astype(np.float32)
    factor = np.ones_like(depth)
    for reach_mm, strength in ((0.8, 0.14), (3.0, 0.04)):
        sigma = reach_mm / pixel_mm
        every = max(1, int(sigma // 4))
        small, mask = depth[::every, ::every], met[::every, ::every].astype(np.float32)
        weight = gaussian_filter(mask, sigma / every)
        around: Singles = np.asarray(gaussian_filter(small * mask, sigma / every))
        around = np.divide(around, weight, out=small.copy(), where=weight > 1e-6)
        around = around.repeat(every, 0).repeat(every, 1)[: depth.shape[0], : depth.shape[1]]
        step = np.clip((around - depth) / reach_mm, 0.0, None)
        factor -= strength * step / (1.0 + (step / 1.5) ** 4)  # far surfaces cast no halo
    return np.where(met, np.clip(factor, 0.35, 1.0), 1.0).astype(np.float32)


def _outline(hits: Hits, pixel_mm: float) -> Singles:
    """Factor below 1 along the edges of nearer surfaces and between items."""
    met = hits.item >= 0
    floor = (float(hits.depth[met].min()) if met.any() else 0.0) - 5.0
    depth = np.where(met, hits.depth, floor).astype(np.float32)
    jump = maximum_filter(depth, 3) - depth
    edge = np.clip((jump - 6 * pixel_mm - 0.25) / 0.6, 0.0, 1.0)
    between = maximum_filter(hits.item, 3) != minimum_filter(hits.item, 3)
    edge = np.maximum(edge, 0.6 * between)
    return np.asarray(1.0 - 0.62 * edge, dtype=np.float32)


def _draw_levels(
    colours: Singles, value: Floats, item: Item, met: Indices, shape: tuple[int, ...]
) -> None:
    """Darken the pixels where the value passes a level between two pixels of the item."""
    if not item.levels:
        return
    grid = np.full(shape, np.nan)
    grid.reshape(-1)[met] = np.where(np.isfinite(value), value, item.low)
    passed = np.zeros(shape, dtype=bool)
    for level in item.levels:
        across = (grid[:, 1:] - level) * (grid[:, :-1] - level)
        down = (grid[1:] - level) * (grid[:-1] - level)
        passed[:, 1:] |= across < 0
        passed[1:] |= down < 0
    colours[passed.reshape(-1)[met]] = 25.0
