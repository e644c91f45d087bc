"""Hatch vectors over layers: parallel lines, stripes, a turn from layer to layer, skins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError, Progress, frozen_floats, silent
from claspwright.build import _hatch_kernels as kernels
from claspwright.build.slices import Indices, Slices
from claspwright.geometry import from_chunks

LAYERS_AT_ONCE = 64
SHORTEST_SKIN_MM = 0.15  # a shorter change of class is not worth a change of laser settings


@dataclass(frozen=True, slots=True)
class HatchPlan:
    """How the inside of a layer is filled.

    Line j lies at (j + 1/2) spacing from the line through the origin of the plate.
    """

    spacing_mm: float
    first_angle_deg: float = 0.0  # of the lines of the first layer, from +x towards +y
    turn_deg: float = 0.0  # from one layer to the next
    stripe_mm: float = 0.0  # 0: lines run through
    shortest_mm: float = 0.0
    serpentine: bool = False  # every second line runs back
    skin_layers: int = 0  # metal with fewer layers above (below) is upskin (downskin)
    gas_flow_deg: float | None = None  # direction of the gas; exposure goes against it

    def __post_init__(self) -> None:
        if not (self.spacing_mm > 0 and self.stripe_mm >= 0 and self.skin_layers >= 0):
            raise InputError(f"hatch needs spacing > 0, stripes and skin layers >= 0, got {self}")

    def angle_deg(self, layer: int) -> float:
        """Direction of the lines of a layer, from 0 to 360."""
        return float((self.first_angle_deg + self.turn_deg * layer) % 360.0)


@dataclass(frozen=True, slots=True, eq=False)
class Hatches:
    """Exposure vectors layer by layer, in order, plate frame."""

    vectors: Floats  # (N, 4) x, y of begin and of end [mm]
    kinds: NDArray[np.int8]  # (N,) CORE, UPSKIN or DOWNSKIN
    layer_start: Indices  # (L + 1,)

    def __post_init__(self) -> None:
        object.__setattr__(self, "vectors", frozen_floats(self.vectors, (None, 4), "vectors"))

    def lengths(self) -> Floats:
        """(N,) length of each vector [mm]."""
        return np.asarray(np.hypot(*(self.vectors[:, 2:] - self.vectors[:, :2]).T))

    def layer(self, number: int) -> Floats:
        """(n, 4) vectors of one layer [mm]."""
        return self.vectors[self.layer_start[number] : self.layer_start[number + 1]]


def hatch(
    slices: Slices,
    plan: HatchPlan,
    *,
    solid: Slices | None = None,
    progress: Progress = silent,
) -> Hatches:
    """Fill every layer.

    Args:
        slices: what is filled, beam offset and contour passes already taken off.
        plan: lines, stripes, skins.
        solid: the whole metal, by which upskin and downskin are told; needed for skins. Below
            its first layer lies the platform, so the first layers have no downskin.
        progress: told of the layers.
    """
    skins = plan.skin_layers if solid is not None else 0
    whole = slices if solid is None else solid
    if whole.layers != slices.layers:
        raise InputError(f"{whole.layers} layers of metal, {slices.layers} layers to fill")
    shift = 0 if solid is None else slices.contours
    points, start = slices.points, slices.contour_start
    if solid is not None:
        points = np.concatenate([points, solid.points])
        start = np.concatenate([start, solid.contour_start[1:] + len(slices.points)])
    angles = [np.radians(plan.angle_deg(layer)) for layer in range(slices.layers)]
    turns = np.array([(np.cos(a), np.sin(a)) for a in angles]).reshape(-1, 2)
    against = _against(plan, angles)

    def fill(first: int, last: int) -> tuple[Floats, NDArray[np.int8], Indices]:
        filled: tuple[Floats, NDArray[np.int8], Indices] = kernels.fill_layers(
            points, start, slices.layer_start, whole.layer_start + shift, first, last, skins,
            turns, against, plan.spacing_mm, SHORTEST_SKIN_MM, plan.stripe_mm,
            plan.shortest_mm, plan.serpentine,
        )  # fmt: skip
        return filled

    found = from_chunks(fill, slices.layers, LAYERS_AT_ONCE, progress=progress, phase="hatching")
    counts = np.concatenate([[0], *(counts for _, _, counts in found)])
    return Hatches(
        np.concatenate([np.zeros((0, 4)), *(vectors for vectors, _, _ in found)]),
        np.concatenate([np.zeros(0, np.int8), *(kinds for _, kinds, _ in found)]),
        np.cumsum(counts, dtype=np.int64),
    )


def _against(plan: HatchPlan, angles: list[float]) -> NDArray[np.bool_]:
    """(L, 2) whether each layer begins with its last stripe, with its last line."""
    if plan.gas_flow_deg is None:
        return np.zeros((len(angles), 2), np.bool_)
    flow = np.radians(plan.gas_flow_deg)
    return np.array([(np.cos(flow - a) > 0.0, np.sin(flow - a) > 0.0) for a in angles])


def of_kind(lines: Hatches, kind: int) -> Hatches:
    """The vectors of one class: CORE, UPSKIN or DOWNSKIN."""
    chosen = lines.kinds == kind
    before = np.concatenate([[0], np.cumsum(chosen)])
    return Hatches(lines.vectors[chosen], lines.kinds[chosen], before[lines.layer_start])
