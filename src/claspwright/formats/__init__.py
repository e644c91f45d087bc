"""Mesh files and layer files to values and back."""

from claspwright.formats.furnace_log import read_furnace_log
from claspwright.formats.layers import LayeredPart, LayerFile, layer_file, write_layer_file
from claspwright.formats.reading import read_mesh
from claspwright.formats.records import (
    machine_names,
    process_names,
    read_machine,
    read_process,
)
from claspwright.formats.slice_stack import BuildObject, write_build_3mf
from claspwright.formats.writing import write_3mf, write_ply, write_stl

__all__ = [
    "BuildObject",
    "LayerFile",
    "LayeredPart",
    "layer_file",
    "machine_names",
    "process_names",
    "read_machine",
    "read_furnace_log",
    "read_mesh",
    "read_process",
    "write_3mf",
    "write_build_3mf",
    "write_layer_file",
    "write_ply",
    "write_stl",
]
