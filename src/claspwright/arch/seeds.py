"""Where crown and tissue regions begin: seeds on each crown's top, and on what is surely gum."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch.notation import kind_of
from claspwright.arch.partition import Stretch
from claspwright.arch.regions import FaceGraph
from claspwright.arch.sizes import average_crown
from claspwright.base import Floats, Ints

TOP_BAND = 3.5  # mm below the highest cusp that still is the crown's top
ROOM_ALONG = 2.5  # mm beyond a stretch in which its crown may still lie
ROOM_ACROSS = 2.5  # mm beyond the crown's top, across the arch
ROOM_DOWN = 3.0  # mm beyond the average crown length, for long clinical crowns
BORDER_DOWN = 0.5  # of the average crown length below the top: no scan ends there on a crown
LAST_BORDER_DOWN = 1.3  # the same at the last tooth of a side, where a scan may end on the crown


@dataclass(frozen=True, slots=True, eq=False)
class CrownBox:
    """Rough place of one crown in arch coordinates."""

    code: int
    along_mm: tuple[float, float]  # arch coordinate from and to
    across_mm: tuple[float, float]  # offset from and to, of the crown's top
    top_mm: float  # z of the highest cusp

    @property
    def centre(self) -> tuple[float, float]:
        """Arch coordinate and offset of the middle [mm]."""
        return 0.5 * sum(self.along_mm), 0.5 * sum(self.across_mm)


def crown_boxes(
    graph: FaceGraph, s: Floats, r: Floats, stretches: Mapping[int, Stretch]
) -> dict[int, CrownBox]:
    """Measure each crown's top between the two ends of its stretch.

    Args:
        graph: faces of the surface.
        s: (F,) arch coordinate of each face [mm].
        r: (F,) offset of each face [mm].
        stretches: where each tooth begins and ends.
    """
    boxes: dict[int, CrownBox] = {}
    z = graph.centres[:, 2]
    middle_band = np.flatnonzero(np.abs(r) < 7.0)
    for code, stretch in stretches.items():
        size = average_crown(code)
        third = 0.35 * (stretch.end_mm - stretch.start_mm)
        inside = middle_band[np.abs(s[middle_band] - stretch.centre_mm) < third]
        if not len(inside):
            inside = np.argsort(np.hypot(s - stretch.centre_mm, r))[:1]
        top = float(z[inside].max())
        high = inside[z[inside] > top - TOP_BAND]
        across = np.percentile(r[high], [3, 97])
        middle, half = across.mean(), 0.5 * (across[1] - across[0])
        half = float(np.clip(half, 0.3 * size.buccolingual_mm, 0.6 * size.buccolingual_mm))
        boxes[code] = CrownBox(
            code, (stretch.start_mm, stretch.end_mm), (middle - half, middle + half), top
        )
    return boxes


def region_seeds(
    graph: FaceGraph,
    all_s: Floats,
    all_r: Floats,
    boxes: Mapping[int, CrownBox],
    marks: Mapping[int, Floats],
) -> dict[int, Ints]:
    """Seed faces of each crown, and of the tissue under label 0.

    A crown's seeds are the faces round the middle of its top and round its mark; tissue is
    seeded wherever no crown can be, and along the border of the scan below the crowns: where
    a scan ends a few millimetres below a margin its gum would else have no seed.

    Args:
        graph: faces of the surface.
        all_s: (F,) arch coordinate of each face [mm].
        all_r: (F,) offset of each face [mm].
        boxes: rough places of the crowns.
        marks: (3,) mark of each [mm].
    """
    seeds: dict[int, Ints] = {}
    tissue = np.ones(len(graph.areas), np.bool_)
    in_order = sorted(boxes, key=lambda code: boxes[code].along_mm)
    ends = in_order[:1] + in_order[-1:]
    for code, box in boxes.items():
        along, across = box.centre
        length = box.along_mm[1] - box.along_mm[0]
        width = box.across_mm[1] - box.across_mm[0]
        here = np.flatnonzero(np.abs(all_s - along) < 0.5 * length + ROOM_ALONG)
        s, r, z = all_s[here], all_r[here], graph.centres[here, 2]
        core = (np.abs(s - along) < 0.25 * length) & (np.abs(r - across) < 0.3 * width)
        core &= (z > box.top_mm - TOP_BAND) & (graph.normals[here, 2] > 0.1)
        near = np.linalg.norm(graph.centres[here] - marks[code], axis=1)
        core |= near < 0.12 * length
        if len(near):
            core[np.argmin(near)] = True
        seeds[code] = here[core].astype(np.int32)
        inner, outer = _room(box)
        may = (r > inner - ROOM_ACROSS) & (r < outer + ROOM_ACROSS)
        size = average_crown(code).length_mm
        may &= z > box.top_mm - size - ROOM_DOWN
        down = LAST_BORDER_DOWN if code in ends else BORDER_DOWN
        may &= ~graph.on_border[here] | (z > box.top_mm - down * size)
        tissue[here[may]] = False
    seeds[0] = np.flatnonzero(tissue).astype(np.int32)
    return seeds


def _room(box: CrownBox) -> tuple[float, float]:
    """Offsets between which the whole crown lies, without the room around it [mm].

    The top of a front tooth is its edge, in front of the cingulum; that of a back tooth is
    nearly as wide as the crown.
    """
    inner, outer = box.across_mm
    width = average_crown(box.code).buccolingual_mm
    if kind_of(box.code) in ("incisor", "canine"):
        return min(inner, outer - width), outer
    spare = max(0.0, 0.5 * (width - (outer - inner)))
    return inner - spare, outer + spare
