"""What goes over the wire; units stand in the names, places in the frame that the name says."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from claspwright.app.bench.jobs import Job
from claspwright.framework import MajorConnector, Retainer

Number = Annotated[float, Field(allow_inf_nan=False, ge=-1e6, le=1e6)]
Point3 = Annotated[list[Number], Field(min_length=3, max_length=3)]
Name = Annotated[str, Field(min_length=1, max_length=64)]
Words = Annotated[str, Field(max_length=400)]
ToothCode = Annotated[int, Field(ge=11, le=48)]
Jaw = Literal["mandible", "maxilla"]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Trouble(_Model):
    """What went wrong, where, and what to do about it."""

    what: str
    place: str = ""
    remedy: str = ""


class CaseRow(_Model):
    """One line of the list of cases."""

    name: str
    number: str
    arch: str
    kennedy: str
    due: date | None
    standing: Literal["not worked out", "worked out", "stale", "sheet has errors"]
    stops: int
    looks: int
    mass_g: float | None
    error: str = ""


class CaseList(_Model):
    """All cases of the laboratory, the one due first on top."""

    cases: list[CaseRow]


class JobRow(_Model):
    """One piece of work that was asked for."""

    id: str
    case: str
    task: str
    state: Literal["waiting", "at work", "done", "failed", "cancelled"]
    fraction: float
    phase: str
    error: str

    @classmethod
    def of(cls, job: Job) -> JobRow:
        """A job as the page is told of it."""
        return cls(**{name: getattr(job, name) for name in cls.model_fields})


class JobList(_Model):
    """All jobs, the newest first."""

    jobs: list[JobRow]


class JobWish(_Model):
    """What is to be done."""

    task: Literal["work out"] = "work out"


class RevisionRow(_Model):
    """One state of a sheet."""

    number: int
    author: str
    reason: str
    written_at: str


class Revisions(_Model):
    """The states of a sheet, the oldest first, and the one that stands now."""

    at: int
    can_undo: bool
    can_redo: bool
    revisions: list[RevisionRow]


class Difference(_Model):
    """Lines that differ between two states of a sheet."""

    older: int
    newer: int
    lines: list[str]


class FindingRow(_Model):
    """The outcome of one rule; places in the frames of the scan file and of the arch."""

    rule: str
    severity: Literal["stop", "look", "note"]
    text: str
    source: str
    measured: float | str | None
    limit: float | str | None
    unit: str
    component: str
    at_scan_mm: Point3 | None
    at_arch_mm: Point3 | None


class Tilts(_Model):
    """Path of placement as tilts of the cast."""

    anterior_tilt_deg: float = Field(ge=-30, le=30)
    right_lateral_tilt_deg: float = Field(ge=-30, le=30)


class CasePage(_Model):
    """All that a case's page says in words and figures."""

    line: CaseRow
    prescription: list[str]
    sheet: str
    revisions: Revisions
    findings: list[FindingRow]
    retainers: list[Retainer]
    connector: MajorConnector | None
    tilts: Tilts | None
    path_is_prescribed: bool
    results: list[str]
    view_stamp: str = Field(description="changes with the view; empty where there is none")


class _Change(_Model):
    author: Words = ""
    reason: Words = ""
    onto: int | None = Field(None, ge=0, description="revision the change was made on")


class Forms(_Model):
    """The forms that can be asked for, in words of the trade."""

    rests: list[str]
    clasps: list[str]
    connectors: dict[Jaw, list[str]]


class SheetChange(_Change):
    """A whole new sheet."""

    sheet: str = Field(max_length=1_000_000)


class RetainerChange(_Change):
    """What one tooth shall carry."""

    retainer: Retainer


class ConnectorChange(_Change):
    """Which major connector there shall be."""

    connector: MajorConnector


class PathChange(_Change):
    """The path of placement; null: to be searched."""

    tilts: Tilts | None


class MarkChange(_Change):
    """Where the mark of a tooth lies."""

    tooth: ToothCode
    at_scan_mm: Point3


class HandleRow(_Model):
    """A point on the metal that can be dragged over the model."""

    id: str
    component: str
    tooth: int | None = Field(description="on which it must stay")
    at_arch_mm: Point3


class Handles(_Model):
    """All that can be dragged: borders of the connector, seats of rests, beginnings of arms."""

    handles: list[HandleRow]


class HandleAnswer(_Model):
    """What the sheet would say if it were let go there."""

    words: str
    before: float | str
    after: float | str
    unit: str
    limit: float | None
    severity: Literal["", "stop", "look", "note"]
    source: str
    line_arch_mm: list[Point3] = Field(description="over the surface, from where it is measured")


class HandleChange(_Change):
    """A point let go."""

    handle: Words
    at_arch_mm: Point3


class WayWish(_Model):
    """Two points on the model."""

    a_arch_mm: Point3
    b_arch_mm: Point3


class WayAnswer(_Model):
    """How far it is between two points."""

    straight_mm: float
    surface_mm: float
    points_arch_mm: list[Point3]


class PlaceWish(_Model):
    """A place on a part of the view."""

    part: Name
    at_arch_mm: Point3


class PlaceAnswer(_Model):
    """What is measured there."""

    thickness_mm: float | None = Field(description="of the metal, by the largest ball inside")
    or_more: bool = Field(description="the metal is thicker than is looked for")
    clearance_mm: float | None = Field(description="to the opposing arch")


class SectionWish(_Model):
    """A plane."""

    at_arch_mm: Point3
    normal_arch: Point3


class CutAnswer(_Model):
    """One part where the plane cuts it."""

    part: str
    area_mm2: float | None
    lines_arch_mm: list[list[Point3]]


class SectionAnswer(_Model):
    """Every part that the plane cuts."""

    cuts: list[CutAnswer]
