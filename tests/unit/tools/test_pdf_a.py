"""What goes against PDF/A is found in a file, and nothing in the laboratory's documents."""

from __future__ import annotations

import importlib.util
import io
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pypdf
import pytest
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    NameObject,
    NumberObject,
)

from claspwright.report import Laboratory, recall_list, write_paper

ROOT = Path(__file__).resolve().parents[3]
LAB = Laboratory(
    "Invented Dental Laboratory", "1 Nowhere Lane, Anytown", ("2 Nowhere Lane, Anytown",),
    "Represented Ltd, Brussels", "A. Technician", "Nowhere", "REG-0",
)  # fmt: skip
N, D = NameObject, DictionaryObject


@pytest.fixture(scope="module")
def checks() -> ModuleType:
    spec = importlib.util.spec_from_file_location("pdf_a", ROOT / "tools" / "pdf_a.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["pdf_a"] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def document() -> bytes:
    rows = [("F-1", "C-1", "P-17", "Dr. I", "B-1")]
    return write_paper(recall_list(LAB, "lot:L-1", rows, "2026-11-27"))


def rewritten(document: bytes, spoil: Callable[[pypdf.PdfWriter], None]) -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(document))
    spoil(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def fonts(writer: pypdf.PdfWriter) -> list[D]:
    return [one.get_object() for one in writer.pages[0]["/Resources"]["/Font"].values()]  # type: ignore[index,union-attr]


def no_intent(writer: pypdf.PdfWriter) -> None:
    """With a colour of the device, which means nothing without it."""
    del writer.root_object["/OutputIntents"]
    red = DecodedStreamObject()
    red.set_data(b"1 0 0 rg 0 0 9 9 re f")
    writer.pages[0][N("/Contents")] = writer._add_object(red)


def no_metadata(writer: pypdf.PdfWriter) -> None:
    del writer.root_object["/Metadata"]


def another_part(writer: pypdf.PdfWriter) -> None:
    packet = writer.root_object["/Metadata"].get_object()
    said = packet.get_data()
    assert b"<pdfaid:part>2" in said
    fresh = DecodedStreamObject()
    fresh.set_data(said.replace(b"<pdfaid:part>2", b"<pdfaid:part>9"))
    writer.root_object[N("/Metadata")] = writer._add_object(fresh)


def bare_font(writer: pypdf.PdfWriter) -> None:
    below = fonts(writer)[0]["/DescendantFonts"][0].get_object()  # type: ignore[index]
    descriptor = below["/FontDescriptor"].get_object()
    for key in ("/FontFile", "/FontFile2", "/FontFile3"):
        descriptor.pop(key, None)


def mute_font(writer: pypdf.PdfWriter) -> None:
    del fonts(writer)[0]["/ToUnicode"]


def with_script(writer: pypdf.PdfWriter) -> None:
    writer.root_object[N("/Names")] = D({N("/JavaScript"): D({N("/Names"): ArrayObject()})})


def with_launch(writer: pypdf.PdfWriter) -> None:
    launch = D({N("/Type"): N("/Action"), N("/S"): N("/Launch")})
    writer.root_object[N("/OpenAction")] = launch


def untagged(writer: pypdf.PdfWriter) -> None:
    del writer.root_object["/StructTreeRoot"]


def with_note(writer: pypdf.PdfWriter) -> None:
    note = D({N("/Type"): N("/Annot"), N("/Subtype"): N("/Text"), N("/F"): NumberObject(0)})
    writer.pages[0][N("/Annots")] = ArrayObject([writer._add_object(note)])


def locked(writer: pypdf.PdfWriter) -> None:
    writer.encrypt("a word", algorithm="RC4-128")


CASES = {
    "without output intent": no_intent, "there is no metadata": no_metadata,
    "do not say PDF/A-2": another_part, "is not embedded": bare_font,
    "does not say which characters": mute_font, "holds JavaScript": with_script,
    "an action /Launch": with_launch, "has no tags": untagged,
    "not there to be printed": with_note, "encrypted": locked,
}  # fmt: skip


@pytest.mark.parametrize("said", CASES)
def test_each_fault_is_told(checks: ModuleType, document: bytes, said: str) -> None:
    found = checks.faults(rewritten(document, CASES[said]))
    assert any(said in fault for fault in found), found


def test_a_file_that_goes_on_after_its_end_or_has_no_identifier(
    checks: ModuleType, document: bytes
) -> None:
    assert any("follows the end" in fault for fault in checks.faults(document + b"more"))
    bare = document.replace(b"/ID", b"/Id")
    assert bare != document
    assert any("no file identifier" in fault for fault in checks.faults(bare))


def test_a_document_of_the_laboratory_has_no_fault(
    checks: ModuleType, document: bytes, tmp_path: Path
) -> None:
    assert checks.faults(document) == []
    file = tmp_path / "recall.pdf"
    file.write_bytes(document)
    assert checks.main([str(file)]) == 0
    file.write_bytes(rewritten(document, no_intent))
    assert checks.main([str(file)]) == 1
