"""Mesh files: what is read, and how bad files are refused."""

from __future__ import annotations

import time
from pathlib import Path

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh, volume

TETRAHEDRON = Mesh(
    np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], dtype=np.float64),
    np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]], dtype=np.int32),
)


def ascii_stl(mesh: Mesh) -> str:
    lines = ["solid demo"]
    for corners in mesh.corners:
        lines += ["facet normal 0 0 0", "outer loop"]
        lines += [f"vertex {x} {y} {z}" for x, y, z in corners]
        lines += ["endloop", "endfacet"]
    return "\n".join([*lines, "endsolid demo", ""])


def ply_text(vertices: str, faces: str, n: int, m: int, kind: str = "ascii") -> str:
    return (
        f"ply\nformat {kind} 1.0\nelement vertex {n}\nproperty float x\nproperty float y\n"
        f"property float z\nelement face {m}\nproperty list uchar int vertex_indices\n"
        f"end_header\n{vertices}{faces}"
    )


POINTS = "0 0 0\n1 0 0\n0 1 0\n0 0 1\n"


@pytest.mark.reference("check-values J01, J02: 84 + 50 n bytes, tetrahedron 284")
def test_binary_stl_is_known_by_its_size_whatever_it_is_called(tmp_path: Path) -> None:
    file = tmp_path / "scan.dat"
    write_stl(TETRAHEDRON, file)
    assert file.stat().st_size == 284
    content = bytearray(file.read_bytes())
    content[:5] = b"solid"  # J03: some writers do this
    file.write_bytes(content)
    mesh = read_mesh(file)
    assert (len(mesh.vertices), len(mesh.faces)) == (4, 4)
    assert volume(mesh) == pytest.approx(1 / 6)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.stl", ascii_stl(TETRAHEDRON)),
        ("a.ply", ply_text(POINTS, "3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n", 4, 4)),
        ("a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4\n"),
        ("b.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf -4 -2 -3\nf 1 2 4\nf 1 4 3\nf 2 3 4\n"),
    ],
)
def test_text_formats_give_the_same_tetrahedron(tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / name).write_text(text)
    mesh = read_mesh(tmp_path / name)
    assert (len(mesh.vertices), len(mesh.faces)) == (4, 4)
    assert volume(mesh) == pytest.approx(1 / 6)


def test_quads_of_an_obj_are_split(tmp_path: Path) -> None:
    (tmp_path / "q.obj").write_text("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4\n")
    mesh = read_mesh(tmp_path / "q.obj")
    assert (len(mesh.vertices), len(mesh.faces)) == (4, 2)


def test_quads_and_triangles_together(tmp_path: Path) -> None:
    lines = ["v 0 0 0", "v 1 0 0", "v 1 1 0", "v 0 1 0", "v 2 0 0", "f 1 2 3 4", "f 2 5 3"]
    (tmp_path / "m.obj").write_text("\n".join([*lines, ""]))
    mesh = read_mesh(tmp_path / "m.obj")
    assert (len(mesh.vertices), len(mesh.faces)) == (5, 3)


def binary_ply(faces: bytes, m: int) -> bytes:
    vertices = TETRAHEDRON.vertices.astype("<f4").tobytes()
    return ply_text("", "", 4, m, "binary_little_endian").encode() + vertices + faces


def face(*corners: int) -> bytes:
    return bytes([len(corners)]) + np.array(corners, dtype="<i4").tobytes()


GOOD = binary_ply(face(0, 2, 1) + face(0, 1, 3) + face(0, 3, 2) + face(1, 2, 3), 4)


def test_binary_ply(tmp_path: Path) -> None:
    (tmp_path / "a.ply").write_bytes(GOOD)
    assert volume(read_mesh(tmp_path / "a.ply")) == pytest.approx(1 / 6)


def stl_bytes(n_said: int, n_there: int) -> bytes:
    facet = np.zeros(12, dtype="<f4")
    facet[3:] = [0, 0, 0, 1, 0, 0, 0, 1, 0]
    return bytes(80) + n_said.to_bytes(4, "little") + (facet.tobytes() + b"\0\0") * n_there


def nan_stl() -> bytes:
    content = bytearray(stl_bytes(2, 2))
    content[84 + 50 + 12 : 84 + 50 + 16] = np.array([np.nan], dtype="<f4").tobytes()
    return bytes(content)


def flat_stl() -> bytes:
    return bytes(80) + (3).to_bytes(4, "little") + bytes(150)


BAD = {
    "empty.stl": (b"", "empty", "empty.stl"),
    "short.stl": (b"\0" * 40, "84 bytes", "short.stl"),
    "cut.stl": (stl_bytes(10, 4), "announces 10 triangles", "triangle 4"),
    "bomb.stl": (stl_bytes(4_000_000_000, 1), "limit is 4,000,000", "byte 80"),
    "nan.stl": (nan_stl(), "not finite", "triangle 1"),
    "flat.stl": (flat_stl(), "has an area", "flat.stl"),
    "photo.stl": (b"\xff\xd8\xff\xe0" + b"\0" * 500, "JPEG", "photo.stl"),
    "letter.stl": (b"%PDF-1.7\n" + b"x" * 500, "PDF", "letter.stl"),
    "note.stl": (b"dear colleague, please find the scan attached\n", "neither STL", "byte 0"),
    "cut_text.stl": (ascii_stl(TETRAHEDRON)[:200].encode(), "ends after", "line"),
    "word.stl": (ascii_stl(TETRAHEDRON).replace("1.0", "one", 1).encode(), "three numbers", "line"),
    "cloud.ply": (ply_text(POINTS, "", 4, 0).encode(), "no faces", "cloud.ply"),
    "cut.ply": (GOOD[:-20], "ends after 2 of 4", "face 2"),
    "mixed.ply": (binary_ply(face(0, 2, 1) + face(0, 1, 3, 2), 2), "different numbers", "face 1"),
    "bomb.ply": (ply_text(POINTS, "3 0 1 2\n", 4_000_000_000, 1).encode(), "announces", "vertex"),
    "big.ply": (ply_text(POINTS, "3 0 1 2\n", 4, 10_000_000).encode(), "limit is", "face"),
    "head.ply": (b"ply\nformat ascii 1.0\nelement vertex many\nend_header\n", "makes no", "line 3"),
    "index.ply": (binary_ply(face(0, 2, 9), 1), "outside the 4 vertices", "face 0"),
    "nan.ply": (ply_text("0 0 0\n1 0 nan\n0 1 0\n0 0 1\n", "3 0 1 2\n", 4, 1).encode(),
                "not finite", "line 11"),
    "index.obj": (b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 7\n", "outside the 3", "line 4"),
    "nan.obj": (b"v 0 0 0\nv 1 0 nan\nv 0 1 0\nf 1 2 3\n", "finite", "line 2"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_bad_files_say_what_where_and_what_to_do(tmp_path: Path, name: str) -> None:
    content, what, place = BAD[name]
    file = tmp_path / name
    file.write_bytes(content)
    start = time.perf_counter()
    with pytest.raises(InputError) as caught:
        read_mesh(file)
    assert what in str(caught.value)
    assert place in caught.value.place
    assert name in caught.value.place
    assert caught.value.remedy
    assert time.perf_counter() - start < 5.0


def test_missing_file_and_folder(tmp_path: Path) -> None:
    for path in (tmp_path / "none.stl", tmp_path):
        with pytest.raises(InputError):
            read_mesh(path)


def test_ten_million_triangles_are_refused_before_they_are_read(tmp_path: Path) -> None:
    file = tmp_path / "huge.stl"
    with file.open("wb") as out:  # a sparse file: it takes no room on most disks
        out.write(bytes(80) + (10_000_000).to_bytes(4, "little"))
        out.truncate(84 + 50 * 10_000_000)
    start = time.perf_counter()
    with pytest.raises(InputError, match="limit"):
        read_mesh(file)
    assert time.perf_counter() - start < 1.0


def test_a_text_bomb_is_refused_by_its_size(tmp_path: Path) -> None:
    file = tmp_path / "bomb.stl"
    with file.open("wb") as out:
        out.write(ascii_stl(TETRAHEDRON).encode() * 20)
        out.truncate(2_000_000_000)
    start = time.perf_counter()
    with pytest.raises(InputError, match="limit"):
        read_mesh(file)
    assert time.perf_counter() - start < 1.0
