"""Edentulous spans with their ridge crests."""

from __future__ import annotations

from collections.abc import Mapping

from claspwright.arch.model import MasterScan, Span, Tooth
from claspwright.arch.sketch import ArchSketch
from claspwright.base import Ints
from claspwright.geometry import DistanceTree


def find_spans(
    scan: MasterScan,
    seen: ArchSketch,
    tree: DistanceTree,
    teeth: Mapping[int, Tooth],
    crowns: Ints,
) -> tuple[Span, ...]:
    """To come."""
    return ()
