"""A closed solid cut into layers: exact contours at mid-layer height."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import (
    Bools,
    Floats,
    GeometryError,
    InputError,
    Progress,
    frozen_floats,
    part,
    silent,
)
from claspwright.build import _slice_kernels as kernels
from claspwright.geometry import Mesh, beside, in_chunks, opposite_edges

Indices = NDArray[np.int64]

COLLINEAR_MM = 1e-5  # a hundredth of a micrometre: far below what any machine can place
LEAST_AREA_MM2 = 1e-6
MOST_LAYERS = 100_000
BANDS = 4  # of layers, walked side by side


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
        heights = mesh.vertices[:, 2]
        low, high = heights.min(), heights.max()
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
    numbers = np.empty(len(mesh.vertices), np.int32)
    heights = np.ascontiguousarray(mesh.vertices[:, 2])
    kernels.number_levels(heights, bottom, plan.layer_mm, count, numbers)
    across, (start, crossed) = beside(
        lambda: _opposites(mesh), lambda: _crossed(mesh.faces, numbers, count)
    )
    bands = _bands(start)
    found: list[tuple[Floats, Indices, NDArray[Any]] | None] = [None] * (len(bands) - 1)

    def walk(from_band: int, to_band: int) -> None:
        for n in range(from_band, to_band):
            under, above = bands[n], bands[n + 1]
            total = int(start[above] - start[under])
            points = np.empty((total, 2))
            layer_of = np.empty(total // 3 + 1, np.int32)
            ends = np.empty(total // 3 + 1, np.int64)
            contours = kernels.trace(
                mesh.vertices, mesh.faces, numbers, across, crossed, start, bottom,
                plan.layer_mm, under, above, points, layer_of, ends,
            )  # fmt: skip
            begins = np.concatenate([[0], ends[:contours]])
            found[n] = _sorted(
                points, begins, layer_of[:contours], tolerance_mm, corner=tolerance_mm
            )

    in_chunks(walk, len(found), 1, progress=part(progress, 0.2, 1.0), phase="slicing")
    sorted_out = _joined([one for one in found if one is not None], count)
    progress(1.0, "slicing")
    return Slices(bottom, plan.layer_mm, *sorted_out)


def _opposites(mesh: Mesh) -> NDArray[np.int32]:
    """(3F,) the opposite of each half-edge."""
    across, unpaired = opposite_edges(mesh)
    if unpaired:
        raise GeometryError(
            f"not a closed solid: {unpaired} edges lack a face on one side",
            remedy="Close the mesh first.",
        )
    return across


def _crossed(
    faces: NDArray[Any], numbers: NDArray[np.int32], planes: int
) -> tuple[Indices, NDArray[np.int32]]:
    """(L + 1,) begin of each plane in the list, and the faces that cross it, plane by plane."""
    start = np.zeros(planes + 1, np.int64)
    kernels.count_crossed(faces, numbers, start)
    crossed = np.empty(int(start[-1]), np.int32)
    kernels.list_crossed(faces, numbers, start, crossed)
    return start, crossed


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


def _bands(start: Indices) -> list[int]:
    """Borders of neighbouring bands of layers with about as many segments each."""
    cuts = np.searchsorted(start[1:], np.arange(1, BANDS) / BANDS * max(int(start[-1]), 1))
    ends = np.minimum(cuts + 1, len(start) - 1)
    return [int(n) for n in np.unique([0, *ends.tolist(), len(start) - 1])]


def kept_contours(slices: Slices, kept: Bools) -> Slices:
    """The contours that are kept, (C,) of them told; all layers stay."""
    sizes = np.diff(slices.contour_start)
    return Slices(
        slices.bottom_mm,
        slices.layer_mm,
        slices.points[np.repeat(kept, sizes)],
        np.concatenate([[0], np.cumsum(sizes[kept])]),
        np.concatenate([[0], np.cumsum(kept)])[slices.layer_start],
    )


def in_order(
    points: Floats, start: Indices, layer_of: NDArray[Any], layers: int, tolerance: float
) -> tuple[Floats, Indices, Indices]:
    """Points, contour starts and layer starts, sorted by layer and then from the largest outer
    contour to the largest hole; crumbs without area are dropped.
    """  # noqa: D205
    return _joined([_sorted(points, start, layer_of, tolerance)], layers)


def _sorted(
    points: Floats,
    start: Indices,
    layer_of: NDArray[Any],
    tolerance: float,
    *,
    corner: float = np.inf,
) -> tuple[Floats, Indices, NDArray[Any]]:
    """Points, end and layer of each contour, in order."""
    areas = np.empty(len(start) - 1)
    kernels.signed_areas(points, start, areas)
    order = np.lexsort((points[start[:-1], 0], -areas, layer_of))
    order = order[np.abs(areas[order]) >= LEAST_AREA_MM2]
    out = np.empty((int((start[order + 1] - start[order]).sum()), 2))
    ends = np.empty(len(order), np.int64)
    used = kernels.simplify(points, start, order, tolerance, corner, out, ends)
    full = np.diff(ends, prepend=0) > 0
    return out[:used], ends[full], layer_of[order[full]]


def _joined(
    bands: Sequence[tuple[Floats, Indices, NDArray[Any]]], layers: int
) -> tuple[Floats, Indices, Indices]:
    """Points, contour starts and layer starts of bands of layers, the lowest first."""
    before = np.cumsum([0, *(len(points) for points, _, _ in bands)])
    points = np.concatenate([points for points, _, _ in bands]) if len(bands) > 1 else bands[0][0]
    ends = [end + n for (_, end, _), n in zip(bands, before, strict=False)]
    layer_of = np.concatenate([layer for _, _, layer in bands])
    layer_start = np.searchsorted(layer_of, np.arange(layers + 1))
    return points, np.concatenate([[0], *ends]), layer_start


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
