"""Hatch vectors over layers: parallel lines, stripes, a turn from layer to layer, skins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError, Progress, frozen_floats, silent
from claspwright.build import _hatch_kernels as kernels
from claspwright.build.slices import Indices, Slices

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
    found: list[Floats] = []
    kinds: list[NDArray[np.int8]] = []
    for layer in range(slices.layers):
        ranges, below = _ranges(slices, whole, shift, layer, skins)
        one, kind = _fill(points, start, ranges, below, plan, layer)
        found.append(one)
        kinds.append(kind)
        if layer % 64 == 0:
            progress(layer / slices.layers, "hatching")
    progress(1.0, "hatching")
    counts = [len(one) for one in found]
    return Hatches(
        np.concatenate([np.zeros((0, 4)), *found]),
        np.concatenate([np.zeros(0, np.int8), *kinds]),
        np.concatenate([[0], np.cumsum(counts, dtype=np.int64)]).astype(np.int64),
    )


def _ranges(
    slices: Slices, whole: Slices, shift: int, layer: int, skins: int
) -> tuple[Indices, int]:
    """First and last contour of the layer and of those below and above; how many are below."""
    own = slices.layer_start[layer : layer + 2]
    lower = [n for n in range(layer - skins, layer) if n >= 0]
    upper = range(layer + 1, layer + 1 + skins)
    rows = [own]
    rows += [whole.layer_start[n : n + 2] + shift for n in lower]
    rows += [
        whole.layer_start[n : n + 2] + shift if n < whole.layers else np.zeros(2, np.int64)
        for n in upper
    ]
    return np.array(rows, dtype=np.int64), len(lower)


def _fill(
    points: Floats, start: Indices, ranges: Indices, below: int, plan: HatchPlan, layer: int
) -> tuple[Floats, NDArray[np.int8]]:
    angle = np.radians(plan.angle_deg(layer))
    cosine, sine = float(np.cos(angle)), float(np.sin(angle))
    turn = np.array([[cosine, -sine], [sine, cosine]])
    used = [
        (points[start[a] : start[b]] @ turn, start[a : b + 1] - start[a])
        for a, b in ranges.tolist()
    ]
    sizes = np.cumsum([0] + [len(p) for p, _ in used])
    local = np.concatenate([p for p, _ in used])
    local_start = np.concatenate(
        [[0]] + [s[1:] + size for (_, s), size in zip(used, sizes, strict=False)]
    )
    counts = np.cumsum([0] + [len(s) - 1 for _, s in used])
    local_ranges = np.column_stack([counts[:-1], counts[1:]]).astype(np.int64)
    pieces, number, kind = kernels.scan_layer(
        np.ascontiguousarray(local),
        local_start.astype(np.int64),
        local_ranges,
        below,
        len(ranges) - 1 - below,
        plan.spacing_mm,
        SHORTEST_SKIN_MM,
    )
    along = across = 0.0
    if plan.gas_flow_deg is not None:
        flow = np.radians(plan.gas_flow_deg)
        along, across = float(np.cos(flow - angle)), float(np.sin(flow - angle))
    pieces, number, kind = kernels.cut_stripes(
        pieces, number, kind, plan.stripe_mm, plan.shortest_mm, along > 0.0, across > 0.0,
        plan.serpentine,
    )  # fmt: skip
    laid = kernels.lay_out(pieces, number, plan.spacing_mm, cosine, sine, plan.serpentine)
    return laid, kind


def of_kind(lines: Hatches, kind: int) -> Hatches:
    """The vectors of one class: CORE, UPSKIN or DOWNSKIN."""
    chosen = lines.kinds == kind
    before = np.concatenate([[0], np.cumsum(chosen)])
    return Hatches(lines.vectors[chosen], lines.kinds[chosen], before[lines.layer_start])
