"""Measurements on what the screen shows: way over the surface, true sections with their areas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from pathlib import Path
from typing import Any

import numpy as np
import shapely
import trimesh

from claspwright.app.bench.cases import view_of
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.view_files import VIEW_NAME, mesh_in
from claspwright.arch import Jaw
from claspwright.base import Floats, InputError
from claspwright.geometry import DistanceTree, Mesh, SurfacePaths, closest_points
from claspwright.rules import THICKEST_BALL_MM, thickness_at
from claspwright.survey import tilts_of

MOST_TILT_DEG = 20.0  # the cone that a path is searched in


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """The straight and the shortest way over the model between two points; arch frame."""

    straight_mm: float
    surface_mm: float
    points: Floats  # (N, 3) of the way over the surface [mm]


@dataclass(frozen=True, slots=True, eq=False)
class Cut:
    """One part where a plane cuts it."""

    part: str
    lines: tuple[Floats, ...]  # (N, 3) polylines, arch frame [mm]
    area_mm2: float | None  # None for an open surface


def way_between(
    lab: Laboratory, name: str, a: Sequence[float] | Floats, b: Sequence[float] | Floats
) -> Way:
    """Measure between two points on the model.

    Raises:
        InputError: the case was not worked out yet, or a point is not near the model.
    """
    start, end = np.asarray(a, dtype=np.float64), np.asarray(b, dtype=np.float64)
    points = _paths(*_stamp(lab, name, "model")).between(start, end)
    length = float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())
    return Way(float(np.linalg.norm(end - start)), length, points)


def model_normal(lab: Laboratory, name: str, at: Sequence[float] | Floats) -> Floats:
    """(3,) unit normal of the model around a point, over 1.5 mm; its sign means nothing.

    Raises:
        InputError: the case was not worked out yet, or the point is not near the model.
    """
    x, y, z = (float(value) for value in at)
    return _normal(*_stamp(lab, name, "model"), (x, y, z))


def on_model(lab: Laboratory, name: str, points: Floats) -> Floats:
    """(N, 3) nearest points of the model.

    Raises:
        InputError: the case was not worked out yet.
    """
    return closest_points(_tree(*_stamp(lab, name, "model")), points).points


@dataclass(frozen=True, slots=True)
class Here:
    """What is measured at one place of a part."""

    thickness_mm: float | None  # of the metal; None on another part
    or_more: bool  # the metal is thicker than is looked for
    clearance_mm: float | None  # to the opposing arch; None where none is known


def measured_here(lab: Laboratory, name: str, part: str, at: Sequence[float] | Floats) -> Here:
    """Thickness of the metal by the largest ball inside, and the way to the opposing arch.

    Args:
        lab: the laboratory's folder.
        name: the case.
        part: "framework", or any other part of the view.
        at: (3,) a place on it, arch frame [mm].

    Raises:
        InputError: the case was not worked out yet, or there is no such part.
    """
    point = np.asarray(at, dtype=np.float64)[None]
    keys = {one["key"] for one in _view(lab, name)["parts"]}
    thick = None
    if part == "framework":
        tree = _tree(*_stamp(lab, name, part))
        thick = thickness_at(tree, closest_points(tree, point).points[0])
    elif part not in keys:
        raise InputError(f"there is no part {part!r}", place=name, remedy="Take one of the view.")
    clear = None
    if "opposing" in keys:
        opposing = _tree(*_stamp(lab, name, "opposing"))
        clear = abs(float(closest_points(opposing, point).distance[0]))
    most = thick is not None and thick >= 2.0 * THICKEST_BALL_MM - 1e-6
    return Here(thick, most, clear)


def tilts_along(jaw: Jaw, direction: Sequence[float]) -> tuple[float, float]:
    """Anterior and right lateral tilt [deg] of a path along a direction, to half a degree.

    Raises:
        InputError: it has no direction, or leans more than a cast can be tilted.
    """
    toward = np.asarray(direction, dtype=np.float64)
    size = float(np.linalg.norm(toward))
    most = np.cos(np.radians(MOST_TILT_DEG))
    if not size > 1e-9 or toward[2] / size < most:
        raise InputError(f"this leans by more than {MOST_TILT_DEG:g} degrees", place="direction",
                         remedy="Look more straight at the occlusal side.")  # fmt: skip
    path = tilts_of(toward / size, jaw)
    half = [round(2.0 * v) / 2.0 for v in (path.anterior_tilt_deg, path.right_lateral_tilt_deg)]
    return half[0], half[1]


def section(
    lab: Laboratory, name: str, at: Sequence[float], normal: Sequence[float]
) -> tuple[Cut, ...]:
    """Cut every part that is there with a plane; arch frame [mm].

    Raises:
        InputError: the case was not worked out yet, or the normal has no direction.
    """
    across = np.asarray(normal, dtype=np.float64)
    if not np.linalg.norm(across) > 1e-9:
        raise InputError("a plane needs a direction across it", place="normal",
                         remedy="Give three numbers that are not all zero.")  # fmt: skip
    across /= np.linalg.norm(across)
    cuts = []
    for part in _view(lab, name)["parts"]:
        mesh = _mesh(*_stamp(lab, name, part["key"]))
        cuts.append(_cut(part["key"], mesh, np.asarray(at, dtype=np.float64), across))
    return tuple(cut for cut in cuts if cut.lines)


def _cut(key: str, mesh: Mesh, at: Floats, across: Floats) -> Cut:
    cut_by: Any = trimesh.intersections.mesh_plane  # Any: the library has no types
    pieces: Floats = cut_by(trimesh.Trimesh(mesh.vertices, mesh.faces, process=False), across, at)
    if not len(pieces):
        return Cut(key, (), None)
    u = np.cross(across, [1.0, 0, 0] if abs(across[0]) < 0.9 else [0, 1.0, 0])
    u /= np.linalg.norm(u)
    plane = np.stack([u, np.cross(across, u)])
    flat = np.round((pieces - at) @ plane.T, 6)
    merged = shapely.line_merge(shapely.multilinestrings(shapely.linestrings(flat)))
    lines = [np.asarray(g.coords) for g in shapely.get_parts(merged) if g.length > 0.05]
    closed = all(np.allclose(line[0], line[-1], atol=1e-5) for line in lines)
    area = None
    if closed and lines:
        rings = [shapely.make_valid(shapely.polygons(line)) for line in lines if len(line) > 3]
        area = float(shapely.area(reduce(shapely.symmetric_difference, rings)))
    return Cut(key, tuple(at + line @ plane for line in lines), area)


def _stamp(lab: Laboratory, name: str, key: str) -> tuple[Path, str, int]:
    _view(lab, name)
    folder = lab.kept("view", name)
    return folder, key, (folder / VIEW_NAME).stat().st_mtime_ns


@lru_cache(maxsize=6)
def _mesh(folder: Path, key: str, changed_ns: int) -> Mesh:
    return mesh_in(folder, key)


@lru_cache(maxsize=4)
def _tree(folder: Path, key: str, changed_ns: int) -> DistanceTree:
    return DistanceTree(_mesh(folder, key, changed_ns))


@lru_cache(maxsize=64)
def _normal(folder: Path, key: str, changed_ns: int, at: tuple[float, float, float]) -> Floats:
    corners = _mesh(folder, key, changed_ns).vertices
    off = np.linalg.norm(corners - np.array(at), axis=1)
    near = corners[off < max(float(off.min()) + 0.5, 1.5)]
    if len(near) < 4:
        raise InputError("no surface lies there", remedy="Choose a place on the model.")
    normal: Floats = np.linalg.svd(near - near.mean(axis=0), full_matrices=False)[2][2]
    return normal


@lru_cache(maxsize=2)
def _paths(folder: Path, key: str, changed_ns: int) -> SurfacePaths:
    return SurfacePaths(_mesh(folder, key, changed_ns))


def _view(lab: Laboratory, name: str) -> dict[str, list[dict[str, str]]]:
    view = view_of(lab, name)
    if view is None:
        raise InputError(
            "the case was not worked out yet", place=name, remedy="Work it out, then measure."
        )
    return view
