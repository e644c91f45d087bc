"""What the screen shows of a case, its result files, and measurements on it."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import FileResponse

from claspwright.app.bench.readings import measured_here, section, tilts_along, way_between
from claspwright.app.bench.view_files import VIEW_NAME, stamp_of
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.models import (
    CutAnswer,
    PlaceAnswer,
    PlaceWish,
    SectionAnswer,
    SectionWish,
    Tilts,
    WayAnswer,
    WayWish,
)
from claspwright.web.sent_files import file_in

routes = APIRouter(prefix="/api/cases", tags=["views"])
Number = Annotated[float, Query(ge=-1, le=1, allow_inf_nan=False)]


@routes.get("/{name}/view", response_class=FileResponse)
def read_view(name: CaseName, bench: TheBench) -> FileResponse:
    """The list of all that the screen shows, as JSON."""
    folder = bench.lab.kept("view", _known(bench, name))
    answer = file_in(folder, VIEW_NAME)
    answer.headers["X-Claspwright-Stamp"] = stamp_of(folder)
    return answer


@routes.get("/{name}/view/{file}", response_class=FileResponse)
def read_viewfile_in(name: CaseName, file: str, bench: TheBench) -> FileResponse:
    """A mesh or a picture of the view."""
    return file_in(bench.lab.kept("view", _known(bench, name)), file)


@routes.get("/{name}/results/{file}", response_class=FileResponse)
def read_result(name: CaseName, file: str, bench: TheBench) -> FileResponse:
    """A file of the results, such as report.pdf."""
    return file_in(bench.lab.results_of(_known(bench, name)), file)


@routes.post("/{name}/way")
def measure_way(name: CaseName, body: WayWish, bench: TheBench) -> WayAnswer:
    """The straight and the shortest way over the model between two points."""
    way = way_between(bench.lab, _known(bench, name), body.a_arch_mm, body.b_arch_mm)
    return WayAnswer(
        straight_mm=way.straight_mm, surface_mm=way.surface_mm, points_arch_mm=way.points.tolist()
    )


@routes.post("/{name}/place")
def measure_place(name: CaseName, body: PlaceWish, bench: TheBench) -> PlaceAnswer:
    """Thickness of the metal at a place, and the way from there to the opposing arch."""
    here = measured_here(bench.lab, _known(bench, name), body.part, body.at_arch_mm)
    return PlaceAnswer.model_validate(asdict(here))


@routes.get("/{name}/tilts")
def tilts_of_direction(name: CaseName, x: Number, y: Number, z: Number, bench: TheBench) -> Tilts:
    """The tilts whose path of placement runs along a direction of the arch frame."""
    path = tilts_along(bench.lab.sheet_of(name).prescription.jaw, (x, y, z))
    return Tilts(anterior_tilt_deg=path[0], right_lateral_tilt_deg=path[1])


@routes.post("/{name}/section")
def cut_section(name: CaseName, body: SectionWish, bench: TheBench) -> SectionAnswer:
    """Every part where a plane cuts it, with the area where it is closed."""
    cuts = section(bench.lab, _known(bench, name), body.at_arch_mm, body.normal_arch)
    return SectionAnswer(
        cuts=[
            CutAnswer(
                part=cut.part,
                area_mm2=cut.area_mm2,
                lines_arch_mm=[line.tolist() for line in cut.lines],
            )
            for cut in cuts
        ]
    )


def _known(bench: TheBench, name: str) -> str:
    bench.lab.folder_of(name)
    return name
