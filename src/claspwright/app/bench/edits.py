"""Changes a technician makes at the bench, each put into the sheet as a revision."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, fields, replace

from claspwright.app.bench.cases import proposed_sheet
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.revisions import History, change
from claspwright.case import (
    CaseSheet,
    Given,
    Values,
    with_base,
    with_mark,
    with_retainer,
    with_table,
    without_retainer,
    without_table,
)
from claspwright.framework import COURSE_FORMS, Clasp, DentureBase, MajorConnector, Retainer


@dataclass(frozen=True, slots=True)
class By:
    """Who makes a change, why, and on which revision it was made."""

    author: str
    reason: str
    onto: int | None = None


def set_path(lab: Laboratory, name: str, by: By, tilts_deg: tuple[float, float] | None) -> History:
    """Prescribe the path of placement (anterior, right lateral tilt), or have it searched."""
    text = lab.sheet_of(name).text
    if tilts_deg is None:
        new = without_table(text, "path")
    else:
        front, side = tilts_deg
        new = with_table(
            text,
            "path",
            {"anterior_tilt_deg": float(front), "right_lateral_tilt_deg": float(side)},
        )
    return _changed(lab, name, new, by)


def set_mark(lab: Laboratory, name: str, by: By, tooth: int, at_mm: Sequence[float]) -> History:
    """Put the mark of a tooth at a point, in the frame of the scan file [mm]."""
    sheet = lab.sheet_of(name)
    return _changed(lab, name, with_mark(sheet.text, sheet.notation, tooth, at_mm), by)


def set_retainer(lab: Laboratory, name: str, by: By, retainer: Retainer) -> History:
    """Say what one tooth carries.

    The course that an arm had on another face, from another end or in another form falls away.
    """
    sheet = lab.sheet_of(name)
    clasp = retainer.clasp
    if clasp is not None and clasp.course:
        stands = next((r for r in design_in_force(lab, name)[0] if r.tooth == retainer.tooth), None)
        was = None if stands is None else stands.clasp
        moved = was is not None and was.course and _lies(was) != _lies(clasp)
        if moved or clasp.form not in COURSE_FORMS:
            retainer = replace(retainer, clasp=replace(clasp, course=()))
    new = with_retainer(sheet.text, sheet.notation, retainer.tooth, _retainer_values(retainer))
    return _changed(lab, name, new, by)


def drop_retainer(lab: Laboratory, name: str, by: By, tooth: int) -> History:
    """Take what the sheet says of a tooth out, so that it is proposed again."""
    sheet = lab.sheet_of(name)
    return _changed(lab, name, without_retainer(sheet.text, sheet.notation, tooth), by)


def set_connector(lab: Laboratory, name: str, by: By, connector: MajorConnector) -> History:
    """Say which major connector there shall be, with its measures."""
    values: Values = {f.name: getattr(connector, f.name) for f in fields(MajorConnector)}
    across = "height_mm" if "bar" in connector.form else "width_mm"
    other = "width_mm" if across == "height_mm" else "height_mm"
    new = with_table(lab.sheet_of(name).text, "major_connector", {**values, other: None})
    return _changed(lab, name, new, by)


def set_base(lab: Laboratory, name: str, by: By, base: DentureBase) -> History:
    """Say how a base shall be, with its reach on either side."""
    sheet = lab.sheet_of(name)
    plain = DentureBase(base.teeth)
    values: Values = {
        f.name: getattr(base, f.name)
        for f in fields(DentureBase)
        if f.name != "teeth" and getattr(base, f.name) != getattr(plain, f.name)
    }
    return _changed(lab, name, with_base(sheet.text, sheet.notation, base.teeth, values), by)


def bases_in_force(lab: Laboratory, name: str) -> tuple[DentureBase, ...]:
    """Bases: what the sheet says, and the last proposal for all others."""
    said = lab.sheet_of(name).wishes.bases
    proposed = proposed_sheet(lab, name)
    taken = {tooth for base in said for tooth in base.teeth}
    more = () if proposed is None else proposed.wishes.bases
    return (*said, *(base for base in more if not taken & set(base.teeth)))


def design_in_force(
    lab: Laboratory, name: str
) -> tuple[tuple[Retainer, ...], MajorConnector | None]:
    """Retainers and connector: what the sheet says, and the last proposal for all else."""
    sheet = lab.sheet_of(name)
    proposed: CaseSheet | None = proposed_sheet(lab, name)
    said = {r.tooth: r for r in sheet.wishes.retainers}
    if proposed is not None:
        said = {r.tooth: r for r in proposed.wishes.retainers} | said
    connector = sheet.wishes.connector
    if connector is None and proposed is not None:
        connector = proposed.wishes.connector
    return tuple(said[code] for code in sorted(said)), connector


def _retainer_values(retainer: Retainer) -> Values:
    return {
        "rest": _one_or_list(retainer.rests),
        "proximal_plate": _one_or_list(retainer.proximal_plates),
        "clasp": None if retainer.clasp is None else _clasp_values(retainer.clasp),
        "indirect": True if retainer.indirect else None,
    }


def _lies(clasp: Clasp) -> tuple[str, str, str | None]:
    return clasp.form, clasp.side, clasp.origin


def _clasp_values(clasp: Clasp) -> dict[str, Given | None]:
    values: dict[str, Given | None] = {f.name: getattr(clasp, f.name) for f in fields(Clasp)}
    return values | {"course": [asdict(place) for place in clasp.course] or None}


def _one_or_list(words: Sequence[str]) -> str | list[str] | None:
    if not words:
        return None
    return words[0] if len(words) == 1 else list(words)


def _changed(lab: Laboratory, name: str, text: str, by: By) -> History:
    return change(lab, name, text, author=by.author, reason=by.reason, onto=by.onto)
