"""Rules on splinting bars: section, length across a space, room over the ridge."""

from __future__ import annotations

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.framework import Component
from claspwright.geometry import closest_points
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

BESIDE = 0.25  # share of a bar's length at each end where its joints lie over the ridge
ASIDE = (-0.4, 0.0, 0.4)  # mm across it at which its under side is looked for


def splint_section(context: Finished) -> tuple[Finding, ...]:
    """Height and thickness of every splinting bar."""
    found = []
    for bar in context.parts("splinting bar"):
        head = "splint." if _crosses(bar) else "splint.continuous_"
        remedy = "A thinner bar bends and no longer holds the teeth together; ask for room."
        for what, size in (("height", bar.width_mm), ("thickness", bar.thickness_mm)):
            least = float(np.min(size))
            text = f"{bar.id}: {what} of the splinting bar {least:.2f} mm"
            found.append(
                judged("splint.section", f"{head}{what}", least, text, remedy=remedy,
                       at=_middle(bar), component=bar.id)
            )  # fmt: skip
    return tuple(found)


def splint_length(context: Finished) -> tuple[Finding, ...]:
    """Length of a splinting bar across a space."""
    remedy = "It bends with the cube of its length: thicken it, or ask whether a base is meant."
    return tuple(
        judged("splint.length", "splint.length", bar.figures["length_mm"],
               f"{bar.id} crosses {bar.figures['length_mm']:.1f} mm", remedy=remedy,
               at=_middle(bar), component=bar.id)
        for bar in context.parts("splinting bar")
        if _crosses(bar)
    )  # fmt: skip


def splint_gap(context: Finished) -> tuple[Finding, ...]:
    """Room between a splinting bar and the ridge that it crosses, on the solid itself."""
    remedy = "Food lodges in it: raise the bar, or ask for another height of its plates."
    found = []
    for bar in context.parts("splinting bar"):
        if not _crosses(bar):
            continue
        spots = _under_side(context, bar)
        if not len(spots):
            continue
        away = closest_points(context.scan_tree, spots).distance
        n = int(np.argmin(away))
        text = f"{bar.id} passes {away[n]:.2f} mm over the ridge"
        found.append(
            judged("splint.gap", "splint.gap", float(away[n]), text, remedy=remedy,
                   at=spots[n], component=bar.id)
        )  # fmt: skip
    return tuple(found)


def _under_side(context: Finished, bar: Component) -> Floats:
    """(N, 3) places on the solid under the middle part of a bar."""
    line = np.asarray(bar.line)
    first, last = int(BESIDE * len(line)), int((1.0 - BESIDE) * len(line))
    middle = line[first : max(last, first + 1)]
    along = line[-1] - line[0]
    across = np.cross(context.path, along)
    across = across / max(float(np.linalg.norm(across)), 1e-9)
    below = middle - (0.5 * float(np.max(bar.width_mm)) + 0.1) * context.path
    spots = np.concatenate([below + aside * across for aside in ASIDE])
    return np.asarray(closest_points(context.solid_tree, spots).points, np.float64)


def _crosses(bar: Component) -> bool:
    return bool(bar.figures.get("across"))


def _middle(bar: Component) -> Floats:
    return np.asarray(bar.line[len(bar.line) // 2], np.float64)
