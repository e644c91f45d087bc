"""What each path of a cone gives and costs, read on the places that matter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch, kind_of
from claspwright.base import Floats, Point, Progress, Singles, part, silent
from claspwright.geometry import DistanceTree, Field
from claspwright.survey import _cone_kernels as kernels
from claspwright.survey.path import path_from_tilts
from claspwright.survey.quick import quick_field, quick_undercuts
from claspwright.survey.scores import WIDEST_USUAL_DEG, score_parts
from claspwright.survey.zones import (
    ProximalFace,
    Spot,
    Zone,
    clasp_zone,
    covered_tissue,
    proximal_faces,
    skin_of,
)

TIP_AREA_MM2 = 0.4  # of the deepest part of a zone, which a clasp tip needs
HALVINGS = 20
HIDDEN_MM = 0.02  # undercut from which a point counts as below the survey line
LINE_AREA_MM2 = 0.3  # of the highest hidden part of a face, which sets the survey line
GUIDING_DEG = 5.0  # off the path, where a surface no longer guides
GUIDING_FREE_MM = 0.05  # undercut up to which a surface still guides
GUIDING_BAND_MM = 0.25
GUIDING_WIDTH_MM = 1.0  # a narrower strip does not guide
GUIDING_HEIGHT_MM = {False: 3.0, True: 1.5}  # by free end: check-values B16, B17 (least)
GUIDING_SHARE = 1.0 / 3.0  # of the tooth's width from cheek to tongue: check-values B20


@dataclass(frozen=True, slots=True, eq=False)
class Amounts:
    """What D paths give; before the points."""

    tilt_deg: Floats  # (D,) off the normal of the occlusal plane
    at_path_mm: Floats  # (Z, D) undercut of each clasp's zone
    usable_mm: Floats  # (Z, D) of that what exists across the occlusal plane too
    guiding_height_mm: Floats  # (P, D) of each proximal face beside a span, where it guides
    guiding_mm2: Floats  # (P, D) area there
    guiding_grade: Floats  # (P, D) 1 along the path, 0 where all of it is 5 degrees off
    proximal_mm3: Floats  # (D,) undercut of those faces
    opposite_mm3: Floats  # (D,) undercut of the faces across from the clasps
    tissue_mm3: Floats  # (D,) undercut of tissue under connector and bases
    line_height: Floats  # (Z, D) survey line over the margin, part of the crown; 0 not in front


class PathJudge:
    """The places that are looked at and the field they are read in."""

    def __init__(
        self,
        arch: DentalArch,
        zones: Sequence[Zone],
        tree: DistanceTree | None = None,
        progress: Progress = silent,
    ) -> None:
        """Find the places; `tree` is that of the arch's closed solid, made here if missing."""
        self.arch, self.zones = arch, tuple(zones)
        skin = skin_of(arch)
        self.clasps = tuple(clasp_zone(arch, tooth, side, skin) for tooth, side, _ in zones)
        self.opposite = tuple(
            clasp_zone(arch, tooth, "lingual" if side == "buccal" else "buccal", skin)
            for tooth, side, _ in zones
        )
        self.proximal: tuple[ProximalFace, ...] = proximal_faces(arch, skin)
        self.tissue = covered_tissue(arch, skin)
        tree = DistanceTree(arch.scan.solid) if tree is None else tree
        self.field: Field = quick_field(tree, arch.scan.surface.vertices, progress=progress)
        spots = [*self.clasps, *self.opposite, *(face.spot for face in self.proximal), self.tissue]
        ends = np.cumsum([0, *(len(spot.points) for spot in spots)])
        self._where = [slice(int(a), int(b)) for a, b in zip(ends[:-1], ends[1:], strict=True)]
        self._points = np.concatenate([spot.points for spot in spots])
        zero = np.array([[0.0, 0.0, 1.0]])
        self.at_zero = tuple(self._depths(zero, silent)[: len(self.clasps)])
        self.across_mm = np.array(
            [float(deepest(d, s.areas)[0]) for d, s in zip(self.at_zero, self.clasps, strict=True)]
        )

    def _depths(self, ways: Floats, progress: Progress) -> list[Singles]:
        """(N, D) mm by which each way out of each point is blocked, by spot.

        A lower bound of the gauge, equal to it on rounded crowns.
        """
        out = quick_undercuts(self.field, self._points, ways, progress=progress)
        return [out[where] for where in self._where]

    def amounts(self, ways: Floats, progress: Progress = silent) -> Amounts:
        """What (D, 3) paths out of the mouth give, arch frame."""
        depths = self._depths(ways, part(progress, 0.0, 0.9))
        count = len(self.clasps)
        clasps, opposite = depths[:count], depths[count : 2 * count]
        usable = [
            deepest(np.minimum(now, zero), spot.areas)
            for now, zero, spot in zip(clasps, self.at_zero, self.clasps, strict=True)
        ]
        at_path = [deepest(now, spot.areas) for now, spot in zip(clasps, self.clasps, strict=True)]
        progress(0.95, "guiding planes")
        guiding = [
            _guiding(face.spot, now, ways)
            for face, now in zip(self.proximal, depths[2 * count : -1], strict=True)
        ]
        proximal = [
            face.spot.areas @ now
            for face, now in zip(self.proximal, depths[2 * count : -1], strict=True)
        ]
        across = [s.areas @ now for now, s in zip(opposite, self.opposite, strict=True)]
        heights = [self._line_height(n, now) for n, now in enumerate(clasps)]
        d = len(ways)
        progress(1.0, "guiding planes")
        return Amounts(
            tilt_deg=np.degrees(np.arccos(np.clip(ways[:, 2], -1.0, 1.0))),
            at_path_mm=_rows(at_path, d),
            usable_mm=_rows(usable, d),
            guiding_height_mm=_rows([height for height, _, _ in guiding], d),
            guiding_mm2=_rows([area for _, area, _ in guiding], d),
            guiding_grade=_rows([grade for _, _, grade in guiding], d),
            proximal_mm3=_rows(proximal, d).sum(axis=0),
            opposite_mm3=_rows(across, d).sum(axis=0),
            tissue_mm3=self.tissue.areas @ depths[-1],
            line_height=_rows(heights, d),
        )

    def _line_height(self, zone: int, depth: Singles) -> Floats:
        """(D,) height of the survey line on a front tooth's clasped face, part of its crown."""
        tooth, side, _ = self.zones[zone]
        spot = self.clasps[zone]
        if side != "buccal" or kind_of(tooth) not in ("incisor", "canine") or not len(spot.points):
            return np.zeros(depth.shape[1])
        order = np.argsort(-spot.above, kind="stable")
        hidden = (depth[order] > HIDDEN_MM) * spot.areas[order, None]
        reached = np.cumsum(hidden, axis=0) >= LINE_AREA_MM2
        height = spot.above[order][np.argmax(reached, axis=0)]
        crown = max(self.arch.teeth[tooth].height_mm, 1e-6)
        return np.where(reached.any(axis=0), np.clip(height / crown, 0.0, 1.0), 0.0)

    def wanted_area_mm2(self, face: ProximalFace) -> float:
        """Area that a guiding plane should have: its height on a third of the tooth's width."""
        width = GUIDING_SHARE * self.arch.teeth[face.tooth].buccolingual_mm
        return GUIDING_HEIGHT_MM[face.free_end] * width

    def counted(self, amounts: Amounts) -> dict[str, Floats]:
        """(D,) amount of each row of the table of scores."""
        wanted = np.array([max(zone[2], 1e-9) for zone in self.zones])[:, None]
        short = np.maximum(1.0 - amounts.usable_mm / wanted, 0.0)
        heights = np.array([GUIDING_HEIGHT_MM[face.free_end] for face in self.proximal])[:, None]
        areas = np.array([self.wanted_area_mm2(face) for face in self.proximal])[:, None]
        guided = 0.5 * np.minimum(amounts.guiding_height_mm / heights, 1.0)
        guided += 0.5 * np.minimum(amounts.guiding_mm2 / areas, 1.0)
        guided *= amounts.guiding_grade
        return {
            "retention": short.sum(axis=0),
            "guiding": (1.0 - guided).sum(axis=0),
            "interference": amounts.proximal_mm3 + amounts.opposite_mm3,
            "tissue": amounts.tissue_mm3,
            "appearance": amounts.line_height.sum(axis=0),
            "tilt": amounts.tilt_deg,
            "beyond": np.maximum(amounts.tilt_deg - WIDEST_USUAL_DEG, 0.0),
        }

    def points(self, amounts: Amounts) -> Floats:
        """(S, D) points by row of the table of scores; fewer is better."""
        counted = self.counted(amounts)
        return np.stack([row.points * counted[row.key] for row in score_parts()])

    def place_of(self, zone: int) -> Point | None:
        """The deepest point of a zone at zero tilt; None where the zone is empty."""
        points = self.clasps[zone].points
        if not len(points):
            return None
        x, y, z = points[int(np.argmax(self.at_zero[zone][:, 0]))].tolist()
        return (x, y, z)


def ways_of(arch: DentalArch, tilts: Floats) -> Floats:
    """(D, 3) directions out of the mouth of (D, 2) anterior and right lateral tilts [deg]."""
    jaw = arch.scan.jaw
    return np.array([path_from_tilts(jaw, float(a), float(b)).direction for a, b in tilts])


def deepest(depth: Singles | Floats, areas: Floats, area_mm2: float = TIP_AREA_MM2) -> Floats:
    """(D,) undercut that the deepest `area_mm2` of a zone (N, D) has at least [mm]."""
    out = np.zeros(depth.shape[1])
    if len(depth) and float(areas.sum()) >= area_mm2:
        kernels.deepest_of(depth, areas, area_mm2, HALVINGS, out)
    return out


def _guiding(spot: Spot, depth: Singles, ways: Floats) -> tuple[Floats, Floats, Floats]:
    """(D,) height [mm] and area [mm2] within 5 degrees of each path, and their grade."""
    off = np.degrees(np.arcsin(np.clip(np.abs(spot.normals @ ways.T), 0.0, 1.0)))
    guides = (off < GUIDING_DEG) & (depth <= GUIDING_FREE_MM)
    areas = np.where(guides, spot.areas[:, None], 0.0)
    height = np.zeros(len(ways))
    along = np.ascontiguousarray(spot.points @ ways.T)
    kernels.guiding_bands(along, areas, GUIDING_BAND_MM, GUIDING_WIDTH_MM, height)
    area = areas.sum(axis=0)
    graded = ((1.0 - off / GUIDING_DEG) * areas).sum(axis=0)
    return height, area, graded / np.maximum(area, 1e-9)


def _rows(rows: list[Floats], count: int) -> Floats:
    return np.array(rows, np.float64).reshape(len(rows), count)
