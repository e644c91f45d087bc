"""What goes over the wire between clinic and laboratory, of acrylic and of quality."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from claspwright.web.stage_models import Json, Line, Signature

Text = Annotated[str, Field(max_length=4000)]
Id = Annotated[str, Field(min_length=1, max_length=120)]
Minutes = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)]
Um = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class ClinicPage(_Model):
    """What has passed between laboratory and clinic."""

    case_id: str
    entered: bool
    fields: Json = Field(description="of the case in the register")
    teeth: list[int] = Field(description="that the prescription has replaced")
    revisions: list[Json] = Field(description="id, hash, design, answers; the oldest first")
    stale: bool
    parts: list[str] = Field(description="ids of its frameworks")
    places: list[str] = Field(description="components that may touch too early")
    entries: dict[str, list[Json]]
    altered_cast_unsaid: bool
    changes: dict[str, list[Json]] = Field(description="figures through the inspections, um")
    film_off_um: dict[str, dict[str, float]]


class RevisionKept(_Model):
    """A design that may be approved now."""

    id: str
    hash: str


class AnswerWish(Signature):
    """The prescriber's word on a revision, bound to the hash of what was seen."""

    revision: Id
    seen_hash: str = Field(min_length=12, max_length=64, pattern=r"^[0-9A-Fa-f]+$")
    approved: bool
    text: Text = ""


class AnswerText(Signature):
    """The text that the dentist's page wrote."""

    text: Text


class AnswerTaken(_Model):
    """What such a text said."""

    revision: str
    approved: bool


class TryInWish(Signature):
    """One adjustment at a try-in."""

    part: Id
    place: Id
    amount_um: Um = 0.0
    how: Literal["ground", "relieved", "bent", "nothing"] = "ground"
    seated: bool = True
    minutes: Minutes | None = None
    text: Text = ""


class FilmWish(Signature):
    """Thickness of a silicone film under each rest."""

    part: Id
    gaps_um: dict[Id, Um] = Field(min_length=1, max_length=40)


class JawRecordWish(Signature):
    """A jaw record on wax rims."""

    made: date
    part: Annotated[str, Field(max_length=120)] = ""
    wax_rims: bool = True
    vertical_mm: float | None = Field(None, gt=0, le=200)
    text: Text = ""


class AlteredCastWish(Signature):
    """Whether the free ends need an altered cast."""

    needed: bool
    done: date | None = None


class TeethWish(Signature):
    """Tooth mould, shades and the teeth to set."""

    tooth_mould: Line = ""
    shade: Line = ""
    gum_shade: Line = ""
    teeth: Line = ""


class DeliveryWish(Signature):
    """The denture was delivered to the patient."""

    delivered: date
    fits: bool
    minutes: Minutes | None = None
    text: Text = ""


class FollowUpWish(Signature):
    """What was seen when the patient was called in again."""

    seen: date
    worn: bool
    retains: bool = True
    sore: bool = False
    fracture: bool = False
    relined: bool = False
    text: Text = ""


class BackWish(Signature):
    """A remake, repair or reline."""

    id: Id
    work: Literal["remake", "repair", "reline"]
    reason: str = Field(min_length=1, max_length=400, pattern=r"\S")


class BathStep(_Model):
    """The bath at a temperature for a time."""

    bath_c: float = Field(ge=10, le=200, allow_inf_nan=False)
    minutes: Minutes
    rise_min: Minutes = 0.0


class AcrylicWish(_Model):
    """Volume, excess and curing; without a volume that of the case as worked out."""

    base_cm3: float | None = Field(None, gt=0, le=200, allow_inf_nan=False)
    excess_percent: float = Field(25.0, ge=0, le=200, allow_inf_nan=False)
    steps: list[BathStep] = Field(min_length=1, max_length=8)
    model: Literal["stone", "printed resin"]
    bench_cool_min: Minutes
    water_cool_min: Minutes


class Amount(_Model):
    """What to weigh and measure."""

    base_cm3: float
    excess_share: float
    powder_g: float
    liquid_ml: float
    powder_cm3: float


class AcrylicAnswer(_Model):
    """Amounts, and what is wrong with the cycle."""

    from_run_cm3: float | None
    bases: list[Json]
    amount: Amount | None
    findings: list[Json]
    ideal_shrinkage_percent: float
    observed_percent: list[float]


class AcrylicForms(_Model):
    """Curing cycles at hand."""

    cycles: dict[str, list[BathStep]]


class PackingWish(Signature):
    """Which lots went into a case."""

    powder_lot: Id
    liquid_lot: Id
    tooth_lot: Annotated[str, Field(max_length=120)] = ""
    cycle: Line = ""
    base_cm3: float | None = Field(None, gt=0, le=200, allow_inf_nan=False)
    excess_percent: float = Field(25.0, ge=0, le=200, allow_inf_nan=False)


class QualityPage(_Model):
    """How well the frameworks come out, and what goes with it."""

    first: date
    last: date
    told: Json
