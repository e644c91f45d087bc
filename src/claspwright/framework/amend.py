"""A change worked into a framework that stands: only what depends on it is made.

The connector, the bases, blockout and relief stay; the retainers that differ are laid anew, and
the solid is renewed in the box that their old and new pieces share. The result is the solid that
`build` would give, but for what simplifying moves and for flat seams where the box was cut. Other
changes, of the connector or a base, are shown as their own pieces alone, uncut.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from claspwright.arch import RestSeat
from claspwright.base import Finding, Floats, InfeasibleError, Progress, silent
from claspwright.framework.assemble import (
    Laid,
    lay_base,
    lay_beam_finishes,
    lay_retainer,
    plan_bases,
)
from claspwright.framework.base_outline import border_on, span_of_base
from claspwright.framework.build import Kept, joined, with_volume
from claspwright.framework.canvas import Shape
from claspwright.framework.chart import crown_chart
from claspwright.framework.clearance import closing_heights
from claspwright.framework.connectors import lay_connector, plan_connector
from claspwright.framework.design import Design, Retainer, Side
from claspwright.framework.ground import Ground, Piece, cutting_values
from claspwright.framework.lay_clasps import lay_clasp
from claspwright.framework.loose import loose_findings
from claspwright.framework.model import Component
from claspwright.framework.rest_kinds import seats_for
from claspwright.framework.roof import roof_over
from claspwright.framework.routes import beamed_rests
from claspwright.framework.window import MARGIN, Window
from claspwright.framework.wisps import without_wisps
from claspwright.geometry import Field, Grid, HeldSolid, Mesh, bodies, contour

SIDES: tuple[Side, ...] = ("buccal", "lingual")


@dataclass(frozen=True, slots=True, eq=False)
class Amended:
    """Retainers laid anew, before anything is cut."""

    design: Design
    laid: Laid
    changed: tuple[Piece, ...]  # laid anew
    gone: tuple[Piece, ...]  # of the framework before


class Workpiece:
    """A built framework with its solids held ready for changes."""

    def __init__(self, kept: Kept) -> None:
        """Hold the solids of a framework; takes about a second."""
        self.kept = kept
        self._metal = HeldSolid.of(kept.framework.solid, "framework")
        self._model = HeldSolid.of(kept.framework.blocked_out.model, "blocked-out model")
        self._bare = HeldSolid.of(kept.bare, "arch")
        self._roof = closing_heights(kept.ground)

    def can_amend(self, design: Design) -> bool:
        """Whether a design differs in parts of retainers alone, none that the connector meets."""
        old = self.kept.framework.design
        if (design.connector, design.bases) != (old.connector, old.bases):
            return False
        if design.fit != old.fit or design.fit.any:
            return False  # the inner side is moved as a whole
        if design.splints or old.splints:
            return False  # a bar leans on what its teeth carry
        wired = [r.clasp for r in (*design.retainers, *old.retainers) if r.clasp]
        if any(clasp.form == "wrought wire" for clasp in wired):
            return False  # a bore goes through whatever stands in its way
        return len(design.retainers) == len(old.retainers) and all(
            new.tooth == was.tooth
            and beamed_rests(new) == beamed_rests(was)
            and new.proximal_plates == was.proximal_plates
            and (new.rests == was.rests or not _shared(new, was))
            for new, was in zip(design.retainers, old.retainers, strict=True)
        )

    def lay(self, design: Design) -> Amended:
        """Lay the retainers that differ.

        Raises:
            InfeasibleError: more than retainers differ (see `can_amend`), or one has no place.
        """
        if not self.can_amend(design):
            raise InfeasibleError(
                "the change touches the connector, a base or a minor connector",
                place="design",
                remedy="Build the framework anew",
            )
        kept, laid = self.kept, Laid()
        old = kept.framework.design
        starts = kept.laid.starts
        laid.pieces.extend(kept.laid.pieces[: starts[0]])
        changed: list[Piece] = []
        gone: list[Piece] = []
        ends = [*starts[1:], len(kept.laid.pieces)]
        for n, (new, was) in enumerate(zip(design.retainers, old.retainers, strict=True)):
            before = kept.laid.pieces[starts[n] : ends[n]]
            laid.starts.append(len(laid.pieces))
            carried = kept.laid.clasps[n] - starts[n]
            if new == was:
                laid.clasps.append(len(laid.pieces) + carried)
                laid.pieces.extend(before)
                continue
            ground = replace(kept.ground, seats=self._seats(new))
            if _arms_alone(new, was):
                laid.pieces.extend(before[:carried])
                laid.clasps.append(len(laid.pieces))
                laid.pieces.extend(lay_clasp(ground, design, kept.connector, kept.bases, new))
            else:
                lay_retainer(ground, design, kept.connector, kept.bases, new, laid)
            after = laid.pieces[laid.starts[-1] :]
            changed.extend(piece for piece in after if not _among(piece, before))
            gone.extend(piece for piece in before if not _among(piece, after))
        for piece in laid.pieces:
            laid.findings.extend(piece.findings)
        return Amended(design, laid, tuple(changed), tuple(gone))

    def sketch(self, design: Design) -> Amended:
        """Lay what differs of any change for the eye: connector, bases and retainers; never cut.

        They lie on the relief that stands. What leads from an unchanged retainer to a changed
        connector stays as it was, and so do splinting bars.

        Raises:
            InfeasibleError: a part has no place.
        """
        kept, old = self.kept, self.kept.framework.design
        ground = self._ground(design)
        known = {plan.base: plan for plan in kept.bases}
        fresh = replace(design, bases=tuple(b for b in design.bases if b not in known))
        anew = {plan.base: plan for plan in plan_bases(ground, fresh)}
        bases = [known.get(base) or anew[base] for base in design.bases]
        connector, laid = kept.connector, Laid()
        if design.connector != old.connector:
            bare = replace(ground, laid=ground.blocked)  # as it was planned
            connector = plan_connector(bare, design, bases)
            laid.pieces.extend(lay_connector(ground, connector, design))
        else:  # what stands, for the finish lines that lean on it
            gone = tuple(f"{plan.id}." for plan in kept.bases if plan.base not in design.bases)
            laid.pieces.extend(
                piece
                for piece in kept.laid.pieces[: min(kept.laid.starts, default=None)]
                if not piece.component.id.startswith(gone)
            )
        fresh_bases = [p for p in bases if p.base in anew or connector is not kept.connector]
        for plan in fresh_bases:
            lay_base(ground, design, connector, plan, laid)
        lay_beam_finishes(ground, design, connector, fresh_bases, None, laid)
        was = {one.tooth: one for one in old.retainers}
        for retainer in design.retainers:
            if was.get(retainer.tooth) != retainer:
                lay_retainer(ground, design, connector, bases, retainer, laid)
            else:
                lay_beam_finishes(ground, design, connector, fresh_bases, retainer.tooth, laid)
        edited = tuple(plan.id for plan in anew.values())
        changed = tuple(
            piece
            for piece in laid.pieces
            if piece.component.id.startswith(edited) or not _among(piece, kept.laid.pieces)
        )
        return Amended(design, laid, changed, ())

    def borders(self, design: Design) -> tuple[Floats, ...]:
        """Borders of the bases that differ, two a base: (N, 3), arch frame [mm]."""
        old, spans = self.kept.framework.design.bases, self.kept.ground.arch.spans
        found = []
        for base in design.bases:
            span = next((s for s in spans if set(base.teeth) & set(s.missing)), None)
            if base in old or span is None:
                continue
            asked = span_of_base(span, base)
            found += [border_on(self.kept.ground.blocked, asked, side) for side in SIDES]
        return tuple(line for line in found if len(line))

    def _ground(self, design: Design) -> Ground:
        """The ground with charts and seats for teeth that carried nothing before."""
        kept = self.kept.ground
        new = [r for r in design.retainers if r.tooth not in kept.charts]
        if any(r.tooth not in kept.arch.teeth for r in new):
            raise InfeasibleError("a retainer is planned on a tooth that is not on the scan",
                                  place="retainer", remedy="Mark the tooth")  # fmt: skip
        charts = {
            r.tooth: crown_chart(
                kept.arch, kept.arch.teeth[r.tooth], kept.scan, kept.blocked,
                roof_over(kept.arch, kept.scan.grid),
            )
            for r in new
        }  # fmt: skip
        missing = [r for r in design.retainers for f in r.rests if (r.tooth, f) not in kept.seats]
        seats = {**kept.seats, **seats_for(kept.arch, tuple(missing))} if missing else kept.seats
        return replace(kept, charts={**kept.charts, **charts}, seats=seats)

    def uncut(self, amended: Amended) -> Mesh:
        """The pieces laid anew as one body for the eye, on every second node; arch frame."""
        window = Window.round(self.kept.ground.grid, amended.changed)
        canvas = window.canvas()
        for piece in window.pieces(amended.changed):
            canvas.add(piece.shape, piece.fillet)
        grid = canvas.grid
        values = np.ascontiguousarray(canvas.values[::2, ::2, ::2])
        a, b, c = values.shape
        half = Grid(grid.frame, grid.origin, 2 * grid.spacing, (a, b, c))
        return contour(Field(half, values))

    def cut(self, amended: Amended, *, progress: Progress = silent) -> Kept:
        """The whole framework with the change, cut as `build` cuts it."""
        kept, ground = self.kept, self.kept.ground
        differing = (*amended.changed, *amended.gone)
        if not differing:
            return replace(kept, framework=replace(kept.framework, design=amended.design))
        window = Window.round(ground.grid, differing)
        pieces_here = window.pieces(amended.laid.pieces)
        laid_here = window.terrain(ground.laid)
        canvas = joined(pieces_here, laid_here, window.heights(self._roof))
        outer = HeldSolid.of(contour(canvas.field()), "outer body")
        progress(0.3, "cutting the tissue side")
        inner = _block(canvas.grid, MARGIN - 2)
        around = _block(canvas.grid, 0)
        model = self._model.within(around)
        tips = contour(window.tips(pieces_here).field())
        if len(tips.faces):
            model = model.without(HeldSolid.of(tips, "zone of the tips"))
        fresh = outer.without(model).without(self._bare.within(around)).within(inner)
        progress(0.7, "joining what stays")
        whole = self._metal.without(inner).joined(fresh).mesh()
        here = replace(ground, laid=laid_here, scan=window.terrain(ground.scan))
        edges = canvas.grid.origin + canvas.grid.spacing * np.array(
            [np.full(3, MARGIN - 2), np.array(canvas.grid.shape) - (MARGIN - 1)]
        )
        values = cutting_values(here, pieces_here)
        first, *crumbs = bodies(whole)
        solid, *more = bodies(without_wisps(first, canvas.grid, values, (edges[0], edges[1])))
        components = _components(kept, amended)
        loose = loose_findings((*crumbs, *more), [p.component for p in amended.laid.pieces])
        findings: tuple[Finding, ...] = (*kept.planned, *amended.laid.findings, *loose)
        framework = replace(
            kept.framework,
            design=amended.design,
            solid=solid,
            components=components,
            findings=findings,
        )
        return replace(kept, framework=framework, laid=amended.laid)

    def _seats(self, retainer: Retainer) -> Mapping[tuple[int, str], RestSeat]:
        seats = self.kept.ground.seats
        if all((retainer.tooth, rest) in seats for rest in retainer.rests):
            return seats
        return {**seats, **seats_for(self.kept.ground.arch, (retainer,))}


def _shared(*retainers: Retainer) -> bool:
    """Whether a rest is shared with the tooth beside."""
    return any("embrasure" in rest for retainer in retainers for rest in retainer.rests)


def _arms_alone(new: Retainer, was: Retainer) -> bool:
    """Whether nothing but the arms of a retainer's clasp differs."""
    if new.clasp is None or was.clasp is None:
        return False
    kind, other = ((c.form, c.origin) for c in (new.clasp, was.clasp))
    return kind == other and replace(new, clasp=was.clasp) == was


def _among(piece: Piece, others: Sequence[Piece]) -> bool:
    """Whether the very same field is laid in both."""
    return any(
        other.component.id == piece.component.id
        and other.fillet == piece.fillet
        and _same(other.shape, piece.shape)
        and _same(other.tip, piece.tip)
        for other in others
    )


def _same(one: Shape | None, other: Shape | None) -> bool:
    if one is None or other is None:
        return one is other
    return one.box.slices == other.box.slices and np.array_equal(one.values, other.values)


def _block(grid: Grid, inset: int) -> HeldSolid:
    """The box of a grid, drawn in by some nodes on every side, as a solid of the arch frame."""
    size = np.array(grid.shape) - 1
    ends = (np.full(3, inset), size - inset)
    nodes = [[ends[n][axis] for axis, n in enumerate(which)] for which in product((0, 1), repeat=3)]
    return HeldSolid.block(grid.to_world(np.array(nodes, np.float64)))


def _components(kept: Kept, amended: Amended) -> tuple[Component, ...]:
    """The records of all pieces, with volumes taken anew where the piece is new."""
    known = {
        id(piece): component
        for piece, component in zip(kept.laid.pieces, kept.framework.components, strict=True)
    }
    return tuple(
        known[id(piece)] if id(piece) in known else with_volume(kept.ground, piece)
        for piece in amended.laid.pieces
    )
