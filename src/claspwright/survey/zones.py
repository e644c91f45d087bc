"""What a path of placement is judged on: places on the arch, found once, read for each path."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch, Tooth
from claspwright.base import Floats, InputError, Ints
from claspwright.geometry import Mesh, face_areas, vertex_normals
from claspwright.limits import limit

Zone = tuple[int, Literal["buccal", "lingual"], float]  # tooth, face, undercut wanted [mm]

ZONE_POINTS = 500
TISSUE_POINTS = 3000
FACING = 0.35  # least part of a normal towards the side that its face counts to
PROXIMAL_FACING = 0.7
PLATE_BELOW_TOP_MM = 1.0  # proximal plates end under the marginal ridge
CONNECTOR_DEPTH_MM = 9.0  # below the crowns' margins that a connector may reach
FLANGE_MM = 6.0  # to the outer side of a ridge crest that a base covers


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """Points of the surface that stand for a region."""

    points: Floats  # (N, 3) mm
    normals: Floats  # (N, 3)
    areas: Floats  # (N,) that each point stands for [mm2]


def clasp_zone(arch: DentalArch, tooth: int, side: str) -> Spot:
    """Where a clasp tip may lie on one face of a crown: not too near to the margin.

    Raises:
        InputError: the tooth is not in the arch.
    """
    crown = _tooth(arch, tooth)
    towards = crown.buccal if side == "buccal" else crown.lingual
    vertices = _vertices_of(arch, tooth)
    surface = arch.scan.surface
    normals = vertex_normals(surface)[vertices]
    points = surface.vertices[vertices]
    margin = KDTree(crown.margin[:, :2]).query(points[:, :2])[1]
    above = points[:, 2] - crown.margin[margin, 2]
    inside = (normals @ towards > FACING) & ((points - crown.centre) @ towards > 0)
    inside &= above >= limit("clasp.tip_margin").value
    return _spot(surface, vertices[inside], ZONE_POINTS)


def proximal_zone(arch: DentalArch, tooth: int, towards: Floats) -> Spot:
    """The face of an abutment towards an edentulous span, below its marginal ridge."""
    crown = _tooth(arch, tooth)
    vertices = _vertices_of(arch, tooth)
    surface = arch.scan.surface
    normals = vertex_normals(surface)[vertices]
    points = surface.vertices[vertices]
    level = normals - normals[:, 2:] * np.array([0.0, 0.0, 1.0])
    level /= np.maximum(np.linalg.norm(level, axis=1, keepdims=True), 1e-9)
    top = points[:, 2].max() - PLATE_BELOW_TOP_MM
    inside = (level @ towards > PROXIMAL_FACING) & (np.abs(normals[:, 2]) < 0.6)
    inside &= ((points - crown.centre) @ towards > 0) & (points[:, 2] < top)
    return _spot(surface, vertices[inside], ZONE_POINTS)


def proximal_zones(arch: DentalArch) -> tuple[Spot, ...]:
    """Those of all teeth beside a span."""
    found = []
    for span in arch.spans:
        for end, near in ((span.ends[0], 0), (span.ends[1], -1)):
            if end is None:
                continue
            towards = span.crest[near] - arch.teeth[end].centre
            towards = towards * [1.0, 1.0, 0.0]
            found.append(proximal_zone(arch, end, towards / np.linalg.norm(towards)))
    return tuple(found)


def covered_tissue(arch: DentalArch) -> Spot:
    """Tissue that connector and bases lie over: inside the arch, and along the ridges."""
    surface = arch.scan.surface
    vertices = np.unique(surface.faces[arch.tissue])
    anchors, outward, reach, level = _anchors(arch)
    points = surface.vertices[vertices]
    near = KDTree(anchors[:, :2]).query(points[:, :2])[1]
    out = np.einsum("nd,nd->n", points - anchors[near], outward[near])
    inside = (out < reach[near]) & (points[:, 2] > level[near] - CONNECTOR_DEPTH_MM)
    return _spot(surface, vertices[inside], TISSUE_POINTS)


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


def _spot(surface: Mesh, vertices: Ints, most: int) -> Spot:
    """At most so many of the vertices, evenly picked, with the area that each stands for."""
    share = np.repeat(face_areas(surface) / 3.0, 3)
    areas = np.bincount(surface.faces.ravel(), weights=share, minlength=len(surface.vertices))
    step = max(-(-len(vertices) // most), 1)
    picked = vertices[::step]
    total = float(areas[vertices].sum())
    scale = np.float64(total / max(float(areas[picked].sum()), 1e-12))
    normals = vertex_normals(surface)[picked]
    return Spot(surface.vertices[picked], normals, np.asarray(areas[picked] * scale, np.float64))
