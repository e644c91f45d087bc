"""Mesh files to values and back."""

from claspwright.formats.reading import read_mesh
from claspwright.formats.writing import write_3mf, write_ply, write_stl

__all__ = ["read_mesh", "write_3mf", "write_ply", "write_stl"]
