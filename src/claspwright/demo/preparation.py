"""Rest seats and guiding planes, cut into the crowns as a dentist's bur does."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from scipy.ndimage import gaussian_filter

from claspwright.base import Floats, GeometryError, Singles
from claspwright.demo.fields import smooth_max, step
from claspwright.demo.model import ArchOptions, GuidingPlane, PlaneSide, Seat, SeatForm
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth
from claspwright.demo.solid import Box, JawSolid, nodes_of
from claspwright.geometry import Grid

RIDGE_CUT_MM = 1.2  # marginal ridge reduction (check-values C05: 1.0 to 1.5)
CENTRE_DEEPER_MM = 0.45  # the floor is deeper inside (check-values C06: about 0.5)
SEAT_WIDTH_MM = 2.7  # base of the triangle (check-values C01: at least 2.5)
CINGULUM_DEEP_MM = 1.5  # height of the cingulum ledge's wall (check-values C09)
PLANE_HEIGHT_MM = {"bounded": 3.0, "free": 2.0}  # check-values B16, B17


def _axes(tooth: PlacedTooth, form: SeatForm | PlaneSide) -> tuple[Floats, Floats]:
    """Horizontal unit vectors out of the tooth on that side, and across."""
    local = {"mesial": [1.0, 0, 0], "distal": [-1.0, 0, 0], "cingulum": [0, -1.0, 0]}[form]
    out = tooth.frame.rotation.T @ (np.array(local) * np.array([tooth.mirror, 1.0, 1.0]))
    out = np.array([out[0], out[1], 0.0])
    out /= np.linalg.norm(out)
    return out, np.cross([0.0, 0.0, 1.0], out)


def _horizontal(
    grid: Grid, box: Box, origin: Floats, out: Floats, across: Floats
) -> tuple[Singles, Singles, Singles]:
    """Distances of the box's nodes from `origin` along out, across and up."""
    x, y, z = nodes_of(grid, box.slices)
    dx, dy = x - np.float32(origin[0]), y - np.float32(origin[1])
    e = dx * np.float32(out[0]) + dy * np.float32(out[1])
    s = dx * np.float32(across[0]) + dy * np.float32(across[1])
    return e, s, z - np.float32(origin[2])


def _surfaced(box: Box, along: Singles) -> Singles:
    """A coordinate carried on from the nodes just inside to the surface; -inf elsewhere."""
    near = (box.values < 0) & (box.values > -0.4)
    return np.asarray(np.where(near, along - box.values, -np.inf), dtype=np.float32)


def _tops(grid: Grid, box: Box) -> Singles:
    """(nx, ny) highest z inside the crown; -inf beside it."""
    z = grid.axes()[2][box.slices[2]].astype(np.float32)
    return np.asarray(_surfaced(box, z[None, None, :]).max(axis=2), dtype=np.float32)


def _marginal_ridge(
    grid: Grid, box: Box, tooth: PlacedTooth, out: Floats, across: Floats
) -> Floats:
    """(3,) the saddle of the marginal ridge on the side of `out`, between the cusps."""
    centre = tooth.to_arch(np.array([[0.0, 0.0, tooth.size.length * 0.8]]))[0]
    e, s, _ = _horizontal(grid, box, centre, out, across)
    top = _tops(grid, box)
    e, s = e[:, :, 0], s[:, :, 0]
    solid = np.isfinite(top) & (top > centre[2] - 0.35 * tooth.size.length)
    best: tuple[float, float, float] | None = None
    reach = 0.24 * tooth.size.buccolingual
    for at in np.arange(-reach, reach + 0.01, 0.2):
        lane = solid & (np.abs(s - at) < 0.2)
        if not lane.any():
            continue
        outer = float(e[lane].max())
        near = lane & (e > outer - 2.2)
        bins = np.round((outer - e[near]) / 0.2).astype(int)
        heights = [
            float(top[near][bins == k].mean()) if (bins == k).any() else -np.inf for k in range(10)
        ]
        k = int(np.argmax(heights))
        height = heights[k] + 0.08 * abs(at)
        if best is None or height < best[2]:
            best = (float(at), outer - 0.2 * k, height)
    if best is None:
        raise GeometryError(
            f"the crown of tooth {tooth.code} has no marginal ridge to cut a seat in"
        )
    at, along, height = best
    xy = centre[:2] + along * out[:2] + at * across[:2]
    return np.array([xy[0], xy[1], height - 0.08 * abs(at)])


def _softened(values: Singles, spacing: float) -> Singles:
    """Edges left by the bur are rounded over about a tenth of a millimetre."""
    return np.asarray(gaussian_filter(values, 0.12 / spacing), dtype=np.float32)


def occlusal_seat(grid: Grid, box: Box, tooth: PlacedTooth, form: SeatForm) -> tuple[Singles, Seat]:
    """A rounded triangular spoon through the marginal ridge, deepest inside.

    Returns:
        The crown's field after the cut, and the seat.
    """
    out, across = _axes(tooth, form)
    ridge = _marginal_ridge(grid, box, tooth, out, across)
    length = float(np.clip(0.40 * tooth.size.mesiodistal, 2.6, 3.9))
    e, s, z = _horizontal(grid, box, ridge, out, across)
    inward = -e
    floor = -RIDGE_CUT_MM - CENTRE_DEEPER_MM * step((inward + 0.4) / (0.62 * length))
    floor = floor + 1.1 * np.maximum(inward - 0.60 * length, 0.0) ** 2
    floor = floor - 0.25 * np.clip(e - 0.3, 0.0, 2.0)  # rounded over towards the outside
    half = 0.5 * SEAT_WIDTH_MM * (1.0 - 0.42 * np.clip(inward / length, 0.0, 1.0))
    half = half + 0.2 * np.clip(e, 0.0, 1.0)
    wall = np.abs(s) / half
    floor = floor + 0.2 * wall**2 + 0.8 * wall**4 + 0.3 * wall**8
    slope = np.sqrt(1.0 + (2.0 * np.maximum(wall - 0.25, 0.0) / half) ** 2)
    cut = smooth_max(box.values, (z - floor) / slope, 0.5)
    cut = _softened(cut, grid.spacing)
    deepest = 0.55 * length
    at = ridge - deepest * out
    at[2] = ridge[2] - RIDGE_CUT_MM - CENTRE_DEEPER_MM
    return cut, Seat(tooth.code, form, at, RIDGE_CUT_MM + CENTRE_DEEPER_MM)


def _lingual_profile(box: Box, e: Singles, s: Singles, z: Singles) -> tuple[Floats, Floats]:
    """Heights and how far the crown reaches lingually there, in its middle."""
    reach = np.where(np.abs(s) < 0.4, _surfaced(box, e), -np.inf)
    reach = reach.max(axis=(0, 1))
    solid = np.isfinite(reach)
    return z.ravel()[solid].astype(np.float64), reach[solid].astype(np.float64)


def cingulum_seat(grid: Grid, box: Box, tooth: PlacedTooth) -> tuple[Singles, Seat]:
    """A crescent ledge on the cingulum, its floor sloping into the tooth.

    The ledge lies where the lingual surface leans most, so that the wall behind it runs out
    about `CINGULUM_DEEP_MM` above the floor.
    """
    out, across = _axes(tooth, "cingulum")
    margin = float(tooth.margin[3 * MARGIN_STEPS // 4])
    at = tooth.to_arch(np.array([[0.0, 0.0, margin]]))[0]
    e, s, z = _horizontal(grid, box, at, out, across)
    heights, reach = _lingual_profile(box, e, s, z)
    levels = np.arange(1.7, 0.55 * (tooth.size.length - margin), 0.1)
    here, above = (np.interp(levels + up, heights, reach) for up in (0.0, CINGULUM_DEEP_MM))
    best = int(np.argmax(here - above))
    surface, level = float(here[best]), float(levels[best])
    deep = float(np.clip(here[best] - above[best], 0.8, 1.3))
    wall = surface - deep - 0.16 * s * s  # crescent seen from occlusal
    floor = level - 0.25 + 0.25 * (e - surface + deep) + 0.08 * s * s
    open_side = (wall - e) * np.float32(0.95)
    over = (floor - z) * np.float32(0.95)
    notch = smooth_max(open_side, over, 0.6)
    cut = _softened(smooth_max(box.values, -notch, 0.4), grid.spacing)
    centre = at + (surface - 0.7 * deep) * out
    centre[2] = at[2] + level - 0.2
    return cut, Seat(tooth.code, "cingulum", centre, float(CINGULUM_DEEP_MM))


def guiding_plane(
    grid: Grid, box: Box, tooth: PlacedTooth, side: PlaneSide, height_mm: float
) -> tuple[Singles, GuidingPlane]:
    """A flat parallel to +z, ground just as deep as its height needs (at most 0.7 mm)."""
    out, across = _axes(tooth, side)
    middle = tooth.to_arch(np.array([[0.0, 0.0, 0.5 * tooth.size.length]]))[0]
    e, s, z = _horizontal(grid, box, middle, out, across)
    reach = np.where(np.abs(s) < 1.0, _surfaced(box, e), -np.inf)
    reach = reach.max(axis=(0, 1))
    top = float(reach.max())
    depth = 0.15
    while depth < 0.7 and (reach > top - depth).sum() * grid.spacing < height_mm:
        depth += 0.02
    flat = top - depth
    cut = smooth_max(box.values, np.broadcast_to(e - flat, box.values.shape), 0.1)
    band = z.ravel()[reach > flat]
    centre = middle + flat * out
    centre[2] = middle[2] + 0.5 * (band.min() + band.max())
    plane = GuidingPlane(tooth.code, side, out, centre, float(band.max() - band.min()))
    return cut.astype(np.float32), plane


def prepared(
    solid: JawSolid, options: ArchOptions
) -> tuple[Mapping[int, Box], tuple[Seat, ...], tuple[GuidingPlane, ...]]:
    """The crowns after the dentist's preparations: planes first, then seats."""
    boxes = dict(solid.boxes)
    seats: list[Seat] = []
    planes: list[GuidingPlane] = []
    for code, sides in options.planes.items():
        for side in sides:
            kind = "free" if _ends_free(code, side, options.missing) else "bounded"
            values, plane = guiding_plane(
                solid.grid, boxes[code], solid.placed[code], side, PLANE_HEIGHT_MM[kind]
            )
            boxes[code] = Box(boxes[code].slices, values)
            planes.append(plane)
    for code, forms in options.seats.items():
        for form in forms:
            box, tooth = boxes[code], solid.placed[code]
            if form == "cingulum":
                values, seat = cingulum_seat(solid.grid, box, tooth)
            else:
                values, seat = occlusal_seat(solid.grid, box, tooth, form)
            boxes[code] = Box(box.slices, values)
            seats.append(seat)
    return boxes, tuple(seats), tuple(planes)


def _ends_free(code: int, side: PlaneSide, missing: tuple[int, ...]) -> bool:
    if side == "mesial":
        return False
    quadrant, n = divmod(code, 10)
    return all(10 * quadrant + k in missing for k in range(n + 1, 8))
