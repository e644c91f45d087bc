"""From the bytes of `case.toml` to a sound case sheet, or to errors that name line and remedy."""

from __future__ import annotations

import re
import tomllib
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from claspwright.arch import Jaw, Notation, in_arch_order, parse_tooth
from claspwright.base import Finding, InputError, Point
from claspwright.case.checks import code_problems, cross_problems, jaw_of_sheet
from claspwright.case.finishing import finishing_of
from claspwright.case.messages import Problem, problems_of
from claspwright.case.model import Clasp as ClaspTable
from claspwright.case.model import DentureBase as BaseTable
from claspwright.case.model import MajorConnector as ConnectorTable
from claspwright.case.model import Retainer as RetainerTable
from claspwright.case.model import Sheet
from claspwright.case.model import SplintBar as SplintTable
from claspwright.case.places import line_of
from claspwright.case.sheet import CaseSheet, Prescription, ScanFiles
from claspwright.case.wax import wax_of
from claspwright.framework import (
    Clasp,
    CoursePoint,
    DentureBase,
    FitOffsets,
    MajorConnector,
    Retainer,
    SplintBar,
    Wishes,
    default_clasp,
)

SHEET_NAME = "case.toml"
_MOST_BYTES = 4_000_000
_MOST_PROBLEMS = 8  # that one message lists


def read_sheet(case: Path) -> CaseSheet:
    """Read a case folder or its sheet.

    Args:
        case: a folder with `case.toml`, or a sheet of any name.

    Raises:
        InputError: no sheet there, or it is not sound; names file, line and remedy.
    """
    path = case / SHEET_NAME if case.is_dir() else case
    text = _text_of(path)
    return parse_sheet(text, path)


def parse_sheet(text: str, path: Path) -> CaseSheet:
    """Read a sheet from its text; `path` is where it lies, or would lie.

    Raises:
        InputError: the text is no sound sheet; names file, line and remedy.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_error(error, path) from None
    try:
        sheet = Sheet.model_validate(table)
    except ValidationError as error:
        raise _sheet_error(problems_of(error), text, path) from None
    if problems := code_problems(sheet):
        raise _sheet_error(problems, text, path)
    jaw = jaw_of_sheet(sheet)
    if isinstance(jaw, Problem):
        raise _sheet_error([jaw], text, path)
    if problems := cross_problems(sheet, jaw, path.parent):
        raise _sheet_error(problems, text, path)
    return _values(sheet, jaw, text, path, versioned="claspwright" in table)


def _text_of(path: Path) -> str:
    if not path.is_file():
        raise InputError(
            "no case sheet here",
            place=path.as_posix(),
            remedy="Give a folder with case.toml, or make one with `claspwright new`.",
        )
    raw = path.read_bytes()
    if len(raw) > _MOST_BYTES:
        raise InputError(
            f"{len(raw)} bytes are too many for a case sheet (at most {_MOST_BYTES})",
            place=path.as_posix(),
            remedy="Give the sheet, not a scan.",
        )
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise InputError(
            "the sheet is not UTF-8 text",
            place=f"{path.as_posix()}:{line}",
            remedy="Save it as UTF-8; give the sheet, not a scan.",
        ) from None


def _syntax_error(error: tomllib.TOMLDecodeError, path: Path) -> InputError:
    words = str(error)
    found = re.search(r"line (\d+)", words)
    place = f"{path.as_posix()}:{found.group(1)}" if found else path.as_posix()
    what = re.sub(r" \(at .*\)$", "", words)
    remedy = "Correct that line; text stands in quotes, lists in square brackets."
    if "overwrite" in words or "twice" in words:
        remedy = "The key or table stands twice; take one out, or write [[...]] for a list."
    return InputError(f"this is not TOML: {what}", place=place, remedy=remedy)


def _sheet_error(problems: list[Problem], text: str, path: Path) -> InputError:
    """One error with every problem on a line of its own, in the order of the sheet."""
    name = path.as_posix()
    placed = sorted(
        ((line_of(text, problem.path) or 0, problem) for problem in problems),
        key=lambda item: item[0],
    )
    (first_line, first), *others = placed[:_MOST_PROBLEMS]
    more = "".join(
        f"\n{_place(name, line)}: {problem.what}. {problem.remedy}" for line, problem in others
    )
    if len(placed) > _MOST_PROBLEMS:
        more += f"\nand {len(placed) - _MOST_PROBLEMS} more."
    return InputError(first.what, place=_place(name, first_line), remedy=first.remedy + more)


def _place(name: str, line: int) -> str:
    return f"{name}:{line}" if line else name


def _values(sheet: Sheet, jaw: Jaw, text: str, path: Path, *, versioned: bool) -> CaseSheet:
    folder = path.parent
    scans = sheet.scans
    prescription = _prescription(sheet, jaw, folder)
    return CaseSheet(
        path=path,
        text=text,
        notation=sheet.case.notation,
        prescription=prescription,
        scans=ScanFiles(
            master=folder / scans.master,
            opposing=folder / scans.opposing if scans.opposing else None,
            bite=folder / scans.bite if scans.bite else None,
            unit=scans.unit,
        ),
        marks=_marks(sheet),
        tilts_deg=(
            (sheet.path.anterior_tilt_deg, sheet.path.right_lateral_tilt_deg)
            if sheet.path is not None
            else None
        ),
        wishes=_wishes(sheet, prescription),
        findings=_assumptions(sheet, jaw, versioned=versioned),
        wax=wax_of(sheet),
        finishing=finishing_of(sheet),
    )


def _prescription(sheet: Sheet, jaw: Jaw, folder: Path) -> Prescription:
    case = sheet.case
    notation = case.notation
    not_replaced = [parse_tooth(code, notation) for code in sheet.teeth.not_replaced]
    missing = [parse_tooth(code, notation) for code in sheet.teeth.missing]
    kept = [parse_tooth(code, notation) for code in sheet.teeth.present_abutments]
    connector = sheet.major_connector
    return Prescription(
        case_id=case.id or folder.resolve().name,
        jaw=jaw,
        alloy=case.alloy,
        missing=in_arch_order([*missing, *not_replaced], jaw),
        not_replaced=in_arch_order(not_replaced, jaw),
        present_abutments=in_arch_order(kept, jaw),
        functional_depth_mm=sheet.teeth.functional_depth_mm,
        patient=case.patient,
        prescriber=case.prescriber,
        laboratory=case.laboratory,
        prescribed=case.prescribed,
        due=case.due,
        allergies=tuple(case.allergies),
        allergies_cleared=case.allergies_cleared,
        prosthesis=case.prosthesis,
        retention=case.retention,
        base_material=case.base_material,
        swinging_connector=connector is not None and connector.form == "swinging connector",
        vertical_dimension=case.vertical_dimension,
        notes=case.notes,
    )


def _marks(sheet: Sheet) -> dict[int, Point]:
    return {parse_tooth(mark.tooth, sheet.case.notation): mark.at_mm for mark in sheet.mark}


def _wishes(sheet: Sheet, prescription: Prescription) -> Wishes:
    notation = sheet.case.notation
    return Wishes(
        not_replaced=prescription.not_replaced,
        present_abutments=prescription.present_abutments,
        doubtful=in_arch_order(
            [parse_tooth(code, notation) for code in sheet.teeth.doubtful], prescription.jaw
        ),
        functional_depth_mm=prescription.functional_depth_mm,
        retainers=tuple(
            _retainer(item, parse_tooth(item.tooth, notation)) for item in sheet.retainer
        ),
        open_wires=tuple(
            parse_tooth(item.tooth, notation)
            for item in sheet.retainer
            if item.clasp is not None
            and item.clasp.form == "wrought wire"
            and item.clasp.undercut_mm is None
        ),
        connector=_connector(sheet.major_connector),
        fit=FitOffsets(**_given(sheet.fit, FitOffsets)) if sheet.fit is not None else FitOffsets(),
        bases=tuple(
            _base(item, tuple(parse_tooth(code, notation) for code in item.teeth))
            for item in sheet.denture_base
        ),
        splints=tuple(_splint(item, notation, prescription.jaw) for item in sheet.splint_bar),
    )


def _retainer(table: RetainerTable, tooth: int) -> Retainer:
    clasp = _clasp(table.clasp, tooth) if table.clasp is not None else None
    return Retainer(
        tooth, tuple(table.rest), tuple(table.proximal_plate), clasp, indirect=table.indirect
    )


def _clasp(table: ClaspTable, tooth: int) -> Clasp:
    """A clasp with the sizes that are given; the others are those of its form and tooth."""
    given = _given(table, Clasp)
    given["course"] = tuple(CoursePoint(p.at_share, p.above_line_mm) for p in table.course)
    if table.form in ("circumferential", "I-bar"):
        return Clasp(**given)
    if "reciprocal" not in table.model_fields_set:
        del given["reciprocal"]
    return replace(default_clasp(tooth, table.form, table.side), **given)


def _connector(table: ConnectorTable | None) -> MajorConnector | None:
    if table is None or table.form == "swinging connector":
        return None
    return MajorConnector(**_given(table, MajorConnector))


def _base(table: BaseTable, teeth: tuple[int, ...]) -> DentureBase:
    return DentureBase(**{**_given(table, DentureBase), "teeth": teeth})


def _splint(table: SplintTable, notation: Notation, jaw: Jaw) -> SplintBar:
    teeth = in_arch_order([parse_tooth(code, notation) for code in table.teeth], jaw)
    return SplintBar(**{**_given(table, SplintBar), "teeth": teeth})


def _given(table: Any, kind: type) -> dict[str, Any]:  # Any: three tables of one pattern
    """The keys that the sheet gives a value; the others keep the default of the plain value."""
    values = {field.name: getattr(table, field.name, None) for field in fields(kind)}
    return {name: value for name, value in values.items() if value is not None}


def _assumptions(sheet: Sheet, jaw: Jaw, *, versioned: bool) -> tuple[Finding, ...]:
    found = []
    if not versioned:
        found.append(_note("sheet.version", "The sheet carries no `claspwright = 1`; read as 1."))
    if sheet.case.arch is None:
        found.append(_note("sheet.arch", f"The missing teeth stand in the {jaw}; so is the case."))
    return tuple(found)


def _note(rule: str, text: str) -> Finding:
    return Finding(rule, "note", text, source="the case sheet")
