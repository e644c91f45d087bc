"""The case sheet as plain values for the rest of the program; ISO 3950 codes throughout."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from claspwright.arch import Jaw, Notation
from claspwright.base import Finding, Point
from claspwright.framework import Wishes
from claspwright.process import FinishingPlan
from claspwright.survey import NO_WAX, Wax


@dataclass(frozen=True, slots=True)
class Prescription:
    """What the dentist asks for and says of the patient."""

    case_id: str
    jaw: Jaw
    alloy: str  # name in the material tables
    missing: tuple[int, ...]  # every absent tooth, in arch order
    not_replaced: tuple[int, ...] = ()
    present_abutments: tuple[int, ...] = ()
    functional_depth_mm: float | None = None
    patient: str = ""
    prescriber: str = ""
    laboratory: str = ""
    prescribed: date | None = None
    due: date | None = None
    allergies: tuple[str, ...] = ()
    allergies_cleared: str = ""
    prosthesis: str = "partial denture"
    retention: str = "clasps"
    base_material: str = "acrylic"
    swinging_connector: bool = False
    vertical_dimension: str = ""
    notes: str = ""


@dataclass(frozen=True, slots=True)
class ScanFiles:
    """Where the mesh files lie."""

    master: Path
    opposing: Path | None = None
    bite: Path | None = None
    unit: str | None = None  # None: to be guessed


@dataclass(frozen=True, slots=True)
class CaseSheet:
    """A sheet that has been read and found sound."""

    path: Path  # of the file itself
    text: str  # as it was written
    notation: Notation
    prescription: Prescription
    scans: ScanFiles
    marks: Mapping[int, Point]  # in the frame of the master scan file, in mm
    tilts_deg: tuple[float, float] | None  # anterior, right lateral
    wishes: Wishes  # the design decisions; what is absent is to be proposed
    findings: tuple[Finding, ...] = ()  # what was assumed in reading it
    wax: Wax = NO_WAX  # blockout and relief that were asked for; places in the scan's frame
    finishing: FinishingPlan = FinishingPlan()  # what the metal is built thicker for
