"""Changes shown at once, before the case is worked out anew."""

from __future__ import annotations

from dataclasses import asdict

from fastapi import APIRouter
from fastapi.responses import FileResponse

from claspwright.web.bench import CaseName, TheBench
from claspwright.web.models import FindingRow
from claspwright.web.sent_files import file_in
from claspwright.web.stage_models import LiveReady, LiveShown

routes = APIRouter(prefix="/api/cases", tags=["live"])


@routes.post("/{name}/live/ready")
def take_case_up(name: CaseName, bench: TheBench) -> LiveReady:
    """Take a case up, so that its changes can be shown at once; true where they can."""
    bench.lab.folder_of(name)
    return LiveReady(ready=bench.live.warm(name))


@routes.post("/{name}/live/laid")
def show_laid(name: CaseName, bench: TheBench) -> LiveShown:
    """The pieces that the sheet asks for and the last framework has not, as one body."""
    bench.lab.folder_of(name)
    shown = bench.live.lay(name)
    return LiveShown.model_validate(asdict(shown))


@routes.post("/{name}/live/cut")
def show_cut(name: CaseName, bench: TheBench) -> LiveShown:
    """The whole framework with them, and what the rules on clasps say of it."""
    bench.lab.folder_of(name)
    shown = bench.live.cut(name)
    rows = None if shown.findings is None else [FindingRow(**one) for one in shown.findings]
    return LiveShown.model_validate({**asdict(shown), "findings": rows})


@routes.get("/{name}/live/{file}", response_class=FileResponse)
def read_live_mesh(name: CaseName, file: str, bench: TheBench) -> FileResponse:
    """The mesh of what was shown last."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.kept("live", name), file)
