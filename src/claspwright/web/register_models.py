"""What goes over the wire of the register as a whole and of the powder's certificates."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from claspwright.app.judge_certificate import ALLOY
from claspwright.web.models import JobRow, Name, Number
from claspwright.web.stage_models import Json, Signature

Id = Annotated[str, Field(min_length=1, max_length=120)]
Subject = Annotated[str, Field(min_length=1, max_length=200, description="KIND:ID, or KIND")]
Words = Annotated[str, Field(max_length=400)]
FileName = Annotated[str, Field(min_length=1, max_length=80)]
Element = Annotated[str, StringConstraints(pattern=r"^[A-Z][a-z]?$")]
Percent = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0, le=1e6, allow_inf_nan=False)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class KeptFileRow(_Model):
    """A file that was written from the register."""

    file: str
    size_bytes: int
    head: str = Field(description="number and hash of its last entry; empty where it holds none")
    restored: bool


class RegisterState(_Model):
    """How the register stands."""

    there: bool
    up_to_date: bool
    entries: int
    head: str = Field(description="number and hash of the last entry, to note elsewhere")
    counts: dict[str, int]
    checked: Json | None = Field(description="the last verdict on the whole")
    backups: list[KeptFileRow]
    exports: list[KeptFileRow]


class CheckWish(_Model):
    """What to check the register against."""

    head: str = Field("", max_length=100, description="NUMBER:HASH as noted elsewhere before")


class RestoreWish(_Model):
    """Which backup to try out."""

    file: FileName


class ThingPage(_Model):
    """Every entry on one thing, or everything of a kind as it stands."""

    subject: str
    rows: list[Json]


class TracePage(_Model):
    """All that a thing came from."""

    subject: str
    came_from: dict[str, list[str]]


class RecalledRow(_Model):
    """One framework that holds powder of a lot, and whose it is."""

    part: str
    case: str
    patient: str
    prescriber: str
    build: str


class RecallPage(_Model):
    """Every framework that holds powder of a lot, or came from a batch or build."""

    subject: str
    frameworks: list[RecalledRow]


class SignWish(Signature):
    """A name under a thing as it stands now."""

    subject: Subject
    meaning: str = Field(min_length=1, max_length=200, pattern=r"\S")
    role: Words = ""


class PersonWish(_Model):
    """Whose health data."""

    pseudonym: Id


class PersonPage(_Model):
    """Health data as they are kept apart from the entries."""

    pseudonym: str
    kept: Json | None


class PersonChange(_Model):
    """Health data to keep; what was kept before is replaced."""

    pseudonym: Id
    fields: dict[Annotated[str, Field(min_length=1, max_length=60)], Any]


class ErasureWish(Signature):
    """Whose health data to erase, and why."""

    pseudonym: Id
    reason: Words = ""


class LimitRow(_Model):
    """One value of a certificate against one limit, or an item that it must show."""

    rule: str
    item: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    shown: bool
    severity: Literal["stop", "look", "note"] | None = Field(description="null: it holds")
    source: str


class LotRow(_Model):
    """A lot of the register."""

    id: str
    alloy: str
    mass_g: float
    received: str
    maker_lot: str
    certificate_passed: bool | None


class PowderPage(_Model):
    """Lots of the register, and what a certificate is held against."""

    alloys: dict[str, list[str]] = Field(description="title of each specification: its names")
    limits: list[LimitRow]
    lots: list[LotRow]


class CertificateWish(_Model):
    """What the maker certifies of a lot, and the alloy it shall be."""

    lot: Id
    alloy: Name = ALLOY
    percent: dict[Element, Percent] = Field(max_length=60)
    size_um: Annotated[list[Positive], Field(min_length=2, max_length=2)] | None = None
    apparent_density_g_cm3: Positive | None = None
    shown: list[Name] = Field([], max_length=20)


class CertificateJudged(_Model):
    """A certificate against a specification."""

    passed: bool
    rows: list[LimitRow]
    findings: list[Json]


class NewLot(_Model):
    """A lot that the register does not hold yet."""

    mass_g: Annotated[Number, Field(gt=0)]
    received: date
    maker_lot: str = Field("", max_length=120)
    expires: date | None = None


class CertificateEntry(CertificateWish, Signature):
    """A certificate to enter on its lot."""

    new: NewLot | None = None
    upload: str = Field("", max_length=80, description="file that was sent, if it says the same")


class SentCertificate(_Model):
    """A file that another process reads."""

    upload: str
    job: JobRow


class ReadCertificate(_Model):
    """What was read from it."""

    called: str
    lot: str
    percent: dict[str, float]
    size_um: list[float] | None
    apparent_density_g_cm3: float | None
    shown: list[str]
