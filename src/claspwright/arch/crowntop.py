"""The top of one crown as heights over a small plan in the tooth's own directions."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch.model import DentalArch, Tooth
from claspwright.base import Floats, InputError
from claspwright.geometry import HeightField, Mesh, Rigid, height_field

SPACING = 0.1  # mm between nodes


@dataclass(frozen=True, slots=True, eq=False)
class CrownTop:
    """Heights of a crown seen from +z; `out` and `across` are horizontal.

    Coordinates (u, v): u along `out` from the crown's centre, v along `across` [mm].
    """

    tooth: Tooth
    out: Floats  # (3,) unit, towards the side that is looked at
    across: Floats  # (3,) unit, a quarter turn counter-clockwise from `out`
    heights: HeightField

    def z(self, u: Floats, v: Floats) -> Floats:
        """Arch-frame heights at broadcast (u, v); NaN beside the crown [mm]."""
        u, v = np.broadcast_arrays(np.asarray(u, np.float64), np.asarray(v, np.float64))
        plan = self.plan(u.ravel(), v.ravel())
        found = self.heights.at(plan)
        return np.where(np.isfinite(found), found, np.nan).reshape(u.shape)

    def plan(self, u: Floats, v: Floats) -> Floats:
        """(N, 3) points at height 0 over (N,) coordinates [mm]."""
        centre = self.tooth.centre * np.array([1.0, 1.0, 0.0])
        u, v = np.broadcast_arrays(np.atleast_1d(u), np.atleast_1d(v))
        return np.asarray(centre + u[:, None] * self.out + v[:, None] * self.across)

    def points(self, u: Floats, v: Floats) -> Floats:
        """(N, 3) surface points over (N,) coordinates [mm]."""
        out = self.plan(u, v)
        out[:, 2] = self.z(np.atleast_1d(u), np.atleast_1d(v))
        return out


def crown_top(arch: DentalArch, code: int, out: Floats) -> CrownTop:
    """Chart the crown of a tooth from above.

    Raises:
        InputError: the tooth is not on the arch.
    """
    if code not in arch.teeth:
        raise InputError(f"tooth {code} does not stand on this arch", remedy="Check the code.")
    tooth = arch.teeth[code]
    surface = arch.scan.surface
    crown = Mesh(surface.vertices, surface.faces[tooth.faces])
    used = np.unique(crown.faces)
    number = np.zeros(len(crown.vertices), np.int32)
    number[used] = np.arange(len(used), dtype=np.int32)
    small = Mesh(crown.vertices[used], number[crown.faces])
    frame = Rigid(np.eye(3), np.zeros(3))
    heights = height_field(small, frame, SPACING, pad=0.3)
    return CrownTop(tooth, out, np.cross([0.0, 0.0, 1.0], out), heights)
