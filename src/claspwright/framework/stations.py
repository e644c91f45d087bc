"""Stations along the arch, right end to left: where the tongue side, or the lip side, begins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import ARCH_ORDER, DentalArch, Span, Tooth
from claspwright.base import Floats
from claspwright.framework.ground import Ground
from claspwright.geometry import arc_lengths, point_at

SPACING = 0.5  # mm between dense stations
RUN_ON = 7.0  # mm that stations go on beyond the last tooth

# point, direction towards the tongue, 1 on a tooth and 0 in a span, height of a ridge's crest
Spot = tuple[Floats, Floats, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Stations:
    """Dense stations on one side of the arch, usually the tongue's; grid frame, mm."""

    plan: Floats  # (N, 2) on that side's gingival margin, or that side of the crest in a span
    inward: Floats  # (N, 2) unit directions away from the arch on that side: towards the tongue
    height: Floats  # (N,) height of the lingual margin, carried across the spans
    on_tooth: Floats  # (N,) 1 at teeth, 0 in spans
    length: Floats  # (N,) arc length

    def nearest(self, point: Floats) -> int:
        """Index of the station nearest to a plan point."""
        return int(np.argmin(np.hypot(*(self.plan - point[:2]).T)))


def lingual_margin(ground: Ground, tooth: Tooth, *, labial: bool = False) -> Floats:
    """(3,) point of the gingival margin in the middle of the tongue side, grid frame [mm].

    Of the lip side if `labial`.
    """
    margin = ground.here(tooth.margin)
    centre = ground.here(tooth.centre)
    inward = ground.aim(tooth.buccal if labial else tooth.lingual)
    mesial = ground.aim(tooth.mesial)
    rel = margin - centre
    side = rel @ inward
    score = np.abs(rel @ mesial) + np.where(side > 0, 0.0, 1e3)
    near = np.argsort(score)[:5]
    return np.asarray(margin[near].mean(axis=0))


def lay_stations(ground: Ground, *, labial: bool = False) -> Stations:
    """Order teeth and spans along the arch and interpolate between them, on the tongue's side.

    On the side of lips and cheeks if `labial`.
    """
    spots: list[Spot] = []
    arch = ground.arch
    spans = {span.missing[0]: span for span in arch.spans if len(span.missing)}
    for code in ARCH_ORDER[arch.scan.jaw]:
        if code in arch.teeth:
            tooth = arch.teeth[code]
            margin = lingual_margin(ground, tooth, labial=labial)
            away = ground.aim(tooth.buccal if labial else tooth.lingual)
            spots.append((margin, away, 1.0, np.nan))
        elif code in spans:
            spots.extend(_span_spots(ground, spans[code], -1.0 if labial else 1.0))
    return _dense([_run_on(spots, 0, 1), *spots, _run_on(spots, -1, -2)], arch)


def _run_on(spots: list[Spot], last: int, before: int) -> Spot:
    """A spot 7 mm beyond an end of the arch, at the height of the last one."""
    end = spots[last]
    if len(spots) < 2:
        return end
    ahead = (end[0] - spots[before][0]) * np.array([1.0, 1.0, 0.0])
    ahead /= max(float(np.linalg.norm(ahead)), 1e-9)
    return (end[0] + RUN_ON * ahead, end[1], 0.0, end[3])


def _span_spots(ground: Ground, span: Span, side: float) -> list[Spot]:
    crest = ground.here(span.crest)
    inward = ground.aim(-side * span.buccal)
    lengths = arc_lengths(crest)
    low, high = lengths[0], lengths[-1]
    # keep off the neighbours, whose own stations speak for them
    start = low + (3.0 if span.ends[0] is not None else 0.0)
    stop = high - (3.0 if span.ends[1] is not None else 0.0)
    out = []
    for s in (
        np.linspace(start, stop, max(int((stop - start) / 3.0), 1) + 1) if stop > start else []
    ):
        point = point_at(crest, s)
        n = int(np.argmin(np.abs(lengths - s)))
        out.append((point + 2.0 * inward[n], inward[n], 0.0, point[2]))
    return out


def _dense(spots: list[Spot], arch: DentalArch) -> Stations:
    points = np.array([s[0] for s in spots])
    turn = np.unwrap(np.array([np.arctan2(s[1][1], s[1][0]) for s in spots]))
    tooth = np.array([s[2] for s in spots])
    s = arc_lengths(np.column_stack([points[:, :2], np.zeros(len(points))]))
    keep = np.concatenate([[True], np.diff(s) > 0.3])
    points, turn, tooth, s = points[keep], turn[keep], tooth[keep], s[keep]
    teeth = tooth > 0.5
    margin = np.interp(s, s[teeth], points[teeth, 2]) if teeth.any() else points[:, 2]
    at = np.arange(s[0], s[-1] + 1e-9, SPACING)
    sigma = 2.0 / SPACING
    plan = np.column_stack([PchipInterpolator(s, points[:, a])(at) for a in range(2)])
    plan = np.column_stack([gaussian_filter1d(plan[:, a], sigma, mode="nearest") for a in range(2)])
    angle = gaussian_filter1d(PchipInterpolator(s, turn)(at), 2 * sigma, mode="nearest")
    height = gaussian_filter1d(np.interp(at, s, margin), sigma, mode="nearest")
    return Stations(
        plan,
        np.column_stack([np.cos(angle), np.sin(angle)]),
        height,
        np.interp(at, s, tooth),
        at - at[0],
    )
