"""A finished toy framework that every rule accepts; tests spoil one thing at a time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw, Tooth, classify
from claspwright.base import Floats
from claspwright.framework import Component, Design, Framework, Wishes, propose_design, rest_point
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, box
from claspwright.materials import material
from claspwright.rules import Facts, Finished
from claspwright.survey import BlockedOut, Survey

ARM_LEAD, ARM_THICK, SLOPE = 13.0, 0.86, 45.0
WIDE, THICK = np.array([2.75]), np.array([1.5])
MISSING: dict[Jaw, tuple[int, ...]] = {
    "mandible": (36, 37, 38, 46, 47, 48),
    "maxilla": (16, 26, 18, 28),
}


def radius_at(tooth: Tooth, height: Floats) -> Floats:
    """Radius of a toy crown, an ellipsoid, at heights over its middle."""
    return tooth.mesiodistal_mm / 2 * np.sqrt(1.0 - (height / 4.0) ** 2)


def arc(tooth: Tooth, start: float, stop: float, tip: float, lead: float = 0.0) -> Floats:
    """A line on a toy crown, angle 0 mesial and 90 degrees buccal, ending at a height.

    It begins with a straight lead and keeps above the middle until its last quarter.
    """
    angle = np.radians(np.linspace(start, stop, 80))
    height = np.full(80, 0.3)
    height[60:] = np.linspace(0.3, tip, 20)
    line = tooth.centre + radius_at(tooth, height)[:, None] * (
        np.cos(angle)[:, None] * tooth.mesial + np.sin(angle)[:, None] * tooth.buccal
    )
    line[:, 2] = height
    back = (line[0] - line[1]) / np.linalg.norm(line[0] - line[1])
    steps = np.arange(lead, 0.0, -0.25)[:, None]
    return np.concatenate([line[0] + steps * back, line]) if lead else line


def depth_under(tooth: Tooth, undercut: float) -> float:
    """Height at which a toy crown reads an undercut."""
    return -4.0 * float(np.sqrt(1.0 - (1.0 - 2 * undercut / tooth.mesiodistal_mm) ** 2))


def toy_undercut(arch: DentalArch) -> Callable[[Floats], Floats]:
    """What the gauge reads on the toy crowns."""

    def depth(points: Floats) -> Floats:
        out = np.zeros(len(points))
        for tooth in arch.teeth.values():
            flat = np.linalg.norm((points - tooth.centre)[:, :2], axis=1)
            near = flat <= tooth.mesiodistal_mm / 2 + 0.01
            under = near & (points[:, 2] < 0)
            out[under] = tooth.mesiodistal_mm / 2 - flat[under]
        return out

    return depth


def ring(centre: Floats, radius: float, height: float) -> Floats:
    turn = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    flat = radius * np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    return centre + flat + [0.0, 0.0, height]


def retainer_parts(arch: DentalArch, design: Design) -> list[Component]:
    parts = []
    for r in design.retainers:
        tooth = arch.teeth[r.tooth]
        for rest in r.rests:
            at = rest_point(tooth, rest)
            parts.append(
                Component(
                    f"rest.{r.tooth}.{rest.replace(' ', '-')}", "rest", ring(at, 1.4, 3.0),
                    np.array([2.7]), np.array([1.2]), r.tooth,
                    {"seat_depth_mm": 1.2, "prepared": 1.0},
                )
            )  # fmt: skip
            down = at + 5.0 * tooth.lingual + np.array([[0, 0, 2.0], [0, 0, -4.0], [0, 0, -8.0]])
            parts.append(
                Component(f"minor.{r.tooth}", "minor connector", down, WIDE, THICK, r.tooth)
            )
        for end in r.proximal_plates:
            out = tooth.mesial if end == "mesial" else tooth.distal
            line = tooth.centre + 0.5 * tooth.mesiodistal_mm * out + [[0, 0, 2.0], [0, 0, -2.0]]
            parts.append(
                Component(f"plate.{r.tooth}.{end}", "proximal plate", np.array(line),
                          np.array([4.0]), np.array([1.0]), r.tooth)
            )  # fmt: skip
        if r.clasp:
            line = arc(tooth, 100.0, 70.0, depth_under(tooth, r.clasp.undercut_mm), ARM_LEAD)
            size = np.linspace(1.0, 0.5, len(line))
            parts.append(
                Component(f"clasp.{r.tooth}.buccal", "retentive arm", line, 2.0 * size,
                          ARM_THICK * size, r.tooth)
            )  # fmt: skip
            parts.append(
                Component(f"reciprocal.{r.tooth}.lingual", "reciprocal arm",
                          arc(tooth, 200.0, 320.0, 0.3), np.array([1.6]), np.array([1.2]),
                          r.tooth)
            )  # fmt: skip
    return parts


def base_parts(arch: DentalArch, design: Design) -> list[Component]:
    parts = []
    for base in design.bases:
        span = next(s for s in arch.spans if set(base.teeth) <= set(s.missing))
        name = "base." + "-".join(map(str, base.teeth))
        free = [end is None for end in span.ends]
        t = np.linspace(0.3 if free[0] else 0.02, 0.7 if free[1] else 0.98, 30)
        line = np.stack(
            [np.interp(t, np.linspace(0, 1, len(span.crest)), span.crest[:, a]) for a in range(3)],
            axis=1,
        )
        parts.append(
            Component(f"{name}.rail.buccal", "lattice", line, np.array([1.3]), np.array([0.8]))
        )
        parts.append(Component(f"{name}.finish", "finish line", line, WIDE, THICK))
        if any(free):
            end = line[:1] if free[0] else line[-1:]
            parts.append(Component(f"{name}.stop", "tissue stop", end, np.array([2.2]), THICK))
    return parts


def connector_part(arch: DentalArch, design: Design) -> Component:
    teeth = sorted(arch.teeth.values(), key=lambda t: t.centre[0])
    inward = [t.centre + 9.0 * t.lingual - [0.0, 0.0, 11.5] for t in teeth]
    return Component("major_connector", "major connector", np.array(inward),
                     np.array([design.connector.height_mm]), np.array([2.0]))  # fmt: skip


def leaning() -> Field:
    """A field that grows away from the arch's middle and downwards: the slope at every tip."""
    grid = Grid(IDENTITY, np.array([-60.0, -60.0, -60.0]), 1.0, (121, 121, 121))
    x, y, z = np.meshgrid(*grid.axes(), indexing="ij")
    outward = np.hypot(x, y + 20.0)
    values = np.cos(np.radians(SLOPE)) * outward - np.sin(np.radians(SLOPE)) * z
    return Field(grid, values.astype(np.float32))


def make_finished(arch: DentalArch, survey: Survey) -> Finished:
    jaw = arch.scan.jaw
    design = propose_design(arch, survey, Wishes(functional_depth_mm=9.5))
    parts = retainer_parts(arch, design) + base_parts(arch, design)
    parts.append(connector_part(arch, design))
    survey = replace(survey, scan_field=leaning())
    blocked = BlockedOut(arch.scan.solid, survey.block_field, 0.0, 0.0)
    solid = box(np.array([-3.0, 30.0, -30.0]), np.array([3.0, 40.0, -25.0]))
    facts = Facts(
        jaw,
        material("cocr-lpbf-stress-relieved"),
        classify(jaw, MISSING[jaw]),
        functional_depth_mm=9.5 if jaw == "mandible" else None,
    )
    framework = Framework(design, solid, blocked, tuple(parts))
    return Finished(facts, arch, survey, framework)


@pytest.fixture(scope="session")
def finished(
    toy_arch: Callable[[Jaw, Sequence[int]], DentalArch], toy_survey: Callable[..., Survey]
) -> Callable[[Jaw], Finished]:
    @cache
    def make(jaw: Jaw = "mandible") -> Finished:
        bare = toy_arch(jaw, MISSING[jaw])
        high = np.array([[-90.0, -90, 45], [90, -90, 45], [90, 90, 45], [-90, 90, 45]])
        roof = Mesh(high, np.array([[0, 2, 1], [0, 3, 2]]))  # opposing teeth far away
        arch = replace(bare, opposing=roof)
        return make_finished(arch, toy_survey(arch, toy_undercut(arch)))

    return make
