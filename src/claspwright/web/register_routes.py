"""The register: entries, documents, letting a case go, the month."""

from __future__ import annotations

from dataclasses import asdict
from datetime import UTC, date, datetime
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import Response

from claspwright.app.bench import register_desk as desk
from claspwright.app.month import Casting, Rates
from claspwright.app.rates_file import read_rates, write_rates
from claspwright.records import Signed
from claspwright.web.bench import BuildName, CaseName, TheBench
from claspwright.web.clinic_models import QualityPage
from claspwright.web.models import JobRow
from claspwright.web.stage_models import (
    Entered,
    EnteredParts,
    EntryWish,
    Kinds,
    LoadedWish,
    MonthPage,
    Particulars,
    RatesPage,
    RegisterPage,
    RegisterRow,
    Signature,
)

routes = APIRouter(prefix="/api", tags=["register"])
Day = Annotated[date, Query()]


@routes.get("/cases/{name}/register")
def read_case_register(name: CaseName, bench: TheBench) -> RegisterPage:
    """What the register holds of a case and what keeps it from leaving."""
    found = desk.case_standing(bench.lab, name, on=now()[:10])
    return RegisterPage(
        case_id=found.case_id,
        entered=found.entered,
        entries=[RegisterRow(kind=k, id=i, fields=body) for k, i, body in found.entries],
        stops=list(found.stops),
        sent=found.sent,
    )


@routes.post("/cases/{name}/register", status_code=201)
def enter_case(name: CaseName, body: Signature, bench: TheBench) -> Entered:
    """Enter a case from its sheet; where it is there already, the entry takes its place."""
    return Entered(number=desk.enter_case(bench.lab, name, Signed(bench.author(body.by), now())))


@routes.post("/cases/{name}/papers", status_code=202)
def ask_for_papers(name: CaseName, body: Signature, bench: TheBench) -> JobRow:
    """Ask for all documents of a case as PDF/A; they are entered in the register."""
    case_id = bench.lab.sheet_of(name).prescription.case_id
    wish = {"case_id": case_id, "by": bench.author(body.by), "on": now()}
    return JobRow.of(bench.jobs.ask(name, "papers", wish))


@routes.post("/cases/{name}/dispatch", status_code=201)
def send_case(name: CaseName, body: Signature, bench: TheBench) -> Entered:
    """Enter that a case was sent; refused while any stop is open."""
    return Entered(number=desk.send(bench.lab, name, Signed(bench.author(body.by), now())))


@routes.get("/register/kinds")
def list_kinds() -> Kinds:
    """What can be entered, with its fields."""
    return Kinds(kinds=desk.kinds())


@routes.post("/register/entries", status_code=201)
def add_entry(body: EntryWish, bench: TheBench) -> Entered:
    """Enter one thing, such as a lot, a build or an inspection."""
    signed = Signed(bench.author(body.by), now())
    return Entered(number=desk.enter(bench.lab, body.kind, body.id, body.fields, signed))


@routes.post("/builds/{build}/register", status_code=201)
def enter_build(build: BuildName, body: LoadedWish, bench: TheBench) -> EnteredParts:
    """Enter a build with its parts and the powder that it was loaded with."""
    signed = Signed(bench.author(body.by), now())
    parts = desk.enter_platforms(bench.lab, build, body.feedstock, signed)
    return EnteredParts(parts=list(parts))


@routes.get("/laboratory")
def read_particulars(bench: TheBench) -> Particulars:
    """The laboratory as the documents print it."""
    return Particulars.model_validate(desk.particulars(bench.lab))


@routes.put("/laboratory")
def change_particulars(body: Particulars, bench: TheBench) -> Particulars:
    """Say how the documents shall print the laboratory."""
    desk.set_particulars(bench.lab, body.model_dump())
    return Particulars.model_validate(desk.particulars(bench.lab))


@routes.get("/month")
def read_month(first: Day, last: Day, bench: TheBench) -> MonthPage:
    """What the laboratory made, what it took and what went wrong, both days included."""
    figures = desk.month(bench.lab, first.isoformat(), last.isoformat())
    return MonthPage(first=first, last=last, figures=figures)


@routes.get("/month/paper", response_class=Response)
def read_month_paper(first: Day, last: Day, bench: TheBench) -> Response:
    """The same as a document, PDF/A."""
    content = desk.month_paper(bench.lab, first.isoformat(), last.isoformat())
    return Response(content, media_type="application/pdf")


@routes.get("/rates")
def read_prices(bench: TheBench) -> RatesPage:
    """What things cost in this laboratory."""
    return RatesPage.model_validate(asdict(read_rates(bench.lab.particulars)))


@routes.put("/rates")
def change_prices(body: RatesPage, bench: TheBench) -> RatesPage:
    """Say what things cost in this laboratory; kept in its file beside its particulars."""
    told = body.model_dump(exclude={"given"})
    cast = told.pop("casting")
    casting = None if cast is None else Casting(**cast)
    write_rates(bench.lab.particulars, Rates(**told, casting=casting, given=True))
    return read_prices(bench)


@routes.get("/quality")
def read_quality(first: Day, last: Day, bench: TheBench) -> QualityPage:
    """Control charts, capability, groups and drivers of the fit, both days included."""
    found = desk.quality(bench.lab, first.isoformat(), last.isoformat())
    return QualityPage(first=first, last=last, told=found)


def now() -> str:
    """The time as entries carry it: UTC, to the second."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%S")
