"""A closed solid cut into layers: exact contours at mid-layer height."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, GeometryError, InputError, Progress, frozen_floats, silent
from claspwright.build import _slice_kernels as kernels
from claspwright.geometry import Mesh

Indices = NDArray[np.int64]

COLLINEAR_MM = 1e-5  # a hundredth of a micrometre: far below what any machine can place
LEAST_AREA_MM2 = 1e-6
MOST_LAYERS = 100_000


@dataclass(frozen=True, slots=True, eq=False)
class Slices:
    """Closed contours layer by layer, plate frame; the first point is not repeated.

    Outer contours run counter-clockwise, holes clockwise, seen from above; in a layer the outer
    ones come first.
    """

    bottom_mm: float  # underside of the first layer
    layer_mm: float
    points: Floats  # (N, 2) mm
    contour_start: Indices  # (C + 1,) into points
    layer_start: Indices  # (L + 1,) into contours

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", frozen_floats(self.points, (None, 2), "points"))
        for name in ("contour_start", "layer_start"):
            array = np.array(getattr(self, name), dtype=np.int64)
            array.setflags(write=False)
            object.__setattr__(self, name, array)

    @property
    def layers(self) -> int:
        """Number of layers, empty ones included."""
        return len(self.layer_start) - 1

    @property
    def contours(self) -> int:
        """Number of contours in all layers."""
        return len(self.contour_start) - 1

    def tops_mm(self) -> Floats:
        """(L,) height of the upper surface of each layer [mm]."""
        return self.bottom_mm + self.layer_mm * np.arange(1.0, self.layers + 1.0)

    def contour(self, number: int) -> Floats:
        """(n, 2) points of one contour [mm]."""
        return self.points[self.contour_start[number] : self.contour_start[number + 1]]

    def layer_of_contour(self) -> Indices:
        """(C,) layer of each contour."""
        return np.repeat(np.arange(self.layers), np.diff(self.layer_start))

    def areas(self) -> Floats:
        """(C,) signed area of each contour, holes negative [mm2]."""
        out = np.empty(self.contours)
        kernels.signed_areas(self.points, self.contour_start, out)
        return out

    def layer_areas(self) -> Floats:
        """(L,) area of each layer [mm2]."""
        return np.bincount(
            self.layer_of_contour(), weights=self.areas(), minlength=self.layers
        ).astype(np.float64)

    def volume(self) -> float:
        """Sum of area times thickness over the layers [mm3]."""
        return float(self.areas().sum() * self.layer_mm)


@dataclass(frozen=True, slots=True)
class LayerPlan:
    """Where the layers lie; by default from the lowest point of the solid to its highest."""

    layer_mm: float
    bottom_mm: float | None = None
    layers: int | None = None

    def of(self, mesh: Mesh) -> tuple[float, int]:
        """Underside of the first layer and number of layers for a solid."""
        if not self.layer_mm > 0:
            raise InputError(f"a layer must be thicker than nothing, got {self.layer_mm} mm")
        low, high = mesh.bounds[:, 2]
        bottom = float(low) if self.bottom_mm is None else self.bottom_mm
        count = layer_count(float(high) - bottom, self.layer_mm)
        count = count if self.layers is None else self.layers
        if not 0 < count <= MOST_LAYERS:
            raise InputError(
                f"{count} layers of {1000 * self.layer_mm:g} um, the limit is {MOST_LAYERS}",
                remedy="Check the unit of the solid and the thickness of a layer.",
            )
        return bottom, count


def layer_count(height_mm: float, layer_mm: float) -> int:
    """Layers that a height needs, the last one perhaps in part (check-values F29)."""
    return int(np.ceil(height_mm / layer_mm - 1e-9))


def slice_solid(
    mesh: Mesh,
    plan: LayerPlan,
    *,
    tolerance_mm: float = COLLINEAR_MM,
    progress: Progress = silent,
) -> Slices:
    """Contours of a closed mesh at the middle height of each layer.

    Every half-edge of the mesh needs an opposite; edges where more than two faces meet are
    allowed. A face that lies in a slicing plane counts as above it. The contours are closed by
    construction. Points nearer than the tolerance to the line that is left are dropped.

    Raises:
        GeometryError: the surface is open.
        InputError: no layer, or too many of them.
    """
    bottom, count = plan.of(mesh)
    progress(0.0, "slicing")
    across = np.empty(3 * len(mesh.faces), np.int32)
    unpaired = kernels.pair_edges(mesh.faces, len(mesh.vertices), across)
    if unpaired:
        raise GeometryError(
            f"not a closed solid: {unpaired} edges lack a face on one side",
            remedy="Close the mesh first.",
        )
    numbers = np.empty(len(mesh.vertices), np.int32)
    heights = np.ascontiguousarray(mesh.vertices[:, 2])
    kernels.number_levels(heights, bottom, plan.layer_mm, count, numbers)
    first = np.empty(len(mesh.faces) + 1, np.int64)
    kernels.count_segments(mesh.faces, numbers, first)
    total = int(first[-1])
    points = np.empty((total, 2))
    layer_of = np.empty(total // 3 + 1, np.int32)
    ends = np.empty(total // 3 + 1, np.int64)
    found = kernels.trace(
        mesh.vertices, mesh.faces, numbers, across, first, bottom, plan.layer_mm,
        points, layer_of, ends,
    )  # fmt: skip
    progress(0.6, "slicing")
    start = np.concatenate([[0], ends[:found]])
    sorted_out = in_order(points, start, layer_of[:found], count, tolerance_mm)
    progress(1.0, "slicing")
    return Slices(bottom, plan.layer_mm, *sorted_out)


def simplified_slices(slices: Slices, tolerance_mm: float) -> Slices:
    """The same contours without points nearer than the tolerance to the line that is left."""
    found = in_order(
        slices.points,
        slices.contour_start,
        slices.layer_of_contour(),
        slices.layers,
        tolerance_mm,
    )
    return Slices(slices.bottom_mm, slices.layer_mm, *found)


def in_order(
    points: Floats, start: Indices, layer_of: NDArray[Any], layers: int, tolerance: float
) -> tuple[Floats, Indices, Indices]:
    """Points, contour starts and layer starts, sorted by layer and then from the largest outer
    contour to the largest hole; crumbs without area are dropped.
    """  # noqa: D205
    areas = np.empty(len(start) - 1)
    kernels.signed_areas(points, start, areas)
    order = np.lexsort((points[start[:-1], 0], -areas, layer_of))
    order = order[np.abs(areas[order]) >= LEAST_AREA_MM2]
    out = np.empty((int((start[order + 1] - start[order]).sum()), 2))
    ends = np.empty(len(order), np.int64)
    used = kernels.simplify(points, start, order, tolerance, out, ends)
    full = np.diff(ends, prepend=0) > 0
    layer_start = np.searchsorted(layer_of[order[full]], np.arange(layers + 1))
    return out[:used], np.concatenate([[0], ends[full]]), layer_start


def placed_slices(slices: Slices, turn: Floats, shift: Floats, layers: int) -> Slices:
    """The same contours turned about the vertical and moved, with empty layers added on top.

    Args:
        slices: contours of a part.
        turn: (2, 2) rotation in plan.
        shift: (2,) move in plan [mm].
        layers: how many layers there shall be, at least as many as there are.
    """
    if layers < slices.layers:
        raise InputError(f"{slices.layers} layers do not fit into {layers}")
    more = np.full(layers - slices.layers, slices.layer_start[-1])
    return Slices(
        slices.bottom_mm,
        slices.layer_mm,
        slices.points @ turn.T + shift,
        slices.contour_start,
        np.concatenate([slices.layer_start, more]),
    )
