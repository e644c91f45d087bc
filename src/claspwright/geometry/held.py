"""Solids that are held ready for several cuts in a row, and cut by boxes."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import numpy as np

from claspwright.base import Floats, GeometryError
from claspwright.geometry.mesh import Mesh
from claspwright.geometry.solids import NO_ERROR, as_mesh, checked_solid


class HeldSolid:
    """A checked solid that stays prepared between operations.

    Preparing a mesh of some 400,000 triangles costs more than cutting it by a small body, so
    whoever cuts the same solid again and again holds it.
    """

    __slots__ = ("_solid",)

    def __init__(self, solid: manifold3d.Manifold) -> None:
        if solid.status() != NO_ERROR:
            raise GeometryError(
                f"an operation on solids gave {solid.status().name}",
                remedy="Simplify or move the operands apart.",
            )
        self._solid = solid

    @staticmethod
    def of(mesh: Mesh, name: str = "solid") -> HeldSolid:
        """Hold a closed mesh.

        Raises:
            GeometryError: the mesh is open, inside out or otherwise unsound.
        """
        return HeldSolid(checked_solid(mesh, name))

    @staticmethod
    def union(solids: Sequence[HeldSolid]) -> HeldSolid:
        """What is inside at least one of them."""
        every = [one._solid for one in solids]
        return HeldSolid(manifold3d.Manifold.batch_boolean(every, manifold3d.OpType.Add))

    @staticmethod
    def block(corners: Floats) -> HeldSolid:
        """The convex body of (N, 3) points [mm], such as the eight corners of a turned box."""
        return HeldSolid(manifold3d.Manifold.hull_points(np.asarray(corners, np.float64)))

    def within(self, other: HeldSolid) -> HeldSolid:
        """What is inside both."""
        return HeldSolid(self._solid ^ other._solid)

    def without(self, other: HeldSolid) -> HeldSolid:
        """What is inside this one and outside the other."""
        return HeldSolid(self._solid - other._solid)

    def joined(self, other: HeldSolid) -> HeldSolid:
        """What is inside at least one."""
        return HeldSolid(self._solid + other._solid)

    def simplified(self, tolerance: float) -> HeldSolid:
        """The solid with fewer triangles, its surface moved by at most `tolerance` [mm]."""
        return HeldSolid(self._solid.simplify(tolerance))

    def covered(self) -> tuple[tuple[Floats, ...], ...]:
        """What the solid covers, seen along z: areas, each its outer ring and then its holes.

        Rings are (N, 2) points [mm], the first not repeated; outer ones run counter-clockwise.
        """
        seen = self._solid.project().to_polygons()
        areas = manifold3d.CrossSection(seen, manifold3d.FillRule.Positive).decompose()
        return tuple(tuple(np.asarray(ring) for ring in one.to_polygons()) for one in areas)

    @property
    def empty(self) -> bool:
        """Whether nothing is inside."""
        return bool(self._solid.is_empty())

    def mesh(self) -> Mesh:
        """Its closed surface, (V, 3) vertices [mm] and (F, 3) faces."""
        return as_mesh(self._solid)


def carved(
    body: HeldSolid, cutter: HeldSolid, spared: HeldSolid, always: HeldSolid, *, tidy: float = 0.0
) -> HeldSolid:
    """What is inside `body`, outside `cutter` but for where that is `spared`, outside `always`.

    The same as a chain of differences. With `tidy`, slivers along the cuts are collapsed, which
    moves the surface by that at most [mm].
    """
    result = body.without(cutter.without(spared)).without(always)
    return result.simplified(tidy) if tidy > 0 else result
