"""A laid arm as a beam: where the tooth is, which way is off it, what the solid's sections are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely.affinity import translate
from shapely.geometry import LineString, Point, Polygon

from claspwright.arch import DentalArch
from claspwright.base import Bools, Floats, GeometryError
from claspwright.framework import Component
from claspwright.geometry import DistanceTree, Mesh, arc_lengths, closest_points
from claspwright.materials import Material, wires
from claspwright.mechanics.cutting import cut_sections, own_sections
from claspwright.mechanics.profiles import ground_off, half_ovals, outlines, rounds
from claspwright.mechanics.seating import Probe
from claspwright.mechanics.space_beam import SpaceArm, beam_arm
from claspwright.survey import Survey

LEAST_SQUARE = 0.2  # sine between arm and tooth's normal below which the normal is not trusted
STATIONS = 81  # of a beam
SECTION_STEP = 0.45  # mm between sections that are cut
FEWEST = 6  # sections that an arm needs
SLIVER = 0.8  # share of the laid area below which a section counts as grazed
GRAZED = 3  # neighbouring sections that may be: at a tip, in a tight bend


@dataclass(frozen=True, slots=True, eq=False)
class CutArm:
    """An arm with its sections, cut from the solid beyond its joint."""

    arm: Component
    line: Floats  # (N, 3) inner side of the metal where a section is the arm's own, clamp first
    off: Floats  # (N, 3)
    sections: tuple[Polygon, ...]  # N
    joint_mm: float  # length of the laid line that belongs to the joint

    def beam(self, finish_mm: float = 0.0) -> SpaceArm:
        """The arm as a beam, after finishing has taken a depth off all round; not off a wire."""
        if is_wire(self.arm):
            sections = rounds(np.full(len(self.line), self.arm.figures["wire_mm"]))
            return beam_arm(self.line, self.off, sections, stations=STATIONS)
        cut = [
            ground_off(section, finish_mm) if finish_mm else section for section in self.sections
        ]
        return beam_arm(self.line, self.off, outlines(cut), stations=STATIONS)


def is_wire(arm: Component) -> bool:
    """Whether an arm is a wire in a socket, and no part of the printed solid."""
    return "wire_mm" in arm.figures


def alloy_of(arm: Component, printed: Material) -> Material:
    """What an arm is made of: the printed alloy, or the wire of the tables."""
    return next(iter(wires().values())) if is_wire(arm) else printed


def off_tooth(survey: Survey, line: Floats) -> Floats:
    """(N, 3) unit directions off the tooth along an arm, square to it.

    Where the tooth's surface falls away along the arm itself, the direction of the nearest
    station that has one; across arm and path where none has.
    """
    along = np.gradient(line, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    normal = survey.scan_field.gradient(line)
    normal = normal / np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-9)
    square = normal - np.einsum("nk,nk->n", normal, along)[:, None] * along
    good = np.flatnonzero(np.linalg.norm(square, axis=1) >= LEAST_SQUARE)
    if not good.size:
        square = np.cross(along, survey.path.direction)
        return np.asarray(square / np.linalg.norm(square, axis=1, keepdims=True))
    nearest = good[np.abs(np.arange(len(line))[:, None] - good[None]).argmin(axis=1)]
    square = square[nearest]
    square -= np.einsum("nk,nk->n", square, along)[:, None] * along
    return np.asarray(square / np.linalg.norm(square, axis=1, keepdims=True))


def laid_beam(survey: Survey, arm: Component, *, less_mm: float = 0.0) -> SpaceArm:
    """An arm as a beam with the sizes with which it was laid, less a depth all round."""
    count = len(arm.line)
    if is_wire(arm):  # nothing is taken off a drawn wire
        sections = rounds(np.full(count, arm.figures["wire_mm"]))
        return beam_arm(arm.line, off_tooth(survey, arm.line), sections, stations=STATIONS)
    width = np.broadcast_to(arm.width_mm, (count,)) - 2 * less_mm
    thickness = np.broadcast_to(arm.thickness_mm, (count,)) - 2 * less_mm
    sections = half_ovals(np.maximum(width, 0.1), np.maximum(thickness, 0.05))
    return beam_arm(arm.line, off_tooth(survey, arm.line), sections, stations=STATIONS)


def cut_arm(solid: Mesh, survey: Survey, arm: Component) -> CutArm:
    """An arm with the sections of the solid that will be made.

    Raises:
        GeometryError: the solid shows too few sections along the arm.
    """
    length = float(arc_lengths(arm.line)[-1])
    count = max(int(round(length / SECTION_STEP)), FEWEST) + 1
    picks = np.unique(np.linspace(0, len(arm.line) - 1, count).round().astype(int))
    off = off_tooth(survey, arm.line)[picks]
    line = arm.line[picks]
    if is_wire(arm):
        radius = arm.figures["wire_mm"] / 2
        own = tuple(Point(0.0, radius).buffer(radius) for _ in picks)
        return CutArm(arm, line, off, own, 0.0)
    width = np.broadcast_to(arm.width_mm, (len(arm.line),))[picks]
    thickness = np.broadcast_to(arm.thickness_mm, (len(arm.line),))[picks]
    found = cut_sections(solid, line, off, thickness / 2)
    kept = np.flatnonzero(own_sections(found, width, thickness))
    if len(kept) < FEWEST:
        raise GeometryError(
            f"the solid shows only {len(kept)} sections along {arm.id}", place=arm.id,
            remedy="The arm is swallowed by a joint or is not there: see the model.",
        )  # fmt: skip
    joint = float(arc_lengths(arm.line)[picks[kept[0]]])
    sections = [section for s in kept if (section := found[s]) is not None]
    sections = _without_slivers(sections, np.pi / 4 * width[kept] * thickness[kept])
    inner = np.array([_inner(section) for section in sections])
    moved = tuple(translate(s, 0.0, -w) for s, w in zip(sections, inner, strict=True))
    return CutArm(arm, line[kept] + inner[:, None] * off[kept], off[kept], moved, joint)


def _without_slivers(sections: list[Polygon], laid: Floats) -> list[Polygon]:
    """Sections with those of a rounded tip or a nick replaced by the nearest sound one.

    Up to three neighbours with less than 0.8 of the laid area are no arm that could bend there:
    the plane only grazes the metal. A longer run of them is a thin arm, and stays.
    """
    thin = np.array([s.area for s in sections]) < SLIVER * laid
    sound = np.flatnonzero(~thin)
    if not sound.size:
        return sections
    edges = np.flatnonzero(np.diff(np.concatenate([[False], thin, [False]]).astype(int)))
    found = list(sections)
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        if last - first <= GRAZED:
            for s in range(int(first), int(last)):
                found[s] = sections[int(sound[np.abs(sound - s).argmin()])]
    return found


def _inner(section: Polygon) -> float:
    """How far off the laid line the metal begins, at the line itself [mm]."""
    upright = section.intersection(LineString([(0.0, -5.0), (0.0, 5.0)]))
    return 0.0 if upright.is_empty else float(upright.bounds[1])


def over_crown(arch: DentalArch, tree: DistanceTree, tooth: int, line: Floats) -> Bools:
    """(N,) True where the scan nearest to a point is that tooth's crown."""
    faces = closest_points(tree, line).faces
    crowns = arch.crown_of_face
    known = (faces >= 0) & (faces < len(crowns))
    return np.asarray(known & (crowns[np.where(known, faces, 0)] == tooth))


def crown_probe(survey: Survey) -> Probe:
    """Signed distance to the scan and its unit normal at points, from the survey's field."""

    def probe(points: Floats) -> tuple[Floats, Floats]:
        normal = survey.scan_field.gradient(points)
        size = np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-9)
        return survey.scan_field.at(points), np.asarray(normal / size)

    return probe
