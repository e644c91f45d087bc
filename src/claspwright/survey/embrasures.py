"""Embrasures that nothing crosses: places to fill that the program proposes."""

from __future__ import annotations

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import ARCH_ORDER, DentalArch, Tooth
from claspwright.base import Floats
from claspwright.survey.wax import Patch

RADIUS_MM = 1.8  # of a fill, own choice, no source: about half a gingival embrasure's width
CLEAR_MM = 1.0  # from the rim of a fill to the metal, own choice, no source
OPEN_MM = 2.5  # between the margins of neighbours, from which there is a space, not an embrasure


def open_embrasures(arch: DentalArch, metal: Floats) -> tuple[Patch, ...]:
    """A patch in each gingival embrasure, buccal and lingual, that lies clear of the metal.

    Args:
        arch: the arch with its teeth.
        metal: (N, 3) points of the framework's surface, close to each other, arch frame [mm].

    Returns:
        Patches named like "42-43.lingual", on the surface, from the patient's right to the left.
    """
    order = ARCH_ORDER[arch.scan.jaw]
    surface = KDTree(arch.scan.surface.vertices)
    near = KDTree(metal) if len(metal) else None
    found = []
    for one, two in zip(order[:-1], order[1:], strict=True):
        if one not in arch.teeth or two not in arch.teeth:
            continue
        for side in ("buccal", "lingual"):
            middle = _between(arch.teeth[one], arch.teeth[two], side)
            if middle is None:
                continue
            at = arch.scan.surface.vertices[int(surface.query(middle)[1])]
            if near is not None and float(near.query(at)[0]) < RADIUS_MM + CLEAR_MM:
                continue
            x, y, z = at.tolist()
            found.append(Patch(f"{one}-{two}.{side}", (x, y, z), RADIUS_MM))
    return tuple(found)


def _between(one: Tooth, two: Tooth, side: str) -> Floats | None:
    """(3,) middle between the two gingival margins where they come nearest on one side."""
    own, other = (
        tooth.margin[(tooth.margin - tooth.centre) @ _way(tooth, side) > 0.0]
        for tooth in (one, two)
    )
    if not (len(own) and len(other)):
        return None
    found = KDTree(other).query(own)
    gap, which = np.asarray(found[0]), np.asarray(found[1])
    least = int(np.argmin(gap))
    if float(gap[least]) > OPEN_MM:
        return None
    return np.asarray(0.5 * (own[least] + other[int(which[least])]))


def _way(tooth: Tooth, side: str) -> Floats:
    return tooth.buccal if side == "buccal" else tooth.lingual
