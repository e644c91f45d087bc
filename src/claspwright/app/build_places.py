"""Places of a framework that must fit: rests and tips of arms, from work and from results."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from claspwright.base import Floats, Point
from claspwright.build import FitPlace
from claspwright.framework import Component

TIPS = ("retentive arm", "reciprocal arm", "approach arm")


def fit_places(components: Sequence[Component]) -> tuple[FitPlace, ...]:
    """Middles of rests and tips of arms, in the frame of the components."""
    out = []
    for one in components:
        if not len(one.line) or one.kind not in ("rest", *TIPS):
            continue
        rest = one.kind == "rest"
        x, y, z = (one.line.mean(axis=0) if rest else one.line[-1]).tolist()
        out.append(FitPlace(one.id, "rest" if rest else "clasp tip", (x, y, z)))
    return tuple(out)


def told_places(summary: dict[str, Any]) -> tuple[FitPlace, ...]:
    """The places that the summary of a run tells; Any: a tree from JSON."""
    out = []
    for one in summary.get("places") or []:
        x, y, z = (float(v) for v in one["at_mm"])
        out.append(FitPlace(str(one["name"]), str(one["kind"]), (x, y, z)))
    return tuple(out)


def ring_pairs(places: Sequence[FitPlace]) -> tuple[tuple[Point, Point], ...]:
    """Tips of the two arms of a tooth, for every tooth that has two."""
    teeth: dict[str, list[Point]] = {}
    for place in places:
        if place.kind == "clasp tip":
            teeth.setdefault(place.name.split(".")[1], []).append(place.at_mm)
    return tuple((two[0], two[1]) for two in teeth.values() if len(two) == 2)


def tips(places: Sequence[FitPlace]) -> Floats:
    """(N, 3) free ends."""
    return np.array([p.at_mm for p in places if p.kind == "clasp tip"]).reshape(-1, 3)


def places_to_tell(
    components: Sequence[Component], moved: Callable[[Floats], Floats]
) -> list[dict[str, Any]]:
    """The places for a summary, moved into the frame of its files; Any: a tree for JSON."""
    return [
        {
            "name": p.name,
            "kind": p.kind,
            "at_mm": [round(float(v), 3) + 0.0 for v in moved(np.array(p.at_mm))],
        }
        for p in fit_places(components)
    ]
