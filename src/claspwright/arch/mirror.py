"""Whether one of the scans of a case was mirrored on export: told by the bite record."""

from __future__ import annotations

from typing import Literal

import numpy as np

from claspwright.arch.model import MasterScan
from claspwright.base import Finding, Floats
from claspwright.geometry import DistanceTree, Mesh, closest_points

NEAR_MM = 0.3  # a bite record lies this near to the arches that it was scanned from
SHARE = 0.8  # of the record that lies so near once one scan is mirrored back
EACH = 0.1  # share that each arch must have of it
SAMPLES = 2000
AXES = "xyz"
Which = Literal["master", "opposing"]
_SOURCE = "common practice, no source"


def mirror_findings(scan: MasterScan, opposing: Mesh, record: Mesh) -> tuple[Finding, ...]:
    """A `stop` where the bite record fits the arches once one of them is mirrored back.

    An export mirrors in a plane across an axis of its file, through the origin or through the
    middle of the scan; these are tried, one arch at a time. A mirrored arch is an arch too, so
    that without a record, without gaps that differ from side to side and with its faces turned
    nothing in it can tell.

    Args:
        scan: the master scan.
        opposing: the opposing arch in the arch frame, as it was filed.
        record: the bite record there, as it was filed.
    """
    points = record.vertices[:: max(1, len(record.vertices) // SAMPLES)]
    arches: dict[Which, Mesh] = {"master": scan.surface, "opposing": opposing}
    trees = {which: DistanceTree(mesh) for which, mesh in arches.items()}
    plain = {which: _away(trees[which], points) for which in arches}
    found: tuple[float, Which, str] | None = None
    back = scan.scan_to_arch.inverse()
    pairs: tuple[tuple[Which, Which], ...] = (("master", "opposing"), ("opposing", "master"))
    for which, other in pairs:
        filed = back.apply(arches[which].vertices)
        middle = 0.5 * (filed.min(axis=0) + filed.max(axis=0))
        for axis in range(3):
            for centre in (0.0, float(middle[axis])):
                seen = back.apply(points)
                seen[:, axis] = 2.0 * centre - seen[:, axis]
                away = _away(trees[which], scan.scan_to_arch.apply(seen))
                near = away < NEAR_MM
                share = float((near | (plain[other] < NEAR_MM)).mean())
                each = min(float(near.mean()), float((plain[other] < NEAR_MM).mean()))
                if share >= SHARE and each >= EACH and (found is None or share > found[0]):
                    found = (share, which, AXES[axis])
    return () if found is None else (_mirrored(*found),)


def _away(tree: DistanceTree, points: Floats) -> Floats:
    return np.minimum(np.abs(closest_points(tree, points, limit=5.0).distance), 5.0)


def _mirrored(share: float, which: Which, axis: str) -> Finding:
    scan = f"{which} scan"
    return Finding(
        "scan.mirrored",
        "stop",
        f"The {scan} is mirrored: turned over across the {axis} axis of its file, {share:.0%} of "
        "the bite record lies on both arches. Export it again without mirroring.",
        _SOURCE,
        measured=round(100.0 * share, 1),
        limit=100.0 * SHARE,
        unit="%",
        component=which,
    )
