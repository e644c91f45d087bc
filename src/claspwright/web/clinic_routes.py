"""The clinic in between: approval, try-in, jaw record, teeth, delivery, recall, and back again."""

from __future__ import annotations

from dataclasses import asdict

from fastapi import APIRouter

from claspwright.app.bench import clinic_desk as desk
from claspwright.app.clinic import TryIn
from claspwright.records import Signed
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.clinic_models import (
    AlteredCastWish,
    AnswerTaken,
    AnswerText,
    AnswerWish,
    BackWish,
    ClinicPage,
    DeliveryWish,
    FilmWish,
    FollowUpWish,
    JawRecordWish,
    RevisionKept,
    TeethWish,
    TryInWish,
)
from claspwright.web.register_routes import now
from claspwright.web.stage_models import Entered, Signature

routes = APIRouter(prefix="/api/cases/{name}/clinic", tags=["clinic"])


def signed(bench: TheBench, by: str) -> Signed:
    """Who enters something, now."""
    return Signed(bench.author(by), now())


@routes.get("")
def read_clinic(name: CaseName, bench: TheBench) -> ClinicPage:
    """What has passed between laboratory and clinic."""
    return ClinicPage.model_validate(asdict(desk.clinic_standing(bench.lab, name)))


@routes.post("/revisions", status_code=201)
def offer_revision(name: CaseName, body: Signature, bench: TheBench) -> RevisionKept:
    """Keep the design as it was worked out, to be approved by its hash."""
    id_, digest = desk.offer_revision(bench.lab, name, signed(bench, body.by))
    return RevisionKept(id=id_, hash=digest)


@routes.post("/answers", status_code=201)
def enter_answer(name: CaseName, body: AnswerWish, bench: TheBench) -> Entered:
    """Enter the prescriber's word, bound to the hash of what was seen."""
    number = desk.answer_revision(
        bench.lab, name, body.revision, body.seen_hash, signed(bench, body.by),
        approved=body.approved, text=body.text,
    )  # fmt: skip
    return Entered(number=number)


@routes.post("/answers/text", status_code=201)
def take_answer_text(name: CaseName, body: AnswerText, bench: TheBench) -> AnswerTaken:
    """Enter the text of the dentist's page; its hashes say which revision was seen."""
    found = desk.answer_from_page(bench.lab, name, body.text, signed(bench, body.by))
    return AnswerTaken(revision=found[0], approved=found[1])


@routes.post("/try-ins", status_code=201)
def enter_try_in(name: CaseName, body: TryInWish, bench: TheBench) -> Entered:
    """Enter an adjustment at a try-in: where and how much."""
    tried = TryIn(**body.model_dump(exclude={"by"}))
    return Entered(number=desk.try_in(bench.lab, name, tried, signed(bench, body.by)))


@routes.post("/films", status_code=201)
def enter_film(name: CaseName, body: FilmWish, bench: TheBench) -> Entered:
    """Enter the thickness of a silicone film under each rest."""
    who = signed(bench, body.by)
    return Entered(number=desk.film(bench.lab, name, body.part, body.gaps_um, who))


@routes.post("/jaw-records", status_code=201)
def enter_jaw_record(name: CaseName, body: JawRecordWish, bench: TheBench) -> Entered:
    """Enter a jaw record taken with wax rims on the framework."""
    return _next(bench, name, "jaw_record", body)


@routes.post("/altered-cast", status_code=201)
def say_altered_cast(name: CaseName, body: AlteredCastWish, bench: TheBench) -> Entered:
    """Say whether the free ends need an altered cast, and when it was done."""
    done = "" if body.done is None else body.done.isoformat()
    who = signed(bench, body.by)
    return Entered(number=desk.altered_cast(bench.lab, name, body.needed, done, who))


@routes.post("/teeth", status_code=201)
def choose_teeth(name: CaseName, body: TeethWish, bench: TheBench) -> Entered:
    """Enter tooth mould, shade, gum shade and the teeth to set."""
    fields = body.model_dump(exclude={"by"})
    return Entered(number=desk.teeth(bench.lab, name, fields, signed(bench, body.by)))


@routes.post("/deliveries", status_code=201)
def enter_delivery(name: CaseName, body: DeliveryWish, bench: TheBench) -> Entered:
    """Enter that the denture was delivered, and how it fitted."""
    return _next(bench, name, "delivery", body)


@routes.post("/follow-ups", status_code=201)
def enter_follow_up(name: CaseName, body: FollowUpWish, bench: TheBench) -> Entered:
    """Enter what was seen when the patient was called in again."""
    return _next(bench, name, "follow_up", body)


@routes.post("/back", status_code=201)
def take_back(name: CaseName, body: BackWish, bench: TheBench) -> Entered:
    """Take in a remake, repair or reline as a case of its own, linked to this one."""
    who = signed(bench, body.by)
    number = desk.back_again(bench.lab, name, body.id, body.work, body.reason, who)
    return Entered(number=number)


def _next(
    bench: TheBench, name: str, kind: str, body: JawRecordWish | DeliveryWish | FollowUpWish
) -> Entered:
    fields = body.model_dump(mode="json", exclude={"by"})
    return Entered(number=desk.next_of(bench.lab, name, kind, fields, signed(bench, body.by)))
