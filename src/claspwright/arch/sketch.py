"""The arch as first seen: face graph, line of the arch and what the scan shows along it."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch.archline import ArchLine, find_arch_line, lengthened
from claspwright.arch.model import MasterScan
from claspwright.arch.profile import ArchProfile, arch_profile
from claspwright.arch.regions import FaceGraph, face_graph
from claspwright.base import Floats

END_ROOM = 12.0  # mm that the line runs on behind the last high place of the arch


@dataclass(frozen=True, slots=True, eq=False)
class ArchSketch:
    """Everything that finding teeth and spans starts from."""

    graph: FaceGraph
    line: ArchLine
    along: Floats  # (F,) arch coordinate of each face [mm]
    across: Floats  # (F,) offset of each face from the line, positive buccally [mm]
    profile: ArchProfile


def sketch(scan: MasterScan) -> ArchSketch:
    """Find the line of the arch and what stands along it.

    Raises:
        GeometryError: the surface holds no arch.
    """
    graph = face_graph(scan.surface)
    line = find_arch_line(graph.centres, graph.areas, scan.jaw)
    line = lengthened(line, scan.jaw, END_ROOM)
    along, across = line.coordinates(graph.centres)
    return ArchSketch(graph, line, along, across, arch_profile(graph, line))
