"""Points that are dragged over the model: where they lie, what they say, what the sheet takes."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from claspwright.app.bench.edits import By
from claspwright.app.bench.handles import handles_of, let_go, pull
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.case_routes import page_of
from claspwright.web.models import (
    CasePage,
    HandleAnswer,
    HandleChange,
    HandleRow,
    Handles,
)

routes = APIRouter(prefix="/api/cases", tags=["views"])
Place = Annotated[float, Query(ge=-1000, le=1000, allow_inf_nan=False)]


@routes.get("/{name}/handles")
def list_handles(name: CaseName, bench: TheBench) -> Handles:
    """What can be dragged on the framework as it was worked out last."""
    bench.lab.folder_of(name)
    return Handles(
        handles=[
            HandleRow(id=h.id, component=h.component, tooth=h.tooth, at_arch_mm=h.at.tolist())
            for h in handles_of(bench.lab, name)
        ]
    )


@routes.get("/{name}/handles/{handle}")
def pull_handle(
    name: CaseName, handle: str, x_mm: Place, y_mm: Place, z_mm: Place, bench: TheBench
) -> HandleAnswer:
    """What the sheet would say if a point were let go there (arch frame); nothing is changed."""
    bench.lab.folder_of(name)
    told = pull(bench.lab, name, handle, (x_mm, y_mm, z_mm))
    return HandleAnswer.model_validate(
        {
            "words": told.words,
            "before": told.before,
            "after": told.after,
            "unit": told.unit,
            "limit": told.limit,
            "severity": told.severity,
            "source": told.source,
            "line_arch_mm": told.line.tolist(),
        }
    )


@routes.put("/{name}/handles")
def drop_handle(name: CaseName, body: HandleChange, bench: TheBench) -> CasePage:
    """Let a point go: what it says there goes into the sheet."""
    bench.lab.folder_of(name)
    by = By(bench.author(body.author), body.reason, body.onto)
    let_go(bench.lab, name, by, body.handle, body.at_arch_mm)
    return page_of(bench, name)
