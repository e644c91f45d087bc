"""What goes over the wire of the stages after the framework, of builds and of the register."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from claspwright.web.models import FindingRow, Point3

Name = Annotated[str, Field(min_length=1, max_length=64)]
Line = Annotated[str, Field(max_length=200)]
Price = Annotated[float, Field(ge=0, le=1e6, allow_inf_nan=False)]
Json = dict[str, Any]  # Any: a tree as the stage's own file holds it


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class StageRow(_Model):
    """How one later stage of a case stands."""

    stage: Literal["survey", "scans", "proof", "preparation", "furnace", "inspection", "papers"]
    done: bool
    stale: bool
    files: list[str]
    answers: Json = Field(description="what the stage's JSON files hold, by their names")
    view_stamp: str


class BuildRow(_Model):
    """One build of one or several cases."""

    name: str
    cases: list[str]
    stale: list[str] = Field(description="cases that have changed since")
    told: Json
    files: dict[str, list[str]]
    view_stamp: str


class Stages(_Model):
    """The later stages of a case."""

    stages: list[StageRow]
    builds: list[BuildRow]


class ProofWish(_Model):
    """What to prove."""

    elements_mm: float | None = Field(
        None, ge=0.1, le=0.6, description="edge of the finite elements; null: without them"
    )


class BuildWish(_Model):
    """What to build together."""

    cases: list[Name] = Field(min_length=1, max_length=60)
    machine: Name = "round-100"
    process: Name = "cocr-25um"
    orientation: int = Field(1, ge=1, le=20, description="which of the best; 1 is the best")
    layer_files: bool = True


class BuildForms(_Model):
    """What can be chosen for a build and a furnace run."""

    machines: list[str]
    processes: list[str]
    schedules: list[str]


class LayerPart(_Model):
    """One part, or its supports, in one layer; plate frame."""

    name: str
    kind: Literal["part", "support"]
    contours_mm: list[list[list[float]]]


class Layer(_Model):
    """Every contour of one layer."""

    parts: list[LayerPart]


class Signature(_Model):
    """Who enters something."""

    by: str = Field(min_length=1, max_length=100, pattern=r"\S")


class EntryWish(Signature):
    """One entry of the register."""

    kind: Name
    id: str = Field(min_length=1, max_length=120)
    fields: Json


class LoadedWish(Signature):
    """The powder that a build was loaded with."""

    feedstock: list[Line] = Field(min_length=1, max_length=20, description="lots or batches")


class EnteredParts(_Model):
    """Ids of the frameworks of a build in the register."""

    parts: list[str]


class RegisterRow(_Model):
    """One thing that the register holds."""

    kind: str
    id: str
    fields: Json


class RegisterPage(_Model):
    """What the register holds of a case and what it still lacks."""

    case_id: str
    entered: bool
    entries: list[RegisterRow]
    stops: list[str]
    sent: str


class Entered(_Model):
    """Number of an entry."""

    number: int


class Kinds(_Model):
    """Fields of each kind of entry with their types."""

    kinds: dict[str, dict[str, dict[str, str]]]


class Particulars(_Model):
    """The laboratory as the documents print it."""

    name: Line = ""
    address: Line = ""
    sites: list[Line] = Field([], max_length=20)
    responsible: Line = ""
    country: Line = ""
    registration: Line = ""
    phone: Line = ""
    authorised_representative: Line = ""


class CastingShares(_Model):
    """What one lost-wax framework costs in this laboratory."""

    alloy_g: Price
    alloy_per_g: Price
    materials: Price
    labour: Price
    remake_share: float = Field(0.0, ge=0, le=0.99, description="of castings made again")


class RatesPage(_Model):
    """What things cost in this laboratory."""

    currency: str = Field("EUR", min_length=1, max_length=8, pattern=r"\S")
    powder_per_g: Price
    machine_per_build: Price
    furnace_per_hour: Price
    labour_per_framework: Price
    casting_per_framework: Price = Field(description="by one figure; 0: not given")
    casting: CastingShares | None = Field(description="the same by its shares")
    given: bool = Field(description="false: prices of an example")


class MonthPage(_Model):
    """Figures from one day to another."""

    first: date
    last: date
    figures: Json


class LiveReady(_Model):
    """Whether changes of a case can be shown at once."""

    ready: bool


class LiveShown(_Model):
    """What a change looks like."""

    part: Json = Field(description="the mesh, as a view lists it")
    stamp: str
    teeth: list[int]
    components: list[Json]
    findings: list[FindingRow] | None = Field(description="of the clasps; null: not asked yet")
    cuts: bool = Field(description="the whole framework can be shown with them")
    borders: list[list[Point3]] = Field(description="of bases that differ, arch frame [mm]")
