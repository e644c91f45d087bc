"""Two revisions of a case held against each other: their solids, distances and numbers."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Path, Query
from fastapi.responses import FileResponse
from pydantic import BaseModel, ConfigDict, Field

from claspwright.app.bench.view_files import VIEW_NAME, stamp_of
from claspwright.app.bench.worked import both_kept, compared
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.models import JobRow, Point3
from claspwright.web.sent_files import file_in

routes = APIRouter(prefix="/api/cases", tags=["cases"])
Number = Annotated[int, Query(ge=1, le=10**6)]
Key = Annotated[str, Path(pattern="^[0-9a-f]{32}-[0-9a-f]{32}$")]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Greatest(_Model):
    """How far one solid stands out of the other at most."""

    mm: float
    at_arch_mm: Point3 = Field(description="arch frame of the newer revision")


class ChangedFinding(_Model):
    """A finding that came, went or says something else."""

    change: Literal["came", "went", "changed"]
    rule: str
    component: str
    text: str
    unit: str
    severity_before: Literal["stop", "look", "note"] | None
    severity_after: Literal["stop", "look", "note"] | None
    before: float | str | None
    after: float | str | None
    at_arch_mm: Point3 | None


class ChangedMeasure(_Model):
    """A measure of the whole that differs, such as its mass."""

    name: str
    unit: str
    before: float | str | None
    after: float | str | None


class Comparison(_Model):
    """What is known of two revisions."""

    older: int
    newer: int
    older_worked: bool = Field(description="a worked-out state of it is kept")
    newer_worked: bool
    key: str = Field(description="under which its pictures lie; empty unless both are kept")
    made: bool
    view_stamp: str
    gain: Greatest | None = Field(description="of the newer out of the older")
    loss: Greatest | None = Field(description="of the older out of the newer")
    findings: list[ChangedFinding]
    measures: list[ChangedMeasure]


class ComparisonWish(_Model):
    """Two revisions."""

    older: int = Field(ge=1, le=10**6)
    newer: int = Field(ge=1, le=10**6)


@routes.get("/{name}/comparison")
def read_comparison(name: CaseName, older: Number, newer: Number, bench: TheBench) -> Comparison:
    """What is known of two revisions; nothing is worked out."""
    bench.lab.folder_of(name)
    known = compared(bench.lab, name, older, newer)
    told: dict[str, Any] = known.told or {"findings": [], "measures": [], "greatest": {}}
    folder = bench.lab.kept("compared", name, known.key)
    return Comparison(
        older=older,
        newer=newer,
        older_worked=known.worked[0],
        newer_worked=known.worked[1],
        key=known.key,
        made=known.told is not None,
        view_stamp=stamp_of(folder) if known.told is not None else "",
        gain=told["greatest"].get("gain"),
        loss=told["greatest"].get("loss"),
        findings=told["findings"],
        measures=told["measures"],
    )


@routes.post("/{name}/comparison", status_code=202)
def ask_for_comparison(name: CaseName, body: ComparisonWish, bench: TheBench) -> JobRow:
    """Have the solids of two revisions held against each other."""
    both_kept(bench.lab, name, body.older, body.newer)
    return JobRow.of(bench.jobs.ask(name, "compare", body.model_dump()))


@routes.get("/{name}/comparison/{key}/view", response_class=FileResponse)
def read_comparison_view(name: CaseName, key: Key, bench: TheBench) -> FileResponse:
    """The list of what the screen shows of a comparison, as JSON."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.kept("compared", name, key), VIEW_NAME)


@routes.get("/{name}/comparison/{key}/view/{file}", response_class=FileResponse)
def read_comparison_mesh(name: CaseName, key: Key, file: str, bench: TheBench) -> FileResponse:
    """A mesh of that view."""
    bench.lab.folder_of(name)
    return file_in(bench.lab.kept("compared", name, key), file)
