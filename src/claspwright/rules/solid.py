"""Rules on the solid itself: sound, one body, clear of the teeth and of the bite."""

from __future__ import annotations

import numpy as np

from claspwright.base import Bools, Finding, Floats
from claspwright.framework import wisps
from claspwright.geometry import (
    HeightField,
    check_solid,
    closest_points,
    face_areas,
    height_field,
    looking_along,
)
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point
from claspwright.rules.thickness import wall_thickness

SPACING = 0.1  # mm between the columns in which the bite is looked at
REACH = 1.5  # mm from the scan within which metal counts as lying on it
THIN_AREA = 0.3  # mm2 of surface that may be thinner before it counts
COVER_LOOK, COVER_STOP = 0.02, 0.10


def watertight(context: Finished) -> tuple[Finding, ...]:
    """The solid is closed, right side out and free of errors."""
    check = check_solid(context.framework.solid)
    return (
        Finding(
            "solid.watertight",
            "note" if check.sound else "stop",
            f"The solid is {'closed and sound' if check.sound else 'not a sound solid'}: status "
            f"{check.status}, {check.volume_mm3:.0f} mm3"
            + ("." if check.sound else ". It cannot be printed; report the case."),
            "every edge between two faces of opposite direction, volume above zero [derived]",
            measured=check.status,
            limit="NoError",
            component="framework",
        ),
    )


def one_body(context: Finished) -> tuple[Finding, ...]:
    """Everything hangs together."""
    count = check_solid(context.framework.solid).bodies
    return (
        Finding(
            "solid.one_body",
            "note" if count == 1 else "stop",
            f"The framework is {count} bod{'y' if count == 1 else 'ies'}"
            + ("." if count == 1 else "; parts are not joined. Change the design between them."),
            "one casting, one body [derived]",
            measured=float(count),
            limit=1.0,
            component="framework",
        ),
    )


def least_thickness(context: Finished) -> tuple[Finding, ...]:
    """Thickness of the walls anywhere, by balls inscribed in the solid."""
    samples = wall_thickness(context.solid_tree)
    order = np.argsort(samples.thickness, kind="stable")
    covered = np.cumsum(samples.area[order])
    at = int(order[min(int(np.searchsorted(covered, THIN_AREA)), len(order) - 1)])
    least = round(float(samples.thickness[at]), 2)  # as fine as the balls are fitted
    text = f"The thinnest wall measures {least:.2f} mm (all but {THIN_AREA:.1f} mm2 are thicker)"
    remedy = "Thicken the part there; thinner walls may not print or may break."
    return (
        judged("metal.thickness", "metal.thickness", least, text, remedy=remedy,
               at=samples.points[at], component=_owner(context, samples.points[at])),
    )  # fmt: skip


def wisps_left(context: Finished) -> tuple[Finding, ...]:
    """Length of the longest wisp: metal that is too thin to print and that nothing carries."""
    found = wisps(context.solid_tree)
    rule = "metal.wisp"
    if not found:
        return (
            judged(rule, rule, 0.0, "No wisp of metal hangs off the framework", remedy="",
                   component="framework"),
        )  # fmt: skip
    worst = found[0]
    text = f"A wisp {worst.length_mm:.2f} mm long and {worst.thickness_mm:.2f} mm thick hangs there"
    remedy = "It does not print, or comes loose: smooth the scan there, or move the part beside it."
    return (
        judged(rule, rule, worst.length_mm, text, remedy=remedy, at=worst.at,
               component=_owner(context, worst.at)),
    )  # fmt: skip


def occlusal_clearance(context: Finished) -> tuple[Finding, ...]:
    """No metal reaches the opposing teeth."""
    rule = "occlusal.clearance"
    opposing = context.arch.opposing
    if opposing is None:
        return (
            Finding(
                rule,
                "look",
                "No opposing arch was given: whether the metal clears the bite is not known. Send "
                "the opposing scan and a bite record, or try the framework in.",
                limit(rule).cited,
                limit=limit(rule).look_below,
                unit="mm",
            ),
        )
    points, roof = _roof_over(context, height_field(opposing, looking_along(_DOWN), SPACING))
    if not len(points):
        return ()
    gap = roof - points[:, 2]
    worst = int(np.argmin(gap))
    text = f"The metal keeps {gap[worst]:.2f} mm from the opposing teeth"
    remedy = "Ask the dentist for a deeper seat or more room, or thin the part there."
    return (
        judged(rule, rule, float(gap[worst]), text, remedy=remedy, at=points[worst],
               component=_owner(context, points[worst])),
    )  # fmt: skip


_DOWN = np.array([0.0, 0.0, -1.0])


def _roof_over(context: Finished, roof: HeightField) -> tuple[Floats, Floats]:
    """Vertices of the solid under the opposing arch, and its lowest height over each."""
    points = context.framework.solid.vertices
    lowest = -roof.at(points)
    under = np.isfinite(lowest)
    return points[under], lowest[under]


def inside_teeth(context: Finished) -> tuple[Finding, ...]:
    """No metal lies inside a tooth of the master model."""
    points = _samples(context)
    nearest = closest_points(context.scan_tree, points, REACH)
    surface = context.arch.scan.surface
    on_scan = (nearest.faces >= 0) & (nearest.faces < len(surface.faces))
    crown = np.zeros(len(points), bool)
    crown[on_scan] = context.arch.crown_of_face[nearest.faces[on_scan]] > 0
    depth = np.where(crown, -nearest.distance, 0.0)
    worst = int(np.argmax(depth))
    deepest = max(float(depth[worst]), 0.0)
    tooth = 0
    if crown[worst]:
        tooth = int(context.arch.crown_of_face[nearest.faces[worst]])
    text = f"Metal reaches {1000 * deepest:.0f} um into the teeth"
    text += f", deepest in {tooth}" if deepest > 0 else ""
    remedy = "It will not seat; the cut by the master model has failed there."
    return (
        judged("tooth.overlap", "tooth.overlap", deepest, text, remedy=remedy,
               at=points[worst], component=_owner(context, points[worst])),
    )  # fmt: skip


def scan_coverage(context: Finished) -> tuple[Finding, ...]:
    """The scan shows the tissue and teeth that the metal lies on."""
    solid = context.framework.solid
    centres = solid.middles
    nearest = closest_points(context.scan_tree, centres, REACH)
    lies: Bools = nearest.faces >= 0
    bare = lies & (nearest.faces >= len(context.arch.scan.surface.faces))
    areas = face_areas(solid)
    total = float(areas[lies].sum())
    if not total > 0:
        return ()
    share = float(areas[bare].sum()) / total
    fine = share <= COVER_LOOK
    at = centres[bare].mean(axis=0) if bare.any() else None
    return (
        Finding(
            "scan.support",
            "note" if fine else "look" if share <= COVER_STOP else "stop",
            f"{100 * share:.1f} % of the metal that lies on the model lies where nothing was "
            "scanned" + ("." if fine else "; ask for a scan that shows the tissue there."),
            "metal can only be laid on what was scanned [common practice]",
            measured=round(100 * share, 2),
            limit=100 * (COVER_LOOK if share <= COVER_STOP else COVER_STOP),
            unit="%",
            at_mm=point(at) if at is not None and not fine else None,
            component="framework",
        ),
    )


def _samples(context: Finished) -> Floats:
    solid = context.framework.solid
    return np.concatenate([solid.vertices, solid.middles])


def _owner(context: Finished, at: Floats) -> str:
    """Id of the component whose line passes nearest to a place."""
    parts = context.framework.components
    if not parts:
        return "framework"
    return min(parts, key=lambda c: float(np.linalg.norm(c.line - at, axis=1).min())).id
