"""Meshes, fields, curves and booleans; no words of the trade."""

from claspwright.geometry.contouring import contour
from claspwright.geometry.distance import (
    ClosestPoints,
    DistanceTree,
    closest_points,
    distance_field,
    inside,
    mesh_edges,
    signed_distance,
)
from claspwright.geometry.grid import Field, Grid
from claspwright.geometry.mesh import (
    Mesh,
    face_areas,
    face_normals,
    face_vectors,
    vertex_normals,
    volume,
)
from claspwright.geometry.primitives import ball, box, revolved
from claspwright.geometry.rigid import IDENTITY, Rigid, rotation_between
from claspwright.geometry.solids import (
    SolidCheck,
    bodies,
    check_solid,
    cut_below,
    difference,
    intersection,
    is_watertight,
    merged,
    simplified,
    union,
    without_crumbs,
)

__all__ = [
    "IDENTITY",
    "ClosestPoints",
    "DistanceTree",
    "Field",
    "Grid",
    "Mesh",
    "Rigid",
    "SolidCheck",
    "ball",
    "without_crumbs",
    "union",
    "simplified",
    "merged",
    "is_watertight",
    "intersection",
    "difference",
    "cut_below",
    "contour",
    "check_solid",
    "bodies",
    "box",
    "closest_points",
    "distance_field",
    "face_areas",
    "face_normals",
    "face_vectors",
    "inside",
    "mesh_edges",
    "revolved",
    "rotation_between",
    "signed_distance",
    "vertex_normals",
    "volume",
]
