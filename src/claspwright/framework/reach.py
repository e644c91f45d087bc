"""What undercut a clasp can reach on a tooth, and whether an approach arm has room."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch, Tooth
from claspwright.base import Floats, Ints
from claspwright.framework.arm_plans import LEAST_CLEARANCE
from claspwright.framework.design import BARS, ClaspForm, End, Side
from claspwright.framework.rulebook import default_clasp
from claspwright.geometry import distance_to_line
from claspwright.limits import limit
from claspwright.survey import Survey

CIRCUMFERENTIAL_ZONE = (0.2, 0.85)  # of half the tooth's width, away from the arm's origin
I_BAR_ZONE = (-0.3, 0.45)  # towards the mesial: about the middle of the face
CORRIDOR = 2.0  # mm to each side of an approach arm
BELOW = 9.0  # mm under the margin that are looked at


@dataclass(frozen=True, slots=True, eq=False)
class Reach:
    """The deepest undercut in the zone of a clasp tip, and where it is (arch frame)."""

    undercut_mm: float
    at: Floats  # (3,)


def available_undercut(
    arch: DentalArch, survey: Survey, tooth: Tooth, side: Side, form: ClaspForm, *, origin: End
) -> Reach:
    """The deepest undercut that a tip of this form can reach on this face of a tooth.

    The zone is the part of the face away from the arm's origin (circumferential), or its
    middle (I-bar); the edge of the tip keeps its clearance from the gingival margin.

    Args:
        arch: the arch.
        survey: its survey.
        tooth: the abutment.
        side: the face on which the tip lies.
        form: form of the clasp.
        origin: on which side of the tooth a circumferential arm leaves its rest.
    """
    vertices = _crown_vertices(arch, tooth)
    points = arch.scan.surface.vertices[vertices]
    offset = points - tooth.centre
    outward = (offset @ tooth.buccal) * (1.0 if side == "buccal" else -1.0)
    mesial = (offset @ tooth.mesial) / (0.5 * tooth.mesiodistal_mm)
    along = -mesial if origin == "mesial" else mesial
    low, high = CIRCUMFERENTIAL_ZONE
    if form in BARS:
        along, (low, high) = mesial, I_BAR_ZONE
    inside = (outward > 0) & (along > low) & (along < high)
    inside &= points[:, 2] > _margin_height(tooth, points)
    inside &= _margin_distance(tooth, points) >= LEAST_CLEARANCE + half_tip(tooth.code, form)
    if not inside.any():
        return Reach(0.0, np.asarray(tooth.centre))
    depth = np.where(inside, survey.undercut[vertices], -1.0)
    deepest = int(np.argmax(depth))
    return Reach(float(depth[deepest]), np.asarray(points[deepest]))


def half_tip(tooth: int, form: ClaspForm) -> float:
    """Half the width of a clasp's tip [mm]."""
    if form in BARS:
        return limit("clasp.ibar_tip_width").value / 2
    return limit("clasp.taper").value * default_clasp(tooth, form).width_mm / 2


@dataclass(frozen=True, slots=True)
class ApproachRoom:
    """The tissue under a tooth that an approach arm would have to cross."""

    depth_mm: float  # from the gingival margin to the lowest tissue that the scan shows
    tissue_undercut_mm: float  # deepest undercut of the tissue on the way

    @property
    def objection(self) -> str:
        """Why an approach arm has no room; empty where it has."""
        if limit("clasp.approach_room").judge(self.depth_mm):
            return f"the vestibule shows only {self.depth_mm:.1f} mm under the margin"
        if limit("clasp.approach_tissue_undercut").judge(self.tissue_undercut_mm):
            return f"the tissue is undercut by {self.tissue_undercut_mm:.1f} mm"
        return ""


def approach_room(arch: DentalArch, survey: Survey, tooth: Tooth) -> ApproachRoom:
    """Depth and undercut of the buccal tissue under a tooth."""
    surface = arch.scan.surface
    vertices = np.unique(surface.faces[arch.tissue])
    points = surface.vertices[vertices]
    offset = points - tooth.centre
    margin = float(tooth.margin[:, 2].mean())
    out = offset @ tooth.buccal
    near = (np.abs(offset @ tooth.mesial) < CORRIDOR) & (out > 0) & (out < 15.0)
    near &= (points[:, 2] < margin) & (points[:, 2] > margin - BELOW)
    if not near.any():
        return ApproachRoom(0.0, 0.0)
    used = points[near, 2] > margin - limit("clasp.approach_room").value
    undercut = survey.undercut[vertices][near][used]
    return ApproachRoom(
        float(margin - points[near, 2].min()), float(undercut.max()) if undercut.size else 0.0
    )


def _crown_vertices(arch: DentalArch, tooth: Tooth) -> Ints:
    return np.asarray(np.unique(arch.scan.surface.faces[tooth.faces]), dtype=np.int32)


def _margin_distance(tooth: Tooth, points: Floats) -> Floats:
    """(N,) distance of points to the gingival margin [mm]."""
    return distance_to_line(np.vstack([tooth.margin, tooth.margin[:1]]), points)[0]


def _margin_height(tooth: Tooth, points: Floats) -> Floats:
    """Height of the margin at the angle of each point round the tooth."""
    margin = tooth.margin - tooth.centre
    angle = np.arctan2(margin[:, 1], margin[:, 0])
    order = np.argsort(angle, kind="stable")
    offset = points - tooth.centre
    asked = np.arctan2(offset[:, 1], offset[:, 0])
    height = np.interp(asked, angle[order], tooth.margin[order, 2], period=2 * np.pi)
    return np.asarray(height, dtype=np.float64)
