"""Meshes, fields, curves and booleans; no words of the trade."""

from claspwright.geometry.grid import Field, Grid
from claspwright.geometry.mesh import (
    Mesh,
    face_areas,
    face_normals,
    face_vectors,
    vertex_normals,
    volume,
)
from claspwright.geometry.rigid import IDENTITY, Rigid, rotation_between

__all__ = [
    "IDENTITY",
    "Field",
    "Grid",
    "Mesh",
    "Rigid",
    "face_areas",
    "face_normals",
    "face_vectors",
    "rotation_between",
    "vertex_normals",
    "volume",
]
