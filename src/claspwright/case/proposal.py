"""The sheet with what was proposed: the user's own lines as they are, the added ones explained."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from claspwright.base import Point
from claspwright.case.places import Key
from claspwright.case.reasons import Reasons, figure_why
from claspwright.case.sheet import CaseSheet
from claspwright.case.writer import Raw, Value, Whys, Writer, toml_text
from claspwright.framework import (
    Clasp,
    DentureBase,
    Design,
    MajorConnector,
    Retainer,
    jaw_of_form,
)


@dataclass(frozen=True, slots=True)
class Proposed:
    """What a run settled that the sheet may have left open."""

    design: Design | None = None
    marks: Mapping[int, Point] | None = None  # in the frame of the scan file
    tilts_deg: tuple[float, float] | None = None
    path_reason: str = ""
    mark_reason: str = ""


def write_proposed(sheet: CaseSheet, proposed: Proposed) -> str:
    """The text of the sheet with every proposed line added, each with the reason as a comment.

    New tables follow at the end; a key that one of the user's tables lacks is added below the
    header of that table. Nothing of the user's is changed or moved.
    """
    writer = Writer(sheet)
    if "arch" not in writer.table("case"):
        why = {"": "the missing teeth stand in this jaw"}
        writer.into(("case",), {"arch": sheet.prescription.jaw}, why)
    _add_marks(writer, sheet, proposed)
    if proposed.tilts_deg is not None:
        _add_path(writer, proposed.tilts_deg, proposed.path_reason)
    if proposed.design is not None:
        reasons = Reasons(proposed.design.reasons)
        _add_connector(writer, proposed.design.connector, reasons)
        _add_retainers(writer, proposed.design.retainers, reasons)
        _add_bases(writer, proposed.design.bases, reasons)
    return writer.text()


def mark_lines(sheet: CaseSheet, marks: Mapping[int, Point], reason: str) -> str:
    """The lines of [[mark]] tables for teeth that the sheet has no mark for."""
    writer = Writer(sheet)
    _add_marks(writer, sheet, Proposed(marks=marks, mark_reason=reason))
    return writer.added()


def _add_marks(writer: Writer, sheet: CaseSheet, proposed: Proposed) -> None:
    why = {"": proposed.mark_reason or "found on the scan; see that it lies on this tooth"}
    for tooth, at in (proposed.marks or {}).items():
        if tooth not in sheet.marks:
            x, y, z = (round(float(value), 3) for value in at)
            values: dict[str, Value] = {"tooth": writer.code(tooth), "at_mm": (x, y, z)}
            writer.append("mark", values, why, many=True)


def _add_path(writer: Writer, tilts: tuple[float, float], reason: str) -> None:
    values: dict[str, Value] = {
        "anterior_tilt_deg": round(float(tilts[0]), 4),
        "right_lateral_tilt_deg": round(float(tilts[1]), 4),
    }
    if "path" not in writer.table():
        writer.append("path", values, {"": reason or "searched; small tilts first"}, many=False)
    else:
        _complete(writer, ("path",), values, {"": reason or "no tilt was given"})


def _add_connector(writer: Writer, connector: MajorConnector, reasons: Reasons) -> None:
    bar = jaw_of_form(connector.form) == "mandible"
    size = "height_mm" if bar else "width_mm"
    values: dict[str, Value] = {
        "form": connector.form,
        size: connector.height_mm if bar else connector.width_mm,
        "thickness_mm": connector.thickness_mm,
        "margin_distance_mm": connector.margin_distance_mm,
        "relief_mm": connector.relief_mm,
    }
    part = "bar" if bar else "strap"
    whys = {key: figure_why(part, key) for key in values}
    whys[""] = reasons.cited("major_connector")
    if "major_connector" in writer.table():
        _complete(writer, ("major_connector",), values, whys)
    else:
        writer.append("major_connector", values, whys, many=False)


def _add_retainers(writer: Writer, retainers: Iterable[Retainer], reasons: Reasons) -> None:
    written = {str(table.get("tooth")): i for i, table in enumerate(writer.entries("retainer"))}
    for retainer in retainers:
        code, own = writer.code(retainer.tooth), f"retainer.{retainer.tooth}"
        values: dict[str, Value] = {"tooth": code, **_retainer_values(retainer)}
        plain = reasons.plain(own)
        whys = {
            "": reasons.cited(own),
            "clasp": reasons.plain(f"clasp.{retainer.tooth}") or plain,
            **dict.fromkeys(("rest", "proximal_plate", "indirect"), plain),
            "tooth": plain,
        }
        if str(code) not in written:
            writer.append("retainer", values, whys, many=True)
            continue
        at: tuple[Key, ...] = ("retainer", written[str(code)])
        if retainer.clasp is not None and "clasp" in writer.table(*at):
            _complete(writer, (*at, "clasp"), _clasp_values(retainer.clasp), {"": whys["clasp"]})
        _complete(writer, at, values, whys)


def _add_bases(writer: Writer, bases: Iterable[DentureBase], reasons: Reasons) -> None:
    written = [{str(code) for code in t.get("teeth", [])} for t in writer.entries("denture_base")]
    for base in bases:
        codes = tuple(writer.code(tooth) for tooth in base.teeth)
        values: dict[str, Value] = {
            "teeth": codes,
            "retention": base.retention,
            "relief_mm": base.relief_mm,
            "thickness_mm": base.thickness_mm,
        }
        own = f"denture_base.{base.teeth[0]}"
        whys = {key: figure_why("lattice", key) for key in values}
        whys |= {"": reasons.cited(own), "teeth": reasons.plain(own)}
        teeth = {str(code) for code in codes}
        if teeth in written:
            _complete(writer, ("denture_base", written.index(teeth)), values, whys)
        else:
            writer.append("denture_base", values, whys, many=True)


def _complete(
    writer: Writer, path: tuple[Key, ...], values: Mapping[str, Value], whys: Whys
) -> None:
    """Add those values that the user's table lacks."""
    own = writer.table(*path)
    writer.into(path, {key: value for key, value in values.items() if key not in own}, whys)


def _retainer_values(retainer: Retainer) -> dict[str, Value]:
    values: dict[str, Value] = {}
    if retainer.rests:
        values["rest"] = _one_or_list(retainer.rests)
    if retainer.proximal_plates:
        values["proximal_plate"] = _one_or_list(retainer.proximal_plates)
    if retainer.clasp is not None:
        pairs = (f"{key} = {toml_text(v)}" for key, v in _clasp_values(retainer.clasp).items())
        values["clasp"] = Raw(f"{{ {', '.join(pairs)} }}")
    if retainer.indirect:
        values["indirect"] = True
    return values


def _clasp_values(clasp: Clasp) -> dict[str, Value]:
    values: dict[str, Value] = {
        "form": clasp.form,
        "side": clasp.side,
        "undercut_mm": clasp.undercut_mm,
        "width_mm": clasp.width_mm,
        "thickness_mm": clasp.thickness_mm,
        "reciprocal": clasp.reciprocal,
    }
    if clasp.origin is not None:
        values["origin"] = clasp.origin
    if clasp.course:
        places = (
            f"{{ at_share = {p.at_share:g}, above_line_mm = {p.above_line_mm:g} }}"
            for p in clasp.course
        )
        values["course"] = Raw(f"[{', '.join(places)}]")
    return values


def _one_or_list(words: tuple[str, ...]) -> Value:
    return words[0] if len(words) == 1 else words
