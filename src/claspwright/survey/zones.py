"""What a path of placement is judged on: places on the arch, found once, read for each path."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch, Tooth
from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.geometry import boundary_loops, face_areas, smoothed_values, vertex_normals
from claspwright.limits import limit

Face = Literal["buccal", "lingual"]
Zone = tuple[int, Face, float]  # tooth, face, undercut wanted [mm]

ZONE_POINTS = 360
TISSUE_POINTS = 1800
SOFT_REACH_MM = 0.25  # of the smoothing of normals, so that noise does not turn them
FACING = 0.35  # least part of a normal towards the side that its face counts to
PROXIMAL_FACING = 0.7
PLATE_BELOW_TOP_MM = 1.0  # proximal plates end under the marginal ridge
CONNECTOR_DEPTH_MM = 9.0  # below the crowns' margins that a connector may reach
FLANGE_MM = 6.0  # to the outer side of a ridge crest that a base covers


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """Points of the surface that stand for a region."""

    points: Floats  # (N, 3) mm
    normals: Floats  # (N, 3) smoothed over a quarter of a millimetre
    areas: Floats  # (N,) that each point stands for [mm2]
    above: Floats  # (N,) over the gingival margin [mm]; 0 where it does not matter


@dataclass(frozen=True, slots=True, eq=False)
class ProximalFace:
    """The face of an abutment towards an edentulous span."""

    tooth: int
    where: Literal["mesial", "distal"]
    free_end: bool  # whether the span ends free
    spot: Spot


@dataclass(frozen=True, slots=True, eq=False)
class Skin:
    """The master surface as points: what each stands for, and which way it faces."""

    points: Floats  # (V, 3) mm
    normals: Floats  # (V, 3) smoothed
    areas: Floats  # (V,) a third of the faces round it [mm2]


def skin_of(arch: DentalArch) -> Skin:
    """The points that the zones of an arch are picked from."""
    surface = arch.scan.surface
    rounds = int(np.clip(round((2.0 * SOFT_REACH_MM / arch.scan.edge_mm) ** 2), 1, 60))
    normals = smoothed_values(surface, vertex_normals(surface), rounds)
    normals = normals / np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    share = np.repeat(face_areas(surface) / 3.0, 3)
    areas = np.bincount(surface.faces.ravel(), weights=share, minlength=len(surface.vertices))
    return Skin(surface.vertices, normals, np.asarray(areas, np.float64))


def clasp_zone(arch: DentalArch, tooth: int, side: str, skin: Skin | None = None) -> Spot:
    """Where a clasp tip may lie on one face of a crown: not too near to the margin.

    Raises:
        InputError: the tooth is not in the arch.
    """
    crown = _tooth(arch, tooth)
    skin = skin_of(arch) if skin is None else skin
    towards = crown.buccal if side == "buccal" else crown.lingual
    vertices = _vertices_of(arch, tooth)
    points = skin.points[vertices]
    margin = KDTree(crown.margin[:, :2]).query(points[:, :2])[1]
    above = points[:, 2] - crown.margin[margin, 2]
    inside = (skin.normals[vertices] @ towards > FACING) & ((points - crown.centre) @ towards > 0)
    inside &= above >= limit("clasp.tip_margin").value
    return _spot(skin, vertices[inside], ZONE_POINTS, above[inside])


def proximal_zone(arch: DentalArch, tooth: int, towards: Floats, skin: Skin | None = None) -> Spot:
    """The face of an abutment towards an edentulous span, below its marginal ridge."""
    crown = _tooth(arch, tooth)
    skin = skin_of(arch) if skin is None else skin
    vertices = _vertices_of(arch, tooth)
    normals, points = skin.normals[vertices], skin.points[vertices]
    level = normals * np.array([1.0, 1.0, 0.0])
    level /= np.maximum(np.linalg.norm(level, axis=1, keepdims=True), 1e-9)
    top = points[:, 2].max() - PLATE_BELOW_TOP_MM
    inside = (level @ towards > PROXIMAL_FACING) & (np.abs(normals[:, 2]) < 0.6)
    inside &= ((points - crown.centre) @ towards > 0) & (points[:, 2] < top)
    return _spot(skin, vertices[inside], ZONE_POINTS)


def proximal_faces(arch: DentalArch, skin: Skin | None = None) -> tuple[ProximalFace, ...]:
    """Those of all teeth beside a span, from the patient's right to the left."""
    skin = skin_of(arch) if skin is None else skin
    found = []
    for span in arch.spans:
        free = None in span.ends
        for end, near in ((span.ends[0], 0), (span.ends[1], -1)):
            if end is None:
                continue
            crown = _tooth(arch, end)
            towards = (span.crest[near] - crown.centre) * [1.0, 1.0, 0.0]
            towards /= max(float(np.linalg.norm(towards)), 1e-9)
            where: Literal["mesial", "distal"] = (
                "mesial" if towards @ crown.mesial > 0 else "distal"
            )
            spot = proximal_zone(arch, end, towards, skin)
            found.append(ProximalFace(end, where, free, spot))
    return tuple(found)


def covered_tissue(arch: DentalArch, skin: Skin | None = None) -> Spot:
    """Tissue that connector and bases lie over: inside the arch, and along the ridges."""
    skin = skin_of(arch) if skin is None else skin
    vertices = covered_vertices(arch)
    return _spot(skin, vertices, TISSUE_POINTS)


def covered_vertices(arch: DentalArch) -> Ints:
    """(N,) vertices of the master surface on tissue that connector and bases lie over."""
    surface = arch.scan.surface
    vertices = np.unique(surface.faces[arch.tissue])
    anchors, outward, reach, level = _anchors(arch)
    points = surface.vertices[vertices]
    near = KDTree(anchors[:, :2]).query(points[:, :2])[1]
    out = np.einsum("nd,nd->n", points - anchors[near], outward[near])
    inside = (out < reach[near]) & (points[:, 2] > level[near] - CONNECTOR_DEPTH_MM)
    return np.asarray(vertices[inside], np.int32)


def near_border(arch: DentalArch, reach_mm: float) -> Bools:
    """(V,) True for vertices of the master surface within a reach of its open border."""
    surface = arch.scan.surface
    loops = boundary_loops(surface)
    if not loops:
        return np.zeros(len(surface.vertices), np.bool_)
    border = KDTree(surface.vertices[np.concatenate(loops)])
    far = border.query(surface.vertices, distance_upper_bound=reach_mm)[0]
    return np.asarray(far <= reach_mm, np.bool_)


def _anchors(arch: DentalArch) -> tuple[Floats, Floats, Floats, Floats]:
    """Points along the arch, outward there, how far out is covered, and the margins' level."""
    anchors, outward, reach, level = [], [], [], []
    for tooth in arch.teeth.values():
        anchors.append(tooth.centre)
        outward.append(tooth.buccal)
        reach.append(-0.25 * tooth.buccolingual_mm)
        level.append(float(tooth.margin[:, 2].mean()))
    for span in arch.spans:
        anchors += list(span.crest)
        outward += list(span.buccal)
        reach += [FLANGE_MM] * len(span.crest)
        level += list(span.crest[:, 2])
    return np.array(anchors), np.array(outward), np.array(reach), np.array(level)


def _tooth(arch: DentalArch, tooth: int) -> Tooth:
    if tooth not in arch.teeth:
        raise InputError(
            f"no tooth {tooth} stands in this arch, only {sorted(arch.teeth)}",
            remedy="Name a tooth that is present.",
        )
    return arch.teeth[tooth]


def _vertices_of(arch: DentalArch, tooth: int) -> Ints:
    return np.asarray(np.unique(arch.scan.surface.faces[arch.crown_of_face == tooth]))


def _spot(skin: Skin, vertices: Ints, most: int, above: Floats | None = None) -> Spot:
    """At most so many of the vertices, evenly picked, with the area that each stands for."""
    step = max(-(-len(vertices) // most), 1)
    picked = vertices[::step]
    total = float(skin.areas[vertices].sum())
    scale = np.float64(total / max(float(skin.areas[picked].sum()), 1e-12))
    heights = np.zeros(len(picked)) if above is None else above[::step]
    areas = np.asarray(skin.areas[picked] * scale, np.float64)
    return Spot(skin.points[picked], skin.normals[picked], areas, heights)
