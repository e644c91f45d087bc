"""The application: routes, access, errors as words, the page itself."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException

from claspwright import __version__
from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.live import LiveHand
from claspwright.base import ClaspwrightError, InputError, StaleRecordError
from claspwright.web import (
    acrylic_routes,
    build_routes,
    case_routes,
    clinic_routes,
    compare_routes,
    figure_routes,
    form_routes,
    handle_routes,
    intake_routes,
    job_routes,
    live_routes,
    powder_routes,
    register_routes,
    register_tool_routes,
    session_routes,
    stage_routes,
    view_routes,
)
from claspwright.web.access import TokenDoor, guard
from claspwright.web.bench import Bench
from claspwright.web.models import Trouble
from claspwright.web.sessions import AccountDoor

MOST_BYTES = 400_000_000  # of one request: three scans of ten million triangles do not fit


def create_app(lab: Laboratory, jobs: JobBook, door: str | AccountDoor) -> FastAPI:
    """The bench's server for one laboratory.

    Args:
        lab: the laboratory's folder.
        jobs: its book of jobs; the caller closes it.
        door: the token that a reader must know, or accounts.
    """
    app = FastAPI(
        title="Claspwright bench",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        responses={
            status: {"model": Trouble}
            for status in (400, 401, 403, 404, 405, 409, 411, 413, 421, 422)
        },
    )
    app.state.bench = Bench(lab, jobs, LiveHand(lab))
    for module in (
        register_tool_routes, powder_routes,
        case_routes, form_routes, intake_routes, view_routes, job_routes, stage_routes,
        build_routes, register_routes, live_routes, session_routes, handle_routes, clinic_routes,
        acrylic_routes, compare_routes, figure_routes,
    ):  # fmt: skip
        app.include_router(module.routes)
    app.exception_handler(ClaspwrightError)(_known_error)
    app.exception_handler(RequestValidationError)(_bad_request)
    app.exception_handler(HTTPException)(_http_error)
    app.state.door = TokenDoor(door) if isinstance(door, str) else door
    app.middleware("http")(guard(app.state.door, lab, MOST_BYTES))
    page = Path(str(files("claspwright.web").joinpath("static")))
    if page.is_dir():
        app.mount("/", StaticFiles(directory=page, html=True), name="page")
    return app


async def _known_error(request: Request, error: Exception) -> JSONResponse:
    """An error that the program knows, in its own words."""
    assert isinstance(error, ClaspwrightError)
    status = 409 if isinstance(error, StaleRecordError) else 422
    if isinstance(error, InputError) and error.what.startswith("there is no "):
        status = 404
    said = {"what": error.what, "place": error.place, "remedy": error.remedy}
    return JSONResponse(said, status_code=status)


async def _http_error(request: Request, error: Exception) -> JSONResponse:
    """What the framework itself refuses, such as an unknown address, in the same form."""
    assert isinstance(error, HTTPException)
    said = {"what": str(error.detail).lower(), "place": request.url.path, "remedy": ""}
    return JSONResponse(said, status_code=error.status_code, headers=error.headers)


async def _bad_request(request: Request, error: Exception) -> JSONResponse:
    """A request that does not fit its model, in the same form."""
    assert isinstance(error, RequestValidationError)
    first = error.errors()[0]
    place = ".".join(str(step) for step in first["loc"])
    said = {"what": first["msg"], "place": place, "remedy": "Correct this field and send it again."}
    return JSONResponse(said, status_code=422)
