"""What the sheet asks of blockout and relief, laid where the framework is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch
from claspwright.framework import Framework
from claspwright.geometry import Rigid
from claspwright.survey import Course, Patch, Wax, open_embrasures, with_fills, with_ledges

LEDGE_WIDTH_MM = 0.6  # own choice, no source
LEDGE_HEIGHT_MM = 1.2  # own choice, no source


def wax_in_arch(wax: Wax, scan_to_arch: Rigid) -> Wax:
    """The same with its places in the arch frame."""

    def moved(patches: tuple[Patch, ...]) -> tuple[Patch, ...]:
        out = []
        for patch in patches:
            x, y, z = scan_to_arch.apply(np.array(patch.at)).tolist()
            out.append(replace(patch, at=(x, y, z)))
        return tuple(out)

    return replace(wax, reliefs=moved(wax.reliefs), fills=moved(wax.fills))


def waxed(framework: Framework, wax: Wax, arch: DentalArch) -> Framework:
    """The framework with what is asked of the model once its metal is known.

    Embrasures that no metal comes near are filled. A ledge runs under the part of a retentive
    arm that lies on its crown.
    """
    if wax.embrasures:
        fills = open_embrasures(arch, framework.solid.vertices)
        framework = replace(framework, blocked_out=with_fills(framework.blocked_out, fills))
    if not wax.ledges:
        return framework
    path = framework.blocked_out.field.grid.frame.inverse().turn(np.array([0.0, 0.0, 1.0]))
    faces = KDTree(arch.scan.surface.middles)
    courses = []
    for part in framework.components:
        if part.kind != "retentive arm":
            continue
        on = arch.crown_of_face[faces.query(part.line)[1]] == part.tooth
        width = np.broadcast_to(part.width_mm, len(part.line))
        lower = (part.line - 0.5 * width[:, None] * path)[on]
        if len(lower) > 2:
            name = part.id.removeprefix("clasp.")
            courses.append(Course(name, lower, LEDGE_WIDTH_MM, LEDGE_HEIGHT_MM))
    return replace(framework, blocked_out=with_ledges(framework.blocked_out, tuple(courses)))
