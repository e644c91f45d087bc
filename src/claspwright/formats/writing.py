"""Meshes to files: binary STL, binary PLY, 3MF. The same mesh gives the same bytes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np

from claspwright.base import Floats
from claspwright.formats.package import mesh_xml, model_xml, write_package
from claspwright.geometry import Mesh, face_normals

_STL_ROW = np.dtype(
    [("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attributes", "<u2")], align=False
)
_PLY_FACE = np.dtype([("count", "u1"), ("corners", "<i4", 3)], align=False)


def write_stl(mesh: Mesh, path: Path | str) -> None:
    """Write a binary STL in mm, single precision (check-values J01 to J04)."""
    rows = np.zeros(len(mesh.faces), _STL_ROW)
    rows["normal"] = face_normals(mesh)
    rows["corners"] = mesh.corners
    header = b"Claspwright, millimetres".ljust(80, b"\0")
    count = np.array(len(rows), "<u4").tobytes()
    Path(path).write_bytes(header + count + rows.tobytes())


def write_ply(mesh: Mesh, path: Path | str, *, values: Mapping[str, Floats] | None = None) -> None:
    """Write a binary little-endian PLY in mm, double precision.

    Args:
        mesh: the surface.
        path: the file.
        values: (V,) a figure at each vertex by name, with its unit in the name.
    """
    extra = values or {}
    columns = "".join(f"property double {name}\n" for name in extra)
    header = (
        "ply\nformat binary_little_endian 1.0\ncomment Claspwright, millimetres\n"
        f"element vertex {len(mesh.vertices)}\n"
        f"property double x\nproperty double y\nproperty double z\n{columns}"
        f"element face {len(mesh.faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    faces = np.zeros(len(mesh.faces), _PLY_FACE)
    faces["count"] = 3
    faces["corners"] = mesh.faces
    vertices = np.column_stack([mesh.vertices, *extra.values()]).astype("<f8").tobytes()
    Path(path).write_bytes(header.encode("ascii") + vertices + faces.tobytes())


def write_3mf(mesh: Mesh, path: Path | str) -> None:
    """Write a 3MF package with one object in millimetres (3MF Core Specification)."""
    objects = [b'<object id="1" type="model">\n', *mesh_xml(mesh), b"</object>\n"]
    write_package(model_xml(objects, '<item objectid="1"/>\n'), path)
