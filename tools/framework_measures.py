"""What a finished framework is held against: one place for tests and acceptance.

Distances to the master scan and the blocked-out model, the seat of the tips, the room under the
opposing teeth. Inside and outside are told by the generalised winding number of libigl, not by
the code that made the framework.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import igl
import numpy as np
from scipy.ndimage import map_coordinates

from claspwright.app.carry_out import carry_out
from claspwright.app.demo_arch import write_case
from claspwright.app.demo_case import answers_of
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.arch import DentalArch
from claspwright.base import Bools, Finding, Floats, Progress, silent
from claspwright.case import read_sheet
from claspwright.demo import options_for, scenario
from claspwright.framework import Component, Framework
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    check_solid,
    closest_points,
    face_areas,
    face_normals,
    merged,
)
from claspwright.survey import Survey, gauge

FACING_DEG = 25.0  # a face belongs to the tissue side when it faces the model within this angle
NEAR_MM = 0.12  # and lies within this distance of it
BARE_MM = 0.001  # of wax, up to which nothing counts as blocked out
OPPOSING_REACH_MM = 3.0


@dataclass(frozen=True, slots=True)
class Tip:
    """The end of a retentive arm."""

    arm: str
    asked_mm: float
    gauge_mm: float  # where the arm's line ends on the tooth
    deepest_mm: float  # greatest reading under metal that touches the tooth at the tip
    gap_mm: float  # from the end of the line to the metal

    @property
    def off_mm(self) -> float:
        """Reading less prescription."""
        return self.gauge_mm - self.asked_mm


@dataclass(frozen=True, slots=True)
class Measures:
    """The measures of one framework; lengths in mm unless the name says um."""

    status: str
    watertight: bool
    bodies: int
    volume_mm3: float
    tissue_95_um: float  # area-weighted, faces that face the blocked-out model
    tissue_99_um: float
    tissue_area_mm2: float
    on_scan_95_um: float  # the same to the scan itself, where nothing is blocked out
    on_scan_area_mm2: float
    in_tooth_um: float  # deepest metal inside a crown
    in_tooth_at: tuple[float, float, float]
    in_gum_um: float  # deepest metal inside the scan elsewhere
    in_gum_at: tuple[float, float, float]
    through_opposing_um: float
    through_opposing_at: tuple[float, float, float]
    tips: tuple[Tip, ...]

    @property
    def misses(self) -> tuple[str, ...]:
        """The lines of the acceptance that do not hold."""
        lines = {
            "not one sound body": self.status == "NoError" and self.watertight and self.bodies == 1,
            "tissue side": self.tissue_95_um <= 5.0,
            "on the scan where nothing is blocked out": self.on_scan_95_um <= 1.0,
            "metal in a tooth": self.in_tooth_um <= 10.0,
            "tips": bool(self.tips) and all(abs(tip.off_mm) <= 0.05 for tip in self.tips),
            "an arm is not there": all(tip.gap_mm <= 0.05 for tip in self.tips),
            "opposing teeth": self.through_opposing_um <= 0.0,
        }
        return tuple(name for name, holds in lines.items() if not holds)


def wound_inside(mesh: Mesh, points: Floats) -> Floats:
    """(N,) generalised winding number; above one half is inside, of open meshes too."""
    vertices = np.ascontiguousarray(mesh.vertices, np.float64)
    faces = np.ascontiguousarray(mesh.faces, np.int64)
    return np.asarray(igl.fast_winding_number(vertices, faces, np.ascontiguousarray(points)))


def gaps(tree: DistanceTree, points: Floats) -> Floats:
    """(N,) distance of points to the surface, without sign [mm]."""
    return np.asarray(np.linalg.norm(closest_points(tree, points).points - points, axis=1))


def depths(tree: DistanceTree, mesh: Mesh, points: Floats, reach: float) -> Floats:
    """(N,) how deep points lie inside a mesh, 0 outside; looked for within `reach` [mm]."""
    distance = gaps(tree, points)
    out = np.zeros(len(points))
    near = np.flatnonzero((distance > 1e-4) & (distance < reach))
    if near.size:
        inside = wound_inside(mesh, points[near]) > 0.5
        out[near[inside]] = distance[near[inside]]
    return out


def probes(solid: Mesh) -> Floats:
    """(N, 3) corners and middles of the faces of a solid."""
    return np.concatenate([solid.vertices, solid.corners.mean(axis=1)])


def tissue_side(framework: Framework) -> tuple[float, float, float]:
    """95th and 99th percentile of the distance to the blocked-out model [um], area [mm2]."""
    solid, model = framework.solid, framework.blocked_out.model
    gap, facing = _facing(solid, model)
    return _shares(gap[facing], face_areas(solid)[facing])


def on_the_scan(arch: DentalArch, survey: Survey, framework: Framework) -> tuple[float, float]:
    """95th percentile of the distance to the scan where nothing is blocked out [um], area [mm2]."""
    solid = framework.solid
    gap, facing = _facing(solid, arch.scan.solid)
    block = framework.blocked_out.field
    middle = block.grid.to_nodes(solid.corners[facing].mean(axis=1)).T
    wax = [
        map_coordinates(field.values, middle, order=1, mode="nearest")
        for field in (survey.scan_field, block)
    ]
    bare = np.flatnonzero(facing)[wax[0] - wax[1] < BARE_MM]
    most, _, area = _shares(gap[bare], face_areas(solid)[bare])
    return most, area


def _facing(solid: Mesh, model: Mesh) -> tuple[Floats, Bools]:
    """Distance of each face of a solid to a model, and whether it faces it from nearby."""
    middle = solid.corners.mean(axis=1)
    found = closest_points(DistanceTree(model), middle)
    against = np.einsum("ij,ij->i", face_normals(solid), face_normals(model)[found.faces])
    gap = np.linalg.norm(found.points - middle, axis=1)
    return gap, (against < -np.cos(np.radians(FACING_DEG))) & (gap < NEAR_MM)


def _shares(gap: Floats, area: Floats) -> tuple[float, float, float]:
    """95th and 99th percentile of gaps by area [um], and the area."""
    if not len(gap):
        return np.inf, np.inf, 0.0
    most, nearly_all = (float(1000.0 * at) for at in gaps_by_area(gap, area, (0.95, 0.99)))
    return most, nearly_all, float(area.sum())


def gaps_by_area(gap: Floats, area: Floats, shares: Sequence[float]) -> Floats:
    """The gaps that shares of an area do not pass, of (F,) gaps and areas of faces."""
    order = np.argsort(gap)
    share = np.cumsum(area[order])
    return np.asarray(gap[order][np.searchsorted(share, np.array(shares) * share[-1])])


def _place(points: Floats, values: Floats) -> tuple[float, tuple[float, float, float]]:
    """The greatest value in um and where it lies."""
    n = int(np.argmax(values))
    x, y, z = points[n].round(1)
    return float(1000 * values[n]), (float(x), float(y), float(z))


def tip_of(arm: Component, survey: Survey, arch: DentalArch, solid: Mesh) -> Tip:
    """Read the gauge where an arm ends and under the metal round that place."""
    end = arm.line[-1]
    tree = DistanceTree(arch.scan.solid)
    on_tooth = closest_points(tree, end[None]).points
    round_tip = probes(solid)
    round_tip = round_tip[np.linalg.norm(round_tip - end, axis=1) < 1.0]
    contact = round_tip[gaps(tree, round_tip) < 0.02]
    reading = gauge(survey, on_tooth).undercut_mm
    deepest = gauge(survey, contact).undercut_mm.max() if len(contact) else np.nan
    gap = gaps(DistanceTree(solid), on_tooth)
    return Tip(
        arm.id,
        float(arm.figures["prescribed_undercut_mm"]),
        float(reading[0]),
        float(deepest),
        float(gap[0]),
    )


def measure(arch: DentalArch, survey: Survey, framework: Framework) -> Measures:
    """Measure a framework; arch frame throughout."""
    solid, scan = framework.solid, arch.scan.solid
    check = check_solid(solid)
    points = probes(solid)
    tree = DistanceTree(scan)
    deep = depths(tree, scan, points, 1.5)
    faces = closest_points(tree, points).faces
    crown = np.zeros(len(scan.faces), bool)
    crown[: len(arch.crown_of_face)] = arch.crown_of_face != 0
    tooth = _place(points, np.where(crown[faces], deep, 0.0))
    gum = _place(points, np.where(crown[faces], 0.0, deep))
    above = (0.0, (0.0, 0.0, 0.0))
    if arch.opposing is not None:
        through = depths(DistanceTree(arch.opposing), arch.opposing, points, OPPOSING_REACH_MM)
        above = _place(points, through)
    arms = [part for part in framework.components if part.kind == "retentive arm"]
    made = merged(solid, *[wire.solid for wire in framework.wires])  # wires are not printed
    tissue = tissue_side(framework)
    return Measures(
        check.status,
        check.watertight,
        check.bodies,
        check.volume_mm3,
        *tissue,
        *on_the_scan(arch, survey, framework),
        *tooth,
        *gum,
        *above,
        tuple(tip_of(arm, survey, arch, made) for arm in arms),
    )


def worked_out(
    name: str,
    crowns: Mapping[int, Mesh],
    *,
    seed: int,
    pose_seed: int | None = None,
    edge_mm: float = 0.15,
    progress: Progress = silent,
) -> Work:
    """Build an invented case as files in a folder that is thrown away, and work it out.

    The stages see the mesh files and the sheet, nothing of what the builder knows.
    """
    case = scenario(name)
    answers = answers_of(case, f"DEMO-{seed}")
    pose = seed + 100 if pose_seed is None else pose_seed
    options = options_for(case, seed=seed, crowns=crowns, pose_seed=pose, edge_mm=edge_mm)
    with tempfile.TemporaryDirectory() as folder:
        write_case(options, answers, Path(folder) / "case", progress=progress)
        return carry_out(read_sheet(Path(folder) / "case"), Watch(), progress)


def row(name: str, measures: Measures, findings: Sequence[Finding] = ()) -> list[Any]:
    """One row of the acceptance table; Any: words and numbers."""
    told = {f.rule for f in findings if f.severity == "stop"}
    told |= {f.rule for f in findings if f.rule == "insertion.sweep" and f.severity != "note"}
    tips = ", ".join(
        f"{tip.arm.split('.')[1]} {tip.gauge_mm:.2f}/{tip.asked_mm:.2f}" for tip in measures.tips
    )
    return [
        name,
        "yes" if "not one sound body" not in measures.misses else f"{measures.bodies} bodies",
        f"{measures.tissue_95_um:.1f}",
        f"{measures.on_scan_95_um:.1f}",
        f"{measures.in_tooth_um:.1f}",
        f"{measures.in_gum_um:.1f}",
        f"{measures.through_opposing_um:.1f}",
        tips,
        ", ".join(sorted(told)) or "-",
        ", ".join(measures.misses) or "-",
    ]


HEAD = [
    "case",
    "one sound body",
    "tissue side 95 % [um]",
    "on the scan 95 % [um]",
    "in a tooth [um]",
    "in the gum [um]",
    "through opposing [um]",
    "tips: gauge/asked [mm]",
    "stops, and sweeps that meet the scan",
    "does not hold",
]
