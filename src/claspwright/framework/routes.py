"""Routes over the surface from rests and bases towards the major connector."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter1d, median_filter

from claspwright.arch import neighbours, side_of
from claspwright.base import Finding, Floats
from claspwright.framework.design import Design, RestForm, Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.lattice import BasePlan, side_profiles
from claspwright.framework.roles import arm_origin, opposite
from claspwright.framework.roof import roof_over
from claspwright.framework.terrain import STEP as PROFILE_STEP
from claspwright.framework.valley import lowest_beside
from claspwright.geometry import resampled
from claspwright.limits import limit

BESIDE = 1.0  # mm from a tooth at which the way from a plate beside an open space begins
CLIMB = 0.6  # mm over its beginning that a route may rise before it looks for a valley
EVEN = 0.8  # mm over which the way there is evened


def is_labial(design: Design) -> bool:
    """Whether the major connector runs on the side of the lips, not of the tongue."""
    return design.connector.form == "labial bar"


def inward(ground: Ground, plan: BasePlan, at: float, *, labial: bool = False) -> Floats:
    """Profile from a base's crest towards the tongue side at an arc length [mm].

    Towards lips and cheeks if `labial`.
    """
    return side_profiles(ground, plan, at, 22.0)[0 if labial else 1]


def connector_side(ground: Ground, design: Design, tooth: int) -> Floats:
    """(3,) horizontal direction from a tooth towards the major connector's side of the arch."""
    found = ground.tooth(tooth)
    return ground.aim(found.buccal if is_labial(design) else found.lingual)


def beamed_rests(retainer: Retainer) -> tuple[RestForm, ...]:
    """Rests that need a minor connector of their own: those that no proximal plate carries.

    Nor does the second rest of a ring or back-action clasp, which its arm carries; of the two
    rests of an embrasure clasp one connector carries both, beside the hinder tooth.
    """
    clasp = retainer.clasp
    carried: tuple[str, ...] = ()
    if clasp is not None and clasp.form in ("ring", "back-action"):
        carried = (*retainer.proximal_plates, opposite(arm_origin(retainer)))
    elif clasp is not None and clasp.form == "embrasure" and arm_origin(retainer) == "distal":
        carried = (*retainer.proximal_plates, "distal")
    if carried:
        return tuple(r for r in retainer.rests if r.split()[0] not in carried)
    if retainer.proximal_plates:  # it also carries a rest on the cingulum, by a shelf
        near = (*retainer.proximal_plates, "cingulum", "onlay")
        return tuple(r for r in retainer.rests if r.endswith("incisal") or r.split()[0] not in near)
    return retainer.rests


def rest_start(ground: Ground, retainer: Retainer, rest: RestForm) -> Floats:
    """(3,) where a rest's minor connector begins: in the embrasure, or at a cingulum's seat."""
    tooth = ground.tooth(retainer.tooth)
    seat = ground.here(ground.seats[retainer.tooth, rest].point)
    if rest == "cingulum" or rest.endswith("incisal"):
        return seat
    ahead = rest.startswith("mesial") or (rest == "onlay" and _onlay_end(ground, tooth.code))
    aside = ground.aim(tooth.mesial) * (1.0 if ahead else -1.0)
    edge = ground.here(tooth.centre) + aside * tooth.mesiodistal_mm / 2
    return np.asarray(seat + aside * max(float((edge - seat) @ aside) - 0.3, 0.0))


def splint_feet(ground: Ground, design: Design) -> list[tuple[int, Floats]]:
    """Teeth beside a space that a splinting bar crosses, each with its plate's foot: (3,) there.

    No base ties such a plate to the major connector, so that it needs a minor connector.
    """
    out = []
    for splint in design.splints:
        for span in ground.arch.spans:
            if len(splint.teeth) != 2 or set(span.ends) != set(splint.teeth):
                continue
            for code, other in (splint.teeth, splint.teeth[::-1]):
                tooth = ground.tooth(code)
                away = (ground.here(ground.tooth(other).centre) - ground.here(tooth.centre))[:2]
                mesial = ground.aim(tooth.mesial)
                aside = mesial * np.sign(away @ mesial[:2])
                reach = tooth.mesiodistal_mm / 2 + BESIDE
                out.append((code, np.asarray(ground.here(tooth.centre) + reach * aside)))
    return out


def splint_way(ground: Ground, design: Design, tooth: int, foot: Floats) -> Floats:
    """Profile from the foot of such a plate towards the major connector's side."""
    return ground.laid.profile(foot, connector_side(ground, design, tooth), 22.0)


def _onlay_end(ground: Ground, tooth: int) -> bool:
    """Whether the minor connector of an onlay runs down on the mesial side: a tooth is there."""
    right, left = neighbours(tooth)
    mesial = left if side_of(tooth) == "right" else right
    return mesial in ground.arch.teeth


def rest_profile(ground: Ground, retainer: Retainer, rest: RestForm, towards: Floats) -> Floats:
    """Profile from where a rest's minor connector begins, in a horizontal direction.

    Where it would climb over the crown beside it, it keeps to the valley between the two.
    """
    start = rest_start(ground, retainer, rest)
    straight = ground.laid.profile(start, towards, 30.0)
    if not rest.startswith(("mesial", "distal")) or rest.endswith("incisal") or len(straight) < 4:
        return straight
    if float(straight[:, 2].max()) < start[2] + CLIMB:
        return straight
    aside = ground.aim(ground.tooth(retainer.tooth).mesial)
    return _in_valley(ground, straight, aside if rest.startswith("mesial") else -aside)


def _in_valley(ground: Ground, line: Floats, aside: Floats) -> Floats:
    """A profile drawn aside to the lowest ground beside it, until it comes down the crowns."""
    drawn = lowest_beside(ground.laid, line, aside)
    peak = int(np.argmax(line[:, 2]))
    down = np.flatnonzero(line[peak:, 2] < line[0, 2] - CLIMB)
    last = peak + int(down[0]) if down.size else len(line) - 1
    drawn[last:] = drawn[last]  # below, it runs on beside its old way
    drawn = gaussian_filter1d(median_filter(drawn, size=9), EVEN / PROFILE_STEP, mode="nearest")
    plan = line[:, :2] + drawn[:, None] * aside[:2]
    z = ground.laid.height(plan)
    kept = np.isfinite(z)
    return resampled(np.column_stack([plan[kept], z[kept]]), PROFILE_STEP)


def crossing_finding(
    ground: Ground, name: str, tooth: int, route: Floats, start: Floats
) -> tuple[Finding, ...]:
    """A stop where a minor connector climbs over an embrasure without room for its metal.

    Args:
        ground: with the opposing arch, if there is one.
        name: id of the minor connector.
        tooth: the tooth of its rest.
        route: (N, 3) its way, grid frame [mm].
        start: (3,) where it leaves its rest.
    """
    roof = roof_over(ground.arch, ground.grid)
    over = route[route[:, 2] > start[2] + CLIMB]
    if roof is None or not len(over):
        return ()
    room = roof.at(over) - over[:, 2]
    rule = limit("minor.thickness")
    k = int(np.argmin(room))
    if room[k] >= (rule.stop_below or 0.0):
        return ()
    x, y, z = (float(v) for v in ground.back(over[k]))
    return (
        Finding(
            "minor.room",
            "stop",
            f"{name} has to cross the occlusal embrasure beside {tooth}, since the seat of its "
            f"rest opens to the other side; the opposing teeth leave {max(room[k], 0.0):.2f} mm "
            "there. Ask the dentist to open the seat towards the connector's side, or to make "
            "room in the embrasure, or choose another rest.",
            rule.cited,
            measured=round(float(room[k]), 2),
            limit=rule.stop_below,
            unit="mm",
            at_mm=(x, y, z),
            component=name,
        ),
    )
