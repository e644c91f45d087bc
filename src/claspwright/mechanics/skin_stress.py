"""Stress at the surface of a solid of cells, read over a fixed length whatever the cells' size.

In the middle of a cell the strain of the displacements is most exact; a straight line through the
cells within RADIUS of a point of the surface carries it there. As the radius stays when the
cells shrink, so does the figure, in a re-entrant corner too: it is the structural stress of
fatigue practice, without the notch that is smaller than the radius.
"""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import in_chunks
from claspwright.mechanics import _cell_kernels as kernels
from claspwright.mechanics.cells import Cells, strain_terms

RADIUS = 0.75  # mm
STEPS = 1.6  # steps of the grid that the radius has at least
CHUNK = 4000


def skin_stress(cells: Cells, moved: Floats, material: Floats) -> Floats:
    """(E, K) equivalent stress at the skin of each cell [MPa].

    Args:
        cells: the solid.
        moved: (N, 3, K) displacements [mm].
        material: (6, 6) elasticity [MPa].

    Source:
        Strain at the centroids, carried to the surface by moving least squares (Lancaster and
        Salkauskas 1981); von Mises. Structural stress by extrapolation over a fixed length:
        Hobbacher, IIW Recommendations for Fatigue Design [memory].
    """
    inner = cell_stress(cells, moved, material)
    radius = max(RADIUS, STEPS * cells.step)
    where = np.full(tuple(cells.place.max(axis=0) + 1), -1, dtype=np.int32)
    where[tuple(cells.place.T)] = np.arange(len(cells.place))
    values = inner.reshape(len(inner), -1)
    fit = np.empty_like(values)
    reach = int(np.ceil(radius / cells.step + 1.0))
    middle, inside = cells.middle, np.ascontiguousarray(cells.moments[:, 0])
    skin = middle if cells.skin is None else cells.skin

    def work(first: int, last: int) -> None:
        kernels.fitted(first, last, cells.place, where, middle, inside, skin, reach, radius, values,
                       fit)  # fmt: skip

    in_chunks(work, len(inner), CHUNK)
    return equivalent(fit.reshape(inner.shape))


def cell_stress(cells: Cells, moved: Floats, material: Floats) -> Floats:
    """(E, 6, K) stress (xx, yy, zz, xy, yz, zx) at the centroid of each cell's inside [MPa]."""
    strain, _ = strain_terms()
    m = cells.moments
    local = np.stack([m[:, 9], m[:, 3], m[:, 1]], axis=1) / m[:, :1]
    out = np.empty((len(m), 6, moved.shape[2]))
    used = [n for n in range(27) if np.any(strain[n])]
    for first in range(0, len(m), 20_000):
        here = slice(first, first + 20_000)
        x, y, z = local[here].T
        term = np.zeros((len(x), 6, 24))
        for n in used:
            power = x ** (n // 9) * y ** ((n // 3) % 3) * z ** (n % 3)
            term += power[:, None, None] * strain[n]
        corner = moved[cells.corners[here]].reshape(len(x), 24, -1)
        out[here] = (material @ term) @ corner / cells.step
    return out


def equivalent(stress: Floats) -> Floats:
    """(E, K) von Mises' equivalent of (E, 6, K) stress [MPa]."""
    a, b, c, d, e, f = (stress[:, i] for i in range(6))
    return np.asarray(
        np.sqrt(0.5 * ((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) + 3 * (d**2 + e**2 + f**2))
    )
