"""The sheet with what was proposed: the user's own lines as they are, the added ones explained."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import tomlkit
from tomlkit.items import InlineTable

from claspwright.arch import to_universal
from claspwright.base import Point
from claspwright.case.places import Key, Lines, lines_of
from claspwright.case.sheet import CaseSheet
from claspwright.framework import Clasp, DentureBase, Design, MajorConnector, Reason, Retainer

Value = bool | float | str | tuple[float | str, ...]
_ITSELF = "proposed"


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
    writer = _Writer(sheet)
    if "arch" not in writer.table("case"):
        reason = "the missing teeth stand in this jaw"
        writer.into(("case",), {"arch": sheet.prescription.jaw}, reason)
    _add_marks(writer, sheet, proposed)
    if proposed.tilts_deg is not None:
        _add_path(writer, proposed.tilts_deg, proposed.path_reason)
    if proposed.design is not None:
        _add_design(writer, proposed.design)
    return writer.text()


def mark_lines(sheet: CaseSheet, marks: Mapping[int, Point], reason: str) -> str:
    """The lines of [[mark]] tables for teeth that the sheet has no mark for."""
    writer = _Writer(sheet)
    _add_marks(writer, sheet, Proposed(marks=marks, mark_reason=reason))
    return writer.added()


class _Writer:
    """Collects what is added to one sheet; the order of the calls does not matter."""

    def __init__(self, sheet: CaseSheet) -> None:
        self.notation = sheet.notation
        self._text = sheet.text if sheet.text.endswith("\n") else sheet.text + "\n"
        self._tables = tomllib.loads(self._text)
        self._below: list[tuple[int, list[str]]] = []  # line number, lines to add below it
        self._instead: dict[Lines, Any] = {}  # statements with inline tables, as tomlkit has them
        self._appended: list[str] = []

    def table(self, *path: Key) -> Mapping[str, Any]:
        """The user's table at a path; empty where there is none."""
        holder: Any = self._tables
        for key in path:
            try:
                holder = holder[key]
            except (KeyError, IndexError):
                return {}
        return dict(holder)

    def entries(self, name: str) -> list[Mapping[str, Any]]:
        """The user's tables of a list of tables."""
        return list(self._tables.get(name, []))

    def code(self, tooth: int) -> int:
        """A tooth as this sheet writes it."""
        return to_universal(tooth) if self.notation == "universal" else tooth

    def into(self, path: tuple[Key, ...], values: Mapping[str, Value], reason: str) -> None:
        """Add keys to a table of the user."""
        place = lines_of(self._text, path)
        if not values or place is None:
            return
        if self._is_header(place):
            self._below.append((place.last, _lines(values, reason)))
            return
        statement = self._statement(place)
        holder: Any = statement
        for key in path[_depth_of_header(path, statement) :]:
            holder = holder[key]
        if not isinstance(holder, InlineTable):  # written with dots: case.alloy = "..."
            dotted = {".".join(map(str, (*path, key))): value for key, value in values.items()}
            self._below.append((place.last, _lines(dotted, reason)))
            return
        for key, value in values.items():
            holder[key] = _item(value)
        _remark(statement, f"{', '.join(values)} {_ITSELF}: {_one_line(reason)}")

    def append(self, name: str, values: Mapping[str, Value], reason: str, *, many: bool) -> None:
        """Add a table of the program's own; `many` where there may be several."""
        place = lines_of(self._text, (name,))
        if many and place is not None and not self._is_header(place):
            statement = self._statement(place)
            entry = tomlkit.inline_table()
            entry.update({key: _item(value) for key, value in values.items()})
            statement[name].append(entry)
            _remark(statement, f"{_ITSELF}: {_one_line(reason)}")
            return
        header = f"[[{name}]]" if many else f"[{name}]"
        words = f"  # {_ITSELF}: {_one_line(reason)}"
        self._appended += ["", header + words, *_lines(values, reason)]

    def text(self) -> str:
        """The user's text with everything added."""
        changes = [(number + 1, number, added) for number, added in self._below]
        changes += [
            (place.first, place.last, tomlkit.dumps(statement).splitlines())
            for place, statement in self._instead.items()
        ]
        lines = self._text.splitlines()
        for first, last, new in sorted(changes, key=lambda change: change[:2], reverse=True):
            lines[first - 1 : last] = new
        return "\n".join(lines) + "\n" + self.added()

    def added(self) -> str:
        """The tables of the program's own."""
        return "".join(f"{line}\n" for line in self._appended)

    def _is_header(self, place: Lines) -> bool:
        return self._text.splitlines()[place.last - 1].lstrip().startswith("[")

    def _statement(self, place: Lines) -> Any:  # Any: tomlkit types its items loosely
        """Some lines of the user as a document of their own, to be changed."""
        if place not in self._instead:
            lines = self._text.splitlines()[place.first - 1 : place.last]
            self._instead[place] = tomlkit.parse("\n".join(lines) + "\n")
        return self._instead[place]


def _depth_of_header(path: tuple[Key, ...], statement: Mapping[str, Any]) -> int:
    """How many keys of a path belong to the header above the statement."""
    return next(i for i, key in enumerate(path) if isinstance(key, str) and key in statement)


def _remark(statement: Any, words: str) -> None:
    """Put a comment behind the last value of a statement, unless the user has one there."""
    item = next(reversed(list(statement.values())))
    if not item.trivia.comment:
        item.comment(words)


def _add_marks(writer: _Writer, sheet: CaseSheet, proposed: Proposed) -> None:
    for tooth, at in (proposed.marks or {}).items():
        if tooth not in sheet.marks:
            x, y, z = (round(float(value), 3) for value in at)
            values: dict[str, Value] = {"tooth": writer.code(tooth), "at_mm": (x, y, z)}
            reason = proposed.mark_reason or "found on the scan; confirm"
            writer.append("mark", values, reason, many=True)


def _add_path(writer: _Writer, tilts: tuple[float, float], reason: str) -> None:
    values: dict[str, Value] = {
        "anterior_tilt_deg": round(float(tilts[0]), 4),
        "right_lateral_tilt_deg": round(float(tilts[1]), 4),
    }
    given = writer.table("path")
    if "path" not in writer.table():
        writer.append("path", values, reason or "searched; small tilts first", many=False)
    else:
        absent = {key: value for key, value in values.items() if key not in given}
        writer.into(("path",), absent, reason or "no tilt was given")


def _add_design(writer: _Writer, design: Design) -> None:
    reasons = _Reasons(design.reasons)
    connector = _connector_values(design.connector)
    if "major_connector" in writer.table():
        _complete(writer, ("major_connector",), connector, reasons.of("major_connector"))
    else:
        writer.append("major_connector", connector, reasons.of("major_connector"), many=False)
    _add_retainers(writer, design.retainers, reasons)
    for base in design.bases:
        _add_base(writer, base, reasons)


def _add_retainers(writer: _Writer, retainers: Iterable[Retainer], reasons: _Reasons) -> None:
    written = {str(table.get("tooth")): i for i, table in enumerate(writer.entries("retainer"))}
    for retainer in retainers:
        code = writer.code(retainer.tooth)
        reason = reasons.of(f"retainer.{retainer.tooth}")
        values: dict[str, Value] = {"tooth": code, **_retainer_values(retainer)}
        if str(code) not in written:
            writer.append("retainer", values, reason, many=True)
            continue
        at = ("retainer", written[str(code)])
        own = writer.table(*at)
        if retainer.clasp is not None and "clasp" in own:
            clasp = _clasp_values(retainer.clasp)
            _complete(writer, (*at, "clasp"), clasp, reasons.of(f"clasp.{retainer.tooth}", reason))
        _complete(writer, at, values, reason)


def _add_base(writer: _Writer, base: DentureBase, reasons: _Reasons) -> None:
    codes = tuple(writer.code(tooth) for tooth in base.teeth)
    values: dict[str, Value] = {
        "teeth": codes,
        "retention": base.retention,
        "relief_mm": base.relief_mm,
        "thickness_mm": base.thickness_mm,
    }
    reason = reasons.of(f"denture_base.{base.teeth[0]}", reasons.of("denture_base"))
    for i, table in enumerate(writer.entries("denture_base")):
        if {str(code) for code in table.get("teeth", [])} == {str(code) for code in codes}:
            _complete(writer, ("denture_base", i), values, reason)
            return
    writer.append("denture_base", values, reason, many=True)


def _complete(
    writer: _Writer, path: tuple[Key, ...], values: Mapping[str, Value], reason: str
) -> None:
    """Add those values that the user's table lacks."""
    own = writer.table(*path)
    writer.into(path, {key: value for key, value in values.items() if key not in own}, reason)


class _Reasons:
    """Why each component is as it is."""

    def __init__(self, reasons: Iterable[Reason]) -> None:
        self._words: dict[str, str] = {}
        for reason in reasons:
            words = f"{reason.text} ({reason.source})" if reason.source else reason.text
            have = self._words.get(reason.component)
            self._words[reason.component] = f"{have}; {words}" if have else words

    def of(self, component: str, otherwise: str = "the usual figure; confirm") -> str:
        """The reason for a component id, or for the first id that begins with it."""
        if component in self._words:
            return self._words[component]
        found = [words for key, words in self._words.items() if key.startswith(component + ".")]
        return found[0] if found else otherwise


def _connector_values(connector: MajorConnector) -> dict[str, Value]:
    size = "height_mm" if connector.form == "lingual bar" else "width_mm"
    return {
        "form": connector.form,
        size: getattr(connector, size),
        "thickness_mm": connector.thickness_mm,
        "margin_distance_mm": connector.margin_distance_mm,
        "relief_mm": connector.relief_mm,
    }


def _retainer_values(retainer: Retainer) -> dict[str, Value]:
    values: dict[str, Value] = {}
    if retainer.rests:
        values["rest"] = _one_or_list(retainer.rests)
    if retainer.proximal_plates:
        values["proximal_plate"] = _one_or_list(retainer.proximal_plates)
    if retainer.clasp is not None:
        pairs = [f"{key} = {_text(value)}" for key, value in _clasp_values(retainer.clasp).items()]
        values["clasp"] = _Raw(f"{{ {', '.join(pairs)} }}")
    if retainer.indirect:
        values["indirect"] = True
    return values


def _clasp_values(clasp: Clasp) -> dict[str, Value]:
    return {
        "form": clasp.form,
        "side": clasp.side,
        "undercut_mm": clasp.undercut_mm,
        "width_mm": clasp.width_mm,
        "thickness_mm": clasp.thickness_mm,
        "reciprocal": clasp.reciprocal,
    }


class _Raw(str):
    """Text that is TOML already."""

    __slots__ = ()


def _one_or_list(words: tuple[str, ...]) -> Value:
    return words[0] if len(words) == 1 else words


def _lines(values: Mapping[str, Value], reason: str) -> list[str]:
    """Lines `key = value  # proposed: why`."""
    words = _one_line(reason)
    return [f"{key} = {_text(value)}  # {_ITSELF}: {words}" for key, value in values.items()]


def _text(value: Value) -> str:
    return str(value) if isinstance(value, _Raw) else str(_item(value).as_string())


def _item(value: Value) -> Any:  # Any: tomlkit types its items loosely
    if isinstance(value, _Raw):
        return tomlkit.value(value)
    if isinstance(value, tuple):
        return tomlkit.item([_rounded(part) for part in value])
    return tomlkit.item(_rounded(value))


def _rounded(value: Any) -> Any:
    return round(value, 4) if isinstance(value, float) else value


def _one_line(words: str) -> str:
    return " ".join(words.split())
