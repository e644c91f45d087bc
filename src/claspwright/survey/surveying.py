"""An arch surveyed along one path."""

from __future__ import annotations

import numpy as np

from claspwright.arch import DentalArch, MasterScan
from claspwright.base import Bools, Finding, Floats, InputError, Progress, part, silent
from claspwright.geometry import (
    DistanceTree,
    Field,
    Grid,
    Mesh,
    distance_field,
    heights_over,
    in_chunks,
    looking_along,
    vertex_normals,
)
from claspwright.survey import _sweep_kernels as kernels
from claspwright.survey.gauge import LIFT_MM, read_gauge
from claspwright.survey.lines import survey_lines
from claspwright.survey.model import PathOfPlacement, Survey
from claspwright.survey.shadow import Shadow, cast_shadow
from claspwright.survey.slits import narrow_places

SPACING_MM = 0.15
PAD_MM = 4.0
BAND_MM = 4.0
MOST_NODES = 45_000_000
OWN_CHOICE = "own choice of this program, no source"


def survey(
    arch: DentalArch,
    path: PathOfPlacement,
    *,
    spacing_mm: float = SPACING_MM,
    most_nodes: int = MOST_NODES,
    tree: DistanceTree | None = None,
    progress: Progress = silent,
) -> Survey:
    """Undercut, survey lines and fields of an arch for one path of placement.

    Args:
        arch: the arch with its closed master solid and its teeth.
        path: the way out of the mouth, arch frame.
        spacing_mm: of the grid; made coarser where it would pass `most_nodes`.
        most_nodes: of the grid; memory and time go with them.
        tree: of the arch's closed solid; made here if missing.
        progress: told of the fraction done.

    Raises:
        InputError: the spacing is not between 0.02 and 1 mm.
    """
    tree = DistanceTree(arch.scan.solid) if tree is None else tree
    scan, block, findings = survey_fields(
        arch.scan.surface, tree, path.direction, spacing_mm, most_nodes,
        progress=part(progress, 0.0, 0.75),
    )  # fmt: skip
    progress(0.75, "undercut")
    shadow = cast_shadow(arch.scan.solid, path.direction)
    hidden = hidden_vertices(arch.scan, shadow)
    undercut = np.zeros(len(hidden))
    narrow = np.zeros(len(hidden), np.bool_)
    surface = arch.scan.surface
    reading = read_gauge(shadow, surface.vertices[hidden], vertex_normals(surface)[hidden])
    undercut[hidden], narrow[hidden] = reading.undercut_mm, reading.narrow
    progress(0.9, "survey lines")
    lines = survey_lines(arch, path.direction, block, tree)
    for array in (hidden, undercut):
        array.setflags(write=False)
    findings += narrow_places(arch, narrow, undercut)
    progress(1.0, "survey lines")
    return Survey(path, undercut, hidden, lines, scan, block, findings, tree, shadow)


def survey_fields(
    surface: Mesh,
    tree: DistanceTree,
    direction: Floats,
    spacing_mm: float = SPACING_MM,
    most_nodes: int = MOST_NODES,
    *,
    progress: Progress = silent,
) -> tuple[Field, Field, tuple[Finding, ...]]:
    """Scan and block field round a surface of any solid, and what there is to say.

    Args:
        surface: what the grid is laid round; may be the solid itself.
        tree: of the closed solid.
        direction: unit vector of the path, out of the mouth.
        spacing_mm: of the grid; made coarser where it would pass `most_nodes`.
        most_nodes: of the grid.
        progress: told of the fraction done.

    Raises:
        InputError: the spacing is not between 0.02 and 1 mm.
    """
    if not 0.02 <= spacing_mm <= 1.0:
        raise InputError(f"grid spacing of {spacing_mm} mm lies outside 0.02 to 1 mm")
    grid, findings = survey_grid(surface, direction, spacing_mm, most_nodes)
    scan = cleared_above(
        distance_field(tree, grid, BAND_MM, progress=part(progress, 0.0, 0.95)), tree.mesh
    )
    block = swept_down(scan)
    progress(1.0, "distance field")
    return scan, block, findings


def survey_grid(
    surface: Mesh, direction: Floats, spacing_mm: float, most_nodes: int = MOST_NODES
) -> tuple[Grid, tuple[Finding, ...]]:
    """The grid round a surface with +z along the path, coarsened until it fits."""
    frame = looking_along(direction)
    grid = Grid.around(surface.vertices, frame, spacing_mm, PAD_MM)
    spacing = spacing_mm
    while np.prod(grid.shape, dtype=np.int64) > most_nodes:
        spacing *= 1.05
        grid = Grid.around(surface.vertices, frame, spacing, PAD_MM)
    if spacing == spacing_mm:
        return grid, ()
    return grid, (
        Finding(
            rule="survey.grid",
            severity="note",
            text=f"The arch is large: it is surveyed in steps of {spacing:.3f} mm "
            f"instead of {spacing_mm:.3f} mm.",
            source=OWN_CHOICE,
            measured=round(spacing, 4),
            limit=spacing_mm,
            unit="mm",
        ),
    )


def cleared_above(scan: Field, solid: Mesh) -> Field:
    """The field with nothing inside above the highest surface of each column.

    On a sound solid it changes nothing; where a scan passes through itself the sign may be
    wrong near the fold, and must not become material in the air.
    """
    grid = scan.grid
    tops = (heights_over(solid, grid) - grid.origin[2]) / grid.spacing
    values = np.array(scan.values)
    in_chunks(lambda a, b: kernels.clear_above(values, tops, a, b), len(values), 16)
    return Field(grid, values)


def swept_down(scan: Field) -> Field:
    """Parallel blockout: the least scan distance from each node up along the path.

    The solid swept down along the path; exact as a distance outside it, a lower bound of the
    depth inside.
    """
    out = np.empty(scan.grid.shape, np.float32)
    in_chunks(lambda a, b: kernels.sweep_down(scan.values, a, b, out), len(out), 16)
    return Field(scan.grid, out)


def hidden_vertices(scan: MasterScan, shadow: Shadow) -> Bools:
    """(V,) True for vertices of the master surface from which the way out is not free."""
    surface = scan.surface
    return shadow.hides(surface.vertices + LIFT_MM * vertex_normals(surface))
