"""The sheet that goes to the machine with a platform, set by typst."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from claspwright.base import Finding
from claspwright.report.cautions import CAUTIONS
from claspwright.report.typesetting import typeset

NOT_VALIDATED = (
    "The layer files of this build follow published syntax, but have not been validated on any "
    "machine. Solids with supports as 3MF and STL are what the machine's own software takes. "
    "Powers, speeds and offsets come from the process record that the laboratory keeps."
)


@dataclass(frozen=True, slots=True)
class SheetPart:
    """One line of the part list."""

    number: int
    name: str
    due: str
    figures: tuple[str, ...]  # in the order of SheetContent.columns
    orientation: str  # in words


@dataclass(frozen=True, slots=True)
class SheetDistortion:
    """What the model expects of one part."""

    part: str
    words: str
    rows: tuple[tuple[str, str, str, str], ...]  # place, kind, before and after relief [mm]
    png: bytes


@dataclass(frozen=True, slots=True)
class SheetContent:
    """Everything that one build sheet says."""

    title: str
    machine: str
    process: str
    facts: tuple[tuple[str, str], ...]
    columns: tuple[str, ...]
    parts: tuple[SheetPart, ...]
    findings: tuple[tuple[str, Finding], ...]  # name of the part, and what was found
    map_svg: str
    times_svg: str
    film_png: bytes
    landscapes: Mapping[str, str] = field(default_factory=dict)  # name of the part -> SVG
    distortions: tuple[SheetDistortion, ...] = ()
    version: str = ""


def write_build_sheet(content: SheetContent) -> bytes:
    """The sheet as PDF/A-2a and PDF/UA-1; the same content gives the same bytes."""
    pictures = {
        "map.svg": content.map_svg.encode(),
        "times.svg": content.times_svg.encode(),
        "film.png": content.film_png,
    }
    shown = []
    for n, (part, svg) in enumerate(content.landscapes.items()):
        pictures[f"landscape{n}.svg"] = svg.encode()
        shown.append({"file": f"landscape{n}.svg", "name": part})
    bent = []
    for n, one in enumerate(content.distortions):
        pictures[f"distortion{n}.png"] = one.png
        rows = [list(row) for row in one.rows]
        bent.append(
            {"file": f"distortion{n}.png", "name": one.part, "words": one.words, "rows": rows}
        )
    words = {**_words(content), "landscapes": shown, "distortions": bent}
    return typeset("build.typ", words, pictures)


def _words(content: SheetContent) -> dict[str, object]:
    return {
        "title": content.title,
        "machine": content.machine,
        "process": content.process,
        "facts": [list(pair) for pair in content.facts],
        "columns": list(content.columns),
        "parts": [
            {
                "number": part.number,
                "name": part.name,
                "due": part.due,
                "figures": list(part.figures),
                "orientation": part.orientation,
            }
            for part in content.parts
        ],
        "findings": [
            {"part": name, "severity": one.severity, "text": one.text, "source": one.source}
            for name, one in _in_order(content.findings)
        ],
        "not_validated": NOT_VALIDATED,
        "cautions": [[c.heading, c.text] for c in CAUTIONS],
        "version": content.version,
    }


def _in_order(findings: Sequence[tuple[str, Finding]]) -> list[tuple[str, Finding]]:
    rank = {"stop": 0, "look": 1, "note": 2}
    return sorted(findings, key=lambda pair: (rank[pair[1].severity], pair[0]))
