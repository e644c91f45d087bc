"""A toy arch: balls for crowns at the median places of a dental arch, strips for ridges."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import pytest

from claspwright.arch import (
    ARCH_ORDER,
    DentalArch,
    Jaw,
    MasterScan,
    Span,
    Tooth,
    in_arch_order,
    patient_right,
    side_of,
)
from claspwright.base import Floats
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, ball
from claspwright.survey import PathOfPlacement, Survey

# Distance from the midline and behind the incisors: medians of 179 labelled scans [mm].
PLACES = {
    "maxilla": ((4.4, 0.0), (11.3, 3.2), (17.0, 8.0), (19.6, 15.3), (22.0, 22.1), (23.9, 30.6),
                (27.6, 39.8), (27.6, 46.7)),
    "mandible": ((2.7, 0.0), (7.9, 1.5), (13.4, 4.4), (17.3, 10.5), (19.7, 17.5), (22.4, 26.4),
                 (24.9, 36.9), (28.3, 44.2)),
}  # fmt: skip
WIDTHS = (5.5, 6.5, 7.5, 7.5, 7.5, 10.0, 10.0, 9.0)


def centre_of(jaw: Jaw, code: int) -> Floats:
    side, behind = PLACES[jaw][code % 10 - 1]
    sign = 1.0 if side_of(code) == "right" else -1.0
    out = sign * side * patient_right(jaw)
    out[1] = 20.0 - behind
    return out


def crown(centre: Floats, radii: Floats) -> Mesh:
    """An ellipsoid in place of a crown."""
    unit = ball(1.0, 0.1)
    return Mesh(centre + unit.vertices * radii, unit.faces)


def toy_tooth(jaw: Jaw, code: int, faces: Floats) -> Tooth:
    centre = centre_of(jaw, code)
    order = ARCH_ORDER[jaw]
    i = order.index(code)
    before, after = centre_of(jaw, order[max(i - 1, 0)]), centre_of(jaw, order[min(i + 1, 15)])
    along = (after - before) / np.linalg.norm(after - before)
    mesial = along if side_of(code) == "right" else -along
    buccal = np.cross(along, [0.0, 0.0, 1.0])
    buccal *= np.sign(buccal @ (centre - np.array([0.0, -20.0, 0.0])))
    turn = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    width = WIDTHS[code % 10 - 1]
    margin = centre + 0.45 * width * (
        np.cos(turn)[:, None] * along + np.sin(turn)[:, None] * np.cross([0, 0, 1.0], along)
    )
    margin[:, 2] = -3.5
    return Tooth(code, centre, np.asarray(faces, np.int32), margin, centre, mesial, buccal,
                 width, width, 7.0)  # fmt: skip


def make_toy_spans(jaw: Jaw, missing: set[int]) -> tuple[Span, ...]:
    order, runs, run = ARCH_ORDER[jaw], [], []
    for code in (*order, None):
        if code in missing:
            run.append(code)
        elif run:
            runs.append(tuple(run))
            run = []
    spans = []
    for codes in runs:
        first, last = order.index(codes[0]), order.index(codes[-1])
        ends = (order[first - 1] if first else None, order[last + 1] if last < 15 else None)
        shown = [c for c in (ends[0], *codes, ends[1]) if c is not None]
        crest = np.array([centre_of(jaw, c) for c in shown]) - [0.0, 0.0, 6.0]
        n = len(crest)
        out = crest - [0.0, -20.0, -6.0]
        out[:, 2] = 0.0
        out /= np.linalg.norm(out, axis=1, keepdims=True)
        spans.append(Span(codes, ends, crest, out, np.full(n, 5.0), np.full(n, 5.0)))
    return tuple(spans)


def make_toy_arch(jaw: Jaw, missing: Sequence[int]) -> DentalArch:
    """Crowns, and a band of tissue under each on the outer side."""
    absent = set(in_arch_order(missing, jaw))
    vertices, faces, owner, teeth = [], [], [], {}
    count = 0
    for code in ARCH_ORDER[jaw]:
        if code in absent:
            continue
        width = WIDTHS[code % 10 - 1]
        mesh = crown(centre_of(jaw, code), np.array([width / 2, width / 2, 4.0]))
        start = sum(len(f) for f in faces)
        faces.append(mesh.faces + count)
        vertices.append(mesh.vertices)
        count += len(mesh.vertices)
        owner.append(np.full(len(mesh.faces), code))
        teeth[code] = toy_tooth(jaw, code, np.arange(start, start + len(mesh.faces)))
    for tooth in list(teeth.values()):
        strip = np.array(
            [
                tooth.centre + s * tooth.mesial + 5.0 * tooth.buccal + [0.0, 0.0, z]
                for z in np.linspace(-4.0, -12.0, 9)
                for s in (-1.0, 1.0)
            ]
        )
        quads = [(2 * i, 2 * i + 1, 2 * i + 2) for i in range(8)]
        faces.append(np.array(quads, np.int32) + count)
        vertices.append(strip)
        count += len(strip)
        owner.append(np.zeros(len(quads)))
    surface = Mesh(np.concatenate(vertices), np.concatenate(faces))
    scan = MasterScan(jaw, surface, surface, IDENTITY, 0.5)
    return DentalArch(
        scan, teeth, make_toy_spans(jaw, absent), np.concatenate(owner).astype(np.int32)
    )


def make_toy_survey(arch: DentalArch, depth: Callable[[Floats], Floats] | None = None) -> Survey:
    """A survey along +z; by default every crown point below the middle is undercut by 0.4 mm."""
    points = arch.scan.surface.vertices
    on_crown = np.zeros(len(points), bool)
    on_crown[np.unique(arch.scan.surface.faces[~arch.tissue])] = True
    undercut = np.where(on_crown & (points[:, 2] < -0.5), 0.4, 0.0)
    if depth is not None:
        undercut = np.where(on_crown, depth(points), 0.0)
    grid = Grid(IDENTITY, np.zeros(3), 1.0, (2, 2, 2))
    field = Field(grid, np.ones(grid.shape, np.float32))
    path = PathOfPlacement(np.array([0.0, 0.0, 1.0]), 0.0, 0.0)
    return Survey(path, undercut, undercut > 0, {}, field, field)


@pytest.fixture(scope="session")
def toy_arch() -> Callable[[Jaw, Sequence[int]], DentalArch]:
    return make_toy_arch


@pytest.fixture(scope="session")
def toy_survey() -> Callable[..., Survey]:
    return make_toy_survey


@pytest.fixture(scope="session")
def toy_spans() -> Callable[[Jaw, set[int]], tuple[Span, ...]]:
    return make_toy_spans
