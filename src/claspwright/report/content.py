"""What a report says, as plain values: the PDF and the review page are written from these."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch import Jaw
from claspwright.base import Finding, Floats, Point, Severity
from claspwright.geometry import IDENTITY, Mesh, Rigid
from claspwright.report.scene import STONE, Colour

SEVERITIES: tuple[Severity, ...] = ("stop", "look", "note")
SEVERITY_WORDS: dict[Severity, str] = {
    "stop": "must not go on",
    "look": "a person must judge",
    "note": "for the record",
}


@dataclass(frozen=True, slots=True)
class CaseFacts:
    """What the case sheet and the run say about the case; dates are text as they shall print."""

    id: str
    jaw: Jaw
    kennedy: str  # such as "Kennedy class II modification 1"
    missing: tuple[int, ...]
    not_replaced: tuple[int, ...] = ()
    prescription: tuple[str, ...] = ()  # further sentences, printed as they are
    alloy: str = ""
    prescribed: str = ""  # ISO 8601 date
    due: str = ""  # ISO 8601 date
    prescriber: str = ""
    laboratory: str = ""
    patient: str = ""  # a pseudonym
    version: str = ""  # of the program
    input_hashes: tuple[tuple[str, str], ...] = ()  # file name, SHA-256
    output_hashes: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure with its unit and where it comes from."""

    name: str
    value: float | str
    unit: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class ComponentRow:
    """One component in words, with its measures."""

    id: str
    words: str
    measures: tuple[Measure, ...] = ()


@dataclass(frozen=True, slots=True)
class BodyRow:
    """One body of the blocked-out model."""

    name: str  # such as "blockout.36"
    kind: str  # "blockout", "filled hollows", "relief", "ledges" or "bead line"
    words: str  # where it lies
    volume_mm3: float  # negative: cut away
    at: Point  # its middle, arch frame [mm]


@dataclass(frozen=True, slots=True)
class RoomRow:
    """Least room to the opposing arch over one place [mm]; inf where nothing opposes."""

    words: str
    closing_mm: float  # along +z of the arch frame; negative where teeth enter one another
    path_mm: float | None  # along the path of placement
    wanted_mm: float | None
    at: Point


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with its caption and the words for those who do not see it."""

    key: str  # "plan", "on the model ...", "alone ...", "survey ..."
    group: str  # "plan", "on the model", "alone" or "survey"
    png: bytes
    caption: str
    alt: str


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One mesh of the review page."""

    key: str  # "framework", "model", "blocked_out", "opposing"
    name: str
    mesh: Mesh
    colour: Colour = STONE
    shown: bool = True
    values: Floats | None = None  # (V,)
    values_name: str = ""
    values_unit: str = "mm"
    low: float = 0.0
    high: float = 1.0
    levels: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Track:
    """A polyline of the review page, such as a survey line."""

    name: str
    points: Floats  # (N, 3) arch frame [mm]
    closed: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class ReportContent:
    """Everything a report shows; places in the arch frame."""

    facts: CaseFacts
    path_words: str
    design_words: tuple[str, ...]
    measures: tuple[Measure, ...]
    components: tuple[ComponentRow, ...]
    findings: tuple[Finding, ...]
    pictures: tuple[Picture, ...] = ()
    parts: tuple[Part, ...] = ()
    tracks: tuple[Track, ...] = ()
    plan_svg: str = ""
    plan_alt: str = ""
    places: tuple[tuple[str, str, Floats], ...] = ()  # key, words, (3,) mm
    arch_to_scan: Rigid = IDENTITY  # for places that a reader sends back
    path_reasons: tuple[str, ...] = ()  # why this path of placement
    path_heads: tuple[str, ...] = ()  # of the columns of the table of scores
    path_scores: tuple[tuple[str, ...], ...] = ()  # its rows
    cone_svg: bytes = b""  # maps of the score over the cone of tilts
    bodies: tuple[BodyRow, ...] = ()  # of blockout and relief
    rooms: tuple[RoomRow, ...] = ()  # to the opposing arch
    rooms_words: str = ""  # how far the record bears them out

    def of(self, severity: Severity) -> tuple[Finding, ...]:
        """The findings of one severity, in the order given."""
        return tuple(f for f in self.findings if f.severity == severity)
