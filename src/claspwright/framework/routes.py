"""Routes over the surface from rests and bases towards the major connector."""

from __future__ import annotations

import numpy as np

from claspwright.arch import neighbours, side_of
from claspwright.base import Floats
from claspwright.framework.design import Design, RestForm, Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.lattice import BasePlan, side_profiles
from claspwright.framework.roles import arm_origin, opposite


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


def _onlay_end(ground: Ground, tooth: int) -> bool:
    """Whether the minor connector of an onlay runs down on the mesial side: a tooth is there."""
    right, left = neighbours(tooth)
    mesial = left if side_of(tooth) == "right" else right
    return mesial in ground.arch.teeth


def rest_profile(ground: Ground, retainer: Retainer, rest: RestForm, towards: Floats) -> Floats:
    """Profile from where a rest's minor connector begins, in a horizontal direction."""
    return ground.laid.profile(rest_start(ground, retainer, rest), towards, 30.0)
