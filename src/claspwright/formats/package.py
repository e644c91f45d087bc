"""The 3MF package: one model part in a zip archive, the same bytes for the same model.

Source:
    3MF Core Specification.
"""

from __future__ import annotations

import zipfile
from io import BytesIO

import numpy as np

from claspwright.formats.number_text import rows
from claspwright.geometry import Mesh

_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date that a zip archive can carry
_DIGITS = 6  # of a coordinate in a 3MF file: a millionth of a millimetre


def package(model: str, *, effort: int = 6) -> bytes:
    """A 3MF package of one model part; `effort` of packing from 1 (fast) to 9."""
    raw = BytesIO()
    with zipfile.ZipFile(raw, "w", zipfile.ZIP_DEFLATED, compresslevel=effort) as archive:
        for name, text in (
            ("[Content_Types].xml", _CONTENT_TYPES),
            ("_rels/.rels", _RELATIONS),
            ("3D/3dmodel.model", model),
        ):
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3  # the same on every platform
            archive.writestr(entry, text.encode("utf-8"), compresslevel=effort)
    return raw.getvalue()


def model_xml(resources: str, items: str, *, namespaces: str = "", metadata: str = "") -> str:
    """The model part, in millimetres; `namespaces` are further attributes of its root."""
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<model unit="millimeter" xml:lang="en-US" '
        f'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"{namespaces}>\n'
        f'<metadata name="Application">Claspwright</metadata>\n{metadata}'
        f"<resources>\n{resources}</resources>\n"
        f"<build>\n{items}</build>\n</model>\n"
    )


def mesh_xml(mesh: Mesh) -> str:
    """Vertices and triangles of one object."""
    end = '"/>\n'
    vertices, _ = rows(mesh.vertices, _DIGITS, ['<vertex x="', '" y="', '" z="', end])
    faces, _ = rows(mesh.faces.astype(np.float64), 0, ['<triangle v1="', '" v2="', '" v3="', end])
    points_xml = f"<vertices>\n{vertices.decode('ascii')}</vertices>\n"
    return f"<mesh>\n{points_xml}<triangles>\n{faces.decode('ascii')}</triangles>\n</mesh>\n"


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
