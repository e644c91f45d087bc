"""Routes over the surface from rests and bases towards the major connector."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.design import RestForm, Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.lattice import BasePlan, side_profiles


def inward(ground: Ground, plan: BasePlan, at: float) -> Floats:
    """Profile from a base's crest towards the tongue side at an arc length [mm]."""
    return side_profiles(ground, plan, at, 22.0)[1]


def beamed_rests(retainer: Retainer) -> tuple[RestForm, ...]:
    """Rests that need a minor connector of their own: those that no proximal plate carries."""
    if retainer.proximal_plates:  # it also carries a rest on the cingulum, by a shelf
        near = (*retainer.proximal_plates, "cingulum")
        return tuple(r for r in retainer.rests if r.split()[0] not in near)
    return retainer.rests


def rest_start(ground: Ground, retainer: Retainer, rest: RestForm) -> Floats:
    """(3,) where a rest's minor connector begins: in the embrasure, or at a cingulum's seat."""
    tooth = ground.tooth(retainer.tooth)
    seat = ground.here(ground.seats[retainer.tooth, rest].point)
    if rest == "cingulum":
        return seat
    aside = ground.aim(tooth.mesial) * (1.0 if rest.startswith("mesial") else -1.0)
    edge = ground.here(tooth.centre) + aside * tooth.mesiodistal_mm / 2
    return np.asarray(seat + aside * max(float((edge - seat) @ aside) - 0.3, 0.0))


def rest_profile(ground: Ground, retainer: Retainer, rest: RestForm, towards: Floats) -> Floats:
    """Profile from where a rest's minor connector begins, in a horizontal direction."""
    return ground.laid.profile(rest_start(ground, retainer, rest), towards, 30.0)
