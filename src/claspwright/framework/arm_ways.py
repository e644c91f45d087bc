"""Where the arms of a retainer begin: in a plate, or on the shoulder of a rest."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import SeatPlace
from claspwright.base import Floats
from claspwright.framework.arm_plans import ArmStart, arm_start
from claspwright.framework.design import End, RestForm, Retainer, Side
from claspwright.framework.ground import Ground

SEAT_OF: dict[RestForm, SeatPlace] = {
    "mesial occlusal": "mesial",
    "distal occlusal": "distal",
    "cingulum": "cingulum",
    "mesial extended occlusal": "mesial",
    "distal extended occlusal": "distal",
    "mesial embrasure": "mesial",
    "distal embrasure": "distal",
    "mesial incisal": "mesial incisal",
    "distal incisal": "distal incisal",
    "onlay": "occlusal",
}


@dataclass(frozen=True, slots=True, eq=False)
class ArmWay:
    """The end of the tooth where an arm begins, and what leads up to it."""

    origin: End
    start: ArmStart
    root: Floats  # (N, 3) from a rest's seat, grid frame; empty where a plate carries the arm


def other_side(side: Side) -> Side:
    """The face across the tooth."""
    return "lingual" if side == "buccal" else "buccal"


def arm_way(ground: Ground, retainer: Retainer, origin: End, side: Side) -> ArmWay:
    """How an arm on one face leaves the body of the retainer at one end of the tooth."""
    tooth = retainer.tooth
    plates = retainer.proximal_plates
    start = arm_start(ground.charts[tooth], ground.tooth(tooth), origin, side, plates)
    root = np.zeros((0, 3))
    if origin not in plates and retainer.rests:
        keys = [rest for rest in retainer.rests if rest.startswith(origin)] or [*retainer.rests]
        seat = ground.here(ground.seats[tooth, keys[0]].point)
        root = ground.laid.settle(seat[None], 0.4)
    return ArmWay(origin, start, root)
