"""Two mesh files laid on one another, whichever way their faces are turned."""

from __future__ import annotations

import numpy as np

from claspwright.base import Finding, Progress, silent
from claspwright.geometry import DistanceTree, Mesh, Registration, is_watertight, register, volume

POOR = 0.6  # share of overlap under which a scan is tried turned over
BETTER = 1.5  # so much more of it must then lie on the design
SOURCE = "this pair of files"


def outside_out(design: Mesh) -> tuple[Mesh, tuple[Finding, ...]]:
    """A closed design with its normals outside; an open one as it is.

    Returns:
        The design, and a note where it was turned over.
    """
    if volume(design) >= 0 or not is_watertight(design):
        return design, ()
    text = "The faces of the design look inwards; they were turned over for the comparison."
    return _over(design), (Finding("fit.design_turned", "note", text, SOURCE),)


def laid_on(
    scan: Mesh, tree: DistanceTree, *, progress: Progress = silent
) -> tuple[Registration, Mesh, tuple[Finding, ...]]:
    """A scan laid on a design; one whose normals look inwards is tried so too.

    Returns:
        The motion, the scan as it was laid, and a note where it was turned over.
    """
    found = register(scan, tree, progress=progress)
    if found.overlap >= POOR:
        return found, scan, ()
    turned = _over(scan)
    other = register(turned, tree)
    if other.overlap <= BETTER * found.overlap:
        return found, scan, ()
    text = "The faces of the scan look inwards; they were turned over for the alignment."
    return other, turned, (Finding("fit.scan_turned", "note", text, SOURCE),)


def _over(mesh: Mesh) -> Mesh:
    return Mesh(mesh.vertices, np.ascontiguousarray(mesh.faces[:, ::-1]))
