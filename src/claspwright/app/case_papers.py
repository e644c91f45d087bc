"""All documents of a case, from the register to PDF files in a folder and in the store."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from claspwright.app.dispatch import approved_hash, open_stops
from claspwright.app.folder import whole_folder
from claspwright.app.laboratory_file import read_laboratory as read_laboratory
from claspwright.app.register_papers import build_page, deviation_of, furnace_page
from claspwright.base import Finding, InputError, Progress, Severity, silent
from claspwright.inspection import acceptance_limits
from claspwright.materials import material
from claspwright.process import SurfaceKind, finishing_sheet
from claspwright.records import Register, Signed, made_from, trace
from claspwright.report import (
    CaseRecord,
    Laboratory,
    Paper,
    PartRecord,
    authorisation,
    cobalt_note,
    finishing_paper,
    inspection_report,
    invoice_quantities,
    label,
    leaflet,
    statement,
    vigilance_note,
    work_ticket,
    write_paper,
)

SEVERITIES: dict[str, Severity] = {"stop": "stop", "look": "look", "note": "note"}
MASKED: tuple[SurfaceKind, ...] = ("tissue", "rest", "arm")
FINISHING = ("blasting", "grinding", "electropolishing", "polishing")


def case_papers(
    register: Register, case_id: str, lab: Laboratory, *, date: str
) -> tuple[Paper, ...]:
    """Every document of a case that follows from the register.

    Raises:
        InputError: the case is not in the register.
    """
    case = case_record(register, case_id, date=date)
    papers = [
        work_ticket(case, lab), statement(case, lab), authorisation(case, lab), leaflet(case, lab),
        vigilance_note(case, lab), invoice_quantities(case, lab),
    ]  # fmt: skip
    if "cobalt" in case.alloy_elements:
        papers.append(cobalt_note(case, lab))
    for part in case.parts:
        papers += _papers_of_part(register, case, lab, part)
    builds = dict.fromkeys(part.build for part in case.parts)
    for build in builds:
        mine = [part for part in case.parts if part.build == build]
        papers += [one for one in (build_page(register, build, lab, mine, date),) if one]
        for run, body in made_from(register, f"build:{build}", "furnace_run"):
            papers += [one for one in (furnace_page(register, run, body, lab, date),) if one]
    return tuple(named_apart(papers))


def named_apart(papers: Sequence[Paper]) -> list[Paper]:
    """The papers of builds and runs with their number in the name of the file."""
    own = ("build-sheet", "furnace-certificate")
    return [
        replace(paper, key=f"{paper.key}-{paper.number}".replace("/", "-"))
        if paper.key in own else paper
        for paper in papers
    ]  # fmt: skip


def _papers_of_part(
    register: Register, case: CaseRecord, lab: Laboratory, part: PartRecord
) -> list[Paper]:
    """Finishing sheet, label, and the report where the part was inspected."""
    body = (register.current("part", part.id) or (0, {}))[1]
    contacts = [one["at_mm"] for one in body.get("contacts", ())]
    built_for = body.get("finishing", ())  # empty where the framework was built as designed
    sheet = finishing_sheet(
        built_for or FINISHING, masked=body.get("masked", ()) if built_for else MASKED,
        allowed=bool(built_for), contacts=[(x, y, z) for x, y, z in contacts],
        untouched=[str(one) for one in body.get("untouched", ())],
    )  # fmt: skip
    papers = [finishing_paper(case, lab, part, sheet), label(case, lab, part)]
    if part.inspection:
        seen = made_from(register, f"part:{part.id}", "inspection")
        last: dict[str, Any] = next(
            (b for _, b in reversed(seen) if b.get("what") == "surface"), {}
        )
        facts = [(name, value, _limit_of(name)) for name, value in part.inspection.items()]
        papers.append(
            inspection_report(case, lab, part, facts, _findings(seen), deviation_of(register, last))
        )
    return papers


def write_case_papers(
    register: Register, case_id: str, lab: Laboratory, out: Path, signed: Signed,
    *, progress: Progress = silent,
) -> tuple[Path, ...]:  # fmt: skip
    """Write the documents to a folder, keep them in the store and enter them.

    The folder appears whole or not at all. Documents that have not changed are not entered anew.
    """
    others = sorted(p.name for p in out.iterdir() if p.suffix != ".pdf") if out.is_dir() else []
    if others or out.is_file():
        raise InputError(
            "the documents would replace other files", place=out.as_posix(),
            remedy="Give a new folder with --out, or one that holds such documents only.",
        )  # fmt: skip
    papers = case_papers(register, case_id, lab, date=signed.at[:10])
    files = []
    with whole_folder(out) as folder:
        for n, paper in enumerate(papers):
            progress(n / len(papers), paper.title)
            content = write_paper(paper)
            (folder / f"{paper.key}.pdf").write_bytes(content)
            files.append((paper, content))
    approved = approved_hash(register, case_id)
    for paper, content in files:
        _enter(register, case_id, paper, content, signed, approved)
    progress(1.0, "written")
    return tuple(out / f"{paper.key}.pdf" for paper in papers)


def _enter(
    register: Register, case_id: str, paper: Paper, content: bytes, signed: Signed, approved: str
) -> None:
    digest = register.keep_file(f"{paper.key}.pdf", content)
    body = {"case": case_id, "title": paper.title, "file": digest}
    if paper.key == "statement":  # holds for this revision alone
        body["revision_hash"] = approved
    before = register.current("document", f"{case_id}/{paper.key}")
    if before is None or before[1] != body:
        supersedes = None if before is None else before[0]
        name = f"{case_id}/{paper.key}"
        register.add("document", name, body, signed, supersedes=supersedes)


def case_record(register: Register, case_id: str, *, date: str) -> CaseRecord:
    """What the register knows of a case, as the documents print it."""
    now = register.current("case", case_id)
    if now is None:
        raise InputError("this case is not in the register", place=case_id)
    body, subject = now[1], f"case:{case_id}"
    alloy = material(body.get("alloy") or "cocr-lpbf-stress-relieved")
    revisions = made_from(register, subject, "revision")
    revision, design = revisions[-1] if revisions else ("", {})
    given = made_from(register, f"revision:{revision}", "approval") if revision else []
    good = given and given[-1][1]["approved"] and given[-1][1]["hash"] == design["hash"]
    cured = made_from(register, subject, "acrylic")
    price = f"{body['price']:.2f} {body.get('currency', '')}".strip() if "price" in body else ""
    return CaseRecord(
        id=case_id,
        patient=body["patient"],
        prescriber=body["prescriber"],
        health_institution=body.get("health_institution", ""),
        arch=body["arch"],
        kennedy_class=body.get("kennedy_class", "Kennedy class not entered"),
        alloy=alloy.title,
        alloy_elements=alloy.elements,
        alloy_traces=alloy.traces,
        received=body.get("received", ""),
        due=body.get("due", ""),
        teeth=body.get("teeth", ""),
        tooth_mould=body.get("tooth_mould", ""),
        shade=body.get("shade", ""),
        gum_shade=body.get("gum_shade", ""),
        altered_cast=bool(body.get("altered_cast", False)),
        design=design.get("design", ""),
        revision=revision,
        revision_hash=design.get("hash", ""),
        approved="yes, by its hash" if good else "",
        parts=tuple(_part(register, *row) for row in made_from(register, subject, "part")),
        acrylic={k: str(v) for k, v in (cured[-1][1] if cured else {}).items()},
        price=price,
        parent_case=body.get("parent_case", ""),
        open_stops=open_stops(register, case_id, on=date),
        date=date,
    )


def _part(register: Register, part: str, body: dict[str, Any]) -> PartRecord:
    came = trace(register, f"part:{part}")
    runs = made_from(register, f"build:{body['build']}", "furnace_run")
    seen = made_from(register, f"part:{part}", "inspection")
    tried = made_from(register, f"part:{part}", "adjustment")
    place = (
        f"x {body['x_mm']:.1f}, y {body['y_mm']:.1f} mm" if "x_mm" in body and "y_mm" in body
        else ""
    )  # fmt: skip
    return PartRecord(
        id=part,
        build=body["build"],
        position=place,
        mass_g=f"{body['mass_g']:.2f}" if "mass_g" in body else "",
        lots=came.ids("lot"),
        batches=came.ids("batch"),
        furnace={k: str(v) for k, v in (runs[-1][1] if runs else {}).items()},
        inspection=_figures([body for _, body in seen]),
        adjustments=tuple((b["place"], f"{b['amount_um']:g}", b.get("text", "")) for _, b in tried),
    )


REGIONS = 8  # the groups and sides come first; single components stay in the register
FIGURES = {
    "bias_um": ("mean deviation (trueness), um", "fit.surface_bias"),
    "sd_um": ("standard deviation (precision), um", ""),
    "rocking_um": ("play when pressed, um", "fit.rocking"),
    "rms_um": ("root mean square, um", ""),
    "p95_um": ("95th percentile, um", "fit.surface_p95"),
    "rest_gap_um": ("mean gap under rests, um", "fit.rest_gap"),
}


def _figures(seen: Sequence[dict[str, Any]]) -> dict[str, str]:
    """The latest figure of each kind, those of single regions, and whether all passed."""
    if not seen:
        return {}
    latest = {body.get("what", ""): body for body in seen}
    out: dict[str, str] = {}
    for body in latest.values():
        out |= {words: f"{body[key]:.1f}" for key, (words, _) in FIGURES.items() if key in body}
        for name, some in list(body.get("regions", {}).items())[:REGIONS]:
            words = f"{name}: trueness, precision, um"
            out[words] = f"{some['bias_um']:.1f}, {some['sd_um']:.1f}"
        for name, gap in body.get("rests", {}).items():
            out[f"gap under {name}, um"] = f"{gap:.1f}"
    passed = all(body["passed"] for body in latest.values())
    return out if passed else {**out, "result": "failed"}


def _findings(seen: Sequence[tuple[str, dict[str, Any]]]) -> tuple[Finding, ...]:
    """What the latest inspections found, as they were entered; a stop for each that failed."""
    out = []
    for name, body in {body.get("what", ""): (name, body) for name, body in seen}.values():
        for line in body.get("findings", ()):
            severity, _, rest = str(line).partition(" ")
            rule, _, text = rest.partition(": ")
            if severity in SEVERITIES:
                out.append(Finding(rule, SEVERITIES[severity], text, f"inspection {name}"))
        if not body["passed"] and not any(one.severity == "stop" for one in out):
            text = f"Inspection {name} was entered as failed."
            out.append(Finding("inspection.failed", "stop", text, "the laboratory's own register"))
    return tuple(out)


def _limit_of(words: str) -> str:
    """The limit that a printed figure is held against."""
    key = dict(FIGURES.values()).get(words, "")
    if not key:
        return ""
    limit = acceptance_limits()[key]
    look, stop = limit.look_above, limit.stop_above
    return f"look above {1000 * (look or 0):.0f}, stop above {1000 * (stop or 0):.0f}"
