"""Checks across the keys of a sheet, once each key by itself is sound."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import get_args

from claspwright.arch import Jaw, Notation, jaw_of, parse_tooth
from claspwright.base import InputError
from claspwright.case.messages import Problem, named, nearest
from claspwright.case.model import Sheet
from claspwright.case.places import Key
from claspwright.framework import COURSE_FORMS, ConnectorForm, jaw_of_form
from claspwright.materials import materials

LEAST_APART = 0.1  # share of the way between two places of an arm's course
_INSTEAD: dict[Jaw, str] = {
    jaw: " or ".join(f'"{f}"' for f in get_args(ConnectorForm) if jaw_of_form(f) == jaw)
    for jaw in get_args(Jaw)
}


def tooth_entries(sheet: Sheet) -> Iterator[tuple[tuple[Key, ...], str]]:
    """Every tooth code of a sheet with its key path."""
    for name in ("missing", "not_replaced", "present_abutments", "doubtful"):
        for i, code in enumerate(getattr(sheet.teeth, name)):
            yield ("teeth", name, i), code
    for i, mark in enumerate(sheet.mark):
        yield ("mark", i, "tooth"), mark.tooth
    for i, retainer in enumerate(sheet.retainer):
        yield ("retainer", i, "tooth"), retainer.tooth
    for i, base in enumerate(sheet.denture_base):
        for k, code in enumerate(base.teeth):
            yield ("denture_base", i, "teeth", k), code
    for i, bar in enumerate(sheet.splint_bar):
        for k, code in enumerate(bar.teeth):
            yield ("splint_bar", i, "teeth", k), code


def code_problems(sheet: Sheet) -> list[Problem]:
    """Codes that are no permanent tooth in the notation of the sheet."""
    found = []
    for path, written in tooth_entries(sheet):
        try:
            parse_tooth(written, sheet.case.notation)
        except InputError as error:
            found.append(Problem(path, f"{named(path)}: {error.what}", error.remedy))
    return found


def jaw_of_sheet(sheet: Sheet) -> Jaw | Problem:
    """The jaw as written, or as the missing teeth tell."""
    if sheet.case.arch is not None:
        return sheet.case.arch
    codes = [parse_tooth(written, sheet.case.notation) for written in sheet.teeth.missing]
    if codes:
        return jaw_of(codes[0])
    return Problem(
        ("teeth", "missing"),
        "no tooth is missing, so the jaw is not known and nothing is to be replaced",
        "List every absent tooth, such as missing = [36, 37, 46].",
    )


def cross_problems(sheet: Sheet, jaw: Jaw, folder: Path) -> list[Problem]:
    """Everything that contradicts something else, or the files."""
    teeth = _Teeth(sheet, sheet.case.notation)
    return [
        *_jaw_problems(sheet, jaw, teeth),
        *_absence_problems(teeth),
        *_twice_problems(teeth),
        *_alloy_problems(sheet),
        *_file_problems(sheet, folder),
        *_connector_problems(sheet, jaw),
        *_course_problems(sheet),
    ]


class _Teeth:
    """The tooth codes of a sheet in ISO 3950, by key."""

    def __init__(self, sheet: Sheet, notation: Notation) -> None:
        self.all = [(path, parse_tooth(text, notation)) for path, text in tooth_entries(sheet)]
        self.not_replaced = self.under("teeth", "not_replaced")
        self.missing = self.under("teeth", "missing") | self.not_replaced

    def under(self, *head: str) -> set[int]:
        """Codes whose key path begins so."""
        return {code for path, code in self.all if path[: len(head)] == head}


def _jaw_problems(sheet: Sheet, jaw: Jaw, teeth: _Teeth) -> Iterator[Problem]:
    for path, code in teeth.all:
        if jaw_of(code) != jaw:
            source = "as `arch` says" if sheet.case.arch else "where the first missing tooth is"
            yield Problem(
                path,
                f"{named(path)}: tooth {code} stands in the {jaw_of(code)}, "
                f"but the case is in the {jaw}, {source}",
                "Correct the code, `arch` or `notation`.",
            )


def _absence_problems(teeth: _Teeth) -> Iterator[Problem]:
    standing = {
        "mark": "a mark",
        "retainer": "a retainer",
        "present_abutments": "a place among the abutments",
        "doubtful": "a place among the doubtful teeth",
        "splint_bar": "a place in a splinting bar",
    }
    for path, code in teeth.all:
        key = str(path[1]) if path[0] == "teeth" else str(path[0])
        if key in standing and code in teeth.missing:
            yield Problem(
                path,
                f"tooth {code} has {standing[key]}, but is missing in [teeth]",
                "Take it out of one of the two places.",
            )
        if key == "denture_base" and code not in teeth.missing:
            yield Problem(
                path,
                f"a denture base replaces tooth {code}, which is not missing in [teeth]",
                "Add it to `missing`, or take it out of the base.",
            )
        if key == "denture_base" and code in teeth.not_replaced:
            yield Problem(
                path,
                f"tooth {code} is in a denture base and under `not_replaced`",
                "Take it out of one of the two places.",
            )


def _twice_problems(teeth: _Teeth) -> Iterator[Problem]:
    seen: set[tuple[str, int]] = set()
    for path, code in teeth.all:
        group = ".".join(str(key) for key in path[:2] if isinstance(key, str))
        if path[0] == "splint_bar":  # a tooth may be held to both of its neighbours
            group = f"splint_bar {int(path[1]) + 1}"
        if (group, code) in seen:
            yield Problem(
                path, f"tooth {code} stands twice under {group}", "Take one of the two out."
            )
        seen.add((group, code))


def _alloy_problems(sheet: Sheet) -> Iterator[Problem]:
    known = list(materials())
    if sheet.case.alloy not in known:
        close = nearest(sheet.case.alloy, known)
        hint = f'Did you mean "{close}"? ' if close else ""
        yield Problem(
            ("case", "alloy"),
            f"no alloy {sheet.case.alloy!r} in the material tables",
            f"{hint}Known: {', '.join(known)}.",
        )


def _file_problems(sheet: Sheet, folder: Path) -> Iterator[Problem]:
    for name in ("master", "opposing", "bite"):
        written = getattr(sheet.scans, name)
        if written is not None and not (folder / written).is_file():
            yield Problem(
                ("scans", name),
                f"there is no file {written!r} in {folder.as_posix()}",
                "Correct the name; it counts from the folder of the sheet.",
            )


def _course_problems(sheet: Sheet) -> Iterator[Problem]:
    for n, retainer in enumerate(sheet.retainer):
        clasp = retainer.clasp
        if clasp is None or not clasp.course:
            continue
        path = ("retainer", n, "clasp", "course")
        if clasp.form not in COURSE_FORMS:
            yield Problem(
                path,
                f"the course of a clasp of the form {clasp.form} cannot be prescribed",
                f"Take `course` out; it is for {', '.join(sorted(COURSE_FORMS))}.",
            )
        shares = [place.at_share for place in clasp.course]
        if any(b - a < LEAST_APART - 1e-9 for a, b in pairwise(shares)):
            yield Problem(
                path,
                "the places of a course do not follow each other from its beginning to its tip",
                f"Order them by at_share, each at least {LEAST_APART:g} beyond the one before.",
            )


def _connector_problems(sheet: Sheet, jaw: Jaw) -> Iterator[Problem]:
    form = sheet.major_connector.form if sheet.major_connector else None
    if form is not None and form != "swinging connector" and jaw_of_form(form) != jaw:
        yield Problem(
            ("major_connector", "form"),
            f"a {form} belongs into the {jaw_of_form(form)}, the case is in the {jaw}",
            f"Write form = {_INSTEAD[jaw]}, or leave the table out to have one proposed.",
        )
