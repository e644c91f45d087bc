"""Mesh files to values: which format a file is in, what is refused, and why.

A file is recognised by its content, a binary STL by its size (check-values J02, J03), never by
its name alone. Sizes are checked before memory is taken.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.formats.encapsulated import read_dicom
from claspwright.formats.obj import read_obj
from claspwright.formats.package_reading import is_3mf, read_3mf
from claspwright.formats.ply import read_ply
from claspwright.formats.stl import read_ascii_stl, read_binary_stl
from claspwright.formats.text import MAX_FACES, MAX_TEXT_BYTES, RawMesh, too_many
from claspwright.geometry import Mesh, face_areas

FOREIGN = {
    b"\xff\xd8\xff": "a JPEG picture",
    b"\x89PNG": "a PNG picture",
    b"%PDF": "a PDF document",
    b"PK\x03\x04": "a zip archive without a 3MF model in it, or a damaged one",
    b"\x1f\x8b": "a gzip archive",
    b"Rar!": "a rar archive",
    b"7z\xbc\xaf": "a 7z archive",
    b"GIF8": "a GIF picture",
    b"<?xml": "an XML text",
    b"<!DOC": "a web page",
    b"<html": "a web page",
    b"glTF": "a glTF binary",
    b"ISO-10303": "a STEP file",
}
MAX_BYTES = 84 + 50 * MAX_FACES
KNOWN = "Give a mesh of triangles as STL (binary or ASCII), PLY, OBJ, 3MF or DICOM STL."


def read_mesh(path: Path | str) -> Mesh:
    """Read a triangle mesh from an STL, PLY, OBJ, 3MF or DICOM encapsulated STL file.

    The unit stays unknown, but for 3MF, which names it and is brought to mm. Polygons are split
    into triangles. STL corners at identical coordinates become one vertex.

    Raises:
        InputError: the file is missing, empty, cut off, too large, of another type, or holds
            no triangle with area, values that are not finite, or indices out of range.
    """
    path = Path(path)
    size = _size(path)
    with path.open("rb") as file:
        head = file.read(4096)
    kind = _kind(path, head, size)
    limit = MAX_TEXT_BYTES if kind in ("ascii stl", "obj") else MAX_BYTES
    if size > limit:
        raise InputError(
            f"the file has {size / 1e6:.0f} MB, the limit is {limit / 1e6:.0f} MB for this format",
            place=path.name,
            remedy=f"Thin the mesh to at most {MAX_FACES:,} triangles, or save it as binary STL.",
        )
    reader = {
        "binary stl": read_binary_stl,
        "ascii stl": read_ascii_stl,
        "ply": read_ply,
        "obj": read_obj,
        "3mf": read_3mf,
        "dicom": read_dicom,
    }[kind]
    return _checked(reader(path), path.name)


def _size(path: Path) -> int:
    if not path.exists():
        raise InputError(
            "there is no such file", place=str(path), remedy="Check the name and the folder."
        )
    if not path.is_file():
        raise InputError("this is not a file", place=str(path), remedy=KNOWN)
    size = path.stat().st_size
    if size == 0:
        raise InputError(
            "the file is empty", place=path.name, remedy="Export or copy the scan again."
        )
    return size


def _kind(path: Path, head: bytes, size: int) -> str:
    """Name of the format that the content shows."""
    if head[:3] == b"ply" and head[3:4] in (b"\n", b"\r"):
        return "ply"
    if size >= 84 and size == 84 + 50 * _announced(head):
        return "binary stl"
    if head[128:132] == b"DICM":
        return "dicom"
    if head.startswith(b"PK\x03\x04") and is_3mf(path):
        return "3mf"
    for magic, name in FOREIGN.items():
        if head.startswith(magic):
            raise InputError(f"this is {name}, not a mesh", place=path.name, remedy=KNOWN)
    text = b"\0" not in head and sum(byte > 126 for byte in head) < len(head) / 8
    words = head.split()
    if text and words and words[0].lower() == b"solid" and _says_facet(head):
        return "ascii stl"
    if text and _looks_like_obj(head):
        return "obj"
    if not text and path.suffix.lower() in (".stl", ""):
        return _wrong_size(path, head, size)
    raise InputError(
        "the content is neither STL, PLY, OBJ, 3MF nor DICOM",
        place=f"{path.name}, byte 0",
        remedy=KNOWN,
    )


def _says_facet(head: bytes) -> bool:
    lower = head.lower()
    return b"facet" in lower or b"endsolid" in lower or len(head) < 4096


def _looks_like_obj(head: bytes) -> bool:
    starts = {line.split(maxsplit=1)[0] for line in head.splitlines() if line.split()}
    return bool(starts & {b"v", b"f", b"vn", b"vt"})


def _announced(head: bytes) -> int:
    return int.from_bytes(head[80:84], "little") if len(head) >= 84 else -1


def _wrong_size(path: Path, head: bytes, size: int) -> str:
    n = _announced(head)
    if n < 0:
        raise InputError(
            f"a binary STL has at least 84 bytes, this file has {size}",
            place=path.name,
            remedy="Export or copy the scan again.",
        )
    too_many(n, f"{path.name}, byte 80")
    whole = max(0, (size - 84) // 50)
    raise InputError(
        f"the header announces {n:,} triangles, which takes {84 + 50 * n:,} bytes, "
        f"but the file has {size:,}",
        place=f"{path.name}, triangle {min(n, whole)}",
        remedy="The file was cut off or is no binary STL; export or copy the scan again.",
    )


def _checked(raw: RawMesh, name: str) -> Mesh:
    """The mesh, after all that can be wrong with the numbers in it."""
    vertices, faces = raw.vertices, raw.faces
    if not len(faces):
        raise InputError(
            f"the file has {len(vertices):,} points but no faces",
            place=name,
            remedy="Export a surface of triangles, not a point cloud or curves.",
        )
    too_many(len(faces), name)
    _check_numbers(vertices, raw, name)
    outside = (faces < 0) | (faces >= len(vertices))
    if outside.any():
        face = int(np.flatnonzero(outside.any(axis=1))[0])
        raise InputError(
            f"a face points to a vertex outside the {len(vertices):,} vertices of the file",
            place=f"{name}, face {face}",
            remedy="The file is damaged; export the scan again.",
        )
    mesh = Mesh(vertices, faces.astype(np.int32))
    if not (face_areas(mesh) > 0).any():
        raise InputError(
            f"none of the {len(faces):,} faces has an area",
            place=name,
            remedy="The mesh has collapsed; export the scan again with more decimals.",
        )
    return mesh


def _check_numbers(vertices: Floats, raw: RawMesh, name: str) -> None:
    bad = ~np.isfinite(vertices).all(axis=1)
    if bad.any():
        vertex = int(np.flatnonzero(bad)[0])
        raise InputError(
            f"{int(bad.sum()):,} vertices hold values that are not finite numbers",
            place=f"{name}, {raw.place_of_vertex(vertex)}",
            remedy="Repair or export the scan again.",
        )
    if np.abs(vertices).max(initial=0.0) > 1e9:
        vertex = int(np.abs(vertices).max(axis=1).argmax())
        raise InputError(
            "a coordinate is larger than 1e9, which no scan reaches",
            place=f"{name}, {raw.place_of_vertex(vertex)}",
            remedy="The file is damaged; export the scan again.",
        )
