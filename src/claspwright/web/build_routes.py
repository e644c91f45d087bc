"""Builds of one or several cases: asked for, listed, looked at layer by layer."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Path
from fastapi.responses import FileResponse

from claspwright.app.bench.stage_views import layer_of
from claspwright.app.bench.stages import build_states
from claspwright.app.bench.view_files import VIEW_NAME
from claspwright.base import InputError
from claspwright.formats import machine_names, process_names, read_machine, read_process
from claspwright.process import schedule_names
from claspwright.web.bench import BuildName, TheBench
from claspwright.web.models import JobRow
from claspwright.web.sent_files import file_in
from claspwright.web.stage_models import BuildForms, BuildRow, BuildWish, Layer, LayerPart

routes = APIRouter(prefix="/api/builds", tags=["builds"])
Number = Annotated[int, Path(ge=0, le=10**6)]


@routes.get("")
def list_builds(bench: TheBench) -> list[BuildRow]:
    """All builds of the laboratory, the newest first."""
    return [BuildRow.model_validate(asdict(one)) for one in build_states(bench.lab)]


@routes.post("", status_code=202)
def ask_for_build(body: BuildWish, bench: TheBench) -> JobRow:
    """Ask for a build of cases that were worked out; it stands under the first of them."""
    for name in body.cases:
        bench.lab.folder_of(name)
    if body.machine not in machine_names() or body.process not in process_names():
        raise InputError("no such machine or process", place="machine",
                         remedy="Take one of /api/builds/forms.")  # fmt: skip
    read_process(body.process).check_fits(read_machine(body.machine))
    asked = [job.wish["build"] for job in bench.jobs.jobs() if job.task == "build"]
    wish = {
        **body.model_dump(),
        "cases": list(dict.fromkeys(body.cases)),
        "orientation": body.orientation - 1,
        "build": bench.lab.new_build(asked),
    }
    return JobRow.of(bench.jobs.ask(body.cases[0], "build", wish))


@routes.get("/forms")
def list_build_forms() -> BuildForms:
    """Machines, processes and schedules that are known by name."""
    return BuildForms(
        machines=list(machine_names()), processes=list(process_names()),
        schedules=list(schedule_names()),
    )  # fmt: skip


@routes.get("/{build}/view", response_class=FileResponse)
def read_build_view(build: BuildName, bench: TheBench) -> FileResponse:
    """The list of platforms with their meshes, as JSON."""
    bench.lab.build_of(build)
    return file_in(bench.lab.kept("builds", build), VIEW_NAME)


@routes.get("/{build}/view/{file}", response_class=FileResponse)
def read_build_mesh(build: BuildName, file: str, bench: TheBench) -> FileResponse:
    """A mesh of that view."""
    bench.lab.build_of(build)
    return file_in(bench.lab.kept("builds", build), file)


@routes.get("/{build}/platforms/{platform}/layers/{layer}")
def read_layer(build: BuildName, platform: Number, layer: Number, bench: TheBench) -> Layer:
    """The contours of one layer of a platform; both counted from 0."""
    bench.lab.build_of(build)
    found = layer_of(bench.lab.kept("builds", build), platform, layer)
    return Layer(parts=[LayerPart(**one) for one in found])


@routes.get("/{build}/files/{file}", response_class=FileResponse)
def read_build_file(build: BuildName, file: str, bench: TheBench) -> FileResponse:
    """A file of the whole build, such as build.json."""
    return file_in(bench.lab.build_of(build), file)


@routes.get("/{build}/platforms/{platform}/files/{file}", response_class=FileResponse)
def read_platform_file(
    build: BuildName, platform: Number, file: str, bench: TheBench
) -> FileResponse:
    """A file of one platform, such as platform.3mf; platforms counted from 0."""
    return file_in(bench.lab.build_of(build) / f"platform-{platform + 1}", file)
