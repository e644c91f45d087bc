"""PLY, ASCII and binary.

The header is read here, so that a file that announces more than it holds is refused before
memory is taken; text bodies go through trimesh, binary bodies through numpy, because trimesh
takes all faces of a binary file to have as many corners as the first.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError, Ints
from claspwright.formats.text import MAX_FACES, RawMesh, read_all, split_polygon, too_many

TYPES = {
    "char": "i1", "int8": "i1", "uchar": "u1", "uint8": "u1",
    "short": "i2", "int16": "i2", "ushort": "u2", "uint16": "u2",
    "int": "i4", "int32": "i4", "uint": "u4", "uint32": "u4",
    "float": "f4", "float32": "f4", "double": "f8", "float64": "f8",
}  # fmt: skip
AGAIN = "The file is damaged or was cut off; export or copy the scan again."
MAX_HEADER = 65_536


@dataclass(slots=True)
class _Element:
    name: str
    count: int
    fields: list[tuple[str, str, str]]  # name, type of the list length or "", type of the values


@dataclass(frozen=True, slots=True)
class _Header:
    order: str  # "ascii", "<" or ">"
    elements: list[_Element]
    size: int  # bytes
    lines: int


def read_ply(path: Path) -> RawMesh:
    """Read vertices and faces; all other elements and properties are passed over."""
    header = _header(path)
    size = path.stat().st_size
    for element in header.elements:
        _check_count(element, size - header.size, header.order, path.name)
    names = [element.name for element in header.elements]
    if "vertex" not in names:
        raise InputError("the header names no vertices", place=path.name, remedy=AGAIN)
    if header.order == "ascii":
        return _ascii(path, header)
    return _binary(path, header)


def _header(path: Path) -> _Header:
    with path.open("rb") as file:
        head = file.read(MAX_HEADER)
    end = head.find(b"end_header")
    if end < 0:
        raise InputError(
            "the header has no `end_header`", place=f"{path.name}, line 1", remedy=AGAIN
        )
    stop = end + len(b"end_header")
    stop += 2 if head[stop : stop + 2] == b"\r\n" else 1
    order, elements = "", []
    lines = head[:end].decode("latin-1").splitlines()
    for number, line in enumerate(lines, start=1):
        words = line.split()
        try:
            if words[:1] == ["format"]:
                order = {
                    "ascii": "ascii", "binary_little_endian": "<", "binary_big_endian": ">"
                }[words[1]]  # fmt: skip
            elif words[:1] == ["element"]:
                elements.append(_Element(words[1], int(words[2]), []))
            elif words[:2] == ["property", "list"]:
                elements[-1].fields.append((words[4], TYPES[words[2]], TYPES[words[3]]))
            elif words[:1] == ["property"]:
                elements[-1].fields.append((words[2], "", TYPES[words[1]]))
        except (KeyError, IndexError, ValueError) as error:
            raise InputError(
                f"the header line `{line[:60]}` makes no sense",
                place=f"{path.name}, line {number}",
                remedy=AGAIN,
            ) from error
    if not order:
        raise InputError("the header names no format", place=f"{path.name}, line 2", remedy=AGAIN)
    return _Header(order, elements, stop, len(lines) + 1)


def _check_count(element: _Element, room: int, order: str, name: str) -> None:
    """Refuse counts that cannot fit into the rest of the file, and counts over the limit."""
    place = f"{name}, element {element.name}"
    if element.name == "face":
        too_many(element.count, place)
    if order == "ascii":
        least = 2 * sum(2 if length else 1 for _, length, _ in element.fields)
    else:
        least = sum(np.dtype(length or kind).itemsize for _, length, kind in element.fields)
    if element.count < 0 or element.count * max(1, least) > room + 1:
        raise InputError(
            f"the header announces {element.count:,} of `{element.name}`, "
            f"but only {room:,} bytes follow",
            place=place,
            remedy=AGAIN,
        )
    if element.count > 3 * MAX_FACES:
        too_many(element.count, place)


def _ascii(path: Path, header: _Header) -> RawMesh:
    from trimesh.exchange.ply import load_ply  # slow to import

    data = read_all(path)
    try:
        loaded = load_ply(io.BytesIO(data), skip_materials=True, fix_texture=False)
        vertices = np.asarray(loaded["vertices"], dtype=np.float64).reshape(-1, 3)
        faces = np.asarray(loaded.get("faces", np.empty((0, 3))), dtype=np.int32)
        faces = faces.reshape(-1, faces.shape[1] if faces.ndim == 2 and faces.size else 3)
    except (ValueError, IndexError, KeyError, TypeError, AttributeError) as error:
        raise InputError(
            "the numbers do not fit the header", place=_short_line(data, header, path.name),
            remedy=AGAIN,
        ) from error  # fmt: skip
    want = {element.name: element.count for element in header.elements}
    if len(vertices) != want["vertex"] or len(faces) < want.get("face", 0):
        raise InputError(
            f"the text ends after {len(vertices):,} of {want['vertex']:,} vertices and "
            f"{len(faces):,} of {want.get('face', 0):,} faces",
            place=_short_line(data, header, path.name),
            remedy=AGAIN,
        )
    first = header.lines + 1 if header.elements[0].name == "vertex" else 0
    return RawMesh(vertices, _triangles(faces), first_line=first)


def _short_line(data: bytes, header: _Header, name: str) -> str:
    """The first line whose number of words does not fit its element."""
    lines = data[header.size :].splitlines()
    at = 0
    for element in header.elements:
        for row in range(element.count):
            words = lines[at].split() if at < len(lines) else []
            scalars = sum(1 for _, length, _ in element.fields if not length)
            if len(words) < scalars or (not scalars and not words):
                return f"{name}, line {header.lines + 1 + at} ({element.name} {row})"
            at += 1
    return f"{name}, line {header.lines + len(lines)}"


def _triangles(faces: Ints) -> Ints:
    return faces if faces.shape[1] == 3 else split_polygon(faces)


def _binary(path: Path, header: _Header) -> RawMesh:
    data = np.memmap(path, dtype=np.uint8, mode="r", offset=header.size)
    at = 0
    vertices: Floats = np.empty((0, 3))
    faces: Ints = np.empty((0, 3), dtype=np.int32)
    for element in header.elements:
        if element.count == 0:
            continue
        rows = _rows(data[at:], element, header, path.name)
        at += rows.nbytes
        if element.name == "vertex":
            names = rows.dtype.names or ()
            if not {"x", "y", "z"} <= set(names):
                raise InputError("vertices have no x, y, z", place=path.name, remedy=AGAIN)
            vertices = np.stack([rows[axis].astype(np.float64) for axis in "xyz"], axis=1)
        elif element.name == "face":
            faces = _faces(rows, path.name)
    return RawMesh(vertices, _triangles(faces))


def _rows(data: NDArray[Any], element: _Element, header: _Header, name: str) -> NDArray[Any]:
    """The rows of an element; lists must be as long in every row as in the first."""
    parts: list[tuple[str, str] | tuple[str, str, int]] = []
    for field, length, kind in element.fields:
        if not length:
            parts.append((field, header.order + kind))
            continue
        before = np.dtype(parts).itemsize if parts else 0
        count = np.dtype(header.order + length)
        raw = bytes(data[before : before + count.itemsize])
        corners = int(np.frombuffer(raw, dtype=count)[0]) if len(raw) == count.itemsize else 0
        if not 0 <= corners <= 64:
            raise InputError(
                f"the first {element.name} has a list of {corners:,} values",
                place=f"{name}, {element.name} 0",
                remedy=AGAIN,
            )
        parts += [(field + "#", header.order + length), (field, header.order + kind, corners)]
    dtype = np.dtype(parts)
    have = len(data) // max(1, dtype.itemsize)
    fits = min(have, element.count)
    rows = np.frombuffer(data[: fits * dtype.itemsize].tobytes(), dtype=dtype)
    for field, length, _ in element.fields:
        if length and len(rows) and (rows[field + "#"] != rows[field + "#"][0]).any():
            odd = int(np.flatnonzero(rows[field + "#"] != rows[field + "#"][0])[0])
            raise InputError(
                f"the {element.name}s have different numbers of corners",
                place=f"{name}, {element.name} {odd}",
                remedy="Split all polygons into triangles when exporting.",
            )
    if have < element.count:
        raise InputError(
            f"the file ends after {have:,} of {element.count:,} of `{element.name}`",
            place=f"{name}, {element.name} {have}",
            remedy=AGAIN,
        )
    return rows


def _faces(rows: NDArray[Any], name: str) -> Ints:
    for field in ("vertex_indices", "vertex_index"):
        if field in (rows.dtype.names or ()):
            faces = np.clip(rows[field].astype(np.int64), -1, 2**31 - 1).astype(np.int32)
            if faces.ndim == 2 and faces.shape[1] >= 3:
                return faces
            raise InputError(
                "faces have fewer than three corners", place=f"{name}, face 0", remedy=AGAIN
            )
    raise InputError("faces have no vertex indices", place=name, remedy=AGAIN)
