"""Where a tooth's mark runs over the crown instead of along its gingival margin."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import binary_dilation, binary_opening

from claspwright.arch import Tooth
from claspwright.base import Bools, Finding, Floats

OUTSIDE = 0.8  # mm by which the crown below a mark stands out beyond it
NEAR = 2.0  # mm below the mark within which it does so
WAIST = 0.15  # mm by which the crown draws in again below that: it is a crown, not the gum
DEPTH = 4.0  # mm below the mark within which it draws in
LEAST_RUN = 5  # neighbouring angles: fewer are the corner of an embrasure
BESIDE = 10  # angles beside them on which a mark climbs to that place and falls again


def stray_angles(radius: Floats, heights: Floats, margin: Floats, mark: Floats) -> Bools:
    """(A,) angles at which the mark lies over the crown: its widest part stands outside below.

    Args:
        radius: (A, Z) of the crown, NaN where unknown [mm].
        heights: (Z,) [mm].
        margin: (A,) height of the mark [mm].
        mark: (A,) radius of the mark [mm].
    """
    found = np.zeros(len(radius), bool)
    for a, row in enumerate(radius):
        below = ~np.isnan(row) & (heights < margin[a]) & (heights > margin[a] - DEPTH)
        near = np.flatnonzero(below & (heights > margin[a] - NEAR))
        if not near.size:
            continue
        widest = near[np.argmax(row[near])]
        lower = np.flatnonzero(below[:widest])
        if lower.size and row[widest] > mark[a] + OUTSIDE:
            found[a] = row[widest] - row[lower].min() > WAIST
    round_it = np.concatenate([found, found, found])
    runs = binary_opening(round_it, np.ones(LEAST_RUN, bool))
    grown = binary_dilation(runs, iterations=BESIDE)
    return np.asarray(grown[len(found) : 2 * len(found)])


def bridged(values: Floats, stray: Bools) -> Floats:
    """(A,) values by angle, those that stray drawn straight from their neighbours."""
    sound = np.flatnonzero(~stray)
    if not sound.size or not stray.any():
        return values
    return np.interp(np.arange(len(values)), sound, values[sound], period=len(values))


def stray_finding(tooth: Tooth, stray: Bools) -> Finding:
    """A finding on a tooth whose mark runs over its crown."""
    degrees = 360.0 * float(stray.mean())
    middle = np.angle(np.exp(2j * np.pi * np.flatnonzero(stray) / len(stray)).mean())
    aim = np.cos(middle) * tooth.mesial + np.sin(middle) * tooth.buccal
    x, y, z = (float(v) for v in tooth.margin[int(np.argmax((tooth.margin - tooth.centre) @ aim))])
    side = "buccal" if np.sin(middle) > 0 else "lingual"
    return Finding(
        rule="tooth.margin_astray",
        severity="look",
        text=(
            f"The border of tooth {tooth.code} runs over its crown on the {side} side, over "
            f"{degrees:.0f} degrees, and not along the gingival margin. Arms there are planned on "
            "a margin drawn straight between its sound parts; mark the tooth anew."
        ),
        source="the widest part of the crown lies below the border there [common practice]",
        measured=round(degrees, 0),
        unit="degrees",
        at_mm=(x, y, z),
        component=f"tooth.{tooth.code}",
    )
