"""What the machine is like and how it runs the alloy: records that the user keeps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from claspwright.base import InputError

PlatformShape = Literal["round", "rectangular"]


@dataclass(frozen=True, slots=True)
class KeepOut:
    """A round place of the platform where nothing may stand, such as a screw hole."""

    x_mm: float
    y_mm: float
    radius_mm: float


@dataclass(frozen=True, slots=True)
class Platform:
    """The build platform; its middle is the origin of the plate frame."""

    shape: PlatformShape
    width_mm: float  # diameter where round
    depth_mm: float  # equals the width where round
    height_mm: float  # tallest part
    edge_margin_mm: float  # nothing stands nearer to the edge
    keep_outs: tuple[KeepOut, ...] = ()

    def __post_init__(self) -> None:
        if not min(self.width_mm, self.depth_mm, self.height_mm) > 2 * self.edge_margin_mm >= 0:
            raise InputError(f"no room is left on the platform: {self}")
        if self.shape == "round" and self.width_mm != self.depth_mm:
            raise InputError("a round platform has one diameter: width and depth must be equal")

    @property
    def area_mm2(self) -> float:
        """Whole area [mm2]."""
        square = self.width_mm * self.depth_mm
        return square * (0.7853981633974483 if self.shape == "round" else 1.0)


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine as far as preparing a build needs it."""

    name: str
    title: str
    platform: Platform
    lasers: int
    most_power_w: float
    spot_um: float
    recoat_s: float  # from the end of one exposure to the begin of the next
    jump_mm_s: float
    vector_delay_ms: float  # settling of mirrors and laser for each vector
    gas: str
    gas_flow_deg: float  # the way the gas goes, from +x towards +y
    recoater_deg: float  # the way the recoater goes
    begin_min: float  # inert atmosphere and preheat before the first layer
    end_min: float  # cooling before the door opens
    preheat_degc: float
    idle_power_kw: float  # gas circulation, heating, control
    laser_efficiency: float  # light out for electricity in
    gas_l_min: float
    source: str

    def __post_init__(self) -> None:
        positive = (self.most_power_w, self.spot_um, self.recoat_s, self.jump_mm_s, self.lasers)
        if not (min(positive) > 0 and 0 < self.laser_efficiency <= 1):
            raise InputError(f"machine {self.name}: power, spot, times and speeds must be positive")


@dataclass(frozen=True, slots=True)
class Beam:
    """Laser settings of one class of vectors."""

    power_w: float
    speed_mm_s: float

    def __post_init__(self) -> None:
        if not min(self.power_w, self.speed_mm_s) > 0:
            raise InputError(f"power and speed of the beam must be positive, got {self}")


@dataclass(frozen=True, slots=True)
class Costs:
    """Prices of the laboratory; 0 where it has not entered them."""

    currency: str = ""
    machine_per_h: float = 0.0
    powder_per_kg: float = 0.0
    electricity_per_kwh: float = 0.0
    gas_per_m3: float = 0.0
    labour_per_h: float = 0.0
    platform_min: float = 0.0  # work on one platform: loading, sawing, sieving
    contact_s: float = 0.0  # work on one support contact: breaking off, grinding


@dataclass(frozen=True, slots=True)
class SupportPlan:
    """Measures of supports."""

    self_supporting_deg: float = 45.0  # downskin at least this steep needs none; from the plate
    stand_off_mm: float = 4.0  # lowest point of the part above the plate
    spacing_mm: float = 1.5  # between contacts
    neck_mm: float = 0.45  # diameter where the support breaks off
    anchor_neck_mm: float = 0.7  # under free ends
    neck_length_mm: float = 0.8
    bite_mm: float = 0.08  # how far the neck reaches into the part
    pin_mm: float = 0.7  # diameter of a pin
    trunk_mm: float = 0.9  # diameter of a pin that carries branches
    branch_deg: float = 50.0  # of branches, from the plate
    bough_mm: float = 3.0  # how far aside a contact is carried by the pin of another
    clearance_mm: float = 0.25  # between a pin and the part beside it
    ring_mm: float = 0.9  # diameter of a bar that closes a clasp to a ring
    wall_mm: float = 0.3  # thickness of the wall between two pins
    wall_span_mm: float = 3.6  # pins nearer than this are joined by a wall
    foot_mm: float = 1.2  # diameter on the plate

    def __post_init__(self) -> None:
        lengths = (self.spacing_mm, self.neck_mm, self.pin_mm, self.trunk_mm, self.stand_off_mm)
        if not (min(lengths) > 0 and 0 < self.self_supporting_deg < 90):
            raise InputError(f"supports need positive lengths and an angle below 90 deg: {self}")
        if not 0 < self.branch_deg < 90 or self.neck_mm > self.pin_mm:
            raise InputError("branches need an angle below 90 deg, necks less than the pin's width")


@dataclass(frozen=True, slots=True)
class PrintedScan:
    """A printed framework that was scanned and held against its solid."""

    case: str
    predicted_mm: float  # root mean square of the deviation at rests and tips, by the model
    measured_mm: float  # the same places on the scan

    def __post_init__(self) -> None:
        if not (self.case.strip() and self.predicted_mm > 0 and self.measured_mm > 0):
            raise InputError(f"a printed scan needs a case and two lengths above zero: {self}")


@dataclass(frozen=True, slots=True)
class DistortionPlan:
    """What a prediction of distortion starts from."""

    strain: float = -0.004  # in the plane of a layer; shrinking is negative
    coupon: str = ""  # which coupon of the user's own gave it; empty: none, a start value
    stress_left: float = 0.2  # share that stress relief on the plate leaves
    most_mm: float = 0.15  # at rests and clasp tips, beyond which a person must judge
    scans: tuple[PrintedScan, ...] = ()

    def __post_init__(self) -> None:
        if not (-0.05 < self.strain < 0 and 0 <= self.stress_left <= 1 and self.most_mm > 0):
            raise InputError(
                "distortion needs a strain between -0.05 and 0, a share of stress between 0 and 1 "
                f"and a length above zero: {self}"
            )


@dataclass(frozen=True, slots=True)
class Process:
    """How the machine exposes the alloy."""

    name: str
    title: str
    alloy: str  # as the tables of materials name it
    layer_um: float
    beam_offset_um: float  # from the contour of the part to the middle of the outermost track
    contour_passes: int
    contour_step_um: float
    hatch_um: float
    hatch_gap_um: float  # from the innermost contour track to the ends of the hatch
    stripe_mm: float
    turn_deg: float
    first_angle_deg: float
    skin_layers: int
    shortest_um: float
    contour: Beam
    core: Beam
    upskin: Beam
    downskin: Beam
    support: Beam
    powder_density_share: float  # of the solid's density, as it lies in the build
    powder_lost_share: float  # of the powder laid that is not used again
    spacing_mm: float  # between parts on the platform
    source: str
    supports: SupportPlan = SupportPlan()
    distortion: DistortionPlan = DistortionPlan()
    costs: Costs = Costs()

    def __post_init__(self) -> None:
        if not (self.layer_um > 0 and self.hatch_um > 0 and self.contour_passes >= 0):
            raise InputError(f"process {self.name}: layer and hatch must be positive")
        if not 0 < self.powder_density_share <= 1:
            raise InputError(f"process {self.name}: powder density is a share of the solid's")

    @property
    def layer_mm(self) -> float:
        """Thickness of a layer [mm]."""
        return 0.001 * self.layer_um

    def check_fits(self, machine: Machine) -> None:
        """Refuse a process that asks for more power than the machine has.

        Raises:
            InputError: it does.
        """
        beams = (self.contour, self.core, self.upskin, self.downskin, self.support)
        most = max(beam.power_w for beam in beams)
        if most > machine.most_power_w:
            raise InputError(
                f"process {self.name} asks for {most:g} W, machine {machine.name} has "
                f"{machine.most_power_w:g} W",
                remedy="Choose a process of this machine.",
            )
