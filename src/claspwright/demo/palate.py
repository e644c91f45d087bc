"""The roof of the mouth as a height map: vault, rugae, raphe, incisive papilla."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter, map_coordinates
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import spsolve

from claspwright.base import Bools, Floats, Singles
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.fields import bump, rounded, step
from claspwright.demo.stations import Stations

_COARSE = 0.5


def _dome(inside: Bools, fixed: Bools, edge: Floats) -> tuple[Floats, Floats]:
    """Harmonic height from the edge values, and the torsion function (0 at the edge, max 1).

    Nodes that are neither inside nor fixed are left out: the surface ends there freely.
    """
    index = np.full(inside.shape, -1)
    index[inside] = np.arange(inside.sum())
    rows, cols, data = [], [], []
    count = np.zeros(int(inside.sum()))
    load = np.zeros_like(count)
    for axis in (0, 1):
        for shift in (-1, 1):
            other = np.roll(index, shift, axis)
            wall = np.roll(fixed, shift, axis)
            level = np.roll(edge, shift, axis)
            here = index[inside]
            there, solid = other[inside], wall[inside]
            link = there >= 0
            rows.append(here[link])
            cols.append(there[link])
            data.append(-np.ones(link.sum()))
            count += link | solid
            load += np.where(solid, level[inside], 0.0)
    rows.append(np.arange(len(count)))
    cols.append(np.arange(len(count)))
    data.append(count)
    matrix = csr_matrix(
        (np.concatenate(data), (np.concatenate(rows), np.concatenate(cols))),
        shape=(len(count), len(count)),
    )
    both = spsolve(matrix, np.stack([load, np.ones_like(load)], axis=1))
    height, torsion = edge.copy(), np.zeros_like(edge)
    height[inside] = both[:, 0]
    torsion[inside] = both[:, 1] / both[:, 1].max()
    return height, torsion


def _rugae(x: Floats, y: Floats, front: float, rng: np.random.Generator) -> Floats:
    """Three or four irregular ridges a side behind the incisive papilla."""
    total = np.zeros_like(x)
    for side in (-1.0, 1.0):
        for k in range(4):
            start = front - 8.2 - 3.7 * k + rng.normal(0, 0.4)
            bend, wave, phase = rng.normal(0.20, 0.08), rng.uniform(0.35, 0.7), rng.uniform(0, 6.3)
            reach = rng.uniform(10.0, 13.0) - 1.3 * k
            out = side * x
            line = start - bend * out + 0.012 * out * out + wave * np.sin(0.55 * out + phase)
            size = rng.uniform(0.55, 0.85) * (1 - 0.15 * k)
            beads = 1.0 + 0.35 * np.sin(0.9 * out + 2 * phase)
            along = step((out - 0.5) / 2.5) * step((reach - out) / 5.0)
            total += size * beads * along * bump((y - line) / 0.95)
    return total


def _relief(x: Floats, y: Floats, front: float, rng: np.random.Generator) -> Floats:
    """Rugae, incisive papilla, and the raphe: a ridge in front, a groove behind."""
    detail = _rugae(x, y, front, rng)
    detail += 1.5 * np.exp(-((x / 2.0) ** 2) - ((y - front + 4.6) / 3.0) ** 2)
    back = step((front - 14.0 - y) / 10.0)
    detail += (0.35 * (1 - back) - 0.25 * back) * bump(x / 1.1) * step((front - 8.0 - y) / 3.0)
    return detail


def roof(
    stations: Stations, line: ArchLine, x: Floats, y: Floats, depth_mm: float,
    rng: np.random.Generator,
) -> tuple[Singles, Singles]:  # fmt: skip
    """Height of the palate and crest over the grid's (x, y) nodes, and its steepness factor.

    Args:
        stations: cross-sections of the gum.
        line: the arch curve.
        x: (nx,) nodes [mm].
        y: (ny,) nodes [mm].
        depth_mm: deepest point of the vault below the gingival margins.
        rng: where the irregularity of the rugae comes from.

    Returns:
        (nx, ny) height and sqrt(1 + |gradient|^2).
    """
    cx = np.arange(x[0] - 1.0, x[-1] + 1.5, _COARSE)
    cy = np.arange(y[0] - 1.0, y[-1] + 1.5, _COARSE)
    xx, yy = np.meshgrid(cx, cy, indexing="ij")
    arc, across = line.coordinates(np.stack([xx.ravel(), yy.ravel()], axis=1))
    outer, inner = (
        np.interp(arc, stations.arc, v).reshape(xx.shape)
        for v in (stations.crest, stations.crest_lingual)
    )
    edge_b = np.interp(arc, stations.arc, stations.buccal).reshape(xx.shape)
    edge_t = np.interp(arc, stations.arc, stations.lingual).reshape(xx.shape)
    across = across.reshape(xx.shape)
    crest = outer + (inner - outer) * step((edge_b - across) / (edge_b - edge_t))
    gap = np.interp(arc, stations.arc, stations.gap).reshape(xx.shape)
    inside = across < edge_t - 1.3 + 1.9 * gap
    inside[:, 0] = inside[:, -1] = False
    fixed = ~inside & (np.arange(len(cy)) > 0)[None, :]
    smooth_crest = gaussian_filter(crest, 2.0)
    height, torsion = _dome(inside, fixed, np.where(inside, smooth_crest, crest))
    vault = gaussian_filter(height - depth_mm * torsion**0.80, 1.4)
    front = float(line.points[:, 1].max()) + float(np.interp(0.0, stations.arc, stations.lingual))
    vault = vault + _relief(xx, yy, front, rng) * step((edge_t - across) / 3.0)
    nodes = np.meshgrid((x - cx[0]) / _COARSE, (y - cy[0]) / _COARSE, indexing="ij")
    fine = map_coordinates(vault, nodes, order=3, mode="nearest")
    gx, gy = np.gradient(fine, x[1] - x[0], y[1] - y[0])
    steep = gaussian_filter(np.sqrt(1.0 + rounded(np.hypot(gx, gy), 0.2) ** 2), 3.0)
    return fine.astype(np.float32), steep.astype(np.float32)
