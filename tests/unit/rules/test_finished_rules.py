"""Each rule on a finished framework: one case in which it fires; the toy framework passes all."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest

from claspwright.arch import Jaw, classify
from claspwright.base import Finding, Floats
from claspwright.framework import Component, DentureBase
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, ball, box, difference, merged
from claspwright.geometry.solids import as_mesh, checked_solid
from claspwright.rules import FINISHED_RULES, Finished, check_all
from claspwright.rules.clasps import runs_along
from claspwright.rules.connectors import midline_widths
from claspwright.survey import PathOfPlacement

Make = Callable[..., Finished]
Change = Callable[[Finished], Finished]


def with_parts(change: Callable[[Component], Component | None]) -> Change:
    def spoil(context: Finished) -> Finished:
        parts = tuple(n for c in context.framework.components if (n := change(c)) is not None)
        return replace(context, framework=replace(context.framework, components=parts))

    return spoil


def of_kind(kind: str, **changes: Any) -> Change:
    """Change every component of a kind; a change may be a function of the component."""

    def change(c: Component) -> Component:
        if c.kind != kind:
            return c
        new = {k: v(c) if callable(v) else v for k, v in changes.items()}
        return replace(c, **new)

    return with_parts(change)


def without(kind: str) -> Change:
    return with_parts(lambda c: None if c.kind == kind else c)


def with_solid(
    *boxes: tuple[tuple[float, float, float], tuple[float, float, float]], on_mm: float = 0.0
) -> Change:
    """Boxes for the framework, with so much built on all round for finishing."""
    solid = merged(*[box(np.array(low), np.array(high)) for low, high in boxes])

    def spoil(context: Finished) -> Finished:
        framework = replace(context.framework, solid=solid)
        return replace(context, framework=framework, growth_mm=np.full(len(solid.faces), on_mm))

    return spoil


def with_design(**changes: Any) -> Change:
    def spoil(context: Finished) -> Finished:
        design = replace(context.design, **changes)
        return replace(context, framework=replace(context.framework, design=design))

    return spoil


def with_connector(**changes: Any) -> Change:
    def spoil(context: Finished) -> Finished:
        connector = replace(context.design.connector, **changes)
        return with_design(connector=connector)(context)

    return spoil


def with_undercut(depth_mm: float) -> Change:
    """Every clasp is prescribed this undercut."""

    def spoil(context: Finished) -> Finished:
        retainers = tuple(
            replace(r, clasp=replace(r.clasp, undercut_mm=depth_mm)) if r.clasp else r
            for r in context.design.retainers
        )
        return with_design(retainers=retainers)(context)

    return spoil


def tilted(context: Finished) -> Finished:
    a = np.radians(12.0)
    path = PathOfPlacement(np.array([0.0, -np.sin(a), np.cos(a)]), 12.0, 0.0)
    return replace(context, survey=replace(context.survey, path=path))


def raised_tips(context: Finished) -> Finished:
    return of_kind("retentive arm", line=lambda c: c.line + [0, 0, 3.5])(context)


def low_arms(context: Finished) -> Finished:
    """Arms that lie below the survey line all the way."""

    def down(c: Component) -> Floats:
        line = c.line.copy()
        line[:, 2] = line[-1, 2]
        return line

    return of_kind("retentive arm", line=down)(context)


def as_approach_arms(context: Finished) -> Finished:
    """Approach arms that run along the margin at their height."""

    def along(c: Component) -> Floats:
        tooth = context.arch.teeth[c.tooth or 0]
        t = np.linspace(-6.0, 0.0, 50)[:, None]
        run = tooth.centre + t * tooth.mesial + 3.0 * tooth.buccal + [0, 0, -4.5]
        return np.concatenate([run, tooth.centre + 3.0 * tooth.buccal + [[0, 0, -1.4]]])

    one = np.array([1.5])
    return of_kind(
        "retentive arm", line=along, width_mm=one, thickness_mm=one,
        figures=lambda c: {"approach": 1.0},
    )(context)  # fmt: skip


def one_sided(context: Finished) -> Finished:
    return with_parts(lambda c: None if c.kind == "retentive arm" and c.tooth == 35 else c)(context)


def lone_arm(context: Finished) -> Finished:
    """Nothing on the teeth but their retentive arms."""
    kinds = {"reciprocal arm", "proximal plate", "minor connector", "rest"}
    return with_parts(lambda c: None if c.kind in kinds else c)(context)


def no_indirect(context: Finished) -> Finished:
    return with_parts(lambda c: None if c.kind == "rest" and c.tooth in (33, 43) else c)(context)


def near_indirect(context: Finished) -> Finished:
    """The indirect retainers moved back close to the fulcrum line."""

    def back(c: Component) -> Component:
        moved = c.kind == "rest" and c.tooth in (33, 43)
        return replace(c, line=c.line - [0, 7.0, 0]) if moved else c

    return with_parts(back)(context)


def shallow(context: Finished) -> Finished:
    facts = replace(context.facts, functional_depth_mm=7.5)
    return replace(context, facts=facts)


def thin_rests(context: Finished) -> Finished:
    return _rest_blocks(context, 0.7)


def _rest_blocks(context: Finished, thick: float) -> Finished:
    blocks = []
    for c in context.parts("rest"):
        middle = c.line.mean(axis=0)
        half = np.array([2.0, 2.0, thick / 2])
        blocks.append((tuple(middle - half), tuple(middle + half)))
    return with_solid(*blocks)(context)


def low_bite(context: Finished) -> Finished:
    assert context.arch.opposing is not None
    roof = Mesh(context.arch.opposing.vertices - [0, 0, 70.1], context.arch.opposing.faces)
    return replace(context, arch=replace(context.arch, opposing=roof))


def no_bite(context: Finished) -> Finished:
    return replace(context, arch=replace(context.arch, opposing=None))


def off_the_scan(context: Finished) -> Finished:
    """The solid lies on a closing patch that was not scanned."""
    surface = context.arch.scan.surface
    patch = np.array([[-5.0, 28, -30.5], [5, 28, -30.5], [5, 42, -30.5], [-5, 42, -30.5]])
    count = len(surface.vertices)
    faces = np.array([[0, 1, 2], [0, 2, 3]]) + count
    solid = Mesh(np.vstack([surface.vertices, patch]), np.vstack([surface.faces, faces]))
    return replace(
        context, arch=replace(context.arch, scan=replace(context.arch.scan, solid=solid))
    )


def open_solid(context: Finished) -> Finished:
    solid = context.framework.solid
    return replace(
        context, framework=replace(context.framework, solid=Mesh(solid.vertices, solid.faces[1:]))
    )


def in_a_tooth(context: Finished) -> Finished:
    at = context.arch.teeth[34].centre
    return with_solid((tuple(at - 0.2), tuple(at + [0.2, 0.2, 6.0])))(context)


def splinted(
    gap: float = 1.2,
    height: float = 2.5,
    thickness: float = 2.2,
    length: float = 10.0,
    across: bool = True,
) -> Change:
    """A splinting bar over a level ridge."""

    def spoil(context: Finished) -> Finished:
        ridge = box(np.array([-20.0, -20, -5]), np.array([20.0, 20, 0]))
        half = np.array([length / 2, thickness / 2, height / 2])
        middle = np.array([0.0, 0.0, gap + height / 2])
        line = middle + np.linspace(-length / 2, length / 2, 60)[:, None] * [1.0, 0.0, 0.0]
        bar = Component(
            "splint.47-45", "splinting bar", line, np.array([height]), np.array([thickness]),
            None, {"length_mm": length, "across": float(across)},
        )  # fmt: skip
        solid = box(middle - half, middle + half)
        arch = replace(context.arch, scan=replace(context.arch.scan, solid=ridge))
        parts = (*context.framework.components, bar)
        return replace(
            context,
            arch=arch,
            framework=replace(context.framework, solid=solid, components=parts),
        )

    return spoil


def over_a_ball(x: float) -> Change:
    """The scan is a ball of 4 mm; a small block hangs under its equator at a distance x."""

    def spoil(context: Finished) -> Finished:
        grid = Grid(IDENTITY, np.full(3, -8.0), 0.2, (81, 81, 81))
        nodes = np.meshgrid(*grid.axes(), indexing="ij", sparse=True)
        radius = np.sqrt(sum(n**2 for n in nodes))
        field = Field(grid, (radius - 4.0).astype(np.float32))
        scan = replace(context.arch.scan, solid=ball(4.0, 0.1))
        survey = replace(context.survey, scan_field=field)
        context = replace(context, arch=replace(context.arch, scan=scan), survey=survey)
        block = box(np.array([x, -0.05, -2.6]), np.array([x + 1.0, 0.05, -2.4]))
        return replace(context, framework=replace(context.framework, solid=block))

    return spoil


def with_apron(thickness: float) -> Change:
    return of_kind(
        "major connector", id="major_connector.apron.33-43", thickness_mm=np.array([thickness])
    )


def thin_plate(context: Finished) -> Finished:
    """A metal base over the left ridge, too thin."""
    metal = with_design(bases=(DentureBase((36, 37), retention="metal base with beads"),))(context)
    plate = of_kind("lattice", id="base.36-37.plate", thickness_mm=np.array([0.6]))
    return plate(metal)


def thin_mesh(context: Finished) -> Finished:
    fine = with_design(bases=(DentureBase((36, 37), retention="fine mesh"),))(context)
    return of_kind("lattice", width_mm=np.array([0.7]))(fine)


TWO = (((-3.0, 30, -30), (3, 40, -25)), ((10.0, 30, -30), (13, 33, -25)))
THIN = (((-3.0, 30, -30), (3, 40, -29.7)),)
GROOVE = (((-3.0, 30, -30), (3, 32, -25)), ((-3.0, 32.26, -30), (3, 34, -25)))
FIN = (((-3.0, 30, -30), (3, 35, -25)), ((3.0, 32, -28), (4, 32.06, -27.8)))
NARROW = (((-3.0, 30, -30), (3, 35, -25)),)
ASIDE = (((5.0, 30, -30), (9, 40, -25)),)


@dataclass(frozen=True)
class Case:
    rule: str
    spoil: Change
    severity: str
    jaw: Jaw = "mandible"


CASES = [
    Case("path.tilt", tilted, "look"),
    Case("path.zero_tilt_retention", raised_tips, "look"),
    Case("clasp.count", one_sided, "look"),
    Case("clasp.count", without("retentive arm"), "stop"),
    Case("clasp.undercut", with_undercut(0.4), "look"),
    Case("clasp.undercut", with_undercut(0.8), "stop"),
    Case("clasp.tip_undercut", with_undercut(0.35), "look"),
    Case("clasp.tip_undercut", raised_tips, "stop"),
    Case("clasp.retentive_share", low_arms, "look"),
    Case("clasp.tip_margin", of_kind("retentive arm", line=lambda c: c.line - [0, 0, 1.7]), "look"),
    Case("clasp.approach_margin", as_approach_arms, "stop"),
    Case("clasp.arm_length", of_kind("retentive arm", line=lambda c: c.line[40:],
         width_mm=lambda c: c.width_mm[40:], thickness_mm=lambda c: c.thickness_mm[40:]), "look"),
    Case("clasp.section", of_kind("retentive arm", width_mm=np.array([2.4])), "look"),
    Case("clasp.encirclement", lone_arm, "look"),
    Case("clasp.reciprocation", lone_arm, "stop"),
    Case("clasp.reciprocation", of_kind("reciprocal arm", thickness_mm=np.array([0.5])), "look"),
    Case("clasp.force", of_kind("retentive arm", thickness_mm=lambda c: 0.5 * c.thickness_mm),
         "look"),
    Case("denture.retention", of_kind("retentive arm", thickness_mm=lambda c: 2 * c.thickness_mm),
         "look"),
    Case("denture.lifting", lambda context: context, "look"),  # no crown of its scan holds an arm
    Case("clasp.stress", with_undercut(0.75), "stop"),
    Case("clasp.stress", with_undercut(0.4), "look"),
    Case("clasp.fatigue", with_undercut(0.75), "stop"),
    Case("clasp.fatigue", with_undercut(0.5), "look"),
    Case("rest.seat_missing", of_kind("rest", figures={"seat_depth_mm": 0.1, "prepared": 0.0}),
         "look"),
    Case("rest.seat_floor", of_kind("rest", figures={"seat_depth_mm": 0.6, "prepared": 1.0}),
         "look"),
    Case("rest.thickness", thin_rests, "stop"),
    Case("rest.count", without("rest"), "look"),
    Case("indirect.distance", no_indirect, "look"),
    Case("indirect.distance", near_indirect, "look"),
    Case("bar.height", with_connector(height_mm=3.5), "look"),
    Case("bar.thickness", with_connector(thickness_mm=1.2), "stop"),
    Case("bar.margin", of_kind("major connector",
         line=lambda c: c.line * [1.25, 1.1, 1.0] + [0, 0, 8.0]), "stop"),
    Case("bar.floor", shallow, "stop"),
    Case("connector.form", with_connector(form="lingual plate"), "look"),
    Case("connector.form", with_connector(form="labial bar"), "look"),
    Case("connector.form", with_connector(form="U-shaped palatal connector"), "look", "maxilla"),
    Case("apron.thickness", with_apron(0.55), "look"),
    Case("apron.thickness", with_apron(0.4), "stop"),
    Case("insertion.sweep", over_a_ball(3.6), "stop"),
    Case("insertion.sweep", over_a_ball(3.94), "look"),
    Case("strap.width", with_solid(*NARROW), "stop", "maxilla"),
    Case("strap.width", with_solid(*ASIDE), "stop", "maxilla"),
    Case("strap.thickness", with_connector(thickness_mm=0.7), "look", "maxilla"),
    Case("strap.margin", of_kind("major connector", line=lambda c: c.line + [0, 0, 8.0]), "look",
         "maxilla"),
    Case("minor.section", of_kind("minor connector", width_mm=np.array([2.0])), "look"),
    Case("minor.spacing", of_kind("minor connector", width_mm=np.array([9.0])), "look"),
    Case("splint.section", splinted(height=1.8), "look"),
    Case("splint.section", splinted(thickness=1.2), "stop"),
    Case("splint.section", splinted(thickness=0.7, across=False), "look"),
    Case("splint.length", splinted(length=18.0), "look"),
    Case("splint.gap", splinted(gap=0.8), "look"),
    Case("splint.gap", splinted(gap=0.3), "stop"),
    Case("lattice.coverage", without("lattice"), "look"),
    Case("lattice.strut_width", of_kind("lattice", width_mm=np.array([0.9])), "look"),
    Case("lattice.relief", with_design(bases=(DentureBase((36, 37), relief_mm=0.2),)), "look"),
    Case("lattice.strut_thickness",
         with_design(bases=(DentureBase((36, 37), thickness_mm=0.3),)), "stop"),
    Case("mesh.strut_width", thin_mesh, "look"),
    Case("metal_base.thickness", thin_plate, "look"),
    Case("base.tissue_stop", without("tissue stop"), "stop"),
    Case("base.tissue_stop", of_kind("tissue stop", width_mm=np.array([1.0])), "look"),
    Case("base.finish_line", without("finish line"), "look"),
    Case("occlusal.clearance", low_bite, "stop"),
    Case("occlusal.clearance", no_bite, "look"),
    Case("metal.thickness", with_solid(*THIN), "stop"),
    Case("metal.wisp", with_solid(*FIN), "look"),
    Case("groove.width", with_solid(*GROOVE, on_mm=0.045), "look"),
    Case("groove.width", with_solid(*GROOVE, on_mm=0.135), "stop"),
    Case("tooth.overlap", in_a_tooth, "stop"),
    Case("scan.support", off_the_scan, "stop"),
    Case("solid.watertight", open_solid, "stop"),
    Case("solid.one_body", with_solid(*TWO), "stop"),
]  # fmt: skip


def serious(findings: tuple[Finding, ...]) -> list[Finding]:
    return [f for f in findings if f.severity != "note"]


def found_under(rule: str, context: Finished) -> list[Finding]:
    return [
        finding
        for entry in FINISHED_RULES
        for finding in entry.check(context)
        if finding.rule == rule
    ]


def test_the_toy_framework_passes_every_rule(finished: Make) -> None:
    found = [f for f in serious(check_all(finished())) if f.rule != "denture.lifting"]
    assert [(f.rule, f.text) for f in found] == []


@pytest.mark.reference("sphere of 4 mm: a point 3.6 mm from the axis meets it by 0.4 mm")
def test_the_sweep_reads_the_depth_and_lets_an_arm_spring(finished: Make) -> None:
    (found,) = found_under("insertion.sweep", over_a_ball(3.6)(finished()))
    assert found.measured == pytest.approx(0.4, abs=0.005) and found.at_mm is not None
    (free,) = found_under("insertion.sweep", over_a_ball(4.05)(finished()))
    assert free.severity == "note" and free.measured == 0.0
    along = np.array([[3.6, -0.5, -2.5], [3.6, 0.5, -2.5]])
    arm = of_kind("retentive arm", line=along, width_mm=np.array([1.0]),
                  thickness_mm=np.array([0.5]))  # fmt: skip
    (sprung,) = found_under("insertion.sweep", arm(over_a_ball(3.6)(finished())))
    assert sprung.severity == "note" and "spring over 0.40 mm" in sprung.text


def test_the_walls_of_a_groove_keep_apart_or_meet_once_finishing_is_built_on(
    finished: Make,
) -> None:
    (wide,) = found_under("groove.width", with_solid(*GROOVE)(finished()))
    assert wide.severity == "note" and "No walls" in wide.text
    (near,) = found_under("groove.width", with_solid(*GROOVE, on_mm=0.045)(finished()))
    assert near.measured == pytest.approx(0.26 - 2 * 0.045, abs=0.004) and near.at_mm is not None
    assert "90 um are built on" in near.text
    (met,) = found_under("groove.width", with_solid(*GROOVE, on_mm=0.135)(finished()))
    assert met.measured == pytest.approx(-0.01, abs=0.004) and "meet as built" in met.text
    alone = with_solid(GROOVE[0], on_mm=0.135)(finished())
    assert [f.severity for f in found_under("groove.width", alone)] == ["note"]


@pytest.mark.parametrize(("deep", "severity"), [(0.07, "note"), (0.5, "stop")])
def test_a_notch_in_a_crease_is_no_groove(finished: Make, deep: float, severity: str) -> None:
    block = box(np.array([-6.0, 30.0, -30.0]), np.array([6.0, 35.0, -25.0]))
    slot = box(np.array([-7.0, 32.0, -25.0 - deep]), np.array([7.0, 32.04, -24.0]))
    solid = as_mesh(checked_solid(difference(block, slot), "block").refine_to_length(0.4))
    context = finished()
    framework = replace(context.framework, solid=solid)
    (found,) = found_under("groove.width", replace(context, framework=framework))
    assert found.severity == severity


@pytest.mark.parametrize("rule", ["strap.width", "strap.thickness", "strap.margin"])
def test_the_upper_toy_framework_passes_the_rules_on_straps(finished: Make, rule: str) -> None:
    found = found_under(rule, finished("maxilla"))
    assert found and not serious(tuple(found))


@pytest.mark.parametrize("case", CASES, ids=[f"{c.rule}-{n}" for n, c in enumerate(CASES)])
def test_a_rule_fires(finished: Make, case: Case) -> None:
    found = serious(tuple(found_under(case.rule, case.spoil(finished(case.jaw)))))
    assert case.severity in {f.severity for f in found}
    for finding in found:
        assert finding.source and finding.text.endswith(".")
        assert finding.measured is not None or finding.rule == "occlusal.clearance"
        assert finding.limit is not None


def test_every_rule_of_the_book_has_a_case_that_makes_it_fire(finished: Make) -> None:
    fired = {case.rule for case in CASES}
    fired |= {"base.finish_wall", "base.finish_stagger"}  # in test_finish_lines.py
    families = {
        "bar.section": {"bar.height", "bar.thickness"},
        "lattice.section": {"lattice.strut_width", "lattice.relief", "lattice.strut_thickness"},
    }
    for rule in FINISHED_RULES:
        assert families.get(rule.id, {rule.id}) <= fired, rule.id


def test_a_framework_without_clasps_says_what_would_give_it_one(finished: Make) -> None:
    bare = without("retentive arm")(finished())
    asks = Finding("proposal.shape_tooth", "look", "Ask for a depression on 46.", "a source")
    told = with_design(findings=(asks,))(bare)
    assert "have a tooth shaped" in found_under("clasp.count", bare)[0].text
    assert asks.text in found_under("clasp.count", told)[0].text


def test_a_sound_splinting_bar_passes(finished: Make) -> None:
    bar = splinted()(finished())
    for rule in ("splint.section", "splint.length", "splint.gap"):
        found = found_under(rule, bar)
        assert found and not serious(tuple(found))
    (gap,) = found_under("splint.gap", bar)
    assert gap.measured == pytest.approx(1.2, abs=0.001)
    along = splinted(height=3.0, thickness=1.0, across=False)(finished())
    assert len(found_under("splint.section", along)) == 2 and not found_under("splint.gap", along)


def test_a_thick_enough_rest_passes(finished: Make) -> None:
    found = found_under("rest.thickness", _rest_blocks(finished(), 1.6))
    assert len(found) == 4 and not serious(tuple(found))
    assert all(f.measured == pytest.approx(1.6, abs=0.01) for f in found)


@pytest.mark.parametrize(("room_mm", "told"), [(0.7, True), (1.4, False)])
def test_a_thin_rest_says_what_the_opposing_teeth_leave(
    finished: Make, room_mm: float, told: bool
) -> None:
    close = of_kind("rest", figures={"room_mm": room_mm})(thin_rests(finished()))
    found = found_under("rest.thickness", close)
    assert [f.severity for f in found] == ["stop"] * 4
    assert all(("the opposing teeth leave 0.70 mm" in f.text) == told for f in found)


@pytest.mark.parametrize(
    ("rule", "spoil", "severity"),
    [
        ("clasp.arm_length", {}, "note"),
        ("clasp.arm_length", {"line": lambda c: c.line[-9:]}, "look"),
        ("clasp.undercut", {}, "note"),
        ("clasp.section", {"width_mm": np.array([1.4])}, "look"),
    ],
)
def test_a_wire_is_held_against_its_own_limits(
    finished: Make, rule: str, spoil: dict[str, Any], severity: str
) -> None:
    one = np.array([1.0])
    sized = {"width_mm": one, "thickness_mm": one, "figures": {"wire_mm": 1.0}} | spoil
    found = found_under(rule, of_kind("retentive arm", **sized)(finished()))
    assert found and {f.severity for f in found} == {severity}


def test_three_kinds_of_contact_hold_a_tooth_without_encirclement(finished: Make) -> None:
    drop = with_parts(lambda c: None if c.kind == "reciprocal arm" else c)
    found = found_under("clasp.encirclement", drop(finished()))
    assert found and not serious(tuple(found))


def test_class_3_asks_for_no_indirect_retainer(finished: Make) -> None:
    assert found_under("indirect.distance", finished("maxilla")) == []


def test_what_the_laying_out_said_is_not_said_again(finished: Make) -> None:
    spoiled = without("tissue stop")(finished())
    said = found_under("base.tissue_stop", spoiled)
    framework = replace(spoiled.framework, findings=tuple(said))
    again = check_all(replace(spoiled, framework=framework))
    assert not [f for f in again if f.rule == "base.tissue_stop"]


def test_the_slope_of_the_field_is_the_slope_at_the_tip(finished: Make) -> None:
    grid = Grid(IDENTITY, np.array([-60.0, -60.0, -60.0]), 60.0, (3, 3, 3))
    flat = Field(grid, np.zeros(grid.shape, np.float32))
    context = finished()
    level = replace(context, survey=replace(context.survey, scan_field=flat))
    steep = found_under("clasp.force", context)
    even = found_under("clasp.force", level)
    assert "45 degrees" in steep[0].text and "0 degrees" in even[0].text
    assert float(even[0].measured or 0) < float(steep[0].measured or 0)


def test_kennedy_four_is_no_case_for_free_end_rules(finished: Make) -> None:
    context = finished()
    facts = replace(context.facts, kennedy=classify("mandible", (31, 41)))
    assert found_under("indirect.distance", replace(context, facts=facts)) == []


def approach(foot: list[float], turn: list[float]) -> Floats:
    """From a base along a margin on y = 0 to a turn, up the tissue and over the margin."""
    parts = ([-10.0, *foot[1:]], foot, turn, [turn[0], 1.5, 2.0])
    legs = zip(parts[:-1], parts[1:], strict=True)
    return np.concatenate([np.linspace(a, b, 40, endpoint=False) for a, b in legs])


def test_an_approach_arm_on_flaring_tissue_crosses_the_margin() -> None:
    """Level tissue below the margin: only the angle to the margin tells where the arm turns."""
    turn = np.linspace(0, 2 * np.pi, 90, endpoint=False)
    margin = np.column_stack([4.0 * np.cos(turn), 3.0 + 3.0 * np.sin(turn), np.zeros(90)])
    square = approach([0.0, -4.0, -1.0], [0.0, 0.0, 0.0])
    along = runs_along(square, [margin])
    assert along[:39].all() and not along[43:].any()
    oblique = approach([-6.0, -4.0, -1.0], [0.0, 0.0, 0.0])  # 34 degrees to the margin
    assert runs_along(oblique, [margin])[:75].all()
    near = approach([0.0, -1.0, -0.2], [0.0, 0.0, 0.0])
    assert runs_along(near, [margin])[:39].all()


def test_the_rail_of_an_anterior_base_is_no_strap(finished: Make) -> None:
    strap, rail = ((-20.0, -10.0, 2.0), (20.0, 0.0, 3.0)), ((-9.0, 8.0, 2.0), (9.0, 9.6, 3.0))
    context = with_solid(strap, rail)(finished("maxilla"))
    assert [round(width) for width, _ in midline_widths(context)] == [2, 10]
    ring = np.array([[-20.0, -10.0, 2], [20.0, -10.0, 2], [20.0, 0.0, 2], [-20.0, 0.0, 2]])
    known = of_kind("major connector", line=ring, figures={"area_mm2": 400.0})(context)
    assert [round(width) for width, _ in midline_widths(known)] == [10]
