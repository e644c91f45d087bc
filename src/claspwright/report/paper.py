"""A document of the laboratory as a value, and its setting as PDF/A."""

from __future__ import annotations

import json
import re
import tempfile
from dataclasses import dataclass
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import Any, Literal

import segno
import typst


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading within the document."""

    text: str


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph."""

    text: str


@dataclass(frozen=True, slots=True)
class Notice:
    """A caution that stands out."""

    heading: str
    text: str


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes to tick by hand."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fields:
    """Names and values; a value that is missing prints as a line to fill in."""

    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table with a header."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Sign:
    """Lines to sign on."""

    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture with words for those who do not see it."""

    content: bytes
    alt: str
    caption: str = ""
    kind: Literal["png", "svg"] = "png"
    share: float = 1.0  # of the width of the page


Block = Heading | Text | Notice | Bullets | Boxes | Fields | Table | Sign | Drawing
_KINDS = {
    Heading: "heading", Text: "text", Notice: "caution", Bullets: "bullets", Boxes: "boxes",
    Fields: "fields", Table: "table", Sign: "sign", Drawing: "picture",
}  # fmt: skip
TO_FILL_IN = "……………………"


@dataclass(frozen=True, slots=True)
class Paper:
    """One document."""

    key: str  # such as "work-ticket": the name of its file
    title: str
    number: str
    author: str  # the laboratory
    date: str
    blocks: tuple[Block, ...]
    notice: str  # what the user must check against local law, on every page
    size: Literal["a4", "label"] = "a4"


def write_paper(paper: Paper) -> bytes:
    """The document as PDF/A-2b; the same content gives the same bytes."""
    template = files("claspwright.report").joinpath("templates/paper.typ").read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "paper.typ").write_bytes(template)
        blocks = [_written(block, n, folder) for n, block in enumerate(paper.blocks)]
        words = {
            "title": paper.title, "number": paper.number, "author": paper.author,
            "date": paper.date, "notice": paper.notice, "size": paper.size, "blocks": blocks,
            "day": _day(paper.date),
        }  # fmt: skip
        text = json.dumps(words, ensure_ascii=False, sort_keys=True)
        (folder / "words.json").write_text(text, encoding="utf-8")
        made = typst.compile(
            str(folder / "paper.typ"), root=str(folder), format="pdf", ignore_system_fonts=True,
            pdf_standards=["a-2b"], timestamp=0,
        )  # fmt: skip
    return bytes(made)


def qr_code(text: str) -> bytes:
    """A QR code as SVG; a quarter of it may be spoilt."""
    out = BytesIO()
    segno.make(text, error="q", micro=False).save(out, kind="svg", border=1, scale=4)
    return out.getvalue()


def _written(block: Block, number: int, folder: Path) -> dict[str, Any]:  # Any: for JSON
    kind = _KINDS[type(block)]
    if isinstance(block, Drawing):
        file = f"picture{number}.{block.kind}"
        (folder / file).write_bytes(block.content)
        caption = {"alt": block.alt, "caption": block.caption, "share": block.share}
        return {"kind": kind, "file": file, **caption}
    if isinstance(block, Fields):
        pairs = [[name, value or TO_FILL_IN] for name, value in block.pairs]
        return {"kind": kind, "pairs": pairs}
    return {"kind": kind, **{name: getattr(block, name) for name in type(block).__slots__}}


def _day(date: str) -> list[int]:
    """Year, month and day, which PDF/A asks for; the first of 1970 where no date is told."""
    found = re.match(r"(\d{4})-(\d{2})-(\d{2})", date)
    return [int(part) for part in found.groups()] if found else [1970, 1, 1]
