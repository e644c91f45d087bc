"""Closed solids: checks, exact booleans, bodies, simplification."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np

from claspwright.base import Floats, GeometryError, InputError
from claspwright.geometry import _edge_kernels as kernels
from claspwright.geometry.edges import opposite_edges
from claspwright.geometry.mesh import Mesh, face_areas, volume

NO_ERROR = manifold3d.Error.NoError


@dataclass(frozen=True, slots=True)
class SolidCheck:
    """What a closed mesh is like."""

    status: str  # as manifold3d names it; "NoError" is sound
    watertight: bool  # each edge has one face on either side, in opposite directions
    volume_mm3: float  # negative when turned inside out
    area_mm2: float
    bodies: int  # outer shells; 0 where the status is not NoError
    smallest_face_mm2: float

    @property
    def sound(self) -> bool:
        """True for a valid, watertight solid that is right side out."""
        return self.status == "NoError" and self.watertight and self.volume_mm3 > 0


def check_solid(mesh: Mesh) -> SolidCheck:
    """Status, watertightness, volume and bodies of a mesh. Never raises for a bad one."""
    areas = face_areas(mesh)
    status, pieces = "NotManifold", 0
    if not _unpaired(mesh)[0]:
        raw = _raw(mesh)
        status = str(raw.status().name)
        pieces = len(bodies(mesh)) if raw.status() == NO_ERROR and len(mesh.faces) else 0
    return SolidCheck(
        status=status,
        watertight=is_watertight(mesh),
        volume_mm3=volume(mesh) if len(mesh.faces) else 0.0,
        area_mm2=float(areas.sum()),
        bodies=pieces,
        smallest_face_mm2=float(areas.min()) if len(areas) else 0.0,
    )


def is_watertight(mesh: Mesh) -> bool:
    """True when every directed edge occurs once and its reverse occurs once."""
    if not len(mesh.faces):
        return False
    start = mesh.faces.ravel().astype(np.int64)
    end = np.roll(mesh.faces, -1, axis=1).ravel().astype(np.int64)
    count = len(mesh.vertices)
    forth = np.sort(start * count + end)
    back = np.sort(end * count + start)
    return bool((forth[1:] != forth[:-1]).all() and (forth == back).all())


def _unpaired(mesh: Mesh) -> tuple[int, int]:
    """How many directed edges their reverse does not match in number, a vertex of the first.

    Asked before manifold3d is: it may crash on open meshes.
    """
    across, unpaired = opposite_edges(mesh)
    if not unpaired:
        return 0, -1
    start, end = mesh.faces.ravel(), np.roll(mesh.faces, -1, axis=1).ravel()
    return unpaired, int(np.minimum(start, end)[across < 0].min())


def union(*meshes: Mesh) -> Mesh:
    """Everything inside at least one of the solids.

    Raises:
        GeometryError: an operand is not a sound solid.
    """
    return _joined(meshes, manifold3d.OpType.Add, "union")


def difference(body: Mesh, *cutters: Mesh) -> Mesh:
    """What is inside `body` and outside all cutters; may be empty.

    Vertices of a cutter that end up on the result keep their coordinates to the last digit.

    Raises:
        GeometryError: an operand is not a sound solid.
    """
    return _joined((body, *cutters), manifold3d.OpType.Subtract, "difference")


def intersection(*meshes: Mesh) -> Mesh:
    """What is inside all of the solids; may be empty.

    Raises:
        GeometryError: an operand is not a sound solid.
    """
    return _joined(meshes, manifold3d.OpType.Intersect, "intersection")


def shells(mesh: Mesh) -> tuple[Mesh, ...]:
    """The connected pieces of the surface, the largest signed volume first.

    The wall of a cavity is a piece of its own, with negative volume.
    """
    count = len(mesh.vertices)
    piece = np.empty(count, np.int32)
    number = kernels.label_pieces(mesh.faces, piece)
    used = np.zeros(number, bool)
    used[piece[mesh.faces[:, 0]]] = True
    if used.sum() == 1 and used.all():
        return (mesh,)
    face_piece = piece[mesh.faces[:, 0]]
    by_face = np.argsort(face_piece, kind="stable")
    by_vertex = np.argsort(piece, kind="stable")
    face_ends = np.searchsorted(face_piece[by_face], np.arange(number + 1))
    vertex_ends = np.searchsorted(piece[by_vertex], np.arange(number + 1))
    place = np.empty(count, np.int64)
    place[by_vertex] = np.arange(count) - vertex_ends[piece[by_vertex]]
    found = [
        Mesh(
            mesh.vertices[by_vertex[vertex_ends[n] : vertex_ends[n + 1]]],
            place[mesh.faces[by_face[face_ends[n] : face_ends[n + 1]]]].astype(np.int32),
        )
        for n in np.flatnonzero(used)
    ]
    return tuple(sorted(found, key=volume, reverse=True))


def bodies(mesh: Mesh) -> tuple[Mesh, ...]:
    """The outer shells of a solid, the largest first; walls of cavities are left out."""
    return tuple(shell for shell in shells(mesh) if volume(shell) > 0)


def simplified(mesh: Mesh, tolerance: float) -> Mesh:
    """The solid with fewer triangles, its surface moved by at most `tolerance` [mm]."""
    if not tolerance >= 0:
        raise InputError(f"tolerance must be zero or more, got {tolerance} mm")
    return as_mesh(checked_solid(mesh, "solid").simplify(tolerance))


def cut_below(mesh: Mesh, normal: Floats, offset: float) -> Mesh:
    """The part of a solid with normal . x >= offset [mm]."""
    axis = tuple(float(n) for n in normal)
    return as_mesh(checked_solid(mesh, "solid").trim_by_plane(axis, offset))


def without_crumbs(mesh: Mesh, least_mm3: float = 0.05) -> tuple[Mesh, int]:
    """The solid without shells smaller than a volume, and how many were dropped.

    Cavities count by their size too: small ones are filled.
    """
    pieces = shells(mesh)
    kept = [piece for piece in pieces if abs(volume(piece)) >= least_mm3]
    if len(kept) == len(pieces):
        return mesh, 0
    return merged(*kept), len(pieces) - len(kept)


def merged(*meshes: Mesh) -> Mesh:
    """Meshes side by side in one, without any boolean."""
    if not meshes:
        return Mesh(np.zeros((0, 3)), np.zeros((0, 3), np.int32))
    starts = np.cumsum([0] + [len(mesh.vertices) for mesh in meshes])
    return Mesh(
        np.concatenate([mesh.vertices for mesh in meshes]),
        np.concatenate([mesh.faces + start for mesh, start in zip(meshes, starts, strict=False)]),
    )


def _raw(mesh: Mesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            np.array(mesh.vertices, dtype=np.float64, order="C"),
            np.array(mesh.faces, dtype=np.uint64, order="C"),
        )
    )


def checked_solid(mesh: Mesh, name: str) -> manifold3d.Manifold:
    """A checked operand: manifold3d accepts inverted solids in silence and spoils the result."""
    if not len(mesh.faces):
        return manifold3d.Manifold()
    unpaired, first = _unpaired(mesh)
    if unpaired:
        x, y, z = mesh.vertices[first]
        raise GeometryError(
            f"not a closed solid: {unpaired} edges lack a face on one side",
            place=f"{name} at ({x:.2f}, {y:.2f}, {z:.2f}) mm",
            remedy="Close the mesh first.",
        )
    solid = _raw(mesh)
    status = solid.status()
    if status != NO_ERROR:
        raise GeometryError(
            f"not a closed solid: {status.name}", place=name, remedy="Repair the mesh first."
        )
    inside = volume(mesh)
    if not inside > 0:
        raise GeometryError(
            f"the solid is inside out: volume {inside:.3f} mm3, must be positive",
            place=name,
            remedy="Turn its faces over.",
        )
    return solid


def _joined(meshes: tuple[Mesh, ...], operation: manifold3d.OpType, name: str) -> Mesh:
    solids = [checked_solid(mesh, f"operand {n + 1} of {name}") for n, mesh in enumerate(meshes)]
    result = manifold3d.Manifold.batch_boolean(solids, operation)
    if result.status() != NO_ERROR:
        raise GeometryError(
            f"{name} gave {result.status().name}", remedy="Simplify or move the operands apart."
        )
    return as_mesh(result)


def as_mesh(solid: manifold3d.Manifold) -> Mesh:
    """The closed surface of a solid of the kernel."""
    found = solid.to_mesh64()
    return Mesh(np.asarray(found.vert_properties)[:, :3], np.asarray(found.tri_verts))
