"""Meshes, fields, curves and booleans; no words of the trade."""

from claspwright.geometry.blocks import PointBlocks
from claspwright.geometry.contouring import contour
from claspwright.geometry.curves import (
    arc_lengths,
    distance_to_line,
    length,
    point_at,
    resampled,
    smoothed,
    tangents,
)
from claspwright.geometry.distance import (
    ClosestPoints,
    DistanceTree,
    closest_points,
    distance_field,
    inside,
    mesh_edges,
    signed_distance,
)
from claspwright.geometry.edges import gathered_edges, opposite_edges
from claspwright.geometry.exits import first_exits
from claspwright.geometry.grid import Field, Grid
from claspwright.geometry.height_field import (
    HeightField,
    height_field,
    heights_over,
    looking_along,
)
from claspwright.geometry.held import HeldSolid, carved
from claspwright.geometry.inscribed import ThinEnd, ball_radii, thin_ends
from claspwright.geometry.mesh import (
    Mesh,
    compacted,
    face_areas,
    face_normals,
    face_vectors,
    kept_faces,
    vertex_normals,
    volume,
)
from claspwright.geometry.near import faces_near, near_groups
from claspwright.geometry.oriented import OrientedPoints, oriented_vertices, spread_points
from claspwright.geometry.primitives import ball, box, revolved, tube
from claspwright.geometry.rays import is_covered, ray_lengths
from claspwright.geometry.registration import Registration, motion_between, register
from claspwright.geometry.rigid import IDENTITY, Rigid, rotation_between
from claspwright.geometry.sampling import linear_values
from claspwright.geometry.solids import (
    SolidCheck,
    bodies,
    check_solid,
    cut_below,
    difference,
    intersection,
    is_watertight,
    merged,
    shells,
    simplified,
    union,
    without_crumbs,
)
from claspwright.geometry.surface_curves import (
    SurfacePaths,
    boundary_loops,
    connected_vertices,
    edge_distance,
    edge_graph,
    geodesic_distance,
    level_lines,
    smoothed_values,
)
from claspwright.geometry.threads import beside, from_chunks, in_chunks

__all__ = [
    "IDENTITY",
    "ClosestPoints",
    "DistanceTree",
    "Field",
    "Grid",
    "HeightField",
    "HeldSolid",
    "Mesh",
    "OrientedPoints",
    "PointBlocks",
    "Registration",
    "Rigid",
    "SolidCheck",
    "SurfacePaths",
    "ThinEnd",
    "arc_lengths",
    "ball",
    "beside",
    "ball_radii",
    "bodies",
    "boundary_loops",
    "box",
    "carved",
    "check_solid",
    "closest_points",
    "compacted",
    "connected_vertices",
    "contour",
    "cut_below",
    "difference",
    "distance_field",
    "distance_to_line",
    "edge_distance",
    "edge_graph",
    "face_areas",
    "face_normals",
    "face_vectors",
    "faces_near",
    "first_exits",
    "gathered_edges",
    "geodesic_distance",
    "height_field",
    "heights_over",
    "in_chunks",
    "from_chunks",
    "inside",
    "intersection",
    "is_covered",
    "is_watertight",
    "kept_faces",
    "length",
    "level_lines",
    "linear_values",
    "looking_along",
    "merged",
    "mesh_edges",
    "motion_between",
    "near_groups",
    "opposite_edges",
    "oriented_vertices",
    "point_at",
    "ray_lengths",
    "register",
    "resampled",
    "revolved",
    "rotation_between",
    "shells",
    "signed_distance",
    "simplified",
    "smoothed",
    "smoothed_values",
    "spread_points",
    "tangents",
    "thin_ends",
    "tube",
    "union",
    "vertex_normals",
    "volume",
    "without_crumbs",
]
