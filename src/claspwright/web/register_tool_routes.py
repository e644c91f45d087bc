"""The register as a whole: check, backup, export, questions to it, signatures, health data."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import FileResponse, Response

from claspwright.app.bench import register_tools as tools
from claspwright.app.bench.register_desk import opened
from claspwright.records import Signed
from claspwright.web.bench import TheBench
from claspwright.web.models import JobRow
from claspwright.web.register_models import (
    CheckWish,
    ErasureWish,
    PersonChange,
    PersonPage,
    PersonWish,
    RecalledRow,
    RecallPage,
    RegisterState,
    RestoreWish,
    SignWish,
    ThingPage,
    TracePage,
)
from claspwright.web.register_routes import now
from claspwright.web.sent_files import file_in
from claspwright.web.stage_models import Entered

routes = APIRouter(prefix="/api/register", tags=["register"])
About = Annotated[str, Query(min_length=1, max_length=200, description="KIND:ID, or KIND")]


@routes.get("")
def read_register(bench: TheBench) -> RegisterState:
    """How the register stands, and what was written from it."""
    return RegisterState.model_validate(asdict(tools.standing(bench.lab)))


@routes.post("", status_code=201)
def make_register(bench: TheBench) -> RegisterState:
    """Make the register, or bring it up to this version; all data stay."""
    tools.make(bench.lab)
    return read_register(bench)


@routes.post("/check", status_code=202)
def ask_for_check(body: CheckWish, bench: TheBench) -> JobRow:
    """Ask whether anything was changed behind the register's back."""
    return _ask(bench, "check the register", head=tools.head_of(body.head), on=now())


@routes.post("/backups", status_code=202)
def ask_for_backup(bench: TheBench) -> JobRow:
    """Ask for the whole register in one file; it holds the health data too."""
    return _ask(bench, "back up", file=tools.file_name(now()))


@routes.get("/backups/{file}", response_class=FileResponse)
def read_backup(file: str, bench: TheBench) -> FileResponse:
    """A backup."""
    return file_in(bench.lab.backups, file)


@routes.post("/restored", status_code=202)
def try_backup(body: RestoreWish, bench: TheBench) -> JobRow:
    """Fill a register in another folder from a backup and check it; the open one is left alone."""
    return _ask(bench, "restore", file=tools.kept_backup(bench.lab, body.file))


@routes.post("/exports", status_code=202)
def ask_for_export(bench: TheBench) -> JobRow:
    """Ask for what stands in the register as tables, without health data."""
    return _ask(bench, "export", file=tools.file_name(now()))


@routes.get("/exports/{file}", response_class=FileResponse)
def read_export(file: str, bench: TheBench) -> FileResponse:
    """The tables."""
    return file_in(bench.lab.exports, file)


@routes.get("/things")
def read_thing(subject: About, bench: TheBench) -> ThingPage:
    """Every entry on one thing, or everything of a kind as it stands now."""
    return ThingPage(subject=subject, rows=tools.shown(bench.lab, subject))


@routes.get("/trace")
def read_trace(subject: About, bench: TheBench) -> TracePage:
    """Everything that a thing came from: builds, batches, lots of powder."""
    return TracePage(subject=subject, came_from=tools.traced(bench.lab, subject))


@routes.get("/recall")
def read_recall(subject: About, bench: TheBench) -> RecallPage:
    """Every framework that holds powder of a lot, or came from a batch or build."""
    found = [RecalledRow.model_validate(asdict(r)) for r in tools.recalled(bench.lab, subject)]
    return RecallPage(subject=subject, frameworks=found)


@routes.get("/recall/paper", response_class=Response)
def read_recall_paper(subject: About, bench: TheBench) -> Response:
    """The same as a list to work through, PDF/A."""
    content = tools.recall_paper(bench.lab, subject, now()[:10])
    return Response(content, media_type="application/pdf")


@routes.post("/signatures", status_code=201)
def sign_thing(body: SignWish, bench: TheBench) -> Entered:
    """Put a name under a thing as it stands now, by the hash of its latest entry."""
    signed = Signed(bench.author(body.by), now())
    return Entered(number=tools.sign(bench.lab, body.subject, body.meaning, body.role, signed))


@routes.post("/persons/shown")
def show_person(body: PersonWish, bench: TheBench) -> PersonPage:
    """Health data that are kept of a patient; asking leaves a line among the changes."""
    return PersonPage(pseudonym=body.pseudonym, kept=tools.person(bench.lab, body.pseudonym))


@routes.put("/persons")
def keep_person(body: PersonChange, bench: TheBench) -> PersonPage:
    """Keep health data of a patient apart from the entries."""
    tools.keep_person(bench.lab, body.pseudonym, body.fields)
    return show_person(PersonWish(pseudonym=body.pseudonym), bench)


@routes.post("/erasures", status_code=201)
def erase_person(body: ErasureWish, bench: TheBench) -> Entered:
    """Erase a patient's health data by right; the entries, which hold the pseudonym, stay whole."""
    signed = Signed(bench.author(body.by), now())
    return Entered(number=tools.erase_person(bench.lab, body.pseudonym, body.reason, signed))


def _ask(bench: TheBench, task: str, **wish: object) -> JobRow:
    with opened(bench.lab):
        pass  # told at once where there is none
    return JobRow.of(bench.jobs.ask("", task, wish))
