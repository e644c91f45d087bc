"""The blocked-out model: undercuts filled along the path, relief added."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import distance_transform_edt, minimum_filter

from claspwright.arch import DentalArch, MasterScan
from claspwright.base import Bools, Floats, GeometryError, InputError, Progress, part, silent
from claspwright.geometry import (
    Field,
    Grid,
    HeldSolid,
    Mesh,
    contour,
    difference,
    in_chunks,
    is_covered,
    shells,
    union,
    volume,
    without_crumbs,
)
from claspwright.survey import _lump_kernels as kernels
from claspwright.survey.bodies import Layers, box_grid, name_bodies
from claspwright.survey.crevices import crevice_fills, missed_fills
from claspwright.survey.filling import (
    box_about,
    fill_values,
    filled,
    groove_radius,
    grooved,
    ledge_values,
    tapered_at_crowns,
)
from claspwright.survey.model import BlockedOut, Survey
from claspwright.survey.wax import NO_WAX, Course, Patch, Relief, Wax, WaxBody, WaxMap

OVERLAP_STEPS = 2.5  # of a lump with the scan: thick enough for the grid, so that no slit stays
LEAST_LUMP_MM = 0.01  # thinner fillings are left out
LEAST_LUMP_MM3 = 0.02
LEAST_FILL_MM3 = 0.05
LEAST_FREE_MM3 = 0.001  # of a lump or a bubble that matters to what lies on the model
FREE_LUMP_MM3 = 0.5  # a filling that hangs on nothing is left out up to this size
FLOOR_MM = 0.3  # lumps end this far over the lowest point of the master solid
FOOT_MM = 0.5  # below the lowest surface near by, where a lump ends
FOOT_REACH_MM = 5.0  # what counts as near by: more than undercuts are deep
SIMPLIFY_MM = 0.002


def block_out(
    arch: DentalArch,
    survey: Survey,
    relief: Field | Relief | None = None,
    wax: Wax = NO_WAX,
    *,
    progress: Progress = silent,
) -> BlockedOut:
    """The master solid with its undercuts filled along the path and relief laid on.

    Where less than 0.01 mm is filled, the model is the master solid to the last digit, but for
    crevices that the grid does not see and beside places that its lumps miss: both are filled.

    Args:
        arch: the arch that was surveyed.
        survey: its fields.
        relief: thickness >= 0 at the nodes of the survey's grid [mm]; 0 where a tissue stop
            reaches through it.
        wax: taper of the walls, places to fill, bead lines; its reliefs and ledges are laid
            by whoever knows the framework.
        progress: told of the fraction done.

    Raises:
        InputError: the relief is not on the grid of the survey, or is negative.
        GeometryError: the filled solid falls into several pieces.

    Source:
        check-values B21, B22, B28.
    """
    layers = wax_layers(arch, survey, relief, wax)
    shaped = shape_wax(arch, survey, layers, wax, progress=part(progress, 0.1, 0.8))
    told = tell_wax(arch, layers, relief, wax)
    progress(1.0, "blockout")
    return shaped.told_of(told)


@dataclass(frozen=True, slots=True, eq=False)
class Cutters:
    """What metal over a blocked-out model is cut by, solids held ready."""

    wax: HeldSolid  # what was added to the master solid, or all of the model
    bare: HeldSolid  # the master solid, bead lines scribed


@dataclass(frozen=True, slots=True, eq=False)
class WaxTold:
    """What wax there is, by name and place."""

    bodies: tuple[WaxBody, ...]
    map: WaxMap
    blockout_mm3: float
    relief_mm3: float


@dataclass(frozen=True, slots=True, eq=False)
class WaxShaped:
    """The solids of a blocked-out model."""

    model: Mesh
    field: Field
    beads: tuple[WaxBody, ...]  # cut into it
    cutters: Cutters

    def told_of(self, told: WaxTold) -> BlockedOut:
        """The whole record of the model."""
        return BlockedOut(
            model=self.model,
            field=self.field,
            blockout_mm3=told.blockout_mm3,
            relief_mm3=told.relief_mm3,
            bodies=(*told.bodies, *self.beads),
            map=told.map,
        )


def shape_wax(
    arch: DentalArch, survey: Survey, layers: Layers, wax: Wax, *, progress: Progress = silent
) -> WaxShaped:
    """The model of `block_out`, and the solids that a framework is cut by.

    Wax and bare arch one after the other cut as the model does, each surface once. `layers` come
    from `wax_layers`.
    """
    lumps, drawn = _lumps(layers.scan, layers.relieved, layers.floor, part(progress, 0.0, 0.6))
    surface, hidden = arch.scan.surface, survey.hidden
    crevices = crevice_fills(surface, hidden, layers.scan, layers.relieved)
    tree = survey.tree_over(arch.scan.solid)

    def is_under(points: Floats) -> Bools:
        return is_covered(tree, points, survey.path.direction)

    crevices += missed_fills(
        surface, hidden, is_under, (lumps, drawn), layers.relieved, layers.floor
    )
    bare = HeldSolid.of(arch.scan.solid, "arch")
    fills = [HeldSolid.of(lumps, "blockout").simplified(SIMPLIFY_MM)] if len(lumps.faces) else []
    fills += [HeldSolid.of(one, "crevice") for one in crevices]
    added = HeldSolid.union(fills)
    whole = arch.scan.solid if added.empty else bare.joined(added).mesh()
    model, left_out = outer_shell(whole)
    cutters = Cutters(HeldSolid.of(model, "blocked-out model") if left_out else added, bare)
    beads: tuple[WaxBody, ...] = ()
    if wax.beads:
        model, beads = _beaded(model, layers.relieved, wax)
        held = HeldSolid.of(model, "blocked-out model")
        cutters = Cutters(held, bare.within(held))
    progress(1.0, "blockout")
    return WaxShaped(model, layers.relieved, beads, cutters)


def tell_wax(
    arch: DentalArch, layers: Layers, relief: Field | Relief | None = None, wax: Wax = NO_WAX
) -> WaxTold:
    """Names, places and volumes of what `block_out` adds, counted on the grid."""
    named = relief if isinstance(relief, Relief) else None
    bodies, places = name_bodies(arch, layers, wax, named)
    amounts = [
        _volume(f, layers.floor)
        for f in (layers.scan, layers.filled, *([] if relief is None else [layers.relieved]))
    ]
    return WaxTold(
        bodies, places, max(amounts[1] - amounts[0], 0.0), max(amounts[-1] - amounts[1], 0.0)
    )


def with_ledges(blocked: BlockedOut, courses: tuple[Course, ...]) -> BlockedOut:
    """The blocked-out model with a shelf under each line, as a clasp's underside is guided.

    The framework is not cut by them; they show on the model that is duplicated or printed.

    Source:
        check-values B21 (shaped ledge).
    """
    model, bodies = blocked.model, list(blocked.bodies)
    values = np.array(blocked.field.values)
    for course in courses:
        box, ledge = ledge_values(blocked.field, course)
        small = Field(box_grid(blocked.field.grid, box), ledge)
        shelf = contour(small)
        if not len(shelf.faces):
            continue
        before = volume(model)
        model, _ = outer_shell(union(model, shelf))
        x, y, z = shelf.vertices.mean(axis=0).tolist()
        bodies.append(WaxBody(f"ledge.{course.name}", "ledge", volume(model) - before, (x, y, z)))
        values[box] = np.minimum(values[box], ledge)
    field = Field(blocked.field.grid, values)
    return replace(blocked, model=model, field=field, bodies=tuple(bodies))


def with_fills(blocked: BlockedOut, patches: tuple[Patch, ...]) -> BlockedOut:
    """The blocked-out model with hollows filled that the framework keeps clear of.

    Volumes are counted on the grid; what comes to less than LEAST_FILL_MM3 is left out.
    """
    grid = blocked.field.grid
    values = np.array(blocked.field.values)
    lumps: list[Mesh] = []
    named, points, owner = list(blocked.bodies), [blocked.map.points], [blocked.map.body]
    for patch in patches:
        box, fill = fill_values(blocked.field, patch)
        added = np.clip(0.5 - fill / grid.spacing, 0.0, 1.0)
        added -= np.clip(0.5 - values[box] / grid.spacing, 0.0, 1.0)
        amount = float(np.maximum(added, 0.0).sum()) * grid.spacing**3
        if amount < LEAST_FILL_MM3:
            continue
        lumps.append(contour(Field(box_grid(grid, box), fill)))
        nodes = np.argwhere(added > 0.02) + [part.start for part in box]
        points.append(grid.to_world(nodes.astype(np.float64)))
        owner.append(np.full(len(nodes), len(named), np.int16))
        named.append(WaxBody(f"fill.{patch.name}", "fill", amount, patch.at))
        values[box] = np.minimum(values[box], fill)
    if not lumps:
        return blocked
    return replace(
        blocked,
        model=outer_shell(union(blocked.model, *lumps))[0],
        field=Field(grid, values),
        bodies=tuple(named),
        map=WaxMap(np.concatenate(points), np.concatenate(owner)),
    )


def wax_layers(
    arch: DentalArch, survey: Survey, relief: Field | Relief | None = None, wax: Wax = NO_WAX
) -> Layers:
    """The fields of a blocked-out model, as `block_out` makes them before any solid.

    Raises:
        InputError: the relief is not on the grid of the survey, or is negative.
    """
    thickness = relief.field if isinstance(relief, Relief) else relief
    scan = survey.scan_field
    swept = survey.block_field
    if wax.taper_deg > 0.0:
        surface, crown = arch.scan.surface, arch.crown_of_face > 0
        points = np.concatenate(
            [surface.corners[crown].mean(axis=1), surface.vertices[surface.faces[crown].ravel()]]
        )
        swept = tapered_at_crowns(scan, swept, wax.taper_deg, points)
    hollow = filled(swept, wax.fills) if wax.fills else swept
    relieved = hollow if thickness is None else _relieved(hollow, thickness)
    return Layers(scan, swept, hollow, relieved, _floor(arch.scan, scan.grid))


def _beaded(model: Mesh, field: Field, wax: Wax) -> tuple[Mesh, tuple[WaxBody, ...]]:
    """The model with a groove along each bead line, and what was cut away."""
    found = []
    for bead in wax.beads:
        cut = grooved(
            Field(field.grid, np.full(field.grid.shape, -1.0, np.float32)), (bead,), field
        )
        line = field.grid.frame.apply(bead.line)
        box = box_about(field.grid, line, groove_radius(bead) + bead.width_mm + 1.0)
        rod = contour(Field(box_grid(field.grid, box), -cut.values[box]))
        before = volume(model)
        model, _ = outer_shell(difference(model, rod))
        x, y, z = bead.line.mean(axis=0).tolist()
        found.append(WaxBody(f"bead.{bead.name}", "bead", volume(model) - before, (x, y, z)))
    return model, tuple(found)


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
    out = np.empty_like(block.values)

    def work(first: int, last: int) -> None:
        np.subtract(block.values[first:last], relief.values[first:last], out=out[first:last])

    in_chunks(work, len(out), 16)
    return Field(block.grid, out)


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


def _lumps(scan: Field, filled: Field, floor: Floats, progress: Progress) -> tuple[Mesh, Field]:
    """The lumps, and the field whose zero they are; of it, what is a crumb is left out of them."""
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
    field = Field(scan.grid, out)
    raw = contour(field, progress=progress)
    return (without_crumbs(raw, LEAST_LUMP_MM3)[0] if len(raw.faces) else raw), field


def outer_shell(model: Mesh) -> tuple[Mesh, bool]:
    """The largest outer shell: closed bubbles are filled, small lumps that touch nothing left out.

    Returns:
        The shell, and whether more than crumbs of LEAST_FREE_MM3 were filled or left out.

    Raises:
        GeometryError: another piece is larger than FREE_LUMP_MM3.
    """
    largest, *others = shells(model)
    sizes = [volume(piece) for piece in others]
    loose = [n for n, size in enumerate(sizes) if size > FREE_LUMP_MM3]
    if loose:
        x, y, z = others[loose[0]].vertices.mean(axis=0)
        raise GeometryError(
            f"the blocked-out model has {len(loose)} pieces besides the arch, "
            f"the largest of {sizes[loose[0]]:.2f} mm3",
            place=f"({x:.1f}, {y:.1f}, {z:.1f}) mm",
            remedy="Check the scan for loose islands there.",
        )
    return largest, any(abs(size) > LEAST_FREE_MM3 for size in sizes)


def _volume(field: Field, floor: Floats) -> float:
    """Volume inside a field over the floor, within its grid [mm3]."""
    spacing = field.grid.spacing
    count = len(field.values)
    sums = np.zeros(count)

    def work(first: int, last: int) -> None:
        sums[first] = kernels.inside_steps(field.values, floor, spacing, first, last)

    in_chunks(work, count, 16)
    return float(sums.sum()) * spacing**3
