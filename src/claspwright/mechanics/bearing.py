"""Where forces and supports meet the cells: on one cell, or over a patch of metal about a point."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.spatial import KDTree

from claspwright.base import Floats, GeometryError, Ints
from claspwright.mechanics.cells import Cells

FAR = 1.5  # mm from a point to the nearest cell, beyond which nothing can be pushed there
SIGNS = np.array([[2 * (a // 4) - 1, 2 * ((a // 2) % 2) - 1, 2 * (a % 2) - 1] for a in range(8)])


def shape_at(cells: Cells, points: Floats) -> tuple[Ints, Floats]:
    """Corners and weights of the cell that each of (P, 3) points lies in, or is nearest to.

    Raises:
        GeometryError: a point lies farther from the solid than a laid line from its metal.
    """
    middle = cells.origin + (cells.place + 0.5) * cells.step
    found = KDTree(middle).query(points)
    gap, cell = np.asarray(found[0]), np.asarray(found[1], dtype=np.intp)
    _near_enough(points, gap, FAR + cells.step)
    return cells.corners[cell], _weights(cells, cell, points)


class Reach:
    """What lies about points of a solid; looked up once for all its loads and supports."""

    def __init__(self, cells: Cells) -> None:
        self.cells = cells
        self.middle = cells.middle
        self.tree = KDTree(self.middle)

    def onto(self, points: Floats, patch_mm: float) -> csr_array:
        """(P, N) share of each node in what acts at each point; every row sums to 1.

        Over a patch, every cell takes part by the metal in it and by how near it lies, out to
        the patch's radius beyond the nearest metal: so the load on a place does not depend on
        how the grid happens to cut it.

        Raises:
            GeometryError: a point lies too far from the solid.
        """
        cells = self.cells
        if patch_mm <= 0:
            corners, weights = shape_at(cells, points)
            return _shares(np.arange(len(points)), corners, weights, cells)
        gap = np.asarray(self.tree.query(points)[0])
        _near_enough(points, gap, FAR + cells.step)
        radius = np.maximum(patch_mm + gap, 1.5 * cells.step)
        near = self.tree.query_ball_point(points, radius)
        row = np.repeat(np.arange(len(points)), [len(one) for one in near])
        cell = np.concatenate([np.sort(np.asarray(one, dtype=np.intp)) for one in near])
        far = np.linalg.norm(self.middle[cell] - points[row], axis=1) / radius[row]
        share = cells.moments[cell, 0] * np.maximum(1.0 - far**2, 1e-6)
        share /= np.bincount(row, share, minlength=len(points))[row]
        weights = _weights(cells, cell, self.middle[cell]) * share[:, None]
        return _shares(row, cells.corners[cell], weights, cells)


def _near_enough(points: Floats, gap: Floats, most: float) -> None:
    if gap.max(initial=0.0) > most:
        worst = points[int(gap.argmax())]
        raise GeometryError(f"no metal lies near {np.round(worst, 2)} mm: nothing to push there")


def _weights(cells: Cells, cell: NDArray[np.intp], points: Floats) -> Floats:
    """(P, 8) trilinear weights of the corners of a cell at a point in it, or at its edge."""
    middle = cells.origin + (cells.place[cell] + 0.5) * cells.step
    local = np.clip((points - middle) / (0.5 * cells.step), -1.0, 1.0)
    return np.asarray(np.prod(1.0 + SIGNS[None] * local[:, None], axis=2) / 8.0)


def _shares(row: NDArray[np.intp], corners: Ints, weights: Floats, cells: Cells) -> csr_array:
    rows = np.repeat(row, 8)
    shape = (int(row.max(initial=-1)) + 1, len(cells.nodes))
    return csr_array((weights.ravel(), (rows, corners.ravel())), shape=shape)
