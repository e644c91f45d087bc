"""What goes over the wire of figures of no case: a single arm, a coupon."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Size = Annotated[float, Field(gt=0, le=200, allow_inf_nan=False)]
Name = Annotated[str, Field(min_length=1, max_length=64)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class AlloyRow(_Model):
    """An alloy that an arm can be made of."""

    name: str
    title: str
    modulus_mpa: float
    source: str


class ArmWish(_Model):
    """A half-round arm clamped at its root and sprung at its tip across the flat."""

    length_mm: Size = Field(description="along the arm")
    radius_mm: Size = Field(description="of the half-round at the root: its thickness")
    undercut_mm: Size = Field(description="travel of the tip")
    alloy: Name = Field(description="gives Young's modulus")
    tip_ratio: float = Field(1.0, gt=0, le=1, description="tip dimension over root dimension")
    arc_deg: float = Field(0.0, ge=0, le=180, description="of the arc it lies on; 0 is straight")
    convergence_deg: float | None = Field(
        None, ge=0, lt=90, description="between tooth and path under the tip"
    )
    friction: float | None = Field(None, ge=0, le=2, description="of metal on wet enamel")


class ArmFigures(_Model):
    """What such an arm does."""

    force_n: float
    peak_stress_mpa: float
    peak_at_mm: float = Field(description="along the arm from the root")
    withdrawal_n: float | None = Field(description="null without slope and friction")
    modulus_mpa: float
    modulus_source: str
    source: str
    caution: str


class CouponSizes(_Model):
    """A bridge on legs."""

    length_mm: Annotated[float, Field(ge=10, le=120, description="along the bridge")] = 60.0
    width_mm: Annotated[float, Field(ge=1, le=20, description="across it")] = 5.0
    height_mm: Annotated[float, Field(ge=1, le=10, description="bridge above its legs")] = 3.0
    legs: Annotated[int, Field(ge=2, le=60)] = 12
    leg_mm: Annotated[float, Field(ge=0.5, le=20, description="leg along the bridge")] = 2.5
    leg_height_mm: Annotated[float, Field(ge=1, le=10, description="of the legs")] = 3.0


class CouponWish(_Model):
    """Which coupon, and the rise that was measured on it."""

    case: Name = Field(description="under which the job stands")
    process: Name = "cocr-25um"
    rise_mm: float | None = Field(
        None, le=50, allow_inf_nan=False, description="of the free end after the cut; up: positive"
    )
    sizes: CouponSizes = CouponSizes()


class CouponFigures(_Model):
    """What a coupon tells."""

    process: str
    record_strain: float
    record_rise_mm: float = Field(description="rise by the strain of the process record")
    rise_mm: float | None
    strain: float | None = Field(description="that explains the measured rise")
    file: str
    sizes: CouponSizes


class CouponState(_Model):
    """The coupon that was worked out last; null: none was."""

    told: CouponFigures | None
    files: list[str]
