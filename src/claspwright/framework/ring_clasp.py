"""Ring and back-action clasps: one arm nearly all round a tooth.

Its first part is rigid and lies at or above the survey line over one face; past the far end of
the tooth, where a second rest carries it, it tapers over the other face into the undercut beside
the end where it began.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.base import Finding, Floats
from claspwright.framework.approach import upright_arm
from claspwright.framework.arm_plans import (
    RETENTIVE,
    ArmPlan,
    ArmStart,
    arm_section,
    arm_start,
    retentive_plan,
    sweep_angles,
)
from claspwright.framework.arm_ways import arm_way, other_side
from claspwright.framework.arms import RIGID_HALF_WIDTH, shallow_tip
from claspwright.framework.canvas import oval_sweep
from claspwright.framework.chart import CrownChart
from claspwright.framework.connectors import Connector
from claspwright.framework.design import Clasp, End, Retainer, Side
from claspwright.framework.ground import (
    Ground,
    Piece,
    laid_sweep,
    steady_normals,
    within_undercut,
)
from claspwright.framework.minor import beam
from claspwright.framework.model import Component
from claspwright.framework.roles import arm_origin, opposite
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15  # mm between stations
TAPER_DEG = 24.0  # past the far end at which the arm begins to taper
STRUT_DEG = 78.0  # from the origin round the rigid face to the strut
BACK_DEG = 54.0  # from the origin to the minor connector of a back-action clasp
RIGID_THICKNESS = 1.35  # mm, at least a fifth more than the springing part has on average
STRUT_WIDTH = 2.6  # mm
STRUT_THICKNESS = 1.5
LEVEL = 0.3  # share of the rigid part from its beginning whose height counts for what is before
CLIMB = 0.3  # mm that its beginning lies above that, at most
OVERLAP = 8  # stations that the two parts share
SETTLED = 0.55  # share of the rigid part from which it comes to the height of the springing one


@dataclass(frozen=True, slots=True, eq=False)
class RingPlan:
    """A ring on the chart: rigid from the origin to the far end, springing to the tip."""

    rigid: ArmPlan
    spring: ArmPlan


def ring_plan(ground: Ground, retainer: Retainer) -> RingPlan:
    """Plan the arm of a ring or back-action clasp on the chart of its tooth."""
    clasp = retainer.clasp
    assert clasp is not None
    chart, tooth = ground.charts[retainer.tooth], ground.tooth(retainer.tooth)
    origin = arm_origin(retainer)
    far, via = opposite(origin), other_side(clasp.side)
    stop = arm_start(chart, tooth, far, clasp.side, retainer.proximal_plates).stop_deg
    spring = retentive_plan(ground, chart, far, clasp.side, clasp, ArmStart(0.0, TAPER_DEG, stop))
    begins = BACK_DEG
    if clasp.form == "ring" or any(rest.startswith(origin) for rest in retainer.rests):
        begins = arm_start(chart, tooth, origin, via, retainer.proximal_plates).joint_deg
    return RingPlan(_rigid(chart, origin, via, begins, float(spring.height[0])), spring)


def _rigid(chart: CrownChart, origin: End, via: Side, begins_deg: float, ends_at: float) -> ArmPlan:
    """The rigid part: at or above the survey line, down or up to where the taper begins."""
    first, last = sweep_angles(origin, via, begins_deg, 0.0)
    angles = np.linspace(first, last, 90)
    t = np.linspace(0.0, 1.0, 90)
    floor = chart.look_up(chart.contour, angles) + 0.9 * RIGID_HALF_WIDTH
    ceiling = chart.look_up(chart.ceiling, angles) - RIGID_HALF_WIDTH - 0.1
    roof = np.minimum(chart.look_up(chart.top, angles) - 0.7 * RIGID_HALF_WIDTH, ceiling)
    wanted = np.where(floor < roof, 0.5 * (floor + np.minimum(roof, floor + 1.0)), floor)
    heights = np.polynomial.Polynomial.fit(t, wanted, 3)(t)
    heights += max(min(float(np.max(floor - heights)), 0.6), 0.0)
    heights = np.minimum(heights, np.maximum(roof, np.minimum(floor, ceiling)))
    # it does not climb towards its beginning: what lies below the survey line there is blocked out
    level = float(heights[int(np.argmin(np.abs(t - LEVEL)))])
    heights[t < LEVEL] = np.minimum(heights[t < LEVEL], level + CLIMB)
    heights = gaussian_filter1d(heights, 4.0, mode="nearest")
    s = np.clip((t - SETTLED) / (1.0 - SETTLED), 0.0, 1.0)
    heights = heights + (ends_at - heights[-1]) * s * s * (3.0 - 2.0 * s)
    return ArmPlan(angles, heights, 0.0)


def ring_clasp(
    ground: Ground, connector: Connector, retainer: Retainer, rail_point: Floats | None
) -> list[Piece]:
    """Lay a ring or back-action clasp with what carries it.

    Args:
        ground: surfaces.
        connector: the major connector, for a strut on the tongue side.
        retainer: the retainer with its clasp.
        rail_point: (3,) of the outer rail of the base beside the tooth, for a strut on the
            cheek side; None where there is no base.
    """
    clasp = retainer.clasp
    assert clasp is not None
    plan = ring_plan(ground, retainer)
    line, share = _laid(ground, retainer, plan)
    pieces = _arms(ground, retainer, clasp, plan, line, share)
    pieces += _far_rest(ground, retainer, line, share)
    strut = _strut(ground, connector, retainer, plan, rail_point)
    if strut is not None:
        return [*pieces, strut]
    pieces[0] = replace(pieces[0], findings=(*pieces[0].findings, _unsupported(ground, pieces[0])))
    return pieces


def _laid(ground: Ground, retainer: Retainer, plan: RingPlan) -> tuple[Floats, Floats]:
    """The arm on the tooth, and the share of its springing part reached, negative before it."""
    chart = ground.charts[retainer.tooth]
    angle = np.unwrap(np.concatenate([plan.rigid.angle[:-1], plan.spring.angle]))
    height = np.concatenate([plan.rigid.height[:-1], plan.spring.height])
    on_chart = chart.points(angle, height)
    along = arc_lengths(on_chart)
    before = len(plan.rigid.angle) - 1
    count = len(plan.spring.angle) - 1
    taper = float(np.interp(before + plan.spring.fused * count, np.arange(len(along)), along))
    taper /= float(along[-1])
    arm = smoothed(resampled(on_chart, STEP), 0.6)
    lengths = arc_lengths(arm)
    reached = (lengths / lengths[-1] - taper) / (1.0 - taper)
    bare = np.clip(1.0 + reached / 0.15, 0.0, 1.0)[:, None]
    bare = bare * bare * (3.0 - 2.0 * bare)
    arm = (1.0 - bare) * ground.laid.settle(arm) + bare * ground.scan.settle(arm)
    arm = resampled(arm, STEP)
    lengths = arc_lengths(arm)
    share = (lengths / lengths[-1] - taper) / (1.0 - taper)
    origin = arm_origin(retainer)
    root = arm_way(ground, retainer, origin, other_side(_clasp(retainer).side)).root
    carried = origin in retainer.proximal_plates or any(
        rest.startswith(origin) for rest in retainer.rests
    )
    if len(root) and carried:
        joint = smoothed(resampled(np.vstack([root, arm[:1]]), STEP), 0.6)
        joint = ground.laid.settle(joint)[:-1]
        gone = arc_lengths(np.vstack([joint, arm[:1]]))
        step = float(share[1] - share[0]) / STEP
        arm = np.vstack([joint, arm])
        share = np.concatenate([share[0] + (gone[:-1] - gone[-1]) * step, share])
    return arm, share


def ring_line(ground: Ground, retainer: Retainer) -> tuple[Floats, Floats, float]:
    """The (N, 3) arm as it would be laid, its (N,) springing share, and the undercut it finds."""
    plan = ring_plan(ground, retainer)
    return (*_laid(ground, retainer, plan), plan.spring.reached_mm)


def _clasp(retainer: Retainer) -> Clasp:
    assert retainer.clasp is not None
    return retainer.clasp


def _arms(
    ground: Ground, retainer: Retainer, clasp: Clasp, plan: RingPlan, line: Floats, share: Floats
) -> list[Piece]:
    """The rigid and the springing part, of one sweep."""
    half, height = arm_section(clasp, share)
    rigid = np.clip(-share / 0.12, 0.0, 1.0)
    half = half + rigid * (max(RIGID_HALF_WIDTH, clasp.width_mm / 2) - half)
    height = height + rigid * (max(RIGID_THICKNESS, clasp.thickness_mm) - height)
    normal = steady_normals(ground.scan, line, 0.8)
    turn = int(np.searchsorted(share, 0.0))
    tooth, via = retainer.tooth, other_side(clasp.side)
    pieces = []
    for part, kind in (
        (slice(0, turn + OVERLAP), "reciprocal arm"),
        (slice(max(turn - OVERLAP, 0), None), "retentive arm"),
    ):
        shape = oval_sweep(ground.grid, line[part], normal[part], half[part], height[part], 0.4)
        on = slice(0, turn + 1) if kind == "reciprocal arm" else slice(turn, None)
        springs = kind == "retentive arm"
        figures = {"length_mm": float(arc_lengths(line[on])[-1])}
        if springs:
            turned = abs(plan.rigid.angle[-1] - plan.rigid.angle[0])
            turned += abs(plan.spring.angle[-1] - plan.spring.angle[0])
            figures |= {
                "undercut_mm": plan.spring.reached_mm,
                "prescribed_undercut_mm": clasp.undercut_mm,
                "encircled_deg": float(np.degrees(turned)),
            }
        component = Component(
            f"clasp.{tooth}.{clasp.side}" if springs else f"reciprocal.{tooth}.{via}",
            "retentive arm" if springs else "reciprocal arm",
            ground.back(line[on]),
            2 * half[on],
            height[on],
            tooth,
            figures,
        )
        if not springs:
            pieces.append(Piece(component, shape, 0.4))
            continue
        last = np.flatnonzero(share >= RETENTIVE - 0.06)
        zone = laid_sweep(
            ground.scan, line[last], half[last] + 0.45, height[last] + 0.5, fillet=0.0
        )
        tip = within_undercut(ground, zone, plan.spring.reached_mm)
        doubt = shallow_tip(ground, component, plan.spring, clasp)
        pieces.append(Piece(component, shape, 0.4, tip, doubt))
    return pieces


def _far_rest(ground: Ground, retainer: Retainer, line: Floats, share: Floats) -> list[Piece]:
    """What ties the rest at the far end to the arm that passes below it."""
    far = opposite(arm_origin(retainer))
    rests = [rest for rest in retainer.rests if rest.startswith(far)]
    if not rests:
        return []
    tooth = ground.tooth(retainer.tooth)
    out = ground.aim(tooth.mesial) * (1.0 if far == "mesial" else -1.0)
    near = line[(share > -1.2) & (share < 0.3)]
    meets = near[int(np.argmax((near - ground.here(tooth.centre)) @ out))]
    seat = ground.here(ground.seats[retainer.tooth, rests[0]].point)
    way = resampled(np.vstack([seat, meets]), STEP)
    if len(way) < 4:
        return []
    route = ground.laid.settle(way)
    return [beam(ground, f"minor.{retainer.tooth}.{far}", route, retainer.tooth)]


def _strut(
    ground: Ground,
    connector: Connector,
    retainer: Retainer,
    plan: RingPlan,
    rail_point: Floats | None,
) -> Piece | None:
    """What carries the rigid part: to the major connector, or to the base on the cheek side."""
    clasp, tooth = _clasp(retainer), retainer.tooth
    chart, origin = ground.charts[tooth], arm_origin(retainer)
    via = other_side(clasp.side)
    at = BACK_DEG if clasp.form == "back-action" else STRUT_DEG
    angle = sweep_angles(origin, via, at, 0.0)[0]
    sign = np.sign(plan.rigid.angle[-1] - plan.rigid.angle[0])
    order = np.argsort(sign * plan.rigid.angle)
    level = float(np.interp(sign * angle, sign * plan.rigid.angle[order], plan.rigid.height[order]))
    meets = ground.laid.settle(chart.points(np.array([angle]), np.array([level])))[0]
    name = f"minor.{tooth}.{'strut' if clasp.form == 'ring' else origin}"
    if via == "buccal":
        if rail_point is None:
            return None
        line = upright_arm(ground, chart, angle, meets, rail_point)
        count = len(line)
        shape = laid_sweep(
            ground.laid, line, np.full(count, STRUT_WIDTH / 2), np.full(count, STRUT_THICKNESS),
            fillet=0.6,
        )  # fmt: skip
        component = Component(
            name,
            "minor connector",
            ground.back(line),
            np.array([STRUT_WIDTH]),
            np.array([STRUT_THICKNESS]),
            tooth,
            {"length_mm": float(arc_lengths(line)[-1])},
        )
        return Piece(component, shape, 0.6)
    away = np.cos(angle) * chart.mesial + np.sin(angle) * chart.buccal
    for aim in (away, connector.direction_from(meets)):
        profile = ground.laid.profile(meets - 0.3 * away, aim, 30.0)
        profile = profile[int(np.argmax(profile[:, 2] <= meets[2])) :]  # not above the arm
        if len(profile) >= 4 and connector.reached_by(profile):
            return beam(ground, name, connector.cut(profile), tooth)
    return None


def _unsupported(ground: Ground, piece: Piece) -> Finding:
    x, y, z = (float(v) for v in piece.component.line[len(piece.component.line) // 2])
    return Finding(
        "clasp.unsupported_ring",
        "look",
        f"Nothing carries {piece.component.id} to the base or the major connector: the long arm "
        "bends, and the tooth is not braced. Add a base beside it, or clasp another tooth.",
        "a ring clasp never without a supporting strut (McCracken's Removable Partial "
        "Prosthodontics) [memory]",
        measured="none",
        limit=f"a strut of {limit('minor.width').value:g} mm",
        at_mm=(x, y, z),
        component=piece.component.id,
    )
