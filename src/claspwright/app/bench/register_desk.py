"""The register at the bench: what a case lacks before it may leave, entries, sending, the month."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from typing import Any

import tomlkit

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.carry_out import kennedy_of
from claspwright.app.case_papers import read_laboratory
from claspwright.app.dispatch import dispatch, open_stops
from claspwright.app.enter_build import enter_build
from claspwright.app.month import month_of
from claspwright.app.month_page import month_page
from claspwright.app.quality import quality_of, told
from claspwright.app.rates_file import RATES, read_rates
from claspwright.app.whole_file import write_whole_text
from claspwright.base import InputError
from claspwright.records import (
    KINDS,
    Register,
    Signed,
    init_register,
    made_from,
    open_register,
)


@dataclass(frozen=True, slots=True)
class CaseStanding:
    """What the register holds of a case."""

    case_id: str
    entered: bool
    entries: tuple[tuple[str, str, dict[str, Any]], ...]  # kind, id, fields; Any: JSON
    stops: tuple[str, ...]  # what keeps it from leaving
    sent: str  # when; empty where it was not sent


def case_standing(lab: Laboratory, name: str, *, on: str) -> CaseStanding:
    """What the register holds of a case and what it still lacks on a day."""
    case_id = lab.sheet_of(name).prescription.case_id
    if not lab.has_register:
        return CaseStanding(case_id, False, (), (), "")
    with opened(lab) as register:
        now = register.current("case", case_id)
        if now is None:
            return CaseStanding(case_id, False, (), (), "")
        entries = [("case", case_id, now[1])]
        entries += list(_below(register, f"case:{case_id}"))
        sent = next((body.get("sent", "") for kind, _, body in entries if kind == "dispatch"), "")
        stops = tuple(stop.text for stop in open_stops(register, case_id, on=on))
    return CaseStanding(case_id, True, tuple(entries), stops, sent)


def enter(lab: Laboratory, kind: str, id_: str, body: Mapping[str, Any], signed: Signed) -> int:
    """Enter one thing; where it is there already, the entry takes its place. Returns its number."""
    with init_register(str(lab.register), files="") as register:
        now = register.current(kind, id_) if kind in KINDS else None
        supersedes = None if now is None else now[0]
        return register.add(kind, id_, body, signed, supersedes=supersedes)


def enter_case(lab: Laboratory, name: str, signed: Signed) -> int:
    """Enter a case from its sheet."""
    sheet = lab.sheet_of(name)
    asked = sheet.prescription
    body = {
        "arch": asked.jaw,
        "patient": asked.patient or "not named",
        "prescriber": asked.prescriber or "not named",
        "alloy": asked.alloy,
        "kennedy_class": str(kennedy_of(sheet)),
        **({"due": asked.due.isoformat()} if asked.due else {}),
    }
    with init_register(str(lab.register), files="") as register:
        now = register.current("case", asked.case_id)
        said = {"received": signed.at[:10]} if now is None else now[1]  # teeth, shades and the like
        supersedes = None if now is None else now[0]
        return register.add("case", asked.case_id, {**said, **body}, signed, supersedes=supersedes)


def enter_platforms(
    lab: Laboratory, build: str, feedstock: Sequence[str], signed: Signed
) -> tuple[str, ...]:
    """Enter a build with its parts, under its name here; returns the ids of the parts."""
    with opened(lab) as register:
        return enter_build(register, lab.build_of(build), build, feedstock, signed)


def send(lab: Laboratory, name: str, signed: Signed) -> int:
    """Enter that a case was sent; refused while a stop is open."""
    case_id = lab.sheet_of(name).prescription.case_id
    with opened(lab) as register:
        return dispatch(register, case_id, signed)


def kinds() -> dict[str, dict[str, dict[str, str]]]:
    """Fields of each kind of entry with their types: needed and optional."""
    return {
        kind: {
            "needed": {name: of.__name__ for name, of in rules.needed.items()},
            "optional": {name: of.__name__ for name, of in rules.optional.items()},
        }
        for kind, rules in KINDS.items()
    }


def quality(lab: Laboratory, first: str, last: str) -> dict[str, Any]:  # Any: a tree for JSON
    """Charts, capability, groups and drivers of the fit from one day to another."""
    with opened(lab) as register:
        return told(quality_of(register, first, last))


def month(lab: Laboratory, first: str, last: str) -> dict[str, Any]:  # Any: a tree for JSON
    """Figures from one day to another, both included, by the laboratory's own prices."""
    with opened(lab) as register:
        figures = asdict(month_of(register, first, last, read_rates(lab.particulars)))
    figures["remakes"] = dict(figures["remakes"])
    figures["bias_by_place_um"] = dict(figures["bias_by_place_um"])
    return figures


def month_paper(lab: Laboratory, first: str, last: str) -> bytes:
    """The same as PDF/A."""
    with opened(lab) as register:
        found = month_of(register, first, last, read_rates(lab.particulars))
    return month_page(found, first, last)


def particulars(lab: Laboratory) -> dict[str, Any]:  # Any: texts, and a list of them
    """Name, address and so on; empty where they were not given yet."""
    return {key: value for key, value in _kept(lab).items() if key != RATES}


def set_particulars(lab: Laboratory, fields: Mapping[str, Any]) -> None:
    """Put the laboratory's particulars in place; they must be sound."""
    given = {key: value for key, value in fields.items() if value}
    kept = _kept(lab)
    text = tomlkit.dumps(given | ({RATES: kept[RATES]} if RATES in kept else {}))
    fresh = lab.kept("laboratory.toml")
    fresh.parent.mkdir(parents=True, exist_ok=True)
    write_whole_text(fresh, text)
    read_laboratory(fresh)
    write_whole_text(lab.particulars, text)


def _kept(lab: Laboratory) -> dict[str, Any]:  # Any: whatever the file holds
    if not lab.particulars.is_file():
        return {}
    return tomllib.loads(lab.particulars.read_text(encoding="utf-8"))


@contextmanager
def opened(lab: Laboratory) -> Iterator[Register]:
    """The laboratory's register.

    Raises:
        InputError: nothing was entered yet.
    """
    if not lab.has_register:
        raise InputError("there is no register yet", place="register",
                         remedy="Enter the first case.")  # fmt: skip
    with open_register(str(lab.register), files="") as register:
        yield register


def _below(register: Register, subject: str) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Everything that was entered under a thing, and under that."""
    for kind in ("revision", "part", "acrylic", "document", "complaint", "nonconformity",
                 "approval", "inspection", "adjustment", "jaw_record", "altered_cast", "delivery",
                 "follow_up", "dispatch"):  # fmt: skip
        for id_, body in made_from(register, subject, kind):
            yield kind, id_, body
            if kind in ("revision", "part"):
                yield from _below(register, f"{kind}:{id_}")
