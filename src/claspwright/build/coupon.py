"""The coupon that calibrates distortion: a bridge on legs, cut free from all but its first leg.

Source:
    the benchmark bridge of NIST AMB2018-01 is measured the same way: legs cut, ridges measured
    before and after; its free end rises (check-values F13 to F16).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, Progress, silent
from claspwright.geometry import Mesh, box, union
from claspwright.mechanics.cells import Cells, cut_cells
from claspwright.mechanics.growth import cut_free, grow, in_plane

STEP_MM = 0.5  # edge of a cell, of coupons and frameworks alike: the strain belongs to it
LUMP = 2  # rows of cells laid at once; the strain belongs to it too


@dataclass(frozen=True, slots=True)
class Coupon:
    """A bridge on legs, along x."""

    length_mm: float = 60.0
    width_mm: float = 5.0
    height_mm: float = 3.0  # of the bridge above its legs
    legs: int = 12
    leg_mm: float = 2.5  # length of a leg along the bridge
    leg_height_mm: float = 3.0

    def __post_init__(self) -> None:
        sizes = (self.length_mm, self.width_mm, self.height_mm, self.leg_mm, self.leg_height_mm)
        if not (min(sizes) > 0 and self.legs >= 2 and self.legs * self.leg_mm < self.length_mm):
            raise InputError(
                f"a coupon needs lengths above zero and at least two legs with gaps between: {self}"
            )

    @property
    def first_mm(self) -> float:
        """Where the leg that stays ends; the free length counts from here [mm]."""
        return self.leg_mm

    def boxes(self) -> list[tuple[Floats, Floats]]:
        """Corners of the bridge and of each leg [mm]; z = 0 is the plate."""
        at = np.linspace(0.0, self.length_mm - self.leg_mm, self.legs)
        top = self.leg_height_mm + self.height_mm
        bridge = (
            np.array([0.0, 0.0, self.leg_height_mm]),
            np.array([self.length_mm, self.width_mm, top]),
        )
        legs = [
            (
                np.array([x, 0.0, 0.0]),
                np.array([x + self.leg_mm, self.width_mm, self.leg_height_mm]),
            )
            for x in at.tolist()
        ]
        return [bridge, *legs]

    def solid(self) -> Mesh:
        """The coupon as a closed solid."""
        return union(*(box(low, high) for low, high in self.boxes()))

    def cells(self, step_mm: float) -> Cells:
        """The coupon cut into cells."""
        boxes = self.boxes()

        def distance(points: Floats) -> Floats:
            return np.asarray(np.min([_to_box(points, *one) for one in boxes], axis=0))

        high = np.array([self.length_mm, self.width_mm, boxes[0][1][2]])
        return cut_cells(distance, np.zeros(3), high, step_mm)


def coupon_rise(
    coupon: Coupon,
    strain: float,
    *,
    modulus: float,
    poisson: float,
    stress_left: float = 1.0,
    step_mm: float = STEP_MM,
    lump: int = LUMP,
    progress: Progress = silent,
) -> float:
    """Rise of the upper edge at the free end when all legs but the first are cut [mm].

    The difference to the coupon as it stood on the plate; up is positive.

    Args:
        coupon: its measures.
        strain: inherent strain in the plane of a layer; shrinking is negative.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        stress_left: share that stress relief before the cut leaves.
        step_mm: edge of a cell.
        lump: rows of cells laid at once.
        progress: told of each lump.
    """
    return strain * stress_left * _unit_rise(coupon, modulus, poisson, step_mm, lump, progress)


def strain_from_rise(
    coupon: Coupon,
    rise_mm: float,
    *,
    modulus: float,
    poisson: float,
    step_mm: float = STEP_MM,
    lump: int = LUMP,
    progress: Progress = silent,
) -> float:
    """Inherent strain that explains the measured rise of a coupon; exact, the model is linear.

    It holds for predictions with the same cells and lumps, whose coarseness it takes in.

    Args:
        coupon: its measures.
        rise_mm: of the free end after the cut, against before; up is positive.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        step_mm: edge of a cell.
        lump: rows of cells laid at once.
        progress: told of each lump.

    Raises:
        InputError: the end did not rise, which shrinking layers cannot explain.
    """
    check_rise(rise_mm)
    return rise_mm / _unit_rise(coupon, modulus, poisson, step_mm, lump, progress)


def check_rise(rise_mm: float) -> None:
    """Refuse a rise that shrinking layers cannot explain.

    Raises:
        InputError: the end did not rise.
    """
    if not rise_mm > 0:
        raise InputError(
            f"the free end moved by {rise_mm:g} mm; layers that shrink make it rise",
            remedy="Measure against the coupon before the cut, up positive.",
        )


def _unit_rise(
    coupon: Coupon, modulus: float, poisson: float, step_mm: float, lump: int, progress: Progress
) -> float:
    """Rise of the free end for a strain of one; negative, as strain is."""
    cells = coupon.cells(step_mm)
    strain = in_plane(-0.001, len(cells.place))
    grown = grow(cells, strain, modulus=modulus, poisson=poisson, lump=lump, progress=progress)
    x, _, z = cells.nodes.T
    stays = (z < 1e-6) & (x < coupon.first_mm + 1e-6)
    free = cut_free(grown, cells, modulus=modulus, poisson=poisson, held=stays)
    end = (x > coupon.length_mm - 1e-6) & (z > z.max() - 1e-6)
    return float(free.springing[end, 2].mean()) / -0.001


def _to_box(points: Floats, low: Floats, high: Floats) -> Floats:
    """Signed distance to a box [mm]."""
    out = np.abs(points - 0.5 * (low + high)) - 0.5 * (high - low)
    outside = np.linalg.norm(np.maximum(out, 0.0), axis=1)
    return np.asarray(outside + np.minimum(out.max(axis=1), 0.0))
