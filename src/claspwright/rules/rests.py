"""Rules on rests and on the support that they give."""

from __future__ import annotations

import numpy as np
from shapely import contains_xy
from shapely.geometry import MultiPoint

from claspwright.base import Finding, Floats
from claspwright.framework import Component, distance_to_fulcrum, fulcrum_line, indirect_reaches
from claspwright.limits import limit
from claspwright.rules.columns import Columns
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point

STEP = 0.15  # mm between the columns of a rest
ROOM_SPARE = 0.1  # mm: a rest as thick as its room is thin because of the opposing teeth
MIDDLE = 0.7  # mm to each side of a rest's middle in which its thickness is taken


def rest_thickness(context: Finished) -> tuple[Finding, ...]:
    """Metal over the marginal ridge, measured along the path on the solid."""
    columns = Columns.of(context.framework.solid, context.path)
    found = []
    for rest in context.parts("rest"):
        spots = ridge_points(context, rest)
        thick = columns.thickness(spots)
        known = np.isfinite(thick)
        if not known.any():
            continue
        where = int(np.argmin(np.where(known, thick, np.inf)))
        least = round(float(thick[where]), 2)  # as fine as the columns are read
        place = "over the marginal ridge" if over_ridge(rest) else "in its middle"
        text = f"{rest.id} is {least:.2f} mm thick {place}"
        remedy = "Ask the dentist for a deeper seat."
        room = rest.figures.get("room_mm")
        if room is not None and room <= least + ROOM_SPARE:
            text += f"; the opposing teeth leave {max(room, 0.0):.2f} mm there"
            remedy = "Ask the dentist for a deeper seat or a shorter opposing cusp."
        found.append(
            judged("rest.thickness", "rest.thickness", least, text, remedy=remedy,
                   at=spots[where], component=rest.id)
        )  # fmt: skip
    return tuple(found)


def over_ridge(rest: Component) -> bool:
    """Whether a rest comes in over the marginal ridge."""
    return not rest.id.endswith(("cingulum", "incisal", "onlay"))


def ridge_points(context: Finished, rest: Component) -> Floats:
    """(N, 3) points of a rest's middle band where it crosses the marginal ridge.

    For a rest on a cingulum, an incisal edge or a whole crown, of its middle.
    """
    tooth = context.arch.teeth[rest.tooth or 0]
    hull = MultiPoint(rest.line[:, :2]).convex_hull
    whole = not over_ridge(rest)
    inner = hull.buffer(-0.5)
    core = hull.centroid.buffer(0.4) if whole or inner.is_empty else inner
    x0, y0, x1, y1 = core.bounds
    xs, ys = np.meshgrid(np.arange(x0, x1 + STEP, STEP), np.arange(y0, y1 + STEP, STEP))
    flat = np.column_stack([xs.ravel(), ys.ravel()])
    flat = flat[contains_xy(core.buffer(1e-6), flat[:, 0], flat[:, 1])]
    spots = np.column_stack([flat, np.full(len(flat), rest.line[:, 2].mean())])
    if whole or not len(spots):
        return spots
    towards = tooth.mesial if "mesial" in rest.id else tooth.distal
    reach = (spots - rest.line.mean(axis=0)) @ towards
    across = np.abs((spots - rest.line.mean(axis=0)) @ np.cross(towards, [0.0, 0.0, 1.0]))
    # an extended rest lies mostly farther inside
    low, high = (0.7, 0.9) if "extended" in rest.id else (0.5, 0.85)
    band = (reach > np.quantile(reach, low)) & (reach < np.quantile(reach, high))
    band &= across < MIDDLE  # beside it the metal runs out over the walls of the seat
    return spots[band] if band.any() else spots


def rest_seat(context: Finished) -> tuple[Finding, ...]:
    """Each rest has a seat that the dentist prepared deep enough."""
    found = []
    for rest in context.parts("rest"):
        depth = rest.figures.get("seat_depth_mm")
        at = rest.line.mean(axis=0)
        if not rest.figures.get("prepared", 1.0):
            found.append(
                Finding(
                    "rest.seat_missing",
                    "look",
                    f"No prepared seat for {rest.id} on the scan. Ask the dentist to prepare one "
                    "and to rescan; the rest is laid on the tooth as it is.",
                    limit("rest.seat_floor").cited,
                    measured=depth if depth is None else round(depth, 2),
                    limit=limit("rest.seat_floor").look_below,
                    unit="mm",
                    at_mm=point(at),
                    component=rest.id,
                )
            )
        elif depth is not None:
            text = f"The floor of the seat of {rest.id} lies {depth:.2f} mm under its ridge"
            remedy = "Ask the dentist to look: too shallow makes a thin rest, too deep costs tooth."
            key = "rest.incisal_depth" if rest.id.endswith("incisal") else "rest.seat_floor"
            found.append(
                judged("rest.seat_floor", key, depth, text, remedy=remedy, at=at,
                       component=rest.id)
            )  # fmt: skip
    return tuple(found)


def support(context: Finished) -> tuple[Finding, ...]:
    """The framework stands on at least three rests, or on two and a free-end base."""
    rests = context.parts("rest")
    least = 2 if context.free_spans else 3
    enough = len(rests) >= least
    return (
        Finding(
            "rest.count",
            "note" if enough else "look",
            f"The framework stands on {len(rests)} rests"
            + ("." if enough else "; it may rock. Ask for another rest seat."),
            "support on three points, or two and a base that ends free [common practice]",
            measured=float(len(rests)),
            limit=float(least),
            component="framework",
        ),
    )


def indirect_retainer(context: Finished) -> tuple[Finding, ...]:
    """A rest stands as far in front of the fulcrum line as the teeth allow (class I and II)."""
    if context.facts.kennedy.kennedy_class not in ("I", "II"):
        return ()
    rests = [(c.tooth, c.line.mean(axis=0)) for c in context.parts("rest") if c.tooth is not None]
    line = fulcrum_line(rests)
    bases = [span.crest.mean(axis=0) for span in context.free_spans]
    if line is None or not bases:
        return (_no_indirect("the rests give no fulcrum line"),)
    behind = np.sign(sum(distance_to_fulcrum(line, base) for base in bases))
    reaches = {tooth: -float(behind) * distance_to_fulcrum(line, at) for tooth, at in rests}
    best_tooth = max(reaches, key=lambda tooth: reaches[tooth])
    reach = reaches[best_tooth]
    possible = indirect_reaches(line, bases, context.arch.teeth, ())
    best = max([reach, *possible.values()])
    if best <= 1.0 or reach <= 1.0:
        return (_no_indirect(f"no rest stands in front of the fulcrum line (best {best:.1f} mm)"),)
    at = next(p for tooth, p in rests if tooth == best_tooth)
    text = (
        f"The rest on {best_tooth} stands {reach:.1f} mm in front of the fulcrum line, of "
        f"{best:.1f} mm that the teeth allow"
    )
    remedy = "Place the indirect retainer on a tooth farther in front, if a seat can be had there."
    return (
        judged("indirect.distance", "indirect.share", reach / best, text, remedy=remedy, at=at,
               component=f"retainer.{best_tooth}"),
    )  # fmt: skip


def _no_indirect(why: str) -> Finding:
    return Finding(
        "indirect.distance",
        "look",
        f"No indirect retainer: {why}. The base may lift off the ridge; ask the prescriber for a "
        "rest seat in front.",
        limit("indirect.share").cited,
        measured="none",
        limit=limit("indirect.share").look_below,
    )
