"""3MF packages and DICOM encapsulated STL: what is read, and what is refused with a place."""

from __future__ import annotations

import zipfile
from ctypes import c_float, c_uint32
from pathlib import Path
from typing import Any

import lib3mf
import numpy as np
import pydicom
import pytest
from pydicom.dataset import FileDataset, FileMetaDataset
from pydicom.uid import ExplicitVRLittleEndian, generate_uid

from claspwright.base import InputError
from claspwright.formats import read_mesh, write_3mf, write_stl
from claspwright.geometry import ball, volume

BALL = ball(5.0, 1.0)
STL_CLASS = "1.2.840.10008.5.1.4.1.1.104.3"
CT_CLASS = "1.2.840.10008.5.1.4.1.1.2"


def dicom(path: Path, payload: bytes, *, kind: str = STL_CLASS, mime: str = "model/stl") -> Path:
    """A file with an encapsulated document, written by pydicom."""
    meta = FileMetaDataset()
    meta.MediaStorageSOPClassUID = pydicom.uid.UID(kind)
    meta.MediaStorageSOPInstanceUID = generate_uid(entropy_srcs=["test"])
    meta.TransferSyntaxUID = ExplicitVRLittleEndian
    held = FileDataset(str(path), {}, file_meta=meta, preamble=b"\0" * 128)
    held.SOPClassUID, held.SOPInstanceUID = kind, meta.MediaStorageSOPInstanceUID
    held.Modality, held.PatientName = "M3D", "Invented^Person"
    held.MIMETypeOfEncapsulatedDocument = mime
    held.EncapsulatedDocument = payload + b"\0" * (len(payload) % 2)
    held.save_as(path, enforce_file_format=True)
    return path


def stl_bytes(folder: Path) -> bytes:
    write_stl(BALL, folder / "plain.stl")
    return (folder / "plain.stl").read_bytes()


@pytest.mark.reference("DICOM PS3.3 A.85.1, as written by pydicom; check-values J50, J51")
@pytest.mark.parametrize("mime", ["model/stl", "application/sla"])
def test_a_dicom_file_gives_the_same_mesh_as_the_stl_in_it(tmp_path: Path, mime: str) -> None:
    payload = stl_bytes(tmp_path)
    got = read_mesh(dicom(tmp_path / "scan.dcm", payload, mime=mime))
    plain = read_mesh(tmp_path / "plain.stl")
    assert np.array_equal(got.vertices, plain.vertices)
    assert np.array_equal(got.faces, plain.faces)


def test_a_dicom_file_without_a_whole_stl_is_refused_with_its_place(tmp_path: Path) -> None:
    payload = stl_bytes(tmp_path)
    for file, words in (
        (dicom(tmp_path / "a.dcm", payload[:-60]), "no whole binary STL"),
        (dicom(tmp_path / "b.dcm", b""), "no whole binary STL"),
        (dicom(tmp_path / "c.dcm", payload, kind=CT_CLASS), "CT Image Storage"),
        (dicom(tmp_path / "d.dcm", payload, mime="application/pdf"), "application/pdf"),
    ):
        with pytest.raises(InputError, match=words) as caught:
            read_mesh(file)
        assert file.name in caught.value.place
        assert caught.value.remedy
    whole = dicom(tmp_path / "e.dcm", payload).read_bytes()
    (tmp_path / "f.dcm").write_bytes(whole[: len(whole) // 2])
    with pytest.raises(InputError, match=r"f\.dcm"):
        read_mesh(tmp_path / "f.dcm")


def test_a_package_comes_back_as_it_was_written(tmp_path: Path) -> None:
    write_3mf(BALL, tmp_path / "ball.3mf")
    got = read_mesh(tmp_path / "ball.3mf")
    assert np.allclose(got.vertices, BALL.vertices, atol=1e-5)
    assert np.array_equal(got.faces, BALL.faces)


@pytest.mark.reference("3MF Core Specification 3.4 and 4.2, as written by the consortium's lib3mf")
def test_units_places_and_parts_of_parts_are_kept(tmp_path: Path) -> None:
    library: Any = lib3mf  # it carries no types
    wrapper = library.get_wrapper()
    model = wrapper.CreateModel()
    model.SetUnit(library.ModelUnit.Inch)
    part = model.AddMeshObject()
    points = [library.Position((c_float * 3)(*map(float, p))) for p in BALL.vertices]
    corners = [library.Triangle((c_uint32 * 3)(*map(int, f))) for f in BALL.faces]
    part.SetGeometry(points, corners)
    whole = model.AddComponentsObject()
    whole.AddComponent(part, wrapper.GetTranslationTransform(10.0, 0.0, 0.0))
    whole.AddComponent(part, wrapper.GetUniformScaleTransform(2.0))
    model.AddBuildItem(whole, wrapper.GetTranslationTransform(0.0, 7.0, 0.0))
    model.QueryWriter("3mf").WriteToFile(str(tmp_path / "two.3mf"))
    got = read_mesh(tmp_path / "two.3mf")
    assert volume(got) == pytest.approx(9.0 * 25.4**3 * volume(BALL), rel=1e-5)
    middle = got.vertices[: len(BALL.vertices)].mean(axis=0) - 25.4 * BALL.vertices.mean(axis=0)
    assert middle == pytest.approx(25.4 * np.array([10.0, 7.0, 0.0]), abs=1e-3)


def test_broken_packages_are_refused(tmp_path: Path) -> None:
    write_3mf(BALL, tmp_path / "ball.3mf")
    data = (tmp_path / "ball.3mf").read_bytes()
    (tmp_path / "cut.3mf").write_bytes(data[: len(data) // 2])
    with zipfile.ZipFile(tmp_path / "bad.3mf", "w") as archive:
        archive.writestr("3D/3dmodel.model", "<model>nothing")
    with zipfile.ZipFile(tmp_path / "office.zip", "w") as archive:
        archive.writestr("word/document.xml", "<a/>")
    for name, words in (
        ("cut.3mf", "zip archive"),
        ("bad.3mf", "cannot be read"),
        ("office.zip", "zip archive"),
    ):
        with pytest.raises(InputError, match=words) as caught:
            read_mesh(tmp_path / name)
        assert name in caught.value.place
