"""The stages of a case: survey, proof, preparation, furnace, inspection, papers."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Literal

from fastapi import APIRouter, File, Form, UploadFile
from fastapi.responses import FileResponse

from claspwright.app.bench.laboratory import CASE_STAGES
from claspwright.app.bench.stages import build_states, stage_state
from claspwright.app.bench.view_files import VIEW_NAME
from claspwright.base import InputError
from claspwright.process import schedule
from claspwright.web.bench import Bench, CaseName, TheBench
from claspwright.web.models import JobRow
from claspwright.web.register_routes import now
from claspwright.web.sent_files import (
    LOGS,
    MOST_LOG_BYTES,
    MOST_SCAN_BYTES,
    SCANS,
    file_in,
    kept,
)
from claspwright.web.stage_models import BuildRow, ProofWish, StageRow, Stages

routes = APIRouter(prefix="/api/cases", tags=["later stages"])
_Id = Annotated[str, Form(max_length=100)]
StageName = Literal["survey", "scans", "proof", "preparation", "furnace", "inspection", "papers"]


@routes.get("/{name}/stages")
def read_stages(name: CaseName, bench: TheBench) -> Stages:
    """How every later stage of a case stands, and the builds that hold it."""
    bench.lab.folder_of(name)
    return Stages(
        stages=[
            StageRow.model_validate(asdict(stage_state(bench.lab, name, s))) for s in CASE_STAGES
        ],
        builds=[BuildRow.model_validate(asdict(b)) for b in build_states(bench.lab, name)],
    )


@routes.get("/{name}/stages/{stage}/files/{file}", response_class=FileResponse)
def read_stage_file(name: CaseName, stage: StageName, file: str, bench: TheBench) -> FileResponse:
    """A file that a later stage left, such as proof.pdf."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.made(stage, name), file)


@routes.get("/{name}/stages/{stage}/view", response_class=FileResponse)
def read_stage_view(name: CaseName, stage: StageName, bench: TheBench) -> FileResponse:
    """The list of what the screen shows of a later stage, as JSON."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.kept(stage, name), VIEW_NAME)


@routes.get("/{name}/stages/{stage}/view/{file}", response_class=FileResponse)
def read_stage_mesh(name: CaseName, stage: StageName, file: str, bench: TheBench) -> FileResponse:
    """A mesh of that view."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.kept(stage, name), file)


@routes.post("/{name}/survey", status_code=202)
def ask_for_survey(name: CaseName, bench: TheBench) -> JobRow:
    """Ask for the survey: path of placement, undercuts, guiding planes, transfer to the stone."""
    return JobRow.of(bench.jobs.ask(name, "survey", {"on": now()[:10]}))


@routes.post("/{name}/proof", status_code=202)
def ask_for_proof(name: CaseName, body: ProofWish, bench: TheBench) -> JobRow:
    """Ask for the proof: arms, lifting, and the stress of the solid where it is asked for."""
    return JobRow.of(bench.jobs.ask(name, "prove", body.model_dump()))


@routes.post("/{name}/preparation", status_code=202)
def ask_for_preparation(name: CaseName, bench: TheBench) -> JobRow:
    """Ask what the dentist should still reduce before the final scan."""
    return JobRow.of(bench.jobs.ask(name, "prepare"))


@routes.post("/{name}/furnace", status_code=202)
def send_furnace_log(
    name: CaseName,
    bench: TheBench,
    log: Annotated[UploadFile, File(description="CSV file of the logger on the platform")],
    wanted: Annotated[str, Form(min_length=1, max_length=64, description="schedule or alloy")],
    builds: Annotated[str, Form(max_length=200, description="to enter it: builds")] = "",
    run: Annotated[str, Form(max_length=64, description="to enter it: id of the run")] = "",
    instrument: _Id = "",
    by: _Id = "",
) -> JobRow:
    """Hold the log of a stress relief against its schedule; it is read by another process."""
    bench.lab.folder_of(name)
    schedule(wanted)
    wish = {
        **kept(bench.lab, log, "log", LOGS, MOST_LOG_BYTES),
        **_entry(bench, instrument, by, asked=bool(builds.strip())),
        "schedule": wanted,
        "builds": [one.strip() for one in builds.split(",") if one.strip()],
        "run": run.strip() or (log.filename or "run").rsplit(".", 1)[0],
    }
    return JobRow.of(bench.jobs.ask(name, "furnace", wish))


@routes.post("/{name}/inspection", status_code=202)
def send_scan_of_the_metal(
    name: CaseName,
    bench: TheBench,
    scan: Annotated[UploadFile, File(description="scan of the finished metal, mm, in any pose")],
    part: Annotated[str, Form(max_length=120, description="to enter it: framework's id")] = "",
    instrument: _Id = "",
    by: _Id = "",
) -> JobRow:
    """Hold a scan of the finished metal against design and model; another process reads it."""
    bench.lab.folder_of(name)
    wish = {
        **kept(bench.lab, scan, "scan", SCANS, MOST_SCAN_BYTES),
        **_entry(bench, instrument, by, asked=bool(part.strip())),
        "part": part.strip(),
    }
    return JobRow.of(bench.jobs.ask(name, "inspect", wish))


@routes.post("/{name}/scans", status_code=202)
def send_other_scan(
    name: CaseName,
    bench: TheBench,
    scan: Annotated[UploadFile, File(description="another scan of the same arch, in any pose")],
) -> JobRow:
    """Compare another scan with the case's master: what differs, where; nothing is changed."""
    bench.lab.folder_of(name)
    wish = kept(bench.lab, scan, "scan", SCANS, MOST_SCAN_BYTES)
    return JobRow.of(bench.jobs.ask(name, "compare the scans", wish))


@routes.post("/{name}/rescan", status_code=202)
def send_new_scan(
    name: CaseName,
    bench: TheBench,
    scan: Annotated[UploadFile, File(description="a new scan of the same arch")],
    new_case: Annotated[str, Form(min_length=1, max_length=64)],
) -> JobRow:
    """Take a new master scan into a copy of the case; marks are put on the new surface."""
    bench.lab.folder_of(name)
    bench.lab.new_folder(new_case)
    wish = {**kept(bench.lab, scan, "scan", SCANS, MOST_SCAN_BYTES), "new_case": new_case}
    return JobRow.of(bench.jobs.ask(name, "rescan", wish))


def _entry(bench: Bench, instrument: str, by: str, *, asked: bool) -> dict[str, str]:
    """Who enters what a job will find, and with what it was measured."""
    author = bench.author(by).strip()
    if asked and not author:
        raise InputError("an entry needs a name", place="by", remedy="Write your name.")
    return {"instrument": instrument.strip(), "by": author, "on": now()}
