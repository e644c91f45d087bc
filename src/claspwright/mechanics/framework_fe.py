"""Finite elements of a framework: loads and supports as its design sets them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Floats, Progress, part, silent
from claspwright.framework import Framework
from claspwright.geometry import resampled
from claspwright.materials import Material, condition
from claspwright.mechanics.cells import Cells
from claspwright.mechanics.denture import BasePoints, base_points, layer_stiffness
from claspwright.mechanics.solid_distance import solid_cells
from claspwright.mechanics.solid_fe import Answer, Push, Spring, bear
from claspwright.survey import Survey

PROBE_N = 10.0  # of the loads that only measure stiffness
REACH = 5.0  # mm from an artificial tooth within which the lattice takes its bite
SPACING = 0.6  # mm between points of a lattice that take load or bear
COARSER = 1.5  # times the edge of a cell, in the answer that shows what the mesh decides
PATCH = 0.6  # mm about each point of a rest or a lattice over which it presses and bears


@dataclass(frozen=True, slots=True, eq=False)
class FrameworkFe:
    """What finite elements say of a framework."""

    cells: Cells
    answer: Answer
    bites: tuple[str, ...]  # names of the cases that are bites
    peak_mpa: tuple[float, ...]  # of every case
    yields_at: tuple[float, ...]  # times its load at which every case first yields
    twist_mm: float | None  # between the sides under PROBE_N up one and down the other
    spread_mm: float | None  # between the sides under PROBE_N apart
    coarser_mm: float  # edge of the cells of a second, coarser answer
    peak_moved: tuple[float, ...]  # relative change of each peak from the coarser cells to these
    stiffness_moved: tuple[float, ...]  # the same of the displacement along each load

    @property
    def worst(self) -> int:
        """The case of a bite with the highest stress."""
        return max(range(len(self.bites)), key=lambda k: self.peak_mpa[k])

    @property
    def envelope(self) -> Floats:
        """(E,) highest stress at each cell under any bite [MPa]."""
        return np.asarray(self.answer.mises[:, : len(self.bites)].max(axis=1))


def prove_solid(
    framework: Framework,
    arch: DentalArch,
    survey: Survey,
    material: Material,
    *,
    step: float = 0.2,
    progress: Progress = silent,
) -> FrameworkFe | None:
    """Stiffness and stress of the framework's own solid.

    Rests stand on teeth that give way a little; free ends lie on mucosa. Bites act on the
    lattice under each artificial tooth and on each rest; two more cases measure the connector.
    All is computed twice, on these cells and on coarser ones: what moves between the two is
    how far the mesh still decides a figure.

    Args:
        framework: solid and components.
        arch: the spans.
        survey: the path.
        material: the alloy.
        step: edge of a cell [mm]; the coarser answer takes COARSER times that.
        progress: told of each round.

    Returns:
        None where the framework has no rests.
    """
    path = survey.path.direction
    bases = base_points(framework, arch)
    springs = _supports(framework, bases, path)
    bites = _bites(framework, bases, path)
    if not springs or not bites:
        return None
    pushes = [*bites, *_probes(framework, path)]

    def answer_on(edge: float, told: Progress) -> Answer:
        cells = solid_cells(framework.solid, edge, progress=part(told, 0.0, 0.3))
        return bear(
            cells, springs, pushes, modulus=material.modulus.nominal,
            poisson=material.poisson.nominal, progress=part(told, 0.3, 1.0),
        )  # fmt: skip

    rough = answer_on(COARSER * step, part(progress, 0.0, 0.25))
    answer = answer_on(step, part(progress, 0.25, 1.0))
    every = range(len(pushes))
    peaks = tuple(answer.peak(k) for k in every)
    told = dict(zip(answer.names, (answer.work_mm / PROBE_N).tolist(), strict=True))
    return FrameworkFe(
        answer.cells, answer, tuple(push.name for push in bites), peaks,
        tuple(material.proof.nominal / max(peak, 1e-9) for peak in peaks),
        told.get("twist"), told.get("spread"), COARSER * step,
        tuple(peaks[k] / rough.peak(k) - 1.0 for k in every),
        tuple((answer.work_mm / rough.work_mm - 1.0).tolist()),
    )  # fmt: skip


def _supports(framework: Framework, bases: tuple[BasePoints, ...], path: Floats) -> list[Spring]:
    along = np.outer(path, path)
    sinks, gives = condition("rest.give").nominal, condition("tooth.give").nominal
    tooth = along / sinks + (np.eye(3) - along) / gives
    found = [
        Spring(part.line, tooth, PATCH) for part in framework.components if part.kind == "rest"
    ]
    stiffness = layer_stiffness(
        condition("mucosa.modulus").nominal, condition("mucosa.poisson").nominal,
        condition("mucosa.thickness").nominal,
    )  # fmt: skip
    for base in bases:
        if base.free:
            area = float(base.patches.sum())
            found.append(Spring(_lattice_of(framework, base), stiffness * area * along, PATCH))
    return found if any(part.kind == "rest" for part in framework.components) else []


def _lattice_of(framework: Framework, base: BasePoints) -> Floats:
    """(P, 3) points along the lattice of a base."""
    middle = base.points.mean(axis=0)
    size = float(np.linalg.norm(base.points - middle, axis=1).max()) + 3.0
    lines = [
        resampled(part.line, SPACING)
        for part in framework.components
        if part.kind == "lattice" and len(part.line) > 1
        and np.linalg.norm(part.line.mean(axis=0) - middle) < size
    ]  # fmt: skip
    return np.vstack(lines) if lines else base.points


def _bites(framework: Framework, bases: tuple[BasePoints, ...], path: Floats) -> list[Push]:
    load = condition("bite.base").nominal
    found = []
    for base in bases:
        lattice = _lattice_of(framework, base)
        for tooth, at in base.teeth.items():
            near = lattice[np.linalg.norm(lattice - at, axis=1) < REACH]
            if len(near):
                found.append(_evenly(f"bite on {tooth}", near, -load * path))
    for rest in framework.components:
        if rest.kind == "rest":
            found.append(_evenly(f"bite on {rest.id}", rest.line, -load * path))
    return found


def _probes(framework: Framework, path: Floats) -> list[Push]:
    """Opposite loads at the hindmost part of either side; none where one side has nothing."""
    parts = [p for p in framework.components if p.kind in ("rest", "lattice")]
    right = [p.line for p in parts if p.line[:, 0].mean() > 0]
    left = [p.line for p in parts if p.line[:, 0].mean() <= 0]
    if not right or not left:
        return []
    ends = [_hindmost(np.vstack(side)) for side in (right, left)]
    across = ends[0].mean(axis=0) - ends[1].mean(axis=0)
    across -= (across @ path) * path
    across /= np.linalg.norm(across)
    found = []
    for name, way in (("twist", path), ("spread", across)):
        one, other = (np.tile(PROBE_N * way / len(end), (len(end), 1)) for end in ends)
        found.append(Push(name, np.vstack(ends), np.vstack([one, -other]), PATCH))
    return found


def _hindmost(points: Floats) -> Floats:
    return np.asarray(points[points[:, 1] < points[:, 1].min() + 2.0])


def _evenly(name: str, points: Floats, force: Floats) -> Push:
    return Push(name, points, np.tile(force / len(points), (len(points), 1)), PATCH)
