"""The design of one framework in words of the trade: no coordinates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from claspwright.arch import Jaw
from claspwright.base import Finding

RestForm = Literal[
    "mesial occlusal",
    "distal occlusal",
    "cingulum",
    "mesial extended occlusal",
    "distal extended occlusal",
    "mesial embrasure",
    "distal embrasure",
    "mesial incisal",
    "distal incisal",
    "onlay",
]
ClaspForm = Literal[
    "circumferential",
    "half-and-half",
    "ring",
    "back-action",
    "embrasure",
    "I-bar",
    "T-bar",
    "modified T-bar",
    "Y-bar",
    "wrought wire",
]
BARS: frozenset[ClaspForm] = frozenset(("I-bar", "T-bar", "modified T-bar", "Y-bar"))
ConnectorForm = Literal[
    "lingual bar",
    "lingual plate",
    "sublingual bar",
    "cingulum bar",
    "labial bar",
    "palatal strap",
    "anterior-posterior strap",
    "U-shaped palatal connector",
    "full palatal plate",
]
PALATAL: frozenset[ConnectorForm] = frozenset(
    (
        "palatal strap",
        "anterior-posterior strap",
        "U-shaped palatal connector",
        "full palatal plate",
    )
)


def jaw_of_form(form: ConnectorForm) -> Jaw:
    """The jaw in which a form of major connector can be made."""
    return "maxilla" if form in PALATAL else "mandible"


Retention = Literal["lattice", "fine mesh", "metal base with beads", "metal base with posts"]
Side = Literal["buccal", "lingual"]
End = Literal["mesial", "distal"]


COURSE_FORMS: frozenset[ClaspForm] = frozenset(("circumferential", "half-and-half", "embrasure"))
MOST_COURSE = 3  # places that a course may be led through


@dataclass(frozen=True, slots=True)
class CoursePoint:
    """A place that an arm from above is led through, between its beginning and its tip."""

    at_share: float  # of the way round the tooth from where the arm comes free, by angle
    above_line_mm: float  # of its middle over the survey line there, along the path; below: < 0


@dataclass(frozen=True, slots=True)
class Clasp:
    """A retentive arm and what reciprocates it on the other side."""

    form: ClaspForm
    side: Side = "buccal"
    undercut_mm: float = 0.25
    width_mm: float = 1.6  # at the root; the tip has half of it; of a wire all along
    thickness_mm: float = 1.1  # at the root; the tip has half of it
    reciprocal: bool = True
    origin: End | None = None  # where an arm from above begins; None: at the plate or rest
    course: tuple[CoursePoint, ...] = ()  # by share; empty: as planned

    @property
    def is_bar(self) -> bool:
        """Whether it comes from the base below the margin, and not from above."""
        return self.form in BARS


@dataclass(frozen=True, slots=True)
class Retainer:
    """What the framework does on one tooth."""

    tooth: int
    rests: tuple[RestForm, ...] = ()
    proximal_plates: tuple[End, ...] = ()
    clasp: Clasp | None = None
    indirect: bool = False


@dataclass(frozen=True, slots=True)
class MajorConnector:
    """The connector between the two sides; `width_mm` is for straps, `height_mm` for bars."""

    form: ConnectorForm
    height_mm: float = 4.0
    width_mm: float = 8.0
    thickness_mm: float = 2.0
    margin_distance_mm: float = 4.0
    relief_mm: float = 0.25


@dataclass(frozen=True, slots=True)
class DentureBase:
    """A base over the ridge of one span."""

    teeth: tuple[int, ...]  # the missing teeth it carries, all in one span
    retention: Retention = "lattice"
    relief_mm: float = 0.8
    thickness_mm: float = 0.8  # of the lattice's struts, or of a metal base
    nail_heads: bool = False  # on the cross-bars of a lattice or mesh
    buccal_reach_mm: float | None = (
        None  # over the surface from the crest; None: as the arch has it
    )
    lingual_reach_mm: float | None = None

    @property
    def metal(self) -> bool:
        """A plate on the ridge itself, without relief."""
        return self.retention.startswith("metal")


@dataclass(frozen=True, slots=True)
class SplintBar:
    """A rigid bar that holds teeth together: across a space, or along their tongue side.

    Two teeth beside one space mean a bar across it, a row of standing teeth one along them.
    """

    teeth: tuple[int, ...]  # patient's right to left
    height_mm: float | None = None  # None: the rule book's, by its form
    thickness_mm: float | None = None


@dataclass(frozen=True, slots=True)
class FitOffsets:
    """How far metal stands off its model, by region; zero unless a calibration asks for it [mm].

    Printed surfaces are rough and finishing takes metal: a laboratory measures both on its own
    machine and writes what is left between them here.
    """

    tissue_mm: float = 0.0  # connectors, bases
    guiding_planes_mm: float = 0.0
    rests_mm: float = 0.0
    arms_mm: float = 0.0

    @property
    def most(self) -> float:
        """The greatest one."""
        return max(self.tissue_mm, self.guiding_planes_mm, self.rests_mm, self.arms_mm)

    @property
    def any(self) -> bool:
        """Whether any is asked for."""
        return self.most > 0


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a proposed line of the case sheet is as it is."""

    component: str  # id such as "retainer.35" or "major_connector"
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Design:
    """Everything that the framework stage builds."""

    retainers: tuple[Retainer, ...]
    connector: MajorConnector
    bases: tuple[DentureBase, ...]
    reasons: tuple[Reason, ...] = ()
    findings: tuple[Finding, ...] = ()  # of the proposal: what was assumed, what stays open
    fit: FitOffsets = FitOffsets()
    splints: tuple[SplintBar, ...] = ()  # never proposed
