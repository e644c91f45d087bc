"""Read PDF files and tell what in them goes against PDF/A-2b, as far as that can be read off.

python tools/pdf_a.py FILE...      prints the faults; exit 1 where there is one

Read are: header and trailer, metadata, output intent, fonts, colour spaces, streams, images,
actions, annotations, transparency and tags. This is no validator: neither the syntax of content
streams nor the tables within fonts are looked at.

Source:
    ISO 19005-2:2011, clauses 6.1 to 6.7, from memory.
"""

from __future__ import annotations

import io
import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pypdf
from pypdf.generic import ArrayObject, ContentStream, DictionaryObject, IndirectObject, StreamObject

PDFAID = "{http://www.aiim.org/pdfa/ns/id/}"
DC = "{http://purl.org/dc/elements/1.1/}"
RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
ACTIONS = {"/GoTo", "/GoToR", "/GoToE", "/Thread", "/URI", "/Named", "/SubmitForm"}
FILTERS = {
    "/ASCIIHexDecode", "/ASCII85Decode", "/FlateDecode", "/RunLengthDecode", "/CCITTFaxDecode",
    "/JBIG2Decode", "/DCTDecode", "/JPXDecode",
}  # fmt: skip
BLENDS = {
    "/Normal", "/Compatible", "/Multiply", "/Screen", "/Overlay", "/Darken", "/Lighten",
    "/ColorDodge", "/ColorBurn", "/HardLight", "/SoftLight", "/Difference", "/Exclusion", "/Hue",
    "/Saturation", "/Color", "/Luminosity",
}  # fmt: skip
GRAY, RGB, CMYK = {b"g", b"G"}, {b"rg", b"RG"}, {b"k", b"K"}
Dict = dict[str, Any]


def main(words: list[str]) -> int:
    """Tell the faults of each file."""
    count = 0
    for word in words:
        found = faults(Path(word).read_bytes())
        count += len(found)
        print(f"{Path(word).name}: {'; '.join(found) or 'no fault found'}")
    return 1 if count else 0


def faults(content: bytes) -> list[str]:
    """What goes against PDF/A-2b; empty where nothing was found."""
    reader = pypdf.PdfReader(io.BytesIO(content))
    if "/Encrypt" in reader.trailer:
        return ["trailer: the file is encrypted"]
    objects = list(_objects(reader))
    root: Dict = reader.trailer["/Root"]
    checks: tuple[Callable[[], Iterator[str]], ...] = (
        lambda: _file(content, reader),
        lambda: _metadata(root),
        lambda: _intent(root, reader),
        lambda: _catalog(root),
        lambda: _each(objects),
        lambda: _tags(root),
    )
    return [fault for check in checks for fault in check()]


def _objects(reader: pypdf.PdfReader) -> Iterator[Any]:
    """Every dictionary and stream that can be reached from the trailer, once."""
    seen: set[int] = set()
    todo: list[Any] = [reader.trailer]
    while todo:
        one = todo.pop()
        if isinstance(one, IndirectObject):
            if one.idnum in seen:
                continue
            seen.add(one.idnum)
            one = one.get_object()
        if isinstance(one, DictionaryObject):
            yield one
            todo += [one.raw_get(key) for key in one]
        elif isinstance(one, ArrayObject):
            todo += list(one)


def _file(content: bytes, reader: pypdf.PdfReader) -> Iterator[str]:
    if not re.match(rb"%PDF-1\.[0-7]\r?\n%[\x80-\xff]{4}", content):
        yield "6.1.2: the header is not %PDF-1.n with a comment of four high bytes"
    if not re.search(rb"%%EOF\r?\n?\Z", content):
        yield "6.1.3: something follows the end of the file"
    given = reader.trailer.get("/ID")
    if given is None or len(given) != 2 or not all(len(bytes(_raw(part))) for part in given):
        yield "6.1.3: the trailer has no file identifier"


def _raw(text: Any) -> bytes:
    return bytes(getattr(text, "original_bytes", text))


def _metadata(root: Dict) -> Iterator[str]:
    if "/Metadata" not in root:
        yield "6.6.2: there is no metadata"
        return
    packet = root["/Metadata"].get_data()
    if re.search(rb"<\?xpacket begin=[^>]*\b(bytes|encoding)=", packet):
        yield "6.6.2: the packet's header names its bytes or encoding"
    try:
        tree = ElementTree.fromstring(packet.decode("utf-8"))
    except (UnicodeDecodeError, ElementTree.ParseError) as error:
        yield f"6.6.2: the metadata cannot be read: {error}"
        return
    told: dict[str, str] = {}
    for one in tree.iter():
        told.update({k: v for k, v in one.attrib.items() if k.startswith(PDFAID)})
        if one.tag.startswith(PDFAID):
            told[one.tag] = (one.text or "").strip()
    if told.get(f"{PDFAID}part") != "2" or told.get(f"{PDFAID}conformance") not in ("B", "U", "A"):
        yield f"6.6.4: the metadata do not say PDF/A-2 with a level: {told}"
    if tree.find(f".//{DC}title/{RDF}Alt/{RDF}li") is None:
        yield "6.6.2: the metadata name no title"


def _intent(root: Dict, reader: pypdf.PdfReader) -> Iterator[str]:
    used = set().union(*(_device_colours(page, reader) for page in reader.pages))
    intents = [one.get_object() for one in root.get("/OutputIntents", [])]
    own = [one for one in intents if one.get("/S") == "/GTS_PDFA1"]
    if not own:
        if used:
            yield f"6.2.4.3: colours of a device ({', '.join(sorted(used))}) without output intent"
        return
    if not own[0].get("/OutputConditionIdentifier"):
        yield "6.2.3: the output intent does not name its condition"
    profile = own[0].get("/DestOutputProfile")
    data = profile.get_object().get_data() if profile is not None else b""
    space = data[16:20]
    if data[36:40] != b"acsp" or data[8] > 4 or data[12:16] not in (b"prtr", b"mntr"):
        yield "6.2.3: the output intent holds no ICC profile of an output or a display"
    elif {b"RGB ": 3, b"GRAY": 1, b"CMYK": 4}.get(space) != profile.get_object().get("/N"):
        yield "6.2.3: the number of colours of the output intent is not that of its profile"
    wanted = {"RGB": b"RGB ", "CMYK": b"CMYK"}
    for kind in sorted(used & set(wanted)):
        if space != wanted[kind]:
            yield f"6.2.4.3: colours of a device ({kind}) that the output intent does not have"


def _device_colours(page: Any, reader: pypdf.PdfReader) -> set[str]:
    """Which device colour spaces a page's own content, forms and images use."""
    out: set[str] = set()
    todo, seen = [(page.get("/Contents"), page.get("/Resources", {}))], set()
    while todo:
        content, resources = todo.pop()
        resources = resources.get_object()
        if content is None:
            continue
        for operands, operator in ContentStream(content, reader).operations:
            name = operands[0] if operator in (b"cs", b"CS") and operands else ""
            if operator in GRAY or name == "/DeviceGray":
                out.add("grey")
            if operator in RGB or name == "/DeviceRGB":
                out.add("RGB")
            if operator in CMYK or name == "/DeviceCMYK":
                out.add("CMYK")
        for key, held in resources.get("/XObject", {}).items():
            form = held.get_object()
            if (id(form), key) in seen:
                continue
            seen.add((id(form), key))
            if form.get("/Subtype") == "/Form":
                todo.append((form, form.get("/Resources", resources)))
            space = form.get("/ColorSpace")
            names = {"/DeviceRGB": "RGB", "/DeviceCMYK": "CMYK", "/DeviceGray": "grey"}
            if isinstance(space, str) and space in names:
                out.add(names[space])
    return out


def _catalog(root: Dict) -> Iterator[str]:
    names = root.get("/Names", {})
    names = names.get_object() if names else {}
    if "/JavaScript" in names:
        yield "6.5.1: the file holds JavaScript"
    if "/EmbeddedFiles" in names:
        yield "6.8: the file holds other files, which may be of any kind"
    if "/AA" in root:
        yield "6.5.2: the catalogue holds additional actions"
    if "/OCProperties" in root and "/AS" in root["/OCProperties"].get("/D", {}):
        yield "6.9: layers are switched by themselves"
    form = root.get("/AcroForm")
    if form is not None and (form.get("/NeedAppearances") or "/XFA" in form):
        yield "6.4: the form is drawn by whoever reads it"


def _each(objects: list[Any]) -> Iterator[str]:
    for one in objects:
        if isinstance(one, StreamObject):
            yield from _stream(one)
        kind = one.get("/Type")
        if kind == "/Font":
            yield from _font(one)
        elif kind == "/ExtGState" or ("/BM" in one and "/S" not in one):
            yield from _state(one)
        elif kind == "/Annot" or one.get("/Subtype") in ("/Link", "/Widget"):
            yield from _annotation(one)
        if kind == "/Page" and "/AA" in one:
            yield "6.5.2: a page holds additional actions"
        action = one.get("/S")
        if (kind == "/Action" or "/JS" in one) and action not in ACTIONS:
            yield f"6.5.1: an action {action}"


def _stream(one: Any) -> Iterator[str]:
    if {"/F", "/FFilter", "/FDecodeParms"} & set(one):
        yield "6.1.7: a stream lies outside the file"
    filters = one.get("/Filter", [])
    for name in [filters] if isinstance(filters, str) else list(filters):
        if name not in FILTERS:
            yield f"6.1.7: a stream is packed by {name}"
    if one.get("/Subtype") == "/Image":
        if one.get("/Interpolate"):
            yield "6.2.8: an image is to be interpolated"
        if {"/Alternates", "/OPI"} & set(one):
            yield "6.2.8: an image stands for another"
    if one.get("/Subtype") == "/PS" or one.get("/Subtype2") == "/PS":
        yield "6.2.9: a PostScript object"


def _font(one: Any) -> Iterator[str]:
    kind, name = one.get("/Subtype"), one.get("/BaseFont", "a font without a name")
    if kind == "/Type3":
        return
    if kind == "/Type0":
        if "/ToUnicode" not in one:
            yield f"6.2.11.7: {name} does not say which characters it shows"
        below = one["/DescendantFonts"][0].get_object()
        encoding = one.get("/Encoding")
        if not isinstance(encoding, StreamObject) and encoding not in (
            "/Identity-H",
            "/Identity-V",
        ):
            yield f"6.2.11.3: {name} takes a table of characters that lies outside the file"
        if below.get("/Subtype") == "/CIDFontType2" and "/CIDToGIDMap" not in below:
            yield f"6.2.11.3: {name} does not map its characters to its shapes"
        return
    descriptor = one.get("/FontDescriptor")
    descriptor = descriptor.get_object() if descriptor is not None else {}
    if not {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor):
        yield f"6.2.11.4: {name} is not embedded"


def _state(one: Any) -> Iterator[str]:
    if "/TR" in one or one.get("/TR2", "/Default") != "/Default" or "/HTP" in one:
        yield "6.2.5: a graphics state holds a transfer function or a halftone phase"
    blend = one.get("/BM", "/Normal")
    for name in [blend] if isinstance(blend, str) else list(blend):
        if name not in BLENDS:
            yield f"6.2.10: a way of blending {name}"


def _annotation(one: Any) -> Iterator[str]:
    kind, flags = one.get("/Subtype"), int(one.get("/F", 0))
    if kind in ("/3D", "/Sound", "/Screen", "/Movie"):
        yield f"6.3.1: an annotation {kind}"
    if kind != "/Popup" and (not flags & 4 or flags & (1 | 2 | 32 | 256)):
        yield f"6.3.2: an annotation {kind} is not there to be printed"
    if kind not in ("/Popup", "/Link") and "/AP" not in one:
        yield f"6.3.3: an annotation {kind} has no appearance"
    if "/AA" in one:
        yield f"6.5.2: an annotation {kind} holds additional actions"


def _tags(root: Dict) -> Iterator[str]:
    """Where the file says that it is tagged, it must be."""
    marked = root.get("/MarkInfo")
    if marked is None or not marked.get("/Marked"):
        return
    tree = root.get("/StructTreeRoot")
    if tree is None or not tree.get("/K"):
        yield "tags: the file says that it is tagged, and has no tags"
    if not root.get("/Lang"):
        yield "tags: the file does not name its language"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
