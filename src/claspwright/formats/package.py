"""The 3MF package: one model part in a zip archive, the same bytes for the same model.

Source:
    3MF Core Specification.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Sequence
from pathlib import Path

import numpy as np

from claspwright.formats.number_text import rows
from claspwright.geometry import Mesh

_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest date that a zip archive can carry
_DIGITS = 6  # of a coordinate in a 3MF file: a millionth of a millimetre


def write_package(model: Sequence[bytes], path: Path | str, *, effort: int = 6) -> None:
    """Write a 3MF package of one model part.

    Args:
        model: the pieces of its text.
        path: the file.
        effort: of packing, from 1 (fast) to 9.
    """
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=effort) as archive:
        for name, pieces in (
            ("[Content_Types].xml", [_CONTENT_TYPES.encode("ascii")]),
            ("_rels/.rels", [_RELATIONS.encode("ascii")]),
            ("3D/3dmodel.model", model),
        ):
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry._compresslevel = effort  # type: ignore[attr-defined]
            entry.create_system = 3  # the same on every platform
            entry.file_size = sum(len(piece) for piece in pieces)  # which decides the header
            with archive.open(entry, "w") as file:
                for piece in pieces:
                    file.write(piece)


def model_xml(
    resources: Iterable[bytes], items: str, *, namespaces: str = "", metadata: str = ""
) -> list[bytes]:
    """The pieces of the model part, in millimetres; `namespaces` are attributes of its root."""
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<model unit="millimeter" xml:lang="en-US" '
        f'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"{namespaces}>\n'
        f'<metadata name="Application">Claspwright</metadata>\n{metadata}<resources>\n'
    )
    tail = f"</resources>\n<build>\n{items}</build>\n</model>\n"
    return [head.encode("utf-8"), *resources, tail.encode("utf-8")]


def mesh_xml(mesh: Mesh) -> list[bytes]:
    """Vertices and triangles of one object, in pieces."""
    end = '"/>\n'
    vertices, _ = rows(mesh.vertices, _DIGITS, ['<vertex x="', '" y="', '" z="', end])
    faces, _ = rows(mesh.faces.astype(np.float64), 0, ['<triangle v1="', '" v2="', '" v3="', end])
    return [
        b"<mesh>\n<vertices>\n", vertices, b"</vertices>\n<triangles>\n", faces,
        b"</triangles>\n</mesh>\n",
    ]  # fmt: skip


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
