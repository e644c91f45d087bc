"""Meshes to files: binary STL, binary PLY, 3MF. The same mesh gives the same bytes."""

from __future__ import annotations

import zipfile
from io import BytesIO
from pathlib import Path

import numpy as np

from claspwright.geometry import Mesh, face_normals

_STL_ROW = np.dtype(
    [("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attributes", "<u2")], align=False
)
_PLY_FACE = np.dtype([("count", "u1"), ("corners", "<i4", 3)], align=False)
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date that a zip archive can carry
_DIGITS = 6  # of a coordinate in a 3MF file: a millionth of a millimetre


def write_stl(mesh: Mesh, path: Path | str) -> None:
    """Write a binary STL in mm, single precision (check-values J01 to J04)."""
    rows = np.zeros(len(mesh.faces), _STL_ROW)
    rows["normal"] = face_normals(mesh)
    rows["corners"] = mesh.corners
    header = b"Claspwright, millimetres".ljust(80, b"\0")
    count = np.array(len(rows), "<u4").tobytes()
    Path(path).write_bytes(header + count + rows.tobytes())


def write_ply(mesh: Mesh, path: Path | str) -> None:
    """Write a binary little-endian PLY in mm, double precision."""
    header = (
        "ply\nformat binary_little_endian 1.0\ncomment Claspwright, millimetres\n"
        f"element vertex {len(mesh.vertices)}\n"
        "property double x\nproperty double y\nproperty double z\n"
        f"element face {len(mesh.faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    faces = np.zeros(len(mesh.faces), _PLY_FACE)
    faces["count"] = 3
    faces["corners"] = mesh.faces
    vertices = mesh.vertices.astype("<f8").tobytes()
    Path(path).write_bytes(header.encode("ascii") + vertices + faces.tobytes())


def write_3mf(mesh: Mesh, path: Path | str) -> None:
    """Write a 3MF package with one object in millimetres (3MF Core Specification)."""
    raw = BytesIO()
    with zipfile.ZipFile(raw, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as package:
        for name, text in (
            ("[Content_Types].xml", _CONTENT_TYPES),
            ("_rels/.rels", _RELATIONS),
            ("3D/3dmodel.model", _model(mesh)),
        ):
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3  # the same on every platform
            package.writestr(entry, text.encode("utf-8"), compresslevel=6)
    Path(path).write_bytes(raw.getvalue())


def _model(mesh: Mesh) -> str:
    points = np.round(mesh.vertices, _DIGITS) + 0.0  # no negative zero
    vertices = "\n".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in points.tolist())
    faces = "\n".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.faces.tolist())
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<model unit="millimeter" xml:lang="en-US" '
        'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n'
        '<metadata name="Application">Claspwright</metadata>\n'
        '<resources>\n<object id="1" type="model">\n<mesh>\n'
        f"<vertices>\n{vertices}\n</vertices>\n<triangles>\n{faces}\n</triangles>\n"
        "</mesh>\n</object>\n</resources>\n"
        '<build>\n<item objectid="1"/>\n</build>\n</model>\n'
    )


_CONTENT_TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" '
    'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>'
    "</Types>\n"
)
_RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>'
    "</Relationships>\n"
)
