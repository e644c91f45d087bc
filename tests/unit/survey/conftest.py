"""A small arch of two balls on a block: crowns with known undercuts, and a span between."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw, MasterScan, Span, Tooth
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    Mesh,
    ball,
    box,
    contour,
    distance_field,
    union,
)

RADIUS = 4.0
CENTRES = {45: np.array([8.0, 0.0, 0.0]), 47: np.array([-8.0, 0.0, 0.0])}
TISSUE = -2.5  # height of the block's top


def split_surface(solid: Mesh) -> tuple[Mesh, Mesh]:
    """(surface, solid): all but the floor, its faces and vertices first in the solid."""
    middle = solid.corners.mean(axis=1)
    floor = middle[:, 2] < solid.vertices[:, 2].min() + 0.1
    faces = solid.faces[np.argsort(floor, kind="stable")]
    count = int((~floor).sum())
    used = np.unique(faces[:count])
    order = np.concatenate([used, np.setdiff1d(np.arange(len(solid.vertices)), used)])
    place = np.empty(len(order), int)
    place[order] = np.arange(len(order))
    whole = Mesh(solid.vertices[order], place[faces])
    return Mesh(whole.vertices[: len(used)], whole.faces[:count]), whole


def crown_tooth(code: int, surface: Mesh, faces: np.ndarray) -> Tooth:
    centre = CENTRES[code]
    turn = np.linspace(0, 2 * np.pi, 36, endpoint=False)
    reach = np.sqrt(RADIUS**2 - TISSUE**2)
    margin = centre + np.column_stack([reach * np.cos(turn), reach * np.sin(turn), 0 * turn])
    margin[:, 2] = TISSUE
    mesial = np.array([1.0, 0.0, 0.0])
    return Tooth(code, centre, np.flatnonzero(faces), margin, centre, mesial,
                 np.array([0.0, 1.0, 0.0]), 8.0, 8.0, 6.5)  # fmt: skip


@pytest.fixture(scope="session")
def balls() -> DentalArch:
    jaw: Jaw = "mandible"
    crowns = [
        Mesh(ball(RADIUS, 0.3).vertices + c, ball(RADIUS, 0.3).faces) for c in CENTRES.values()
    ]
    rough = union(box(np.array([-14.0, -7, -8]), np.array([14.0, 7, TISSUE])), *crowns)
    grid = Grid.around(rough.vertices, IDENTITY, 0.3, 1.0)
    solid = contour(distance_field(DistanceTree(rough), grid, 1.5))
    surface, whole = split_surface(solid)
    middle = surface.corners.mean(axis=1)
    crown = np.zeros(len(surface.faces), np.int32)
    for code, centre in CENTRES.items():
        crown[(np.linalg.norm(middle - centre, axis=1) < RADIUS + 0.1)
              & (middle[:, 2] > TISSUE + 0.05)] = code  # fmt: skip
    teeth = {code: crown_tooth(code, surface, crown == code) for code in CENTRES}
    crest = np.column_stack([np.linspace(-5, 5, 11), np.zeros(11), np.full(11, TISSUE)])
    out = np.tile([0.0, 1.0, 0.0], (11, 1))
    span = Span((46,), (47, 45), crest, out, np.full(11, 5.0), np.full(11, 5.0))
    scan = MasterScan(jaw, surface, whole, IDENTITY, 0.3)
    return DentalArch(scan, teeth, (span,), crown)
