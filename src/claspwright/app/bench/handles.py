"""Points on the metal that can be dragged, and the number or the word of the sheet each stands for.

A border, a seat and the beginning of an arm have no place in the sheet: where one is let go is read
against the anatomy (nearest gingival margin, other border, ends of the crown). A border changes its
number by as much as it was dragged nearer or farther. Points are in the arch frame, mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np

from claspwright.app.bench.cases import proposed_sheet, view_of
from claspwright.app.bench.edits import (
    By,
    bases_in_force,
    design_in_force,
    set_base,
    set_connector,
    set_retainer,
)
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.readings import model_normal, on_model, way_between
from claspwright.app.bench.revisions import History
from claspwright.base import Floats, InputError
from claspwright.framework import (
    COURSE_FORMS,
    MOST_COURSE,
    Clasp,
    CoursePoint,
    DentureBase,
    MajorConnector,
    RestForm,
    Retainer,
    course_heights,
    jaw_of_form,
)
from claspwright.limits import limit

STATIONS = (0.25, 0.5, 0.75)  # of a bar's length, where its borders can be taken
OVER_CROWNS = "cingulum bar"  # lies over teeth: no distance from margins
MARGIN_LIMITS = {"lingual bar": "bar.margin", "labial bar": "bar.margin_labial"}
MOST = {"margin_distance_mm": 15.0, "height_mm": 12.0, "width_mm": 40.0}  # the sheet takes no more
LEAST_MM = 0.5
REACH_MM = (3.0, 25.0)  # that the sheet takes
SIDES = ("buccal", "lingual")
LINES = ("line", "course")
COURSE_WORDS = "height of the arm over the survey line"
BASE_STATIONS = (0.3, 0.7)  # of a ridge's length, where the border of its base can be taken
COURSE_STATIONS = (0.25, 0.5, 0.75)  # shares of an arm's way, where its course can be taken
COURSE_APART = 0.1  # share between two places of a course
COURSE_MM = (-3.0, 6.0)  # that the sheet takes
INCISAL_SHARE = 0.3  # of an anterior crown's height from its edge: a seat there is an incisal one
ANTERIOR = ("cingulum", "mesial incisal", "distal incisal")

Json = dict[str, Any]  # Any: a JSON object


@dataclass(frozen=True, slots=True, eq=False)
class Handle:
    """A point that can be dragged."""

    id: str
    component: str
    tooth: int | None  # on which it must stay
    at: Floats  # (3,)
    across: Floats | None = None  # (3,) of a border: unit vector away from the metal
    other: Floats | None = None  # (3,) the border over against it


@dataclass(frozen=True, slots=True, eq=False)
class Pulled:
    """What the sheet would say if a handle were let go somewhere."""

    words: str  # what is measured or chosen
    before: float | str
    after: float | str
    unit: str  # "mm", or empty for a word
    limit: float | None  # that it is held against
    severity: str  # of breaking it; empty where it holds
    source: str
    line: Floats  # (N, 3) over the surface, from what it is measured from
    connector: MajorConnector | None = None
    retainer: Retainer | None = None
    base: DentureBase | None = None


def handles_of(lab: Laboratory, name: str) -> tuple[Handle, ...]:
    """All points of the framework, as worked out last, that can be dragged.

    Raises:
        InputError: the case was not worked out yet.
    """
    view = _view(lab, name)
    retainers, connector = design_in_force(lab, name)
    body = [np.asarray(c["line"]) for c in view["components"] if c["id"] == "major_connector"]
    found: list[Handle] = []
    if connector is not None and body:
        if jaw_of_form(connector.form) == "maxilla":
            found += _strap_borders(body[0])
        else:
            found += _bar_borders(lab, name, body[0], _built(lab, name, connector))
    bases = _bases(lab, name, view)
    arms = (*_roots(view, retainers), *_courses(lab, name, view, retainers))
    return (*found, *_seats(view, retainers), *arms, *bases)


def pull(lab: Laboratory, name: str, handle_id: str, at: Sequence[float] | Floats) -> Pulled:
    """What the sheet would say if a handle were let go at a point on the model.

    Raises:
        InputError: there is no such handle, or it cannot lie there.
    """
    handle = next((one for one in handles_of(lab, name) if one.id == handle_id), None)
    if handle is None:
        raise InputError(f"there is no point {handle_id!r} to drag", place=name,
                         remedy="Load the case again.")  # fmt: skip
    point = np.asarray(at, dtype=np.float64)
    if handle.id.startswith("base."):
        return _moved_base(lab, name, handle, point)
    retainers, connector = design_in_force(lab, name)
    if handle.tooth is None:
        assert connector is not None
        return _border(lab, name, handle, point, connector)
    retainer = next(one for one in retainers if one.tooth == handle.tooth)
    tooth = next(one for one in _view(lab, name)["teeth"] if one["code"] == handle.tooth)
    if handle.id.startswith("course."):
        return _moved_course(lab, name, handle, retainer, point)
    if handle.id.startswith("rest."):
        before, after, changed = _moved_seat(handle, tooth, retainer, point)
    else:
        before, after, changed = _moved_root(tooth, retainer, point)
    line = way_between(lab, name, handle.at, point).points
    words = "seat of the rest" if handle.id.startswith("rest.") else "the arm begins"
    return Pulled(words, before, after, "", None, "", "", line, retainer=changed)


def let_go(lab: Laboratory, name: str, by: By, handle_id: str, at: Sequence[float]) -> History:
    """Put what a handle says at a point into the sheet.

    Raises:
        InputError: as for `pull`, or nothing differs.
    """
    pulled = pull(lab, name, handle_id, at)
    if pulled.before == pulled.after and not handle_id.startswith("course."):
        raise InputError(f"the {pulled.words} stays {pulled.after}", place=handle_id,
                         remedy="Drag it further.")  # fmt: skip
    if not by.reason:
        unit = f" {pulled.unit}" if pulled.unit else ""
        by = replace(by, reason=f"{pulled.words}: {pulled.before} to {pulled.after}{unit}")
    if pulled.connector is not None:
        return set_connector(lab, name, by, pulled.connector)
    if pulled.base is not None:
        return set_base(lab, name, by, pulled.base)
    assert pulled.retainer is not None
    return set_retainer(lab, name, by, pulled.retainer)


def _bar_borders(
    lab: Laboratory, name: str, line: Floats, connector: MajorConnector
) -> Iterator[Handle]:
    """Both borders of a bar at some stations of its middle line."""
    half = connector.height_mm / 2
    for n, share in enumerate(STATIONS, 1):
        middle = line[round(share * (len(line) - 1))]
        normal = model_normal(lab, name, middle)
        up = np.array([0.0, 0.0, 1.0]) - normal[2] * normal
        up /= max(float(np.linalg.norm(up)), 1e-9)
        upper, lower = middle + half * up, middle - half * up
        if connector.form != OVER_CROWNS:
            yield Handle(f"border.upper.{n}", "major_connector", None, upper, up, lower)
        yield Handle(f"border.lower.{n}", "major_connector", None, lower, -up, upper)


def _strap_borders(outline: Floats) -> Iterator[Handle]:
    """Where the outline of a palatal connector crosses the midline, the foremost first."""
    ends = np.roll(outline, -1, axis=0)
    crossing = np.flatnonzero((outline[:, 0] < 0) != (ends[:, 0] < 0))
    share = outline[crossing, 0] / (outline[crossing, 0] - ends[crossing, 0])
    spots = outline[crossing] + share[:, None] * (ends[crossing] - outline[crossing])
    spots = spots[np.argsort(-spots[:, 1])]
    for n in range(0, len(spots) - 1, 2):
        front, back = spots[n], spots[n + 1]
        ahead = np.array([0.0, 1.0, 0.0])
        yield Handle(f"border.{n + 1}", "major_connector", None, front, ahead, back)
        yield Handle(f"border.{n + 2}", "major_connector", None, back, -ahead, front)


def _seats(view: Json, retainers: Sequence[Retainer]) -> Iterator[Handle]:
    """The middle of each rest that can sit elsewhere on its tooth."""
    for retainer in retainers:
        for form in retainer.rests:
            component = _component(view, f"rest.{retainer.tooth}.{form.replace(' ', '-')}")
            movable = form in ANTERIOR or form.endswith("occlusal")
            if component is not None and movable:
                middle = np.asarray(component["line"]).mean(axis=0)
                yield Handle(component["id"], component["id"], retainer.tooth, middle)


def _roots(view: Json, retainers: Sequence[Retainer]) -> Iterator[Handle]:
    """Where each circumferential arm begins."""
    for one in retainers:
        if one.clasp is not None and one.clasp.form == "circumferential":
            component = _component(view, f"clasp.{one.tooth}.{one.clasp.side}")
            if component is not None:
                at = np.asarray(component["line"][0])
                yield Handle(f"arm.{one.tooth}", component["id"], one.tooth, at)


def _courses(
    lab: Laboratory, name: str, view: Json, retainers: Sequence[Retainer]
) -> Iterator[Handle]:
    """Places on each arm from above: those it is led through, and some that could become one."""
    for one in retainers:
        arm = None if one.clasp is None else _arm_of(view, one)
        if one.clasp is None or arm is None or one.clasp.form not in COURSE_FORMS:
            continue
        id_, course = f"course.{one.tooth}", np.asarray(arm["course"])
        said = [place.at_share for place in one.clasp.course]
        for n, place in enumerate(one.clasp.course, 1):
            rise = place.above_line_mm - np.interp(place.at_share, course[:, 0], course[:, 1])
            spot = _at_share(arm, place.at_share) + rise * np.asarray(view["path"])
            spot = on_model(lab, name, spot[None])[0]
            yield Handle(f"{id_}.p{n}", arm["id"], one.tooth, spot)
        free = [s for s in COURSE_STATIONS if all(abs(s - o) >= 2 * COURSE_APART for o in said)]
        for share in free if len(said) < MOST_COURSE else ():
            yield Handle(
                f"{id_}.s{round(100 * share)}", arm["id"], one.tooth, _at_share(arm, share)
            )


def _arm_of(view: Json, retainer: Retainer) -> Json | None:
    assert retainer.clasp is not None
    arm = _component(view, f"clasp.{retainer.tooth}.{retainer.clasp.side}")
    return None if arm is None or not arm.get("course") else arm


def _at_share(arm: Json, share: float) -> Floats:
    """(3,) the middle line of an arm at a share of its way."""
    line, at = np.asarray(arm["line"]), np.asarray(arm["course"])[:, 0]
    return np.array([np.interp(share, at, line[:, k]) for k in range(3)])


def _moved_course(
    lab: Laboratory, name: str, handle: Handle, retainer: Retainer, at: Floats
) -> Pulled:
    """A place that an arm is led through: its share of the way, and its height over the line."""
    view, clasp = _view(lab, name), retainer.clasp
    assert clasp is not None
    arm = _arm_of(view, retainer)
    tooth = next(one for one in view["teeth"] if one["code"] == retainer.tooth)
    _on_crown(tooth, at)
    assert arm is not None
    along, (line, course) = np.asarray(view["path"]), (np.asarray(arm[k]) for k in LINES)
    level = line @ along
    off = (line - at) - np.outer((line - at) @ along, along)
    found = float(course[int(np.linalg.norm(off, axis=1).argmin()), 0])
    was, key = _share_of(handle, clasp), handle.id.rsplit(".", 1)[1]
    others = [p for n, p in enumerate(clasp.course, 1) if key != f"p{n}"]
    share = _between([p.at_share for p in others], was, found)
    line_z = np.interp(share, course[:, 0], level - course[:, 1])
    above = float(np.clip(round(float(at @ along - line_z), 2), *COURSE_MM))
    before = float(np.interp(was, course[:, 0], course[:, 1]))
    if key[0] == "p":
        before = clasp.course[int(key[1:]) - 1].above_line_mm
    places = sorted((*others, CoursePoint(share, above)), key=lambda p: p.at_share)
    knots = [(0.0, float(np.interp(0.0, course[:, 0], level)))]
    for place in places:
        base = np.interp(place.at_share, course[:, 0], level - course[:, 1])
        knots.append((place.at_share, float(base) + place.above_line_mm))
    heights = course_heights(course[:, 0], knots, float(level[-1]))
    led = on_model(lab, name, line + np.outer(heights - level, along))
    moved = replace(clasp, course=tuple(places))
    return Pulled(
        COURSE_WORDS, round(before, 2), above, "mm", None, "", "", led,
        retainer=replace(retainer, clasp=moved),
    )  # fmt: skip


def _share_of(handle: Handle, clasp: Clasp) -> float:
    key = handle.id.rsplit(".", 1)[1]
    return float(key[1:]) / 100 if key[0] == "s" else clasp.course[int(key[1:]) - 1].at_share


def _between(others: Sequence[float], was: float, wanted: float) -> float:
    """A share as wanted, as far as the places before and behind leave it room."""
    low = max([0.1, *(o + COURSE_APART for o in others if o < was)])
    high = min([0.9, *(o - COURSE_APART for o in others if o > was)])
    return round(min(max(wanted, low), max(low, high)), 2)


def _bases(lab: Laboratory, name: str, view: Json) -> Iterator[Handle]:
    """The border of each base on either side, at some stations of its ridge.

    The border over against it is the crest, which its reach is measured from.
    """
    known = {base.teeth for base in bases_in_force(lab, name)}
    for row in view.get("base_borders", ()):
        if tuple(row["teeth"]) not in known:
            continue
        crest, id_ = np.asarray(row["crest"]), "base." + "-".join(map(str, row["teeth"]))
        for side in SIDES:
            line = np.asarray(row.get(side, []))
            for n, share in enumerate(BASE_STATIONS, 1):
                if len(line):
                    at = line[round(share * (len(line) - 1))]
                    near = crest[int(np.linalg.norm(crest - at, axis=1).argmin())]
                    yield Handle(f"{id_}.{side}.{n}", id_, None, at, other=near)


def _moved_base(lab: Laboratory, name: str, handle: Handle, at: Floats) -> Pulled:
    """How far a base reaches over the surface from the crest of its ridge."""
    side = "buccal" if ".buccal." in handle.id else "lingual"
    base = next(b for b in bases_in_force(lab, name)
                if handle.component == "base." + "-".join(map(str, b.teeth)))  # fmt: skip
    row = next(r for r in _view(lab, name)["base_borders"] if tuple(r["teeth"]) == base.teeth)
    crest = np.asarray(row["crest"])
    start = crest[int(np.linalg.norm(crest - at, axis=1).argmin())]
    way = way_between(lab, name, start, at)
    field = f"{side}_reach_mm"
    before = getattr(base, field)
    if before is None:
        assert handle.other is not None
        before = way_between(lab, name, handle.other, handle.at).surface_mm
    after = round(min(max(way.surface_mm, REACH_MM[0]), REACH_MM[1]), 1)
    change: dict[str, Any] = {field: after}
    return Pulled(
        f"reach of the base, {side}", round(float(before), 1), after, "mm", None, "", "",
        way.points, base=replace(base, **change),
    )  # fmt: skip


def _border(
    lab: Laboratory, name: str, handle: Handle, at: Floats, connector: MajorConnector
) -> Pulled:
    """A border of the connector, read against the margins or the border over against it."""
    assert handle.other is not None and handle.across is not None
    strap = jaw_of_form(connector.form) == "maxilla"
    if handle.id.startswith("border.upper"):
        field, words = "margin_distance_mm", "distance from the margins"
        key = MARGIN_LIMITS.get(connector.form, "")
        rims = np.vstack([np.asarray(t["margin"]) for t in _view(lab, name)["teeth"]])
        away = np.linalg.norm(rims - at, axis=1)
        start = rims[int(away.argmin())]
        moved = float(away.min() - np.linalg.norm(rims - handle.at, axis=1).min())
    else:
        field, words = ("width_mm", "width") if strap else ("height_mm", "height")
        key = "bar.height" if connector.form in MARGIN_LIMITS else ""
        if strap:
            key = "strap.width_anterior" if handle.id in ("border.1", "border.2") else "strap.width"
        start, moved = handle.other, float((at - handle.at) @ handle.across)
    value = float(getattr(_built(lab, name, connector), field)) + moved
    value = round(min(max(value, LEAST_MM), MOST[field]), 1)
    change: dict[str, Any] = {field: value}
    broken = limit(key).judge(value) if key else None
    known = limit(key) if key else None
    return Pulled(
        words,
        round(float(getattr(connector, field)), 2),
        value,
        "mm",
        None if known is None else broken[1] if broken else known.value,
        broken[0] if broken else "",
        "" if known is None else known.cited,
        way_between(lab, name, start, at).points,
        connector=replace(connector, **change),
    )


def _built(lab: Laboratory, name: str, asked: MajorConnector) -> MajorConnector:
    """The connector with the measures that the framework was made with."""
    proposed = proposed_sheet(lab, name)
    built = None if proposed is None else proposed.wishes.connector
    return asked if built is None or built.form != asked.form else built


def _moved_seat(
    handle: Handle, tooth: Json, retainer: Retainer, at: Floats
) -> tuple[str, str, Retainer]:
    before = handle.id.split(".", 2)[2].replace("-", " ")
    along, outwards, down = _on_crown(tooth, at)
    end = "mesial" if along > 0 else "distal"
    if before not in ANTERIOR:
        after = f"{end} {before.split(' ', 1)[1]}"
    elif down < INCISAL_SHARE and abs(along) > 0.35:
        after = f"{end} incisal"
    elif outwards < 0:
        after = "cingulum"
    else:
        raise InputError("no rest sits on the outer side of a front tooth",
                         place=str(retainer.tooth),
                         remedy="Let it go on the tongue side or on an edge.")  # fmt: skip
    if after != before and after in retainer.rests:
        raise InputError(f"there already is a {after} rest", place=str(retainer.tooth),
                         remedy="Take one of the two away first.")  # fmt: skip
    rests = tuple(cast(RestForm, after) if r == before else r for r in retainer.rests)
    return before, after, replace(retainer, rests=rests)


def _moved_root(tooth: Json, retainer: Retainer, at: Floats) -> tuple[str, str, Retainer]:
    clasp = retainer.clasp
    assert clasp is not None
    along, outwards, _ = _on_crown(tooth, at)
    said = f"{clasp.origin or 'at the plate or rest'}, {clasp.side}"
    moved = replace(
        clasp,
        origin="mesial" if along > 0 else "distal",
        side="buccal" if outwards > 0 else "lingual",
    )
    return said, f"{moved.origin}, {moved.side}", replace(retainer, clasp=moved)


def _on_crown(tooth: Json, at: Floats) -> tuple[float, float, float]:
    """A point by its crown: share to the mesial end, share outwards, share down from the top.

    Raises:
        InputError: it lies beside the crown.
    """
    rim = np.asarray(tooth["margin"])
    off = at - np.asarray(tooth["centre"])
    along = float(off @ np.asarray(tooth["mesial"])) / (tooth["mesiodistal_mm"] / 2)
    outwards = float(off @ np.asarray(tooth["buccal"])) / (tooth["buccolingual_mm"] / 2)
    up = (at[2] - float(rim[:, 2].mean())) / tooth["height_mm"]
    if max(abs(along), abs(outwards)) > 1.3 or up < 0:
        raise InputError("the point lies beside this tooth", place=str(tooth["code"]),
                         remedy="Let it go on the crown.")  # fmt: skip
    return along, outwards, 1.0 - up


def _component(view: Json, id_: str) -> Json | None:
    return next((c for c in view["components"] if c["id"] == id_), None)


def _view(lab: Laboratory, name: str) -> Json:
    view = view_of(lab, name)
    if view is None:
        raise InputError("the case was not worked out yet", place=name,
                         remedy="Work it out first.")  # fmt: skip
    return view
