"""What is written reads back, here and by the consortium's own reader."""

from __future__ import annotations

import zipfile
from pathlib import Path

import lib3mf
import numpy as np
import pytest

from claspwright.formats import read_mesh, write_3mf, write_ply, write_stl
from claspwright.geometry import Mesh, ball, volume

BALL = ball(3.0, 0.5)


@pytest.mark.reference("binary STL: size 84 + 50 n (check-values J02)")
def test_stl_has_the_size_of_its_triangles_and_reads_back(tmp_path: Path) -> None:
    file = tmp_path / "ball.stl"
    write_stl(BALL, file)
    assert file.stat().st_size == 84 + 50 * len(BALL.faces)
    assert not file.read_bytes().startswith(b"solid")  # check-values J03
    assert volume(read_mesh(file)) == pytest.approx(volume(BALL), rel=1e-6)


def test_ply_reads_back_exactly(tmp_path: Path) -> None:
    write_ply(BALL, tmp_path / "ball.ply")
    again = read_mesh(tmp_path / "ball.ply")
    assert np.array_equal(again.vertices, BALL.vertices)
    assert np.array_equal(again.faces, BALL.faces)


@pytest.mark.reference("3MF Core Specification, as read by the consortium's lib3mf")
def test_3mf_is_read_by_the_reference_reader(tmp_path: Path) -> None:
    file = tmp_path / "ball.3mf"
    write_3mf(BALL, file)
    wrapper = lib3mf.get_wrapper()
    model = wrapper.CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(file))
    assert reader.GetWarningCount() == 0
    assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
    objects = model.GetMeshObjects()
    assert objects.MoveNext()
    read = objects.GetCurrentMeshObject()
    assert read.IsManifoldAndOriented()
    corners = np.array([tuple(v.Coordinates) for v in read.GetVertices()])
    faces = np.array([tuple(t.Indices) for t in read.GetTriangleIndices()])
    assert np.abs(corners - BALL.vertices).max() < 1e-5  # single precision in the reader
    assert volume(Mesh(corners, faces)) == pytest.approx(volume(BALL), rel=1e-5)


def test_the_same_mesh_gives_the_same_bytes(tmp_path: Path) -> None:
    for write in (write_stl, write_ply, write_3mf):
        write(BALL, tmp_path / "a")
        write(BALL, tmp_path / "b")
        assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()
    dates = {entry.date_time for entry in zipfile.ZipFile(tmp_path / "a").infolist()}
    assert dates == {(1980, 1, 1, 0, 0, 0)}
