"""Pictures of a proof: where the denture lifts, about which lines."""

from __future__ import annotations

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.framework import Framework
from claspwright.geometry import Mesh
from claspwright.mechanics import DentureProof, FrameworkFe, plan_axes
from claspwright.report.content import Picture
from claspwright.report.legend import draw_legend
from claspwright.report.render import Stage, png, render
from claspwright.report.scene import INK, METAL, STONE, Colour, Item, Label, Line, Scene
from claspwright.report.views import view

SIZE = (900, 620)
NEAR = 2.4  # mm from a point of a base within which the ridge takes its colour
BLEND = 8  # cells that a vertex takes its stress from
LEAST = 0.001  # N; below it a vertex stays plain
SINKS: Colour = (150, 60, 20)


def lifting_picture(
    arch: DentalArch, framework: Framework, path: Floats, proof: DentureProof, finish: int = 2
) -> Picture:
    """The bases coloured by the force that lifts them, with both fulcrum lines."""
    values, top = lifting_values(arch.scan.surface, proof)
    ridge = Item(
        arch.scan.surface, STONE, "model", values=values, low=0.0, high=top,
        plain_below=LEAST, levels=(top / 2,), shine=0.05,
    )  # fmt: skip
    metal = Item(framework.solid, METAL, "framework", shine=0.3, opacity=0.45)
    lines, labels = [], []
    if proof.weakest.line is not None:
        lifts = fulcrum_drawn(proof.weakest.line, path, arch)
        lines.append(Line(lifts, INK, 3.0, lift_mm=30.0))
        labels.append(Label(lifts[-1], "lifts about", size_px=20, offset_px=(0, -14)))
    if proof.sink_line is not None:
        sinks = fulcrum_drawn(proof.sink_line, path, arch)
        lines.append(Line(sinks, SINKS, 3.0, lift_mm=30.0, dash_mm=2.0))
        labels.append(Label(sinks[0], "sinks about", size_px=20, offset_px=(0, 22)))
    weak = f"{proof.least_n:.1f} N"
    labels.append(Label(proof.weakest_at, weak, size_px=22, dot=True, offset_px=(0, 30)))
    stage = Stage(Scene((ridge, metal), tuple(lines), tuple(labels)))
    image = render(stage, view("occlusal", arch.scan.jaw), SIZE, finish=finish)
    draw_legend(image, ridge, "force that lifts", "N")
    alt = (
        f"The bases from occlusal, coloured by the force that lifts the denture there: least "
        f"{weak}; the line about which it lifts, and dashed the one about which a base sinks."
    )
    return Picture("lifting", "proof", png(image), "Force that lifts the denture", alt)


def stress_picture(
    arch: DentalArch, framework: Framework, proof: FrameworkFe, finish: int = 2
) -> Picture:
    """The framework coloured by its stress under the worst bite."""
    name = proof.bites[proof.worst]
    values, top = stress_values(framework.solid, proof)
    metal = Item(
        framework.solid, METAL, "framework", values=values, low=0.0, high=top,
        levels=(top / 2,), shine=0.1,
    )  # fmt: skip
    place = proof.answer.peak_at(proof.worst)
    peak = f"{proof.peak_mpa[proof.worst]:.0f} MPa"
    label = Label(place, peak, size_px=22, dot=True, offset_px=(0, 30))
    image = render(
        Stage(Scene((metal,), labels=(label,))), view("occlusal", arch.scan.jaw), SIZE,
        finish=finish,
    )  # fmt: skip
    draw_legend(image, metal, "stress", "MPa")
    alt = f"The framework from occlusal, coloured by equivalent stress under a {name}: peak {peak}."
    return Picture("stress", "proof", png(image), f"Stress under a {name}", alt)


def stress_values(solid: Mesh, proof: FrameworkFe) -> tuple[Floats, float]:
    """(V,) stress at each vertex under the worst bite [MPa], and the top of the scale."""
    _, cell = KDTree(proof.cells.middle).query(solid.vertices)
    top = max(float(np.ceil(proof.peak_mpa[proof.worst] / 50.0) * 50.0), 50.0)
    return np.asarray(proof.answer.mises[:, proof.worst][cell]), top


def envelope_values(solid: Mesh, proof: FrameworkFe) -> tuple[Floats, float]:
    """(V,) highest stress at each vertex under any bite [MPa], and the top of the scale."""
    gap, cell = KDTree(proof.cells.middle).query(solid.vertices, k=BLEND)
    weight = 1.0 / (np.asarray(gap) + 0.3 * proof.cells.step) ** 2
    highest = proof.envelope
    top = max(float(np.ceil(highest.max() / 50.0) * 50.0), 50.0)
    return np.asarray((weight * highest[cell]).sum(axis=1) / weight.sum(axis=1)), top


def lifting_values(surface: Mesh, proof: DentureProof) -> tuple[Floats, float]:
    """(V,) force at each vertex under a base [N], 0 elsewhere; and the top of the scale."""
    gap, nearest = KDTree(proof.points).query(surface.vertices, distance_upper_bound=NEAR)
    under = np.isfinite(gap)
    finite = np.where(np.isfinite(proof.lifting_n), proof.lifting_n, np.nan)
    top = float(np.ceil(np.nanmax(finite))) if np.isfinite(finite).any() else 1.0
    loads = np.append(np.clip(np.nan_to_num(finite, nan=top), 2 * LEAST, top), 0.0)
    return np.where(under, loads[np.minimum(nearest, len(loads) - 1)], 0.0), max(top, 1.0)


def fulcrum_drawn(line: tuple[Floats, Floats], path: Floats, arch: DentalArch) -> Floats:
    """(2, 3) a fulcrum line a little beyond both ends, at the height of the teeth."""
    axes = plan_axes(path)
    height = float(np.mean([tooth.centre @ path for tooth in arch.teeth.values()]))
    ends = np.stack(line)
    along = ends[1] - ends[0]
    along = along / max(float(np.linalg.norm(along)), 1e-9)
    plan = np.stack([ends[0] - 4.0 * along, ends[1] + 4.0 * along])
    return np.asarray(plan @ axes + height * path)
