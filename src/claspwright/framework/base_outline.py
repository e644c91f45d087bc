"""How far a base reaches from the crest of its ridge: as the arch gives it, or as is asked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from claspwright.arch import Span
from claspwright.base import Floats
from claspwright.framework.design import DentureBase, Side
from claspwright.framework.terrain import Terrain
from claspwright.geometry import Field, point_at


def span_of_base(span: Span, base: DentureBase) -> Span:
    """The span with the reach that the base asks for, where it asks for one.

    A reach is the length over the surface from the crest to the border of the base [mm], the same
    all along; where none is asked for it stays where the arch has the limit of a base.
    """
    out = span
    if base.buccal_reach_mm is not None:
        width = np.full(len(span.crest), base.buccal_reach_mm)
        out = replace(out, buccal_width_mm=width)
    if base.lingual_reach_mm is not None:
        width = np.full(len(span.crest), base.lingual_reach_mm)
        out = replace(out, lingual_width_mm=width)
    return out


def base_border(blocked_out: Field, span: Span, side: Side) -> Floats:
    """(N, 3) border of a base on one side of its ridge, arch frame [mm].

    Args:
        blocked_out: the surface that it lies on.
        span: with the reach of the base, see `span_of_base`.
        side: outwards or towards tongue or palate.
    """
    return border_on(Terrain.of(blocked_out), span, side)


def border_on(ground: Terrain, span: Span, side: Side) -> Floats:
    """The same on a terrain: (N, 3), arch frame [mm]."""
    frame = ground.grid.frame
    crest, out = frame.apply(span.crest), frame.turn(span.buccal)
    sign, widths = (1, span.buccal_width_mm) if side == "buccal" else (-1, span.lingual_width_mm)
    points = []
    for n in range(len(crest)):
        profile = ground.profile(crest[n], sign * out[n], float(widths[n]) + 3.0)
        if len(profile) > 3:
            points.append(point_at(profile, float(widths[n])))
    return frame.inverse().apply(np.array(points)) if points else np.zeros((0, 3))
