"""The wrought-wire arm: a round wire that is bent by hand and fixed in a printed socket.

The wire is not printed. The framework gets the socket, a tube on the proximal plate, and the wire
is a solid of its own. The bore is open at its mouth, and behind where no other metal stands. What
the rules ask of an arm they ask of the wire, whose line lies under it, on the tooth from the mouth
of the socket on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import Floats
from claspwright.framework.arm_plans import ArmPlan, retentive_plan, sweep_angles
from claspwright.framework.arm_ways import arm_way
from claspwright.framework.arms import lay_arm, shallow_tip
from claspwright.framework.canvas import FAR, Shape, box_round, oval_sweep
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, Retainer
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.model import Component, Wire
from claspwright.framework.roles import arm_origin
from claspwright.geometry import Mesh, arc_lengths, difference, resampled, smoothed, tube
from claspwright.limits import limit

STEP = 0.15
BACK_DEG = -26.0  # past the middle of the proximal face, where the socket begins
OUT_OVER = 2.4  # mm beyond the mouth over which the wire comes down onto the tooth
MOUTH = 0.3  # mm of socket beyond the edge of the plate
UNDER_DEG = 40.0  # from the middle of the proximal face, in which the wire stays under the rest
RISE_PER_RAD = 2.5  # mm by which it may rise beyond
BEYOND = 0.6  # mm by which the bore runs out behind
ROUND = 0.35  # mm beyond its last contact over which the wire is rounded
SIDES = 32  # of the bore and of the wire


@dataclass(frozen=True, slots=True, eq=False)
class WireWay:
    """Axis of a wire and the line under it, both from the back of its socket; grid frame, mm."""

    axis: Floats  # (N, 3)
    under: Floats  # (N, 3) half a wire below the axis
    normal: Floats  # (N, 3)
    share: Floats  # (N,) of the springing part, negative within the socket
    plan: ArmPlan


def wire_clasp(ground: Ground, retainer: Retainer) -> list[Piece]:
    """The wire as an arm that is not printed, and its socket."""
    clasp, tooth = retainer.clasp, retainer.tooth
    assert clasp is not None
    way = wire_way(ground, retainer, clasp)
    free = slice(int(np.searchsorted(way.share, 0.0)), None)
    count = len(way.under[free])
    length = float(arc_lengths(way.axis[free])[-1])
    arm = Component(
        f"clasp.{tooth}.{clasp.side}",
        "retentive arm",
        ground.back(way.under[free]),
        np.full(count, clasp.width_mm),
        np.full(count, clasp.width_mm),
        tooth,
        {
            "undercut_mm": way.plan.reached_mm,
            "prescribed_undercut_mm": clasp.undercut_mm,
            "length_mm": length,
            "wire_mm": clasp.width_mm,
            "encircled_deg": float(np.degrees(abs(way.plan.angle[-1] - way.plan.angle[0]))),
        },
    )
    wire = Wire(arm.id, clasp.width_mm, float(arc_lengths(way.axis)[-1]), _wire(ground, way, clasp))
    box = box_round(ground.grid, way.under[-1:], 0.5)
    nothing = Shape(box, np.full(box.shape, FAR, np.float32))
    doubts = shallow_tip(ground, arm, way.plan, clasp)
    return [
        Piece(arm, nothing, 0.0, None, doubts, wire=wire),
        _socket(ground, retainer, clasp, way),
    ]


def wire_way(ground: Ground, retainer: Retainer, clasp: Clasp) -> WireWay:
    """From the back of the socket along the plate, out of its edge and to the undercut."""
    origin = arm_origin(retainer)
    chart = _below_rest(ground, retainer, clasp)
    start = arm_way(ground, retainer, origin, clasp.side).start
    # planned as an arm whose tip is as wide as the wire
    sized = replace(clasp, form="circumferential", width_mm=2 * clasp.width_mm)
    plan = retentive_plan(ground, chart, origin, clasp.side, sized, start)
    line, share = lay_arm(ground, chart, plan, np.zeros((0, 3)))
    back = sweep_angles(origin, clasp.side, BACK_DEG, 90.0)[0]
    angles = np.linspace(back, plan.angle[0], 24)[:-1]
    behind = chart.points(angles, np.full(len(angles), plan.height[0]))
    behind = ground.laid.settle(resampled(np.vstack([behind, line[:1]]), STEP))[:-1]
    gone = arc_lengths(np.vstack([behind, line[:1]]))
    free = float(arc_lengths(line[share >= 0])[-1])
    share = np.concatenate([share[0] + (gone[:-1] - gone[-1]) / free, share])
    whole = smoothed(np.vstack([behind, line]), 0.3)
    whole[-1] = line[-1]
    normal = steady_normals(ground.scan, whole, 1.0)
    radius = clasp.width_mm / 2
    high = limit("clasp.socket_wall").value + limit("clasp.socket_gap").value + radius
    down = np.clip((share * free - MOUTH) / OUT_OVER, 0.0, 1.0)
    off = high + (radius - high) * down * down * (3.0 - 2.0 * down)
    axis = smoothed(whole + off[:, None] * normal, 0.7)
    for _ in range(3):  # evened, but not into the tooth
        sunk = np.clip(radius + 0.01 - ground.scan.distance(axis), 0.0, None)
        axis = smoothed(axis + sunk[:, None] * normal, 0.25)
    axis[-1] = line[-1] + (radius + 0.01) * normal[-1]
    return WireWay(axis, axis - radius * normal, normal, share, plan)


def _below_rest(ground: Ground, retainer: Retainer, clasp: Clasp) -> CrownChart:
    """The chart with its top drawn down under the rest beside the socket, so that both have room.

    The top comes up again along the face, so that the wire may rise to the survey line there.
    """
    chart, origin = ground.charts[retainer.tooth], arm_origin(retainer)
    floors = [
        float(ground.here(ground.seats[retainer.tooth, rest].outline)[:, 2].min())
        for rest in retainer.rests
        if rest.startswith(origin)
    ]
    if not floors:
        return chart
    angles = 2 * np.pi * np.arange(len(chart.top)) / len(chart.top)
    away = np.abs((angles - (0.0 if origin == "mesial" else np.pi) + np.pi) % (2 * np.pi) - np.pi)
    rise = RISE_PER_RAD * np.maximum(away - np.radians(UNDER_DEG), 0.0)
    cap = min(floors) - limit("clasp.socket_wall").value + rise
    return replace(chart, top=np.minimum(chart.top, cap), contour=np.minimum(chart.contour, cap))


def _socket(ground: Ground, retainer: Retainer, clasp: Clasp, way: WireWay) -> Piece:
    """A tube on the plate round the fixed end of the wire, and its bore."""
    wall, gap = limit("clasp.socket_wall").value, limit("clasp.socket_gap").value
    radius = clasp.width_mm / 2
    free = float(arc_lengths(way.axis[way.share >= 0])[-1])
    held = np.flatnonzero(way.share * free <= MOUTH)
    base = way.axis[held] - (wall + gap + radius) * way.normal[held]
    count = len(held)
    half, height = radius + gap + 1.5 * wall, 2 * (radius + gap) + 2.5 * wall
    shape = oval_sweep(
        ground.grid, base, way.normal[held], np.full(count, half), np.full(count, height), 0.4
    )
    component = Component(
        f"socket.{retainer.tooth}.{clasp.side}",
        "proximal plate",  # it stands on it, within the acrylic
        ground.back(way.under[held]),
        np.array([2 * half]),
        np.array([height]),
        retainer.tooth,
        {"length_mm": float(arc_lengths(base)[-1]), "bore_mm": 2 * (radius + gap)},
    )
    bored = way.axis[: held[-1] + 1 + round(OUT_OVER / STEP / 2)]
    behind = bored[0] + BEYOND * (bored[0] - bored[3]) / np.linalg.norm(bored[0] - bored[3])
    axis = resampled(np.vstack([behind, bored]), STEP)
    bore = tube(ground.back(axis), np.full(len(axis), radius + gap), SIDES)
    return Piece(component, shape, 0.4, bore=bore)


def _wire(ground: Ground, way: WireWay, clasp: Clasp) -> Mesh:
    """The wire itself, rounded at its tip; arch frame."""
    ahead = (way.axis[-1] - way.axis[-3]) / np.linalg.norm(way.axis[-1] - way.axis[-3])
    axis = resampled(np.vstack([way.axis, way.axis[-1] + ROUND * ahead]), STEP / 2)
    left = arc_lengths(axis)[-1] - arc_lengths(axis)
    t = np.clip(left / ROUND, 0.0, 1.0)
    radius = clasp.width_mm / 2 * np.sqrt(np.clip(t * (2.0 - t), 0.04, 1.0))
    return tube(ground.back(axis), radius, SIDES)


def bored(solid: Mesh, pieces: list[Piece]) -> Mesh:
    """The framework with the sockets of its wires bored out."""
    bores = [piece.bore for piece in pieces if piece.bore is not None]
    return difference(solid, *bores) if bores else solid
