"""The clinic in between at the bench: what has been said of a case, and what is entered of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from typing import Any

from claspwright.app.before_after import changes_of, enter_film, film_against_seating
from claspwright.app.bench.cases import standing, summary_of_results, view_of
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.register_desk import opened
from claspwright.app.clinic import (
    TryIn,
    approve,
    ask_altered_cast,
    choose_teeth,
    enter_next,
    enter_revision,
    enter_try_in,
    flag_altered_cast,
    take_back,
)
from claspwright.base import InputError
from claspwright.inspection import acceptance_limits
from claspwright.records import Register, Signed, made_from

APPROVED_FILES = ("case.proposed.toml", "framework.stl", "framework.3mf", "report.pdf",
                  "review.html")  # fmt: skip
TOUCHES = ("rest", "retentive arm", "reciprocal arm", "proximal plate", "minor connector")
SAID_YES = "the design is approved for making"  # as the dentist's page writes it
SAID_NO = "a change is asked for"
_SHA256 = re.compile(r"\b[0-9a-f]{64}\b")

Json = dict[str, Any]  # Any: a JSON object


@dataclass(frozen=True, slots=True)
class ClinicStanding:
    """What has passed between laboratory and clinic."""

    case_id: str
    entered: bool
    fields: Json  # of the case: teeth, shades, what it came from
    teeth: tuple[int, ...]  # that the prescription has replaced
    revisions: tuple[Json, ...]  # the oldest first, each with its approvals
    stale: bool  # the design was changed since it was worked out
    parts: tuple[str, ...]
    places: tuple[str, ...]  # components that may touch too early
    entries: Mapping[str, tuple[Json, ...]]  # by kind, the oldest first
    altered_cast_unsaid: bool
    changes: Mapping[str, tuple[Json, ...]]  # figures through the inspections, by framework
    film_off_um: Mapping[str, Mapping[str, float]]  # film less seating, by framework and area


def clinic_standing(lab: Laboratory, name: str) -> ClinicStanding:
    """How a case stands between laboratory and clinic."""
    sheet = lab.sheet_of(name)
    asked = sheet.prescription
    teeth = tuple(t for t in asked.missing if t not in asked.not_replaced)
    stale = bool(summary_of_results(lab, name)) and standing(lab, name, sheet) != "worked out"
    places = _places(lab, name)
    if not lab.has_register:
        return ClinicStanding(asked.case_id, False, {}, teeth, (), stale, (), places, {}, False,
                              {}, {})  # fmt: skip
    with opened(lab) as register:
        now = register.current("case", asked.case_id)
        if now is None:
            return ClinicStanding(asked.case_id, False, {}, teeth, (), stale, (), places, {},
                                  False, {}, {})  # fmt: skip
        subject = f"case:{asked.case_id}"
        parts = tuple(id_ for id_, _ in made_from(register, subject, "part"))
        entries = {
            kind: tuple({"id": i, **body} for i, body in made_from(register, subject, kind))
            for kind in ("jaw_record", "altered_cast", "delivery", "follow_up", "case")
        }
        entries["adjustment"] = tuple(
            {"id": i, **body}
            for part in parts
            for i, body in made_from(register, f"part:{part}", "adjustment")
        )
        seen = [part for part in parts if made_from(register, f"part:{part}", "inspection")]
        return ClinicStanding(
            asked.case_id, True, dict(now[1]), teeth, tuple(_revisions(register, subject)), stale,
            parts, places, entries, ask_altered_cast(register, asked.case_id),
            {part: tuple({**asdict(c), "change": c.change} for c in changes_of(register, part))
             for part in seen},
            {part: film_against_seating(register, part) for part in seen},
        )  # fmt: skip


def offer_revision(lab: Laboratory, name: str, signed: Signed) -> tuple[str, str]:
    """Keep the design as it was worked out as the next revision; returns its id and hash.

    Raises:
        InputError: the case was not worked out, or its design is stale.
    """
    sheet = lab.sheet_of(name)
    if standing(lab, name, sheet) != "worked out":
        raise InputError("the design is not worked out as the sheet stands", place=name,
                         remedy="Work the case out, then offer it for approval.")  # fmt: skip
    folder = lab.results_of(name)
    files = [folder / file for file in APPROVED_FILES if (folder / file).is_file()]
    words = "; ".join((view_of(lab, name) or {}).get("design_words", ()))
    with _case(lab, name) as (register, case_id):
        return enter_revision(register, case_id, files, signed, design=words)


def answer_revision(
    lab: Laboratory, name: str, revision: str, seen_hash: str, signed: Signed, *, approved: bool,
    text: str = "",
) -> int:  # fmt: skip
    """Enter the prescriber's word, bound to the hash of the revision that was seen."""
    with _case(lab, name) as (register, case_id):
        _of_case(register, case_id, revision)
        return approve(register, revision, seen_hash, signed, approved=approved, text=text)


def answer_from_page(lab: Laboratory, name: str, text: str, signed: Signed) -> tuple[str, bool]:
    """Enter what the dentist's page wrote: it names the framework's files by their hashes.

    Returns:
        The revision that holds these very files, and whether it was approved.

    Raises:
        InputError: the text says neither yes nor no, names no hash, or no revision of this case
            holds these files.
    """
    said = [yes for words, yes in ((SAID_YES, True), (SAID_NO, False)) if words in text]
    hashes = set(_SHA256.findall(text.lower()))
    if len(said) != 1 or not hashes:
        raise InputError("this is not the whole text of the dentist's page", place="text",
                         remedy="Paste it from its first line to its date.")  # fmt: skip
    with _case(lab, name) as (register, case_id):
        if case_id not in text:
            raise InputError("the text is about another case", place="text",
                             remedy=f"Take the answer on {case_id}.")  # fmt: skip
        for id_, body in reversed(made_from(register, f"case:{case_id}", "revision")):
            if hashes <= set(body.get("files", ())):
                approve(register, id_, str(body["hash"]), signed, approved=said[0], text=text)
                return id_, said[0]
    raise InputError(
        "no revision of this case holds the files that the text refers to", place="text",
        remedy="Offer the design as it stands and ask again.",
    )  # fmt: skip


def try_in(lab: Laboratory, name: str, tried: TryIn, signed: Signed) -> int:
    """Enter one adjustment on a framework of this case."""
    with _case(lab, name) as (register, case_id):
        _part(register, case_id, tried.part)
        return enter_try_in(register, tried, signed)


def film(
    lab: Laboratory, name: str, part: str, gaps_um: Mapping[str, float], signed: Signed
) -> int:
    """Enter the thickness of a silicone film under each rest."""
    limit = 1000.0 * float(acceptance_limits()["fit.rest_gap"].stop_above or 0.0)
    with _case(lab, name) as (register, case_id):
        _part(register, case_id, part)
        return enter_film(register, part, gaps_um, limit, signed)


def next_of(lab: Laboratory, name: str, kind: str, fields: Json, signed: Signed) -> int:
    """Enter a jaw record, a delivery or what was seen at recall."""
    given = {key: value for key, value in fields.items() if value not in (None, "")}
    with _case(lab, name) as (register, case_id):
        return enter_next(register, kind, case_id, given, signed)


def altered_cast(lab: Laboratory, name: str, needed: bool, done: str, signed: Signed) -> int:
    """Say whether the free ends need an altered cast, and when it was done."""
    with _case(lab, name) as (register, case_id):
        return flag_altered_cast(register, case_id, signed, needed=needed, done=done)


def teeth(lab: Laboratory, name: str, fields: dict[str, str], signed: Signed) -> int:
    """Enter tooth mould, shade, gum shade and the teeth to set."""
    with _case(lab, name) as (register, case_id):
        return choose_teeth(register, case_id, fields, signed)


def back_again(
    lab: Laboratory, name: str, fresh: str, work: str, reason: str, signed: Signed
) -> int:
    """Take in a remake, repair or reline as a case of its own; returns its entry's number."""
    with _case(lab, name) as (register, case_id):
        if register.current("case", fresh) is not None:
            raise InputError(f"the register holds a case {fresh!r} already", place="id",
                             remedy="Take another id.")  # fmt: skip
        return take_back(register, case_id, fresh, work, reason, signed)[0]


def _revisions(register: Register, subject: str) -> Iterator[Json]:
    for id_, body in made_from(register, subject, "revision"):
        said = [row for _, row in made_from(register, f"revision:{id_}", "approval")]
        yield {"id": id_, "hash": body["hash"], "design": body.get("design", ""),
               "answers": [{"approved": s["approved"], "text": s.get("text", "")}
                           for s in said]}  # fmt: skip


def _places(lab: Laboratory, name: str) -> tuple[str, ...]:
    view = view_of(lab, name)
    return tuple(c["id"] for c in (view or {}).get("components", ()) if c["kind"] in TOUCHES)


def _of_case(register: Register, case_id: str, revision: str) -> None:
    if revision not in dict(made_from(register, f"case:{case_id}", "revision")):
        raise InputError(f"there is no revision {revision!r} of this case", place=case_id,
                         remedy="Take one of its list.")  # fmt: skip


def _part(register: Register, case_id: str, part: str) -> None:
    if part not in dict(made_from(register, f"case:{case_id}", "part")):
        raise InputError(f"there is no framework {part!r} of this case", place=case_id,
                         remedy="Enter its build first, or take one of the list.")  # fmt: skip


@contextmanager
def _case(lab: Laboratory, name: str) -> Iterator[tuple[Register, str]]:
    case_id = lab.sheet_of(name).prescription.case_id
    with opened(lab) as register:
        if register.current("case", case_id) is None:
            raise InputError("the register does not hold this case yet", place=case_id,
                             remedy="Enter it first.")  # fmt: skip
        yield register, case_id
