"""The fulcrum line and how far an indirect retainer stands from it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from claspwright.arch import Tooth, side_of
from claspwright.base import Floats, InputError
from claspwright.framework.design import RestForm, Retainer


def rest_point(tooth: Tooth, rest: RestForm) -> Floats:
    """(3,) about where the middle of a rest lies on a tooth, arch frame [mm]."""
    if rest == "cingulum":
        return np.asarray(tooth.centre - 0.25 * tooth.buccolingual_mm * tooth.buccal)
    if rest == "onlay":
        return np.asarray(tooth.centre)
    towards = tooth.mesial if rest.startswith("mesial") else tooth.distal
    return np.asarray(tooth.centre + 0.3 * tooth.mesiodistal_mm * towards)


def fulcrum_line(rests: Sequence[tuple[int, Floats]]) -> tuple[Floats, Floats] | None:
    """The line through the most posterior rest on each side of the arch.

    Where rests stand on one side only, through its foremost and hindmost ones; None where
    fewer than two rests stand apart.

    Args:
        rests: (tooth, (3,) point in the arch frame) of each rest.

    Source:
        McCracken's Removable Partial Prosthodontics [memory].
    """
    sides: dict[str, list[Floats]] = {"right": [], "left": []}
    for tooth, point in rests:
        sides[side_of(tooth)].append(point)
    right, left = sides["right"], sides["left"]
    if right and left:
        return min(right, key=lambda p: p[1]), min(left, key=lambda p: p[1])
    alone = right or left
    if len(alone) < 2:
        return None
    ends = min(alone, key=lambda p: p[1]), max(alone, key=lambda p: p[1])
    return ends if np.linalg.norm((ends[1] - ends[0])[:2]) > 1.0 else None


def distance_to_fulcrum(line: tuple[Floats, Floats], point: Floats) -> float:
    """Distance of a point from the fulcrum line in the occlusal plane [mm].

    Positive where the point lies to the left of the way from the first end to the second.

    Source:
        Cross product of the line with the way to the point, over the line's length.

    Raises:
        InputError: both ends of the line are the same.
    """
    along = (line[1] - line[0])[:2]
    length = float(np.linalg.norm(along))
    if not length > 0:
        raise InputError("the fulcrum line needs two different ends")
    to = (point - line[0])[:2]
    return float((along[0] * to[1] - along[1] * to[0]) / length)


def rests_of(retainers: Sequence[Retainer], teeth: dict[int, Tooth]) -> list[tuple[int, Floats]]:
    """(tooth, point) of every rest in a design."""
    return [(r.tooth, rest_point(teeth[r.tooth], form)) for r in retainers for form in r.rests]
