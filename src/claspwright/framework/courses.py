"""The courses that a clasp could take on a tooth, laid on its crown before one is chosen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.arch import DentalArch, RestSeat, Tooth, find_rest_seat
from claspwright.base import Floats
from claspwright.framework.arm_plans import (
    ArmPlan,
    Columns,
    arm_section,
    retentive_columns,
    retentive_plan,
    rigid_plan,
)
from claspwright.framework.arm_ways import SEAT_OF, ArmWay, arm_way, other_side
from claspwright.framework.arms import RIGID_HALF_WIDTH, RIGID_THICKNESS, lay_arm
from claspwright.framework.bar_clasp import bar_section, bar_tip
from claspwright.framework.chart import CrownChart, crown_chart
from claspwright.framework.design import (
    BARS,
    Clasp,
    ClaspForm,
    End,
    RestForm,
    Retainer,
    Side,
)
from claspwright.framework.ground import Ground
from claspwright.framework.reach import available_undercut
from claspwright.framework.roles import rigid_origin
from claspwright.framework.roof import Roof, roof_over
from claspwright.framework.rulebook import default_clasp, proposal_rules
from claspwright.framework.spring import peak_strain
from claspwright.framework.terrain import Terrain
from claspwright.geometry import arc_lengths
from claspwright.limits import limit
from claspwright.survey import Survey

KEEP = 0.75  # share of its thickness that an arm must keep under the opposing teeth
ROOT_STEP = 0.05  # mm by which a root is made smaller


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """One way to clasp a tooth, as it would come out."""

    clasp: Clasp
    offers_mm: float  # undercut at the tip, as far as the clasp asks for it
    at: Floats  # (3,) the tip, arch frame
    length_mm: float  # of the springing part
    strain: float  # peak over what the alloy bears
    kept: float = 1.0  # share of the metal that the opposing teeth leave, at the worst place

    @property
    def reaches(self) -> bool:
        """Whether the tip finds the undercut that is prescribed."""
        return self.offers_mm >= self.clasp.undercut_mm - 0.006

    @property
    def sound(self) -> bool:
        """Whether nothing speaks against it."""
        return self.reaches and self.strain <= 1.0 and self.kept >= KEEP


class Bench:
    """Charts and seats of the teeth that the proposal asks about, made when first asked for."""

    def __init__(self, arch: DentalArch, survey: Survey) -> None:
        scan, blocked = Terrain.of(survey.scan_field), Terrain.of(survey.block_field)
        self.roof: Roof | None = roof_over(arch, scan.grid)
        self.ground = Ground(
            arch, survey, scan, blocked, blocked, _Charts(arch, scan, blocked, self.roof),
            _Seats(arch),
        )  # fmt: skip


def bench_for(arch: DentalArch, survey: Survey) -> Bench | None:
    """A bench, where the survey keeps the solid that exact readings need."""
    return None if survey.tree is None else Bench(arch, survey)


def undercuts() -> tuple[float, ...]:
    """The undercuts that a clasp may be set to, the usual one first [mm]."""
    rule = limit("clasp.undercut")
    short = proposal_rules().numbers["short_arm_undercut_mm"]
    return (rule.value, rule.look_below or rule.value, short)


def courses_of(
    arch: DentalArch,
    survey: Survey,
    bench: Bench | None,
    retainer: Retainer,
    tried: Sequence[tuple[ClaspForm, Side, End | None]],
) -> Iterator[Course]:
    """Every course of these forms, faces and origins, each at each undercut.

    Without a bench they are estimated from the vertices of the crown.
    """
    for form, side, origin in tried:
        if bench is None:
            yield from _estimated(arch, survey, retainer, form, side, origin)
        elif form in BARS:
            yield from _bars(bench, retainer, form, side)
        else:
            yield from _arms(bench, retainer, side, origin)


def sized(clasp: Clasp, length_mm: float) -> tuple[Clasp, float]:
    """The thickest root that its length bears, down to the least, and its share of strain."""
    numbers = proposal_rules().numbers
    t = np.linspace(0.0, 1.0, 41)
    thick = clasp.thickness_mm
    while True:
        trial = replace(clasp, thickness_mm=round(thick, 2))
        strain = peak_strain(length_mm, *arm_section(trial, t), clasp.undercut_mm)
        share = strain / numbers["allowed_strain"]
        if share <= 1.0 or thick - 0.05 < numbers["least_root_mm"] - 1e-9:
            return trial, share
        thick -= 0.05


def _arms(bench: Bench, retainer: Retainer, side: Side, origin: End | None) -> Iterator[Course]:
    """Arms from above on one face, from one end, laid on the crown."""
    ground, tooth = bench.ground, retainer.tooth
    chart = ground.charts[tooth]
    from_end = origin or rigid_origin(retainer)
    way = arm_way(ground, retainer, from_end, side)
    columns = retentive_columns(ground, chart, from_end, side)
    stiff = _rigid_kept(bench, retainer, side)
    for depth in undercuts():
        clasp = replace(default_clasp(tooth, "circumferential", side, depth), origin=origin)
        yield _arm(bench, chart, clasp, way, columns, stiff)


def _arm(
    bench: Bench, chart: CrownChart, clasp: Clasp, way: ArmWay, columns: Columns, stiff: float
) -> Course:
    ground = bench.ground
    thin = replace(clasp, thickness_mm=proposal_rules().numbers["least_root_mm"])
    # planned with the thinnest root, thickened to what its length bears, planned again with that
    for _ in range(2):
        plan = retentive_plan(ground, chart, way.origin, clasp.side, thin, way.start, columns)
        line, share = lay_arm(ground, chart, plan, way.root)
        length = float(arc_lengths(line[share >= 0])[-1])
        thin, strain = sized(clasp, length)
    clasp, kept = _under_the_bite(bench, thin, line, share)
    if clasp != thin:
        strain = sized(clasp, length)[1]
    kept = min(stiff, kept)
    at = ground.back(line[-1:])
    reads = float(ground.undercut(line[-1:])[0])
    offers = reads if abs(reads - plan.reached_mm) > 0.03 else plan.reached_mm
    return Course(clasp, offers, at[0], length, strain, kept)


def _under_the_bite(bench: Bench, clasp: Clasp, line: Floats, share: Floats) -> tuple[Clasp, float]:
    """The largest root of which the opposing teeth leave KEEP, and what they leave of it.

    It is made narrower first, which costs force but no strain, then thinner. Where even the
    least root is left too little, the clasp stays as it is.
    """
    first = _kept(bench, clasp, line, share)
    if first >= KEEP:
        return clasp, first
    for smaller in _smaller(clasp):
        kept = _kept(bench, smaller, line, share)
        if kept >= KEEP:
            return smaller, kept
    return clasp, first


def _smaller(clasp: Clasp) -> Iterator[Clasp]:
    """The same clasp with ever smaller roots, in steps of ROOT_STEP."""
    narrow = min(limit("clasp.root_width").look_below or 0.0, clasp.width_mm)
    thin = min(proposal_rules().numbers["least_root_mm"], clasp.thickness_mm)
    widths = np.arange(clasp.width_mm - ROOT_STEP, narrow - 1e-9, -ROOT_STEP)
    for width in widths:
        yield replace(clasp, width_mm=round(float(width), 2))
    for thickness in np.arange(clasp.thickness_mm - ROOT_STEP, thin - 1e-9, -ROOT_STEP):
        yield replace(clasp, width_mm=narrow, thickness_mm=round(float(thickness), 2))


def _kept(bench: Bench, clasp: Clasp, line: Floats, share: Floats) -> float:
    half, thick = arm_section(clasp, share)
    return kept_under(bench.roof, bench.ground, line, half, thick)


def _rigid_kept(bench: Bench, retainer: Retainer, side: Side) -> float:
    """What the opposing teeth leave of the arm that would reciprocate on the other face."""
    ground, chart, across = bench.ground, bench.ground.charts[retainer.tooth], other_side(side)
    way = arm_way(ground, retainer, rigid_origin(retainer), across)
    plan: ArmPlan = rigid_plan(chart, way.origin, across, RIGID_HALF_WIDTH, way.start)
    line, share = lay_arm(ground, chart, plan, way.root)
    half = np.full(len(line), plan.half_mm)
    return kept_under(bench.roof, ground, line, half, np.interp(share, [0, 1], RIGID_THICKNESS))


def rest_fits(bench: Bench | None, tooth: int, rest: RestForm) -> bool:
    """Whether the opposing teeth leave room for a rest: on the most of it, its least thickness."""
    if bench is None or bench.roof is None:
        return True
    ground = bench.ground
    seat = ground.seats[tooth, rest]
    spots = ground.here(np.vstack([seat.outline, seat.point[None]]))
    room = bench.roof.at(spots) - ground.scan.height(spots[:, :2])
    return bool(np.nanpercentile(room, 25) >= (limit("rest.thickness").stop_below or 1.0))


def kept_under(
    roof: Roof | None, ground: Ground, line: Floats, half: Floats, thick: Floats
) -> float:
    """Least share of an arm's thickness that the opposing teeth leave over its line."""
    if roof is None:
        return 1.0
    normal = ground.scan.normal(line, 0.5)
    up = np.array([0.0, 0.0, 1.0]) - normal[:, 2:] * normal
    outer = line + thick[:, None] * normal
    edge = line + 0.5 * thick[:, None] * normal + 0.8 * half[:, None] * up
    over = np.maximum(outer[:, 2] - roof.at(outer), edge[:, 2] - roof.at(edge))
    return float(np.min(1.0 - np.clip(over, 0.0, None) / thick))


def _bars(bench: Bench, retainer: Retainer, form: ClaspForm, side: Side) -> Iterator[Course]:
    """Bars from the base, whose approach arm is long."""
    ground, tooth = bench.ground, retainer.tooth
    length = proposal_rules().numbers["approach_length_mm"]
    t = np.linspace(0.0, 1.0, 41)
    for depth in undercuts():
        clasp = default_clasp(tooth, form, side, depth)
        chart = ground.charts[tooth]
        angle, height, reached = bar_tip(ground, chart, clasp, rigid_origin(retainer))
        spot = ground.scan.settle(chart.points(np.array([angle]), np.array([height])))
        strain = peak_strain(length, *bar_section(clasp, t), depth)
        share = strain / proposal_rules().numbers["allowed_strain"]
        yield Course(clasp, reached, ground.back(spot)[0], length, share)


def _estimated(
    arch: DentalArch,
    survey: Survey,
    retainer: Retainer,
    form: ClaspForm,
    side: Side,
    origin: End | None,
) -> Iterator[Course]:
    tooth = arch.teeth[retainer.tooth]
    from_end = origin or rigid_origin(retainer)
    reach = available_undercut(arch, survey, tooth, side, form, origin=from_end)
    for depth in undercuts():
        clasp = replace(default_clasp(retainer.tooth, form, side, depth), origin=origin)
        offers = reach.undercut_mm
        if form in BARS:
            yield Course(clasp, offers, reach.at, 15.0, 0.5)
            continue
        length = arm_length_estimate(tooth, plated=bool(retainer.proximal_plates))
        clasp, strain = sized(clasp, length)
        yield Course(clasp, offers, reach.at, length, strain)


def arm_length_estimate(tooth: Tooth, *, plated: bool) -> float:
    """About how long a circumferential arm on this tooth will be [mm]."""
    numbers = proposal_rules().numbers
    sweep = numbers["sweep_plate_deg" if plated else "sweep_rest_deg"]
    girth = np.pi / 2 * (tooth.mesiodistal_mm + tooth.buccolingual_mm) / 2
    return float(numbers["girth_share"] * girth * sweep / 180.0)


class _Charts(Mapping[int, CrownChart]):
    """Charts of an arch's crowns, each made once."""

    def __init__(
        self, arch: DentalArch, scan: Terrain, blocked: Terrain, roof: Roof | None
    ) -> None:
        self._of = arch, scan, blocked, roof
        self._made: dict[int, CrownChart] = {}

    def __getitem__(self, code: int) -> CrownChart:
        arch, scan, blocked, roof = self._of
        if code not in self._made:
            self._made[code] = crown_chart(arch, arch.teeth[code], scan, blocked, roof)
        return self._made[code]

    def __iter__(self) -> Iterator[int]:
        return iter(self._of[0].teeth)

    def __len__(self) -> int:
        return len(self._of[0].teeth)


class _Seats(Mapping[tuple[int, str], RestSeat]):
    """Rest seats, each sought once."""

    def __init__(self, arch: DentalArch) -> None:
        self._arch = arch
        self._found: dict[tuple[int, str], RestSeat] = {}

    def __getitem__(self, key: tuple[int, str]) -> RestSeat:
        if key not in self._found:
            form: RestForm = key[1]  # type: ignore[assignment]
            self._found[key] = find_rest_seat(self._arch, key[0], SEAT_OF[form])
        return self._found[key]

    def __iter__(self) -> Iterator[tuple[int, str]]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)
