"""What the dentist should still reduce before the final scan: as data and as a page."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

import numpy as np

from claspwright import __version__
from claspwright.app.carry_out import carry_out
from claspwright.app.folder import check_target, whole_folder
from claspwright.app.rest_places import places_of
from claspwright.app.to_scan import point_of
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.arch import PlaneReading, SeatPlace, SeatReading, read_plane, read_seat
from claspwright.base import Finding, GeometryError, Progress, part, silent
from claspwright.case import read_sheet
from claspwright.framework import plan_design
from claspwright.limits import limit
from claspwright.report import PreparationAsk, write_preparation_page
from claspwright.survey import path_from_tilts

LEAST_CUT_MM = 0.05  # less is not worth a visit
NARROW = 0.25  # of the buccolingual width: a narrower facet guides nothing
PLANE_SOURCE = "guiding plane 3 to 4 mm between teeth, 1.5 to 2 mm before a free end [seen C]"
NAMES = frozenset(("dentist.pdf", "preparation.json"))


@dataclass(frozen=True, slots=True)
class Preparation:
    """What is asked of the dentist; places in the frame of the scan."""

    told: Mapping[str, Any]  # what preparation.json holds; a tree for JSON
    findings: tuple[Finding, ...]

    @property
    def stopped(self) -> bool:
        """A finding says that the case must not go on."""
        return any(finding.severity == "stop" for finding in self.findings)


def preparation(
    case: Path, out: Path | None = None, *, date: str = "", progress: Progress = silent
) -> Preparation:
    """Read every rest seat and guiding plane that the design asks for; say what is missing.

    Angles and heights are held against the path of the sheet, or against zero tilt where the
    sheet names none.

    Args:
        case: a folder with `case.toml`, or that file; never changed.
        out: folder for `dentist.pdf` and `preparation.json`; None writes nothing.
        date: date of the work as it shall print; no clock is asked.
        progress: told of each stage.

    Raises:
        InputError: the sheet, its scans or `out` cannot be used.
        GeometryError: the work stopped before the teeth were found.
    """
    sheet = read_sheet(case)
    if out is not None:
        check_target(out, sheet.path.parent, names=NAMES)
    work = carry_out(sheet, Watch(), part(progress, 0.0, 0.8), until="teeth")
    if work.arch is None or work.scan is None:
        stops = [f.text for f in work.findings if f.severity == "stop"]
        raise GeometryError("; ".join(stops) or "no teeth were found")
    seats, planes = _readings(work)
    asks = tuple(_seat_ask(reading) for reading in seats) + tuple(
        _plane_ask(work, reading) for reading in planes
    )
    back = work.scan.scan_to_arch.inverse()
    told = {
        "version": __version__,
        "case_id": sheet.prescription.case_id,
        "path": "of the sheet" if sheet.tilts_deg else "zero tilt: the sheet names none",
        "seats": [_seat_json(reading, back.apply) for reading in seats],
        "guiding_planes": [_plane_json(reading, back.apply) for reading in planes],
        "asks": [ask.text for ask in asks if ask.needed],
    }
    if out is not None:
        with whole_folder(out) as folder:
            progress(0.9, "page for the dentist")
            page = write_preparation_page(work.arch, sheet.prescription.case_id, asks, date,
                                          __version__)  # fmt: skip
            (folder / "dentist.pdf").write_bytes(page)
            text = json.dumps(told, indent=2, ensure_ascii=False) + "\n"
            (folder / "preparation.json").write_bytes(text.encode("utf-8"))
    progress(1.0, "preparation")
    return Preparation(told, tuple(work.findings))


def _readings(work: Work) -> tuple[list[SeatReading], list[PlaneReading]]:
    arch, sheet = work.arch, work.sheet
    assert arch is not None  # the caller has looked
    tilts = sheet.tilts_deg or (0.0, 0.0)
    path = path_from_tilts(arch.scan.jaw, *tilts).direction
    free = {end for span in arch.spans if None in span.ends for end in span.ends if end}
    seats: list[SeatReading] = []
    planes: list[PlaneReading] = []
    for retainer in plan_design(arch, sheet.wishes).retainers:
        for tooth, place in places_of(arch, retainer):
            if any((s.seat.tooth, s.seat.where) == (tooth, place) for s in seats):
                continue
            wanted = limit(_depth_key(place)).look_below or limit(_depth_key(place)).value
            seats.append(read_seat(arch, tooth, place, path, wanted_mm=wanted))
        planes += [
            read_plane(arch, retainer.tooth, end, path, free=retainer.tooth in free)
            for end in retainer.proximal_plates
        ]
    return seats, planes


def _depth_key(place: SeatPlace) -> str:
    if place.endswith("incisal"):
        return "rest.incisal_depth"
    return "rest.cingulum_depth" if place == "cingulum" else "rest.seat_floor"


def _seat_ask(reading: SeatReading) -> PreparationAsk:
    seat = reading.seat
    place = f"tooth {seat.tooth}, {seat.where} rest seat"
    angle = reading.floor_to_connector_deg
    if not seat.prepared:
        wanted = limit(_depth_key(seat.where))
        front = seat.where == "cingulum" or seat.where.endswith("incisal")
        wide = "rest.incisal_width" if seat.where.endswith("incisal") else "rest.seat_width"
        text = (
            f"{place}: prepare one, {wanted.value:.1f} mm deep"
            f"{'' if front else ' in its middle'}, {limit(wide).value:.1f} mm wide."
        )
        return PreparationAsk(text, True, seat.point, "seat", wanted.cited)
    if reading.reduce_mm > LEAST_CUT_MM:
        text = f"{place}: deepen by {reading.reduce_mm:.1f} mm; it has {seat.depth_mm:.1f} mm."
        return PreparationAsk(text, True, seat.point, "seat", limit("rest.seat_floor").cited)
    most = limit("rest.angle").look_above or 90.0
    if angle is not None and angle > most:
        text = (
            f"{place}: let the floor fall towards the middle of the tooth; it stands at "
            f"{angle:.0f} degrees to the minor connector, and the rest would slide off."
        )
        return PreparationAsk(text, True, seat.point, "seat", limit("rest.angle").cited)
    deep = limit("rest.seat_floor").look_above or np.inf
    word = "rather deep, see that enamel is left" if seat.depth_mm > deep else "nothing to do"
    text = f"{place}: {seat.depth_mm:.1f} mm deep, {seat.width_mm:.1f} mm wide; {word}."
    return PreparationAsk(text, False, seat.point, "seat", limit("rest.seat_floor").cited)


def _plane_ask(work: Work, reading: PlaneReading) -> PreparationAsk:
    plane = reading.plane
    assert work.arch is not None  # the caller has looked
    wide = reading.width_mm >= NARROW * work.arch.teeth[plane.tooth].buccolingual_mm
    place = f"tooth {plane.tooth}, {plane.where} guiding plane"
    has = f"{plane.height_mm:.1f} mm high, {plane.area_mm2:.0f} mm2"
    if reading.reduce_mm > LEAST_CUT_MM:
        text = (
            f"{place}: reduce by up to {reading.reduce_mm:.2f} mm, from "
            f"{reading.from_top_mm:.1f} mm below the top of the crown downwards, "
            f"{reading.wanted_mm:.1f} mm high along the path; "
            f"there is {has}."
        )
        return PreparationAsk(text, True, reading.at, "plane", PLANE_SOURCE)
    if not wide:
        text = f"{place}: flatten it to a third of the tooth's width; there is {has}."
        return PreparationAsk(text, True, reading.at, "plane", PLANE_SOURCE)
    return PreparationAsk(
        f"{place}: {has}; nothing to do.", False, reading.at, "plane", PLANE_SOURCE
    )


def _seat_json(reading: SeatReading, back: Any) -> dict[str, Any]:
    seat = reading.seat
    return {
        "tooth": seat.tooth,
        "where": seat.where,
        "prepared": seat.prepared,
        "at_mm": point_of(back(seat.point), 3),
        "depth_mm": round(seat.depth_mm, 2),
        "width_mm": round(seat.width_mm, 2),
        "wanted_depth_mm": reading.wanted_mm,
        "reduce_mm": round(reading.reduce_mm, 2),
        "floor_to_long_axis_deg": _number(reading.floor_to_axis_deg),
        "floor_to_minor_connector_deg": _number(reading.floor_to_connector_deg),
    }


def _plane_json(reading: PlaneReading, back: Any) -> dict[str, Any]:
    plane = reading.plane
    where: Literal["mesial", "distal"] = plane.where
    return {
        "tooth": plane.tooth,
        "where": where,
        "height_mm": round(plane.height_mm, 2),
        "width_mm": round(reading.width_mm, 2),
        "area_mm2": round(plane.area_mm2, 2),
        "mean_deviation_deg": round(plane.mean_deviation_deg, 2),
        "wanted_height_mm": reading.wanted_mm,
        "reduce_mm": round(reading.reduce_mm, 2),
        "from_top_mm": round(reading.from_top_mm, 2),
        "at_mm": point_of(back(np.asarray(reading.at)), 3),
    }


def _number(value: float | None) -> float | None:
    return None if value is None else round(value, 1)
