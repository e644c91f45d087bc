"""Height fields: the highest point of a mesh over each node of a plane grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.geometry import _height_kernels as kernels
from claspwright.geometry.grid import Grid
from claspwright.geometry.mesh import Mesh
from claspwright.geometry.rigid import Rigid, rotation_between


@dataclass(frozen=True, slots=True, eq=False)
class HeightField:
    """Heights along +z of a turned frame; -inf where nothing lies over a node."""

    frame: Rigid  # world -> frame of the field
    low: Floats  # (2,) of node (0, 0) in that frame [mm]
    spacing: float  # mm
    heights: Floats  # (NX, NY) mm

    def at(self, points: Floats) -> Floats:
        """(N,) bilinear height over (N, 3) world points, in the field's frame [mm]."""
        nodes = (self.frame.apply(points)[:, :2] - self.low) / self.spacing
        out = np.empty(len(nodes))
        kernels.bilinear(self.heights, np.ascontiguousarray(nodes), out)
        return out

    def below(self, points: Floats) -> Floats:
        """(N,) how far (N, 3) world points lie below the height over them [mm]."""
        return self.at(points) - self.frame.apply(points)[:, 2]


def looking_along(direction: Floats) -> Rigid:
    """The smallest turn that takes a unit direction to +z, without shift."""
    return Rigid(rotation_between(np.asarray(direction), np.array([0.0, 0.0, 1.0])), np.zeros(3))


def height_field(mesh: Mesh, frame: Rigid, spacing: float, pad: float = 0.0) -> HeightField:
    """Height of a mesh along +z of a frame, at nodes `spacing` [mm] apart.

    Args:
        mesh: triangles, open or closed.
        frame: world to frame; `looking_along` makes one from a direction.
        spacing: of the nodes [mm].
        pad: margin round the mesh [mm].
    """
    if not spacing > 0 or not len(mesh.faces):
        raise InputError(f"a height field needs faces and a positive spacing, got {spacing} mm")
    points = np.ascontiguousarray(frame.apply(mesh.vertices))
    low = np.floor((points[:, :2].min(axis=0) - pad) / spacing) * spacing
    high = points[:, :2].max(axis=0) + pad
    shape = tuple(int(n) + 2 for n in np.ceil((high - low) / spacing))
    heights = np.full(shape, -np.inf)
    kernels.draw(points, mesh.faces, low, spacing, heights)
    return HeightField(frame, low, spacing, heights)


def heights_over(mesh: Mesh, grid: Grid) -> Floats:
    """(NX, NY) highest z of a mesh over the columns of a grid, in its frame; -inf where none."""
    points = np.ascontiguousarray(grid.frame.apply(mesh.vertices))
    heights = np.full(grid.shape[:2], -np.inf)
    kernels.draw(points, mesh.faces, np.array(grid.origin[:2]), grid.spacing, heights)
    return heights
