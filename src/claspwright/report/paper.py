"""A document of the laboratory as a value, and its setting as PDF/A."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import Any, Literal

import segno

from claspwright.report.typesetting import typeset


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
    """The document as PDF/A-2a; the same content gives the same bytes."""
    blocks = [_written(block, _picture_name(n, block)) for n, block in enumerate(paper.blocks)]
    words = {
        "title": paper.title, "number": paper.number, "author": paper.author,
        "date": paper.date, "notice": paper.notice, "size": paper.size, "blocks": blocks,
    }  # fmt: skip
    pictures = {
        _picture_name(n, block): block.content
        for n, block in enumerate(paper.blocks)
        if isinstance(block, Drawing)
    }
    return typeset("paper.typ", words, pictures)


def qr_code(text: str) -> bytes:
    """A QR code as SVG; a quarter of it may be spoilt."""
    out = BytesIO()
    segno.make(text, error="q", micro=False).save(out, kind="svg", border=1, scale=4)
    return out.getvalue()


def _picture_name(number: int, block: Block) -> str:
    """Name of the file that a drawing is set from; empty for every other block."""
    return f"picture{number}.{block.kind}" if isinstance(block, Drawing) else ""


def _written(block: Block, file: str) -> dict[str, Any]:  # Any: for JSON
    kind = _KINDS[type(block)]
    if isinstance(block, Drawing):
        caption = {"alt": block.alt, "caption": block.caption, "share": block.share}
        return {"kind": kind, "file": file, **caption}
    if isinstance(block, Fields):
        pairs = [[name, value or TO_FILL_IN] for name, value in block.pairs]
        return {"kind": kind, "pairs": pairs}
    return {"kind": kind, **{name: getattr(block, name) for name in type(block).__slots__}}
