"""Rules on the path of placement."""

from __future__ import annotations

import numpy as np

from claspwright.base import Finding
from claspwright.geometry import signed_distance
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point

REACH = 6.0  # mm of way out that is followed at zero tilt


def path_tilt(context: Finished) -> tuple[Finding, ...]:
    """The path of placement stands near the normal of the occlusal plane."""
    path = context.survey.path
    tilt = float(np.degrees(np.arccos(np.clip(path.direction[2], -1.0, 1.0))))
    text = (
        f"The path of placement is tilted by {tilt:.1f} degrees: anterior "
        f"{path.anterior_tilt_deg:.1f}, right lateral {path.right_lateral_tilt_deg:.1f}"
    )
    remedy = "Such a tilt is hard for the patient to follow; prefer recontouring, or tilt less."
    return (judged("path.tilt", "path.tilt", tilt, text, remedy=remedy),)


def retention_at_zero_tilt(context: Finished) -> tuple[Finding, ...]:
    """Each clasp tip is held even by a pull straight across the occlusal plane."""
    found = []
    for arm in context.parts("retentive arm"):
        tip = arm.line[-1]
        way = tip + np.linspace(0.0, REACH, 121)[:, None] * np.array([0.0, 0.0, 1.0])
        depth = -float(signed_distance(context.scan_tree, way).min())
        text = f"Pulled straight off the occlusal plane, the tip of {arm.id} meets "
        text += f"{max(depth, 0.0):.2f} mm of tooth" if depth > 0 else "no tooth"
        least = (limit("clasp.undercut").look_below or 0.0) / 2
        held = depth >= least
        found.append(
            Finding(
                "path.zero_tilt_retention",
                "note" if held else "look",
                text + ("." if held else ". It only holds along the tilted path; tilt less."),
                "retention must exist at zero tilt, since food pulls across the occlusal plane "
                "(university texts on surveying) [memory]",
                measured=round(depth, 3),
                limit=round(least, 3),
                unit="mm",
                at_mm=point(tip),
                component=arm.id,
            )
        )
    return tuple(found)
