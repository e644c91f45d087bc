"""Cases: the list, one page, its revisions and its changes."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Query

from claspwright.app.bench.cases import (
    case_line,
    case_lines,
    findings_of,
    proposed_sheet,
    summary_of_results,
    view_of,
)
from claspwright.app.bench.edits import (
    By,
    design_in_force,
    drop_retainer,
    set_connector,
    set_mark,
    set_path,
    set_retainer,
)
from claspwright.app.bench.revisions import (
    History,
    change,
    differences,
    history,
    redo,
    undo,
)
from claspwright.app.bench.view_files import stamp_of
from claspwright.case import SHEET_NAME
from claspwright.web.bench import Bench, CaseName, TheBench, may_see
from claspwright.web.models import (
    CaseList,
    CasePage,
    CaseRow,
    ConnectorChange,
    Difference,
    FindingRow,
    MarkChange,
    PathChange,
    RetainerChange,
    RevisionRow,
    Revisions,
    SheetChange,
    Tilts,
)
from claspwright.web.words import prescription_sentences

routes = APIRouter(prefix="/api/cases", tags=["cases"])
Number = Annotated[int, Query(ge=1, le=10**6)]


@routes.get("")
def list_cases(bench: TheBench) -> CaseList:
    """All cases, the one due first on top."""
    lines = [line for line in case_lines(bench.lab) if may_see(bench, line.name)]
    return CaseList(cases=[CaseRow(**asdict(line)) for line in lines])


@routes.get("/{name}")
def read_case(name: CaseName, bench: TheBench) -> CasePage:
    """All that the page of a case says in words and figures."""
    return page_of(bench, name)


@routes.put("/{name}/sheet")
def change_sheet(name: CaseName, body: SheetChange, bench: TheBench) -> CasePage:
    """Put a whole new sheet in place; it must be sound."""
    by = By(bench.author(body.author), body.reason, body.onto)
    change(bench.lab, name, body.sheet, author=by.author, reason=by.reason, onto=by.onto)
    return page_of(bench, name)


@routes.put("/{name}/path")
def change_path(name: CaseName, body: PathChange, bench: TheBench) -> CasePage:
    """Prescribe the path of placement, or have it searched."""
    wish = body.tilts
    tilts = None if wish is None else (wish.anterior_tilt_deg, wish.right_lateral_tilt_deg)
    set_path(bench.lab, name, By(bench.author(body.author), body.reason, body.onto), tilts)
    return page_of(bench, name)


@routes.put("/{name}/retainers")
def change_retainer(name: CaseName, body: RetainerChange, bench: TheBench) -> CasePage:
    """Say what one tooth carries."""
    set_retainer(
        bench.lab, name, By(bench.author(body.author), body.reason, body.onto), body.retainer
    )
    return page_of(bench, name)


@routes.delete("/{name}/retainers/{tooth}")
def propose_retainer(name: CaseName, tooth: int, bench: TheBench) -> CasePage:
    """Take out what the sheet says of a tooth, so that it is proposed again."""
    drop_retainer(bench.lab, name, By(bench.author(""), f"{tooth}: to be proposed"), tooth)
    return page_of(bench, name)


@routes.put("/{name}/connector")
def change_connector(name: CaseName, body: ConnectorChange, bench: TheBench) -> CasePage:
    """Say which major connector there shall be."""
    set_connector(
        bench.lab, name, By(bench.author(body.author), body.reason, body.onto), body.connector
    )
    return page_of(bench, name)


@routes.put("/{name}/marks")
def change_mark(name: CaseName, body: MarkChange, bench: TheBench) -> CasePage:
    """Put the mark of a tooth at another point."""
    by = By(bench.author(body.author), body.reason, body.onto)
    set_mark(bench.lab, name, by, body.tooth, body.at_scan_mm)
    return page_of(bench, name)


@routes.post("/{name}/undo")
def undo_change(name: CaseName, bench: TheBench) -> CasePage:
    """Go back by one revision."""
    undo(bench.lab, name)
    return page_of(bench, name)


@routes.post("/{name}/redo")
def redo_change(name: CaseName, bench: TheBench) -> CasePage:
    """Go on by one revision."""
    redo(bench.lab, name)
    return page_of(bench, name)


@routes.get("/{name}/differences")
def compare_revisions(name: CaseName, older: Number, newer: Number, bench: TheBench) -> Difference:
    """Lines of the sheet that differ between two revisions."""
    bench.lab.folder_of(name)
    lines = differences(bench.lab, name, older, newer)
    return Difference(older=older, newer=newer, lines=list(lines))


def page_of(bench: Bench, name: str) -> CasePage:
    """All that the page of a case says."""
    lab = bench.lab
    line = case_line(lab, name)
    page = CasePage(
        line=CaseRow(**asdict(line)),
        prescription=[],
        sheet=(lab.folder_of(name) / SHEET_NAME).read_text(encoding="utf-8"),
        revisions=_revisions(history(lab, name)),
        findings=_findings(bench, name),
        retainers=[],
        connector=None,
        tilts=None,
        path_is_prescribed=False,
        results=sorted(f.name for f in lab.results_of(name).glob("*") if f.is_file()),
        view_stamp=stamp_of(lab.kept("view", name)),
    )
    if line.error:
        return page
    sheet = lab.sheet_of(name)
    retainers, connector = design_in_force(lab, name)
    return page.model_copy(
        update={
            "prescription": prescription_sentences(sheet, line.kennedy),
            "retainers": list(retainers),
            "connector": connector,
            "tilts": _tilts(bench, name),
            "path_is_prescribed": sheet.tilts_deg is not None,
        }
    )


def _tilts(bench: Bench, name: str) -> Tilts | None:
    sheet = bench.lab.sheet_of(name)
    tilts = sheet.tilts_deg
    if tilts is None:
        proposed = proposed_sheet(bench.lab, name)
        tilts = None if proposed is None else proposed.tilts_deg
    if tilts is None:
        return None
    return Tilts(anterior_tilt_deg=tilts[0], right_lateral_tilt_deg=tilts[1])


def _findings(bench: Bench, name: str) -> list[FindingRow]:
    found = findings_of(bench.lab, name)
    view = view_of(bench.lab, name)
    places = [] if view is None else view["findings"]
    same_run = view is not None and view["inputs"] == summary_of_results(bench.lab, name).get(
        "input_hashes"
    )
    return [
        FindingRow(
            **{key: value for key, value in entry.items() if key != "at_mm"},
            at_scan_mm=entry["at_mm"],
            at_arch_mm=places[number] if same_run and number < len(places) else None,
        )
        for number, entry in enumerate(found)
    ]


def _revisions(state: History) -> Revisions:
    return Revisions(
        at=state.at,
        can_undo=state.can_undo,
        can_redo=state.can_redo,
        revisions=[
            RevisionRow(number=r.number, author=r.author, reason=r.reason, written_at=r.written_at)
            for r in state.revisions
        ],
    )
