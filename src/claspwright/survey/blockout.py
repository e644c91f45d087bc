"""The blocked-out model: undercuts filled along the path, relief added."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import distance_transform_edt, minimum_filter

from claspwright.arch import DentalArch, MasterScan
from claspwright.base import Floats, GeometryError, InputError, Progress, part, silent
from claspwright.geometry import (
    Field,
    Grid,
    Mesh,
    bodies,
    contour,
    in_chunks,
    simplified,
    union,
    volume,
    without_crumbs,
)
from claspwright.survey import _lump_kernels as kernels
from claspwright.survey.model import BlockedOut, Survey

OVERLAP_STEPS = 2.5  # of a lump with the scan: thick enough for the grid, so that no slit stays
LEAST_LUMP_MM = 0.01  # thinner fillings are left out
LEAST_LUMP_MM3 = 0.02
FLOOR_MM = 0.3  # lumps end this far over the lowest point of the master solid
FOOT_MM = 0.5  # below the lowest surface near by, where a lump ends
FOOT_REACH_MM = 5.0  # what counts as near by: more than undercuts are deep
SIMPLIFY_MM = 0.002


def block_out(
    arch: DentalArch,
    survey: Survey,
    relief: Field | None = None,
    *,
    progress: Progress = silent,
) -> BlockedOut:
    """The master solid with its undercuts filled parallel to the path and relief laid on.

    Where less than 0.01 mm is filled, the model is the master solid to the last digit.

    Args:
        arch: the arch that was surveyed.
        survey: its fields.
        relief: thickness >= 0 at the nodes of the survey's grid [mm]; 0 where a tissue stop
            reaches through it.
        progress: told of the fraction done.

    Raises:
        InputError: the relief is not on the grid of the survey, or is negative.
        GeometryError: the filled solid falls into several pieces.
    """
    scan, block = survey.scan_field, survey.block_field
    filled = block if relief is None else _relieved(block, relief)
    floor = _floor(arch.scan, scan.grid)
    progress(0.1, "blockout")
    lumps = _lumps(scan, filled, floor, part(progress, 0.1, 0.5))
    model = arch.scan.solid
    if len(lumps.faces):
        model = _largest(union(model, simplified(lumps, SIMPLIFY_MM)))
    progress(0.9, "blockout")
    volumes = [_volume(field, floor) for field in (scan, block)]
    volumes.append(volumes[1] if relief is None else _volume(filled, floor))
    progress(1.0, "blockout")
    return BlockedOut(
        model=model,
        field=filled,
        blockout_mm3=max(volumes[1] - volumes[0], 0.0),
        relief_mm3=max(volumes[2] - volumes[1], 0.0),
    )


def _relieved(block: Field, relief: Field) -> Field:
    if relief.grid is not block.grid and not (
        relief.grid.shape == block.grid.shape
        and relief.grid.spacing == block.grid.spacing
        and np.array_equal(relief.grid.origin, block.grid.origin)
        and np.array_equal(relief.grid.frame.matrix(), block.grid.frame.matrix())
    ):
        raise InputError(
            f"the relief lies on another grid {relief.grid.shape} than the survey "
            f"{block.grid.shape}",
            remedy="Make it on survey.block_field.grid.",
        )
    if not float(relief.values.min()) >= 0.0:
        raise InputError(f"relief of {float(relief.values.min()):.3f} mm is negative")
    return Field(block.grid, block.values - relief.values)


def _floor(scan: MasterScan, grid: Grid) -> Floats:
    """(NX, NY) fractional k where lumps end: under the border of the scan, over the floor.

    Under the border nothing is covered; what hangs over there needs no filling. The lowest
    surface within 5 mm counts, so that an undercut is filled down to its own foot.
    """
    nodes = grid.to_nodes(scan.surface.vertices)
    low = np.full(grid.shape[:2], np.inf)
    columns = np.rint(nodes[:, :2]).astype(np.int64)
    np.minimum.at(low, (columns[:, 0], columns[:, 1]), nodes[:, 2])
    empty = ~np.isfinite(low)
    nearest = distance_transform_edt(empty, return_distances=False, return_indices=True)
    low = low[nearest[0], nearest[1]]
    low = minimum_filter(low, 2 * round(FOOT_REACH_MM / grid.spacing) + 1)
    corner = grid.to_world(np.zeros((1, 3)))[0, 2]
    along = grid.frame.inverse().turn(np.eye(3) * grid.spacing)[:, 2]
    lowest = float(scan.solid.vertices[:, 2].min()) + FLOOR_MM
    i, j = np.meshgrid(np.arange(low.shape[0]), np.arange(low.shape[1]), indexing="ij")
    plane = (lowest - corner - along[0] * i - along[1] * j) / along[2]
    return np.asarray(np.maximum(low - FOOT_MM / grid.spacing, plane), dtype=np.float64)


def _lumps(scan: Field, filled: Field, floor: Floats, progress: Progress) -> Mesh:
    out = np.empty(scan.grid.shape, np.float32)
    overlap = OVERLAP_STEPS * scan.grid.spacing

    def work(first: int, last: int) -> None:
        kernels.lump_planes(
            scan.values,
            filled.values,
            floor,
            scan.grid.spacing,
            overlap,
            LEAST_LUMP_MM,
            first,
            last,
            out,
        )

    in_chunks(work, len(out), 16)
    raw = contour(Field(scan.grid, out), progress=progress)
    return without_crumbs(raw, LEAST_LUMP_MM3)[0] if len(raw.faces) else raw


def _largest(model: Mesh) -> Mesh:
    """The outer shell: closed bubbles between lump and scan are filled."""
    pieces = bodies(model)
    others = [piece for piece in pieces[1:] if volume(piece) > LEAST_LUMP_MM3]
    if others:
        x, y, z = others[0].vertices.mean(axis=0)
        raise GeometryError(
            f"the blocked-out model has {len(others)} pieces besides the arch, "
            f"the largest of {volume(others[0]):.2f} mm3",
            place=f"({x:.1f}, {y:.1f}, {z:.1f}) mm",
            remedy="Check the scan for loose islands there.",
        )
    return pieces[0]


def _volume(field: Field, floor: Floats) -> float:
    """Volume inside a field over the floor, within its grid [mm3]."""
    spacing = field.grid.spacing
    count = len(field.values)
    sums = np.zeros(count)

    def work(first: int, last: int) -> None:
        sums[first] = kernels.inside_steps(field.values, floor, spacing, first, last)

    in_chunks(work, count, 16)
    return float(sums.sum()) * spacing**3
