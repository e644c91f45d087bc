"""The case sheet as pydantic reads it; nothing outside this package sees these models.

Every name carries its unit. What may be left out has no value here and is proposed later.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

from claspwright.framework import (
    MOST_COURSE,
    ClaspForm,
    ConnectorForm,
    End,
    RestForm,
    Retention,
    Side,
)


def _listed(value: Any) -> Any:
    """One value where a list may stand."""
    return value if isinstance(value, list) else [value]


def _written(value: Any) -> Any:
    """A tooth code as text, whether it was written 36 or "3.6"."""
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else value


Code = Annotated[
    str,
    BeforeValidator(_written),
    WithJsonSchema({"type": ["integer", "string"], "title": "tooth, in the case's notation"}),
]
Codes = tuple[Code, ...]
Number = Annotated[float, Field(strict=True, allow_inf_nan=False)]
Tilt = Annotated[Number, Field(ge=-30, le=30)]
Flag = Annotated[bool, Field(strict=True)]
FileName = Annotated[str, Field(min_length=1)]
Form = Literal[ConnectorForm, "swinging connector"]


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Case(_Table):
    """Who and what: identity, alloy, allergies and what kind of denture is asked for."""

    id: str = Field(
        "", description="the laboratory's number of the case; the folder's name if absent"
    )
    arch: Literal["mandible", "maxilla"] | None = Field(
        None, description="the jaw the framework is for; follows from the missing teeth if absent"
    )
    notation: Literal["iso3950", "universal"] = Field(
        "iso3950", description="how the tooth codes of this sheet are written"
    )
    alloy: str = Field(description="name of an alloy in the material tables")
    patient: str = Field("", description="a pseudonym, never a name")
    prescriber: str = ""
    laboratory: str = ""
    prescribed: date | None = Field(None, description="date of the prescription")
    due: date | None = None
    allergies: Annotated[
        list[str], BeforeValidator(_listed, json_schema_input_type=str | list[str])
    ] = Field(default_factory=list, description="known allergies of the patient, such as nickel")
    allergies_cleared: str = Field(
        "", description="the prescriber's clearance of these allergies: who, when and why"
    )
    prosthesis: Literal["partial denture", "obturator"] = "partial denture"
    retention: Literal["clasps", "implants", "attachments"] = "clasps"
    base_material: Literal["acrylic", "flexible"] = "acrylic"
    vertical_dimension: str = Field("", description="the dentist's note on the vertical dimension")
    notes: str = ""


class Scans(_Table):
    """Mesh files, from the sheet's folder."""

    master: FileName = Field(description="scan of the arch that gets the framework")
    opposing: FileName | None = None
    bite: FileName | None = Field(None, description="bite record: both arches, or the buccal side")
    unit: Literal["mm", "um", "cm", "m", "inch"] | None = Field(
        None, description="unit of the mesh files; guessed and reported if absent"
    )


class Teeth(_Table):
    """What is absent, what of it is replaced, and what the dentist probed."""

    missing: Codes = Field(description="every absent tooth")
    not_replaced: Codes = Field((), description="absent teeth that get no artificial tooth")
    present_abutments: Codes = Field(
        (), description="third molars that stand and carry the denture"
    )
    doubtful: Codes = Field((), description="standing teeth that will probably be lost")
    functional_depth_mm: Number | None = Field(
        None, gt=0, le=30, description="lingual depth, probed with the tongue raised"
    )


class Mark(_Table):
    """A point on a crown, in the frame of the scan file."""

    tooth: Code
    at_mm: tuple[Number, Number, Number]


class Path(_Table):
    """Path of placement as tilts of the cast; searched if absent."""

    anterior_tilt_deg: Tilt = Field(0.0, description="positive: front of the cast lowered")
    right_lateral_tilt_deg: Tilt = Field(0.0, description="positive: the patient's right lowered")


class Blockout(_Table):
    """How undercuts are filled; parallel to the path if absent."""

    taper_deg: Number = Field(0.0, ge=0, le=6, description="of the walls; 0 is parallel")
    ledges: Flag = Field(
        False, description="a shelf on the model under each retentive arm, to guide its underside"
    )
    embrasures: Flag = Field(
        False, description="fill the embrasures that no metal comes near on the model"
    )
    bead_line: Flag = Field(
        False, description="scribe the model along the border of a palatal connector"
    )


class Finishing(_Table):
    """Steps of finishing; the metal is built thicker by what they take off each surface."""

    steps: list[Literal["blasting", "grinding", "electropolishing", "polishing"]] = Field(
        default_factory=list, description="in any order; nothing is added for the others"
    )
    masked: list[Literal["tissue", "polished", "rest", "arm"]] = Field(
        default_factory=list, description="surfaces covered in the electropolishing bath"
    )


class ReliefPatch(_Table):
    """A place to relieve that is marked by hand, such as a torus; crowns stay bare."""

    name: str = ""
    at_mm: tuple[Number, Number, Number] = Field(
        description="on the tissue, frame of the scan file"
    )
    radius_mm: Number = Field(gt=0, le=30)
    thickness_mm: Number | None = Field(None, gt=0, le=3)
    gauge: int | None = Field(
        None, ge=10, le=40, description="of a wax sheet, instead of its thickness: 30 is 0.25 mm"
    )


class FillPatch(_Table):
    """An embrasure or a hollow that nothing crosses, to be filled."""

    name: str = ""
    at_mm: tuple[Number, Number, Number] = Field(description="frame of the scan file")
    radius_mm: Number = Field(gt=0, le=15)


class MajorConnector(_Table):
    """The connector between the two sides."""

    form: Form
    height_mm: Number | None = Field(None, gt=0, le=12, description="of a bar")
    width_mm: Number | None = Field(None, gt=0, le=40, description="of a strap")
    thickness_mm: Number | None = Field(None, gt=0, le=5)
    margin_distance_mm: Number | None = Field(None, gt=0, le=15)
    relief_mm: Number | None = Field(None, ge=0, le=2)


class CoursePlace(_Table):
    """A place that an arm from above is led through between its ends."""

    at_share: Number = Field(
        ge=0.1, le=0.9, description="of the way round the tooth from where the arm comes free"
    )
    above_line_mm: Number = Field(
        ge=-3, le=6, description="of its middle over the survey line there; below it negative"
    )


class Clasp(_Table):
    """A retentive arm and what reciprocates it."""

    form: ClaspForm
    side: Side = "buccal"
    undercut_mm: Number | None = Field(None, gt=0, le=1)
    width_mm: Number | None = Field(None, gt=0, le=4, description="at the root; the tip has half")
    thickness_mm: Number | None = Field(None, gt=0, le=3, description="at the root")
    reciprocal: Flag = True
    origin: End | None = Field(None, description="where an arm begins; else the plate or rest")
    course: list[CoursePlace] = Field(
        default_factory=list,
        max_length=MOST_COURSE,
        description="places that an arm from above is led through, in their order",
    )


class Retainer(_Table):
    """What the framework does on one tooth."""

    tooth: Code
    rest: Annotated[
        list[RestForm],
        BeforeValidator(_listed, json_schema_input_type=RestForm | list[RestForm]),
    ] = Field(default_factory=list)
    proximal_plate: Annotated[
        list[End], BeforeValidator(_listed, json_schema_input_type=End | list[End])
    ] = Field(default_factory=list)
    clasp: Clasp | None = None
    indirect: Flag = False


class DentureBase(_Table):
    """A base over the ridge of one span."""

    teeth: Annotated[tuple[Code, ...], Field(min_length=1)]
    retention: Retention = "lattice"
    nail_heads: Flag = Field(False, description="on the cross-bars of a lattice or mesh")
    relief_mm: Number | None = Field(None, ge=0, le=3)
    thickness_mm: Number | None = Field(None, gt=0, le=3, description="of the lattice's struts")
    buccal_reach_mm: Number | None = Field(
        None, ge=3, le=25, description="over the surface from the crest to the border of the base"
    )
    lingual_reach_mm: Number | None = Field(None, ge=3, le=25)


class SplintBar(_Table):
    """A rigid bar that holds teeth together; none is ever proposed."""

    teeth: Annotated[tuple[Code, ...], Field(min_length=2)] = Field(
        description="the two beside a space without a base, or a row of standing teeth"
    )
    height_mm: Number | None = Field(None, gt=0, le=6)
    thickness_mm: Number | None = Field(None, gt=0, le=5)


class Fit(_Table):
    """How far metal stands off its model, by region, from the laboratory's own calibration."""

    tissue_mm: Number = Field(0.0, ge=0, le=0.3, description="connectors and bases")
    guiding_planes_mm: Number = Field(0.0, ge=0, le=0.3)
    rests_mm: Number = Field(0.0, ge=0, le=0.3)
    arms_mm: Number = Field(0.0, ge=0, le=0.3)
    calibration: str = Field("", description="where the figures were measured: test piece, date")


class Sheet(_Table):
    """The whole case sheet, version 1."""

    claspwright: Literal[1] = Field(1, description="version of the sheet's form")
    case: Case
    scans: Scans
    teeth: Teeth
    mark: list[Mark] = Field(default_factory=list)
    path: Path | None = None
    blockout: Blockout | None = None
    relief: list[ReliefPatch] = Field(default_factory=list)
    fill: list[FillPatch] = Field(default_factory=list)
    major_connector: MajorConnector | None = None
    retainer: list[Retainer] = Field(default_factory=list)
    denture_base: list[DentureBase] = Field(default_factory=list)
    splint_bar: list[SplintBar] = Field(default_factory=list)
    fit: Fit | None = None
    finishing: Finishing | None = None
