"""Mesh files to values and back."""

from claspwright.formats.reading import read_mesh

__all__ = ["read_mesh"]
