"""Does the scan show the tissue that the design needs?"""

from __future__ import annotations

import numpy as np
from shapely import contains_xy

from claspwright.base import Finding, Floats, InfeasibleError
from claspwright.framework.bar import EMBED
from claspwright.framework.connectors import Connector
from claspwright.framework.ground import Ground
from claspwright.geometry import DistanceTree, closest_points

SHARE_LOOK = 0.02
SHARE_STOP = 0.10
SOURCE = "metal can only be laid on tissue that was scanned [common practice, no source]"


def coverage_findings(
    ground: Ground, connector: Connector, tree: DistanceTree
) -> tuple[Finding, ...]:
    """Hold the connector's ground against the scanned surface; `tree`: of the master solid.

    Raises:
        InfeasibleError: more than a tenth of the connector lies where nothing was scanned.
    """
    points = _ground_points(ground, connector)
    scan = ground.arch.scan
    if len(points) == 0:
        share, spot = 1.0, np.zeros(3)
    else:
        found = closest_points(tree, ground.back(points))
        bare = (found.faces >= len(scan.surface.faces)) | (found.distance > 0.6)
        share = float(bare.mean())
        spot = ground.back(points[bare]).mean(axis=0) if bare.any() else np.zeros(3)
    if share <= SHARE_LOOK:
        return ()
    what = "lingual slope" if connector.bar is not None else "palate"
    text = f"{100 * share:.0f} % of the major connector lies where the scan shows no {what}"
    if share > SHARE_STOP:
        raise InfeasibleError(
            text, place="scan.coverage", remedy=f"Ask for a scan that shows the whole {what}"
        )
    x, y, z = spot
    return (
        Finding(
            rule="scan.coverage",
            severity="look",
            text=f"{text}. Check the border of the scan.",
            source=SOURCE,
            measured=round(100 * share, 1),
            limit=100 * SHARE_LOOK,
            unit="%",
            at_mm=(float(x), float(y), float(z)),
            component="major_connector",
        ),
    )


def _ground_points(ground: Ground, connector: Connector) -> Floats:
    if connector.bar is not None:
        line = connector.bar.line.copy()
        spans = ground.blocked.distance(line) < EMBED  # a hollow, filled with metal
        line[spans] = ground.blocked.settle(line[spans])
        return line
    assert connector.outline is not None
    x0, y0, x1, y1 = connector.outline.bounds
    xs, ys = np.meshgrid(np.arange(x0, x1, 1.0), np.arange(y0, y1, 1.0))
    plan = np.column_stack([xs.ravel(), ys.ravel()])
    plan = plan[contains_xy(connector.outline, plan[:, 0], plan[:, 1])]
    tops = ground.blocked.height(plan)
    return np.column_stack([plan, tops])[~np.isnan(tops)]
