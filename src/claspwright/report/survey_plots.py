"""Plots of a survey: undercut by tooth, and sections through a tooth with gauge and arm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any  # the axes: the library's own types are loose

import numpy as np
import shapely

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.geometry import Mesh, face_areas, level_lines
from claspwright.report.cone_maps import STYLE
from claspwright.survey import PathOfPlacement, RetainerReading, Survey

if TYPE_CHECKING:  # slow to import
    from matplotlib.figure import Figure

BINS = (0.01, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 1.0)  # mm; more goes to the last
GAUGES = (0.25, 0.5, 0.75)  # mm
HALF_MM = 6.5  # of a section that is shown to either side
GAUGE_LIP_MM = 0.15  # thickness of the gauge's lip as drawn
SHANK_MM = 0.5  # width of its shank as drawn


@dataclass(frozen=True, slots=True)
class ArmSize:
    """Half-round at the tip of an arm, as it is drawn in."""

    width_mm: float
    thickness_mm: float


def undercut_by_tooth(arch: DentalArch, survey: Survey) -> Mapping[int, Floats]:
    """Crown area [mm2] by depth of undercut, in the bins of the plot; free surface left out."""
    areas = face_areas(arch.scan.surface)
    depth = survey.undercut[arch.scan.surface.faces].mean(axis=1)
    edges = np.array([*BINS, np.inf])
    return {
        code: np.histogram(depth[tooth.faces], edges, weights=areas[tooth.faces])[0]
        for code, tooth in sorted(arch.teeth.items())
    }


def undercut_histogram(arch: DentalArch, survey: Survey, clasped: Sequence[int]) -> Figure:
    """Area of crown by depth of undercut, one small plot a tooth, on one scale."""
    from matplotlib import rc_context  # slow to import
    from matplotlib.figure import Figure

    found = undercut_by_tooth(arch, survey)
    columns = 5
    rows = -(-len(found) // columns)
    top = max((float(v.max()) for v in found.values()), default=1.0) * 1.08 + 1e-6
    names = [f"{a:g}" for a in BINS]
    with rc_context(STYLE):
        figure = Figure(figsize=(7.2, 1.32 * rows + 0.3), layout="constrained")
        axes = figure.subplots(rows, columns, squeeze=False, sharex=True, sharey=True).ravel()
        for at, (code, values) in zip(axes, found.items(), strict=False):
            hatch = "///" if code in clasped else None
            at.bar(np.arange(len(values)) + 0.5, values, 0.9, color="#7f9bb8" if hatch else
                   "#c9ced6", edgecolor="#20242c", linewidth=0.4, hatch=hatch)  # fmt: skip
            at.set_title(f"{code}, clasped" if hatch else f"{code}", pad=2)
            at.set_ylim(0, top)
            at.set_xlim(0, len(BINS))
            at.set_xticks(np.arange(len(BINS)), names, rotation=90, fontsize=6)
            at.tick_params(length=2, width=0.5)
        for spare in axes[len(found) :]:
            spare.set_axis_off()
        figure.supxlabel("undercut along the path from, mm", fontsize=8)
        figure.supylabel("crown area, mm²", fontsize=8)
    return figure


def tooth_section(
    arch: DentalArch,
    path: PathOfPlacement,
    reading: RetainerReading,
    *,
    arm: ArmSize | None = None,
    metal: Mesh | None = None,
) -> Figure:
    """Section through a tooth where its arm's tip shall lie, the path upwards.

    The plane holds the path and the gauge's lip. The arm is cut from the framework where there
    is one, else drawn in as a half-round.
    """
    from matplotlib import rc_context  # slow to import
    from matplotlib.figure import Figure

    across, normal = _plane(arch, path.direction, reading)
    with rc_context(STYLE):
        figure = Figure(figsize=(3.4, 2.9), layout="constrained")
        at = figure.subplots()
        axes = np.stack([across, path.direction], axis=1)
        for shape in _shapes(arch.scan.solid, reading.tip, normal, axes):
            at.fill(*shape.T, facecolor="#e8e1d0", edgecolor="#20242c", linewidth=1.0)
        if metal is not None:
            for shape in _shapes(metal, reading.tip, normal, axes):
                at.fill(*shape.T, facecolor="#7f9bb8", edgecolor="#20242c", linewidth=0.6)
        elif arm is not None:
            _draw_arm(at, arch, path.direction, reading, across, arm)
        _draw_gauge(at, reading, across)
        at.annotate("path", xy=(HALF_MM * 0.85, 5.2), xytext=(HALF_MM * 0.85, 2.9), ha="center",
                    arrowprops={"arrowstyle": "->", "linewidth": 0.9}, fontsize=7)  # fmt: skip
        at.set(xlim=(-HALF_MM, HALF_MM), ylim=(-4.5, 6.0), xlabel="across the path, mm")
        at.set_ylabel("along the path, mm")
        at.set_aspect("equal")
        at.set_title(_title(reading))
        at.tick_params(length=2, width=0.5)
    return figure


def _title(reading: RetainerReading) -> str:
    words = f"{reading.tooth} {reading.side}: {reading.tip_undercut_mm:.2f} mm"
    if np.isfinite(reading.tip_below_line_mm) and reading.tip_undercut_mm > 0:
        words += f", {reading.tip_below_line_mm:.1f} mm below line"
    return words


def _plane(arch: DentalArch, direction: Floats, reading: RetainerReading) -> tuple[Floats, Floats]:
    """Unit vector out of the tooth across the path, and the normal of the section."""
    tooth = arch.teeth[reading.tooth]
    out = reading.tip_free - reading.tip
    if not np.isfinite(out).all() or float(np.linalg.norm(out)) < 0.02:
        out = tooth.buccal if reading.side == "buccal" else tooth.lingual
    out = out - (out @ direction) * direction
    out /= np.linalg.norm(out)
    return out, np.cross(direction, out)


def _cut(mesh: Mesh, at: Floats, normal: Floats) -> list[Floats]:
    """Lines of a mesh in a plane through a point."""
    return list(level_lines(mesh, (mesh.vertices - at) @ normal, 0.0))


def _shapes(mesh: Mesh, tip: Floats, normal: Floats, axes: Floats) -> list[Floats]:
    """(N, 2) outlines of a solid in the plane, from the tip, as far as the picture shows."""
    window = shapely.box(-HALF_MM - 1, -HALF_MM - 1, HALF_MM + 1, HALF_MM + 1)
    loops = [(line - tip) @ axes for line in _cut(mesh, tip, normal)]
    whole = shapely.union_all(
        [shapely.buffer(shapely.polygons(p), 0.0) for p in loops if len(p) > 3]
    )
    parts = shapely.get_parts(whole.intersection(window))
    return [shapely.get_coordinates(part.exterior) for part in parts if part.geom_type == "Polygon"]


def _draw_gauge(at: Any, reading: RetainerReading, across: Floats) -> None:
    """Shank along the path, lip touching the tooth below the survey line."""
    if not np.isfinite(reading.tip_free).all() or reading.tip_undercut_mm <= 0:
        return
    stand = float((reading.tip_free - reading.tip) @ across)
    lip = [(0, 0), (stand + SHANK_MM, 0), (stand + SHANK_MM, 6), (stand, 6),
           (stand, GAUGE_LIP_MM), (0, GAUGE_LIP_MM)]  # fmt: skip
    x, y = np.array(lip, np.float64).T
    at.fill(x, y - GAUGE_LIP_MM / 2, facecolor="none", edgecolor="#9b1c31", linewidth=0.8,
              hatch="////", zorder=4)  # fmt: skip
    at.text(stand + SHANK_MM + 0.25, 4.2, "gauge", rotation=90, fontsize=7, color="#9b1c31",
              va="center")  # fmt: skip


def _draw_arm(
    at: Any, arch: DentalArch, direction: Floats, reading: RetainerReading, across: Floats,
    arm: ArmSize,
) -> None:  # fmt: skip
    """A half-round, its flat on the tooth, its middle at the place of the tip."""
    solid = arch.scan.solid
    _, normal = _plane(arch, direction, reading)
    lines = _cut(solid, reading.tip, normal)
    flat = [np.column_stack([(p - reading.tip) @ across, (p - reading.tip) @ direction])
            for p in lines]  # fmt: skip
    points = np.concatenate(flat) if flat else np.zeros((0, 2))
    near = points[np.linalg.norm(points, axis=1) < 0.5 * arm.width_mm]
    slope = np.array([0.0, 1.0])
    if len(near) > 2:
        slope = np.linalg.svd(near - near.mean(axis=0))[2][0]
        slope = slope * np.sign(slope[1] if slope[1] else 1.0)
    out = np.array([slope[1], -slope[0]])
    out = out * (1.0 if out[0] > 0 else -1.0)
    turn = np.linspace(-np.pi / 2, np.pi / 2, 40)
    half = 0.5 * arm.width_mm
    shape = np.sin(turn)[:, None] * half * slope + np.cos(turn)[:, None] * arm.thickness_mm * out
    at.fill(*shape.T, facecolor="#7f9bb8", edgecolor="#20242c", linewidth=0.8, zorder=3)
