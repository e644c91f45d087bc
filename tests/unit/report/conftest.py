"""A made-up case of plain solids: enough for pictures, a report and a review page."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
import trimesh

from claspwright.arch import DentalArch, MasterScan, Span, Tooth
from claspwright.base import Finding, Floats
from claspwright.framework import (
    Clasp,
    Component,
    DentureBase,
    Design,
    Framework,
    MajorConnector,
    Retainer,
)
from claspwright.geometry import IDENTITY, Field, Grid, Mesh
from claspwright.survey import BlockedOut, PathOfPlacement, Survey

ORDER = (47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37)
MISSING = (46, 47, 36, 37)


@dataclass(frozen=True)
class WorkedCase:
    arch: DentalArch
    survey: Survey
    framework: Framework
    findings: tuple[Finding, ...]


def joined(meshes: list[trimesh.Trimesh]) -> Mesh:
    one = trimesh.util.concatenate(meshes)
    return Mesh(np.asarray(one.vertices), np.asarray(one.faces))


def on_arch(share: float, z: float = 0.0, inward: float = 0.0) -> Floats:
    """A point on a parabola of 48 mm width; share 0 is the patient's right end."""
    x = 24.0 * (1 - 2 * share)
    normal = np.array([2 * x * 30 / 576, 1.0, 0.0])
    normal /= np.linalg.norm(normal)
    return np.array([x, 18.0 - 30.0 * (x / 24.0) ** 2, z]) - inward * normal


def tube(points: Floats, radius: float) -> list[trimesh.Trimesh]:
    pieces = []
    for a, b in zip(points[:-1], points[1:], strict=True):
        pieces.append(trimesh.creation.cylinder(radius=radius, segment=(a, b), sections=12))
    return pieces


def make_arch() -> DentalArch:
    shares = {code: (i + 0.5) / len(ORDER) for i, code in enumerate(ORDER)}
    gum = tube(np.array([on_arch(s, -6) for s in np.linspace(0, 1, 60)]), 5.0)
    pieces, owners, teeth, first = list(gum), [], {}, sum(len(p.faces) for p in gum)
    for code, share in shares.items():
        if code in MISSING:
            continue
        centre = on_arch(share, 0.0)
        crown = trimesh.creation.icosphere(subdivisions=3, radius=1.0)
        crown.apply_scale([3.2, 3.4, 5.0])
        crown.apply_translation(centre)
        pieces.append(crown)
        faces = np.arange(first, first + len(crown.faces), dtype=np.int32)
        owners.append((code, faces))
        first += len(crown.faces)
        along = on_arch(share + 1e-3) - on_arch(share)
        along /= np.linalg.norm(along)
        out = centre - on_arch(share, 0.0, 1.0)
        teeth[code] = Tooth(
            code, centre + [0, 0, 5], faces, centre + 3 * np.eye(3), centre,
            along if code > 40 else -along, out, 6.4, 6.8, 5.0,
        )  # fmt: skip
    surface = joined(pieces)
    crown_of_face = np.zeros(len(surface.faces), dtype=np.int32)
    for code, faces in owners:
        crown_of_face[faces] = code
    spans = []
    for gone, ends in (((47, 46), (None, 45)), ((36, 37), (35, None))):
        low, high = min(shares[c] for c in gone), max(shares[c] for c in gone)
        crest = np.array([on_arch(s, -1) for s in np.linspace(low - 0.03, high + 0.03, 12)])
        out = np.tile([1.0, 0, 0], (12, 1))
        spans.append(Span(gone, ends, crest, out, np.full(12, 5.0), np.full(12, 5.0)))
    scan = MasterScan("mandible", surface, surface, IDENTITY, 0.4)
    return DentalArch(scan, teeth, tuple(spans), crown_of_face)


def make_survey(arch: DentalArch) -> Survey:
    surface = arch.scan.surface
    hidden = surface.vertices[:, 2] < -1.0
    undercut = np.where(hidden, np.clip((-1.0 - surface.vertices[:, 2]) * 0.2, 0, 1.2), 0.0)
    angle = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    ring = np.stack([3.2 * np.cos(angle), 3.4 * np.sin(angle), np.zeros(40)], axis=1)
    lines = {code: (tooth.centre + ring,) for code, tooth in arch.teeth.items()}
    grid = Grid(IDENTITY, np.zeros(3), 1.0, (2, 2, 2))
    field = Field(grid, np.zeros((2, 2, 2), dtype=np.float32))
    tilt = np.tan(np.radians(3.0))
    direction = np.array([0, -tilt, 1]) / np.hypot(1, tilt)
    return Survey(PathOfPlacement(direction, 3.0, 0.0), undercut, hidden, lines, field, field)


def make_framework(arch: DentalArch, survey: Survey) -> Framework:
    bar = np.array([on_arch(s, -5, 7.0) for s in np.linspace(0.2, 0.8, 30)])
    pieces, components = tube(bar, 1.2), [
        Component("major_connector", "major connector", bar, np.array([4.0]), np.array([2.0]))
    ]  # fmt: skip
    for code in (35, 45):
        tooth = arch.teeth[code]
        angle = np.linspace(0.2, 2.6, 15)
        arm = tooth.centre + np.stack(
            [3.4 * np.cos(angle), 3.6 * np.sin(angle), -1.5 * np.ones(15)], axis=1
        )
        pieces += tube(arm, 0.6)
        components.append(
            Component(
                f"clasp.{code}.buccal",
                "retentive arm",
                arm,
                np.full(15, 1.2),
                np.full(15, 0.9),
                code,
                {"tip_force_n": 4.83, "peak_stress_mpa": 312.0, "undercut_mm": 0.25},
            )  # fmt: skip
        )
    for span in arch.spans:
        pieces += tube(span.crest + [0, 0, 1.0], 0.5)
    design = Design(
        (
            Retainer(45, ("mesial occlusal",), ("distal",), Clasp("I-bar")),
            Retainer(35, ("mesial occlusal",), ("distal",), Clasp("circumferential")),
            Retainer(33, ("cingulum",), (), None, indirect=True),
        ),
        MajorConnector("lingual bar"),
        (DentureBase((46, 47)), DentureBase((36, 37))),
    )
    solid = joined(pieces)
    blocked = BlockedOut(arch.scan.solid, survey.block_field, 41.0, 88.0)
    return Framework(design, solid, blocked, tuple(components))


@pytest.fixture(scope="session")
def worked_case() -> WorkedCase:
    arch = make_arch()
    survey = make_survey(arch)
    findings = (
        Finding("alloy.allergy", "stop", "The prescription names a nickel allergy.", "own rule"),
        Finding(
            "rest.thickness", "look", "The rest on 35 is thin: ask for a deeper seat.",
            "a printed source [memory]", 0.84, 1.0, "mm", (-20.0, -3.0, 4.0), "rest.35.mesial",
        ),
        Finding("path.tilt", "note", "The path was searched: 3.0° anterior.", "own rule", 3.0,
                10.0, "°"),
    )  # fmt: skip
    return WorkedCase(arch, survey, make_framework(arch, survey), findings)
