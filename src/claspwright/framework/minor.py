"""Minor connectors: beams that follow the surface from a rest or a base to the major connector."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.ground import Ground, Piece, laid_sweep
from claspwright.framework.model import Component, ComponentKind
from claspwright.framework.slits import without_blades
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15
SHELF_WIDTH = 2.5  # mm, upright along the crown
SHELF_THICKNESS = 1.3  # mm
LEAD = (0.72, 0.55)  # shares of its width and thickness with which a tapered beam begins


def beam(
    ground: Ground,
    name: str,
    route: Floats,
    tooth: int | None,
    *,
    width_mm: float | None = None,
    thickness_mm: float | None = None,
    kind: ComponentKind = "minor connector",
    lead_mm: float = 0.0,
) -> Piece:
    """A beam along a surface route.

    Args:
        ground: surfaces; the beam lies on the relieved one.
        name: component id.
        route: (N, 3) route over the surface, grid frame [mm].
        tooth: tooth it serves, if any.
        width_mm: across the surface; the rule's default where left out.
        thickness_mm: off the surface; the rule's default where left out.
        kind: what it is in the record: a foot of a lattice is no minor connector.
        lead_mm: length from its beginning over which it grows to its size, inside its rest.
    """
    width = limit("minor.width").value if width_mm is None else width_mm
    thickness = limit("minor.thickness").value if thickness_mm is None else thickness_mm
    line = smoothed(resampled(route, STEP), 1.0)
    line = ground.laid.settle(line)
    line = smoothed(resampled(line, STEP), 1.0)
    grown = np.clip(arc_lengths(line) / max(lead_mm, 1e-6), 0.0, 1.0)
    wide, thick = (1.0 - (1.0 - share) * (1.0 - grown) ** 2 for share in LEAD)
    if lead_mm <= 0:
        wide = thick = np.ones(len(line))
    shape = laid_sweep(ground.laid, line, width / 2 * wide, thickness * thick, fillet=0.7)
    if kind == "minor connector":
        shape = without_blades(ground.laid, shape)
    component = Component(
        name,
        kind,
        ground.back(line),
        np.array([width]),
        np.array([thickness]),
        tooth,
        {"length_mm": float(arc_lengths(line)[-1])},
    )
    return Piece(component, shape, 0.7)


def route_to(profile: Floats, target: Floats, beyond_mm: float = 0.0) -> Floats:
    """Cut a profile where it passes nearest to a line or outline.

    Args:
        profile: (N, 3) surface profile [mm].
        target: (M, 3) points of the line to reach [mm].
        beyond_mm: how far to go on past the nearest point [mm].
    """
    gaps = np.linalg.norm(profile[:, None, :] - target[None, :, :], axis=2).min(axis=1)
    end = int(np.argmin(gaps))
    reach = arc_lengths(profile)
    last = int(np.searchsorted(reach, reach[end] + beyond_mm))
    return profile[: max(last, 2)]


def cingulum_shelf(ground: Ground, tooth: int, seat: Floats, plate: Piece) -> Piece:
    """A shelf round the tongue side from a proximal plate to a rest on the cingulum.

    Args:
        ground: surfaces.
        tooth: the tooth with both.
        seat: (3,) deepest place of the rest's seat, grid frame [mm].
        plate: the plate; its line runs from its upper border down.
    """
    upper, middle = ground.here(plate.component.line[:2])
    start = np.array([middle[0], middle[1], np.clip(seat[2], middle[2], upper[2] - 0.8)])
    centre = ground.here(ground.tooth(tooth).centre)
    turn = [np.arctan2(*(p - centre)[1::-1]) for p in (start, seat)]
    sweep = (turn[1] - turn[0] + np.pi) % (2 * np.pi) - np.pi
    t = np.linspace(0.0, 1.0, 16)
    reach = [float(np.hypot(*(p - centre)[:2])) for p in (start, seat)]
    radius = (1 - t) * reach[0] + t * reach[1]
    angle = turn[0] + t * sweep
    route = np.column_stack(
        [
            centre[0] + radius * np.cos(angle),
            centre[1] + radius * np.sin(angle),
            (1 - t) * start[2] + t * (seat[2] + 0.3),
        ]
    )
    route = ground.laid.settle(route, 0.3)
    name = f"minor.{tooth}.cingulum"
    return beam(ground, name, route, tooth, width_mm=SHELF_WIDTH, thickness_mm=SHELF_THICKNESS)
