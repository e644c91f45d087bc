"""Rules on finish lines: the height of the wall, and how far it lies from the edge of the wax."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Span
from claspwright.base import Finding, Floats
from claspwright.framework import Component
from claspwright.geometry import (
    Mesh,
    arc_lengths,
    closest_points,
    face_normals,
    point_at,
    ray_lengths,
)
from claspwright.rules.bases import parts_of_base
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

STATIONS = np.linspace(0.3, 0.7, 9)  # shares of a finish line at which it is read
ABOVE = 6.0  # mm over the tissue from which the metal is looked at
ACROSS = np.arange(-0.4, 1.85, 0.05)  # mm from the line towards the metal: its wall stands there
RUN = 6  # steps across, 0.3 mm, over which a wall rises
EDGE_REACH = 3.0  # mm to both sides within which the edge of the wax is looked for
EDGE_STEP = 0.05  # mm
LEAST_WAX = 0.1  # mm of relief, below which there is no wax to end


@dataclass(frozen=True, slots=True, eq=False)
class _Stations:
    """Places along a finish line, arch frame."""

    points: Floats  # (N, 3)
    off: Floats  # (N, 3) off the tissue
    acrylic: Floats  # (N, 3) towards the acrylic


def finish_walls(context: Finished) -> tuple[Finding, ...]:
    """The wall of a finish line stands as high as the acrylic that ends there is thick."""
    found = []
    for span, part in _of_bases(context):
        at = _stations(context, span, part)
        height, _ = _wall(context, at)
        if np.isnan(height):
            continue
        text = f"The wall of {part.id} stands {height:.2f} mm over the metal before it"
        remedy = "Raise it, or the acrylic runs out thin there and chips."
        found.append(
            judged("base.finish_wall", "finish.height", height, text, remedy=remedy,
                   at=at.points[len(at.points) // 2], component=part.id)
        )  # fmt: skip
    return tuple(found)


def finish_staggers(context: Finished) -> tuple[Finding, ...]:
    """The wall outside and the edge of the relief inside do not lie over each other."""
    found = []
    for span, part in _of_bases(context):
        at = _stations(context, span, part)
        _, place = _wall(context, at)
        away = _edges(context, at, 0.0 if np.isnan(place) else place)
        away = away[np.isfinite(away)]
        if not len(away):
            continue
        apart = float(np.median(away))
        text = f"{part.id} lies {apart:.2f} mm from the edge of the relief under the base"
        remedy = "Move it, or the metal is weakest where both meet."
        found.append(
            judged("base.finish_stagger", "finish.stagger", apart, text, remedy=remedy,
                   at=at.points[len(at.points) // 2], component=part.id)
        )  # fmt: skip
    return tuple(found)


def _of_bases(context: Finished) -> list[tuple[Span, Component]]:
    return [
        (span, part)
        for base, span in context.based_spans
        for part in parts_of_base(context, base, "finish line")
        if len(part.line) > 2
    ]


def _stations(context: Finished, span: Span, part: Component) -> _Stations:
    along = arc_lengths(part.line)
    points = np.array([point_at(part.line, float(share * along[-1])) for share in STATIONS])
    ahead = np.array([point_at(part.line, float(share * along[-1] + 0.3)) for share in STATIONS])
    solid = context.arch.scan.solid
    under = closest_points(context.scan_tree, points).faces
    off = face_normals(Mesh(solid.vertices, solid.faces[under]))
    off = gaussian_filter1d(off, 3.0, axis=0, mode="nearest")
    off /= np.maximum(np.linalg.norm(off, axis=1), 1e-9)[:, None]
    across = np.cross(ahead - points, off)
    across /= np.maximum(np.linalg.norm(across, axis=1), 1e-9)[:, None]
    side = np.sign(((span.crest.mean(axis=0) - points) * across).sum(axis=1))
    return _Stations(points, off, across * side[:, None])


def _wall(context: Finished, at: _Stations) -> tuple[float, float]:
    """Height of the wall and its place towards the metal, in the median; nan without metal [mm]."""
    eyes = at.points[:, None] + ABOVE * at.off[:, None] - ACROSS[:, None] * at.acrylic[:, None]
    seen = zip(eyes, at.off, strict=True)
    lengths = np.array([ray_lengths(context.solid_tree, row, -off) for row, off in seen])
    lengths = lengths[np.isfinite(lengths).all(axis=1)]
    if not len(lengths):
        return np.nan, np.nan
    rise = lengths[:, :-RUN] - lengths[:, RUN:]
    places = ACROSS[rise.argmax(axis=1) + RUN // 2]
    return float(np.median(rise.max(axis=1))), float(np.median(places))


def _edges(context: Finished, at: _Stations, wall: float) -> Floats:
    """(N,) from the wall to where the relief ends; nan where there is no edge [mm]."""
    beside = np.arange(-EDGE_REACH, EDGE_REACH, EDGE_STEP)
    spots = at.points[:, None] - beside[:, None] * at.acrylic[:, None]
    on_scan = closest_points(context.scan_tree, spots.reshape(-1, 3)).points
    wax = -context.framework.blocked_out.field.at(on_scan).reshape(spots.shape[:2])
    found = np.full(len(at.points), np.nan)
    for n, depth in enumerate(wax):
        if depth.max() > LEAST_WAX and depth.min() < 0.5 * depth.max():
            over = depth > 0.5 * depth.max()
            found[n] = np.abs(beside[np.flatnonzero(over[1:] != over[:-1])] - wall).min()
    return found
