"""Ways out that are too narrow for the gauge's lip, told by place."""

from __future__ import annotations

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Bools, Finding, Floats, Ints
from claspwright.geometry import connected_vertices
from claspwright.survey.gauge import LIP_RADIUS_MM, REACH_MM

LEAST_VERTICES = 6  # of one place that is told
MOST_TOLD = 12


def narrow_places(arch: DentalArch, narrow: Bools, undercut: Floats) -> tuple[Finding, ...]:
    """One finding for each place on a crown whose nearest way out is a slit.

    Args:
        arch: the arch that was surveyed.
        narrow: (V,) True where a nearer way out was left out.
        undercut: (V,) what the gauge reads all the same [mm].
    """
    surface = arch.scan.surface
    code_of = np.zeros(len(surface.vertices), np.int32)
    code_of[surface.faces.ravel()] = np.repeat(arch.crown_of_face, 3)
    chosen = np.asarray(narrow & (code_of > 0))
    if not chosen.any():
        return ()
    pieces = connected_vertices(surface, chosen)
    found: list[Finding] = []
    for piece in range(pieces.max() + 1):
        where = np.flatnonzero(pieces == piece)
        if len(where) < LEAST_VERTICES or len(found) == MOST_TOLD:
            break
        found.append(_finding(arch, code_of[where], surface.vertices[where], undercut[where]))
    return tuple(found)


def _finding(arch: DentalArch, codes: Ints, points: Floats, undercut: Floats) -> Finding:
    teeth = [int(code) for code in np.unique(codes)]
    middle = points.mean(axis=0)
    x, y, z = points[np.argmin(np.linalg.norm(points - middle, axis=1))].tolist()
    where = f"Between {' and '.join(map(str, teeth))}" if len(teeth) > 1 else f"On {teeth[0]}"
    if len(teeth) == 1:
        near = [code for code in arch.teeth if code not in teeth]
        near.sort(key=lambda code: float(np.linalg.norm(arch.teeth[code].centre - middle)))
        where += f" towards {near[0]}" if near else ""
    deepest = float(undercut.max())
    reads = f"{deepest:.2f} mm" if deepest < REACH_MM else f"{REACH_MM:.0f} mm or more"
    return Finding(
        rule="survey.narrow_way",
        severity="note",
        text=f"{where} the nearest way out is a slit of less than "
        f"{2 * LIP_RADIUS_MM:.2f} mm; the gauge does not enter it and reads up to {reads} past "
        "it. Place no clasp tip there.",
        source="own choice of the lip's radius, no source",
        measured=round(deepest, 3),
        limit=2 * LIP_RADIUS_MM,
        unit="mm",
        at_mm=(x, y, z),
    )
