"""From a design to one watertight solid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Finding, Floats, InputError, Progress, silent
from claspwright.framework.assemble import Laid, lay_all, plan_bases, survey_ground
from claspwright.framework.beads import bead_lines
from claspwright.framework.canvas import Canvas
from claspwright.framework.clearance import closing_heights
from claspwright.framework.connectors import Connector, plan_connector
from claspwright.framework.coverage import coverage_findings
from claspwright.framework.design import Design
from claspwright.framework.fit import eased
from claspwright.framework.ground import Ground, Piece, cutting_values
from claspwright.framework.lattice import BasePlan
from claspwright.framework.least_wall import lay_least_wall
from claspwright.framework.loose import LOOSE_RULES, loose_findings
from claspwright.framework.model import Component, Framework
from claspwright.framework.pinholes import close_pinholes
from claspwright.framework.relief import relief_for
from claspwright.framework.stray_margin import stray_finding
from claspwright.framework.terrain import Terrain
from claspwright.framework.window import Window
from claspwright.framework.wire_clasp import bored
from claspwright.framework.wisps import without_wisps
from claspwright.geometry import (
    Field,
    HeldSolid,
    Mesh,
    beside,
    bodies,
    carved,
    contour,
    intersection,
    merged,
)
from claspwright.survey import (
    NO_WAX,
    BlockedOut,
    Relief,
    Survey,
    Wax,
    WaxShaped,
    shape_wax,
    tell_wax,
    wax_layers,
)

CLOSING = 0.2  # mm, the rounding of edges under the opposing teeth
SIMPLIFY = 0.002  # mm by which the outer surface may move when triangles are saved
TIDY = 1e-4  # mm by which the finished surface may move when slivers are collapsed


def build(
    arch: DentalArch,
    survey: Survey,
    design: Design,
    wax: Wax = NO_WAX,
    *,
    progress: Progress = silent,
) -> Framework:
    """Lay a design on a surveyed arch and join it to one solid.

    Args:
        arch: the arch with its teeth, spans and, where known, the opposing arch.
        survey: the arch surveyed along the path of placement.
        design: the whole design; nothing is proposed here.
        wax: what is asked of blockout and relief beyond what the design itself needs.
        progress: called with the fraction done.

    Returns:
        The framework in the arch frame. Rigid parts are cut by the blocked-out model, the
        retentive thirds of the arms by the bare tooth.

    Raises:
        InfeasibleError: a component of the design has no place on this arch.
    """
    return build_kept(arch, survey, design, wax, progress=progress).framework


def build_kept(
    arch: DentalArch,
    survey: Survey,
    design: Design,
    wax: Wax = NO_WAX,
    *,
    progress: Progress = silent,
) -> Kept:
    """As `build`, and keep what a change of one retainer can be worked into (see `amend`)."""
    plan = _planned(arch, survey, design, progress, wax)
    if wax.bead_line:
        beads = bead_lines(plan.ground, plan.connector, plan.bases, plan.relief.field)
        wax = replace(wax, beads=(*wax.beads, *beads))
    layers = wax_layers(arch, survey, plan.relief, wax)
    ground = replace(plan.ground, laid=Terrain.of(layers.relieved))

    def waxed() -> WaxShaped:
        return shape_wax(arch, survey, layers, wax)

    def joined_up() -> tuple[Laid, Mesh, Mesh]:
        progress(0.2, "laying components")
        laid = lay_all(ground, design, plan.connector, plan.bases)
        progress(0.4, "joining components")
        return laid, *_bodies_of(ground, laid)

    shaped, (laid, outer, tips) = beside(waxed, joined_up)
    progress(0.7, "cutting the tissue side")

    def cut() -> tuple[Mesh, list[Finding]]:
        # only now: the order in which the kernel of solids is given its operands orders its faces
        body, zones = _thinned(outer, "outer body"), _thinned(tips, "zones of the tips")
        by = shaped.cutters
        return _whole(ground, carved(body, by.wax, zones, by.bare, tidy=TIDY), laid)

    told, (solid, crumbs) = beside(lambda: tell_wax(arch, layers, plan.relief, wax), cut)
    model = shaped.told_of(told)
    solid = eased(solid, ground, laid.pieces, design.fit)
    solid = bored(solid, laid.pieces)
    findings = (*plan.findings, *laid.findings, *crumbs)
    progress(1.0, "framework")
    components = tuple(with_volume(ground, p) for p in laid.pieces)
    wires = tuple(piece.wire for piece in laid.pieces if piece.wire is not None)
    framework = Framework(design, solid, model, components, findings, wires)
    return Kept(
        framework, ground, plan.connector, plan.bases, plan.findings, laid, _bare(arch, model)
    )


def taken_up(arch: DentalArch, survey: Survey, framework: Framework) -> Kept:
    """What a framework was built from, worked out again without building it.

    Args:
        arch: the arch that it was built for.
        survey: the survey that it was built on.
        framework: from `build`; its findings and solid are taken over.

    Raises:
        InputError: the components differ from those of the framework, so arch or survey do.
    """
    design, model = framework.design, framework.blocked_out
    scan, blocked = Terrain.of(survey.scan_field), Terrain.of(survey.block_field)
    ground = survey_ground(arch, survey, design, scan, blocked)
    bases = plan_bases(ground, design)
    connector = plan_connector(ground, design, bases)
    ground = replace(ground, laid=Terrain.of(model.field))
    laid = lay_all(ground, design, connector, bases)
    ids = [piece.component.id for piece in laid.pieces]
    if ids != [component.id for component in framework.components]:
        raise InputError(
            "the framework was not built on this arch and survey",
            place="framework",
            remedy="Build it anew",
        )
    later = (*laid.findings, *(f for f in framework.findings if f.rule in LOOSE_RULES))
    own = tuple(finding for finding in framework.findings if finding not in later)
    return Kept(framework, ground, connector, bases, own, laid, _bare(arch, model))


@dataclass(frozen=True, slots=True, eq=False)
class Kept:
    """A framework with everything that it was built from."""

    framework: Framework
    ground: Ground
    connector: Connector
    bases: list[BasePlan]
    planned: tuple[Finding, ...]  # findings from before anything was laid
    laid: Laid
    bare: Mesh  # the bare arch that cuts everywhere, beads scribed


def preview(
    arch: DentalArch, survey: Survey, design: Design, *, progress: Progress = silent
) -> Preview:
    """The same framework quickly, for the screen: drawn on every second node, cut by the fields.

    Its lines are those of the final grade, its surface lies within 0.1 mm of that one, but for
    edges; it is never printed.

    Raises:
        InfeasibleError: a component of the design has no place on this arch.
    """
    plan = _planned(arch, survey, design, progress)  # on all nodes: no line lies elsewhere
    relieved = wax_layers(arch, survey, plan.relief, NO_WAX).relieved
    surfaces = (plan.ground.scan, plan.ground.blocked, Terrain.of(relieved))
    scan, blocked, laid_on = (surface.coarser() for surface in surfaces)
    ground = replace(plan.ground, scan=scan, blocked=blocked, laid=laid_on)
    progress(0.4, "laying components")
    laid = lay_all(ground, design, plan.connector, plan.bases)
    progress(0.8, "drawing")
    wires = [piece.wire.solid for piece in laid.pieces if piece.wire is not None]
    solid = merged(contour(_cut_by_fields(ground, laid)), *wires)
    progress(1.0, "preview")
    components = tuple(p.component for p in laid.pieces)
    return Preview(solid, components, (*plan.findings, *laid.findings))


@dataclass(frozen=True, slots=True, eq=False)
class Preview:
    """A framework for the screen; arch frame."""

    solid: Mesh
    components: tuple[Component, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Plan:
    """What is settled before anything is laid."""

    ground: Ground
    bases: list[BasePlan]
    connector: Connector
    relief: Relief
    findings: tuple[Finding, ...]


def _planned(
    arch: DentalArch, survey: Survey, design: Design, progress: Progress, wax: Wax = NO_WAX
) -> _Plan:
    scan, blocked = Terrain.of(survey.scan_field), Terrain.of(survey.block_field)
    progress(0.02, "charting the teeth")
    ground = survey_ground(arch, survey, design, scan, blocked)
    bases = plan_bases(ground, design)
    connector = plan_connector(ground, design, bases)
    tree = survey.tree_over(arch.scan.solid)
    findings = (*coverage_findings(ground, connector, tree), *_stray(ground))
    progress(0.15, "relief")
    relief = _relief(ground, design, connector, bases, wax)
    return _Plan(ground, bases, connector, relief, findings)


def _stray(ground: Ground) -> list[Finding]:
    """Teeth of the design whose marks run over their crowns."""
    charts = ground.charts.items()
    return [stray_finding(ground.tooth(code), c.stray) for code, c in charts if c.stray.any()]


def _cut_by_fields(ground: Ground, laid: Laid) -> Field:
    """All pieces less the ground: the blocked-out model, in the tips' zones the bare tooth."""
    canvas = joined(laid.pieces, ground.laid, closing_heights(ground))
    np.maximum(canvas.values, -cutting_values(ground, laid.pieces), out=canvas.values)
    return canvas.field()


def _relief(
    ground: Ground, design: Design, connector: Connector, bases: list[BasePlan], wax: Wax
) -> Relief:
    bands = []
    if connector.bar is not None and design.connector.relief_mm > 0:
        reach = design.connector.height_mm / 2 + 1.2
        bands.append((connector.bar.line, reach, design.connector.relief_mm))
    crossed = {r.tooth for r in design.retainers} | {t for row in connector.aprons for t in row}
    margins = [(code, ground.here(ground.tooth(code).margin)) for code in sorted(crossed)]
    marked = [
        (p.name, ground.here(np.array([p.at])), p.radius_mm, p.thickness_mm) for p in wax.reliefs
    ]
    return relief_for(ground.arch, ground.blocked, bases, bands, margins, marked, connector.outline)


def _bodies_of(ground: Ground, laid: Laid) -> tuple[Mesh, Mesh]:
    """The outer body of all pieces, and the zones where the bare tooth alone cuts."""
    window = Window.round(ground.grid, laid.pieces)
    pieces = window.pieces(laid.pieces)
    roof = window.heights(closing_heights(ground))
    outer = contour(joined(pieces, window.terrain(ground.laid), roof).field())
    return outer, contour(window.tips(pieces).field())


def _thinned(mesh: Mesh, name: str) -> HeldSolid:
    return HeldSolid.of(mesh, name).simplified(SIMPLIFY)


def with_volume(ground: Ground, piece: Piece) -> Component:
    """The record of a piece with the volume of the piece alone, over the relieved ground."""
    off = ground.laid.field.values[piece.shape.box.slices]
    step = ground.grid.spacing
    share = np.clip(0.5 - np.maximum(piece.shape.values, -off) / np.float32(step), 0.0, 1.0)
    size = float(share.sum(dtype=np.float64)) * step**3
    figures = {**piece.component.figures, "volume_mm3": size}
    return replace(piece.component, figures=figures)


def joined(pieces: Sequence[Piece], ground: Terrain, roof: Floats | None) -> Canvas:
    """Pieces with their fillets, thin borders laid up, pinholes closed, clear of the teeth above.

    Args:
        pieces: in the order of their joints; their boxes count from the first node of the grid.
        ground: what the tissue side will be cut by.
        roof: (nx, ny) height that metal keeps below, grid frame; None without opposing teeth.
    """
    canvas = Canvas(ground.grid)
    for piece in pieces:
        canvas.add(piece.shape, piece.fillet)
    lay_least_wall(ground, canvas, pieces)
    close_pinholes(ground, canvas)
    if roof is not None:
        canvas.keep_below(roof, CLOSING)
    return canvas


def _bare(arch: DentalArch, model: BlockedOut) -> Mesh:
    """What cuts everywhere: the bare arch, with the bead lines scribed into it."""
    scribed = any(body.kind == "bead" for body in model.bodies)
    return intersection(arch.scan.solid, model.model) if scribed else arch.scan.solid


def _whole(ground: Ground, cut: HeldSolid, laid: Laid) -> tuple[Mesh, list[Finding]]:
    """The largest piece of what was cut, without wisps; and what was loose."""
    cutter = cutting_values(ground, laid.pieces)
    first, *crumbs = bodies(cut.mesh())  # a crumb in a bubble of the wax is no wisp of the body
    solid = without_wisps(first, ground.grid, cutter, held=None if crumbs else cut)
    whole, *more = bodies(solid)
    return whole, loose_findings((*crumbs, *more), [p.component for p in laid.pieces])
