"""Mesh files to values and back."""
