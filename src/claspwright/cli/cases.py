"""`claspwright run`, `new` and `marks`: from a case folder to results."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path
from typing import Annotated, Literal

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.classes import TOOTH_LIST, codes, jaw_from
from claspwright.cli.options import Case, WorkDay, iso_day
from claspwright.cli.outcome import CLEAN, STOPPED

Day = Annotated[datetime | None, typer.Option(formats=["%Y-%m-%d"], help="YYYY-MM-DD.")]


def run(
    case: Case,
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for the results.")],
    date: WorkDay = None,
) -> None:
    """Work a case out: framework, findings, report. Exit code 0 clean, 1 stop, 2 bad input."""
    from claspwright.app.run_case import run_case

    with progress_bar(case.name) as progress:
        result = run_case(case, out, date=iso_day(date), progress=progress)
    tell(result.folder)
    raise typer.Exit(STOPPED if result.stopped else CLEAN)


def tell(folder: Path) -> None:
    """What was found and where the results lie, in a few lines."""
    import json

    findings = json.loads((folder / "findings.json").read_text(encoding="utf-8"))
    summary = json.loads((folder / "summary.json").read_text(encoding="utf-8"))
    modification = summary["modifications"]
    extra = f" modification {modification}" if modification else ""
    print(f"Kennedy class {summary['kennedy_class']}{extra}, {summary['arch']}")
    if summary["mass_g"] is not None:
        print(f"Framework: {summary['volume_mm3']:.0f} mm3, {summary['mass_g']:.2f} g")
    else:
        print("No framework was made.")
    for severity, words in (("stop", "must not go on"), ("look", "a person must judge")):
        some = [finding for finding in findings if finding["severity"] == severity]
        print(f"{severity}: {len(some)} ({words})")
        for finding in some if severity == "stop" else []:
            print(f"  {finding['rule']}: {finding['text']}")
    for name in ("report.pdf", "review.html", "framework.3mf", "framework.stl"):
        if (folder / name).exists():
            print(f"  {(folder / name).as_posix()}")


def new(
    folder: Annotated[Path, typer.Argument(help="Folder to make.")],
    master: Annotated[Path, typer.Option(help="Scan of the arch that gets the framework.")],
    missing: Annotated[
        str, typer.Option(prompt="Missing teeth", help=f"Every absent tooth. {TOOTH_LIST}")
    ],
    opposing: Annotated[Path | None, typer.Option(help="Scan of the opposing arch.")] = None,
    bite: Annotated[Path | None, typer.Option(help="Bite record.")] = None,
    not_replaced: Annotated[str, typer.Option(help="Absent teeth that get none.")] = "",
    present_abutment: Annotated[str, typer.Option(help="Third molars that carry.")] = "",
    arch: Annotated[
        Literal["mandible", "maxilla"] | None,
        typer.Option(help="Follows from --missing if absent."),
    ] = None,
    notation: Annotated[
        Literal["iso3950", "universal"], typer.Option(help="How the codes are written.")
    ] = "iso3950",
    alloy: Annotated[str, typer.Option(help="Alloy.")] = "cocr-lpbf-stress-relieved",
    case_id: Annotated[str, typer.Option("--id", help="Number of the case.")] = "",
    functional_depth_mm: Annotated[
        float | None, typer.Option(min=0.0, help="Lingual depth, probed by the dentist.")
    ] = None,
    anterior_tilt_deg: Annotated[
        float | None, typer.Option(help="Path: front of the cast lowered is positive.")
    ] = None,
    right_lateral_tilt_deg: Annotated[
        float | None, typer.Option(help="Path: the patient's right lowered is positive.")
    ] = None,
    allergy: Annotated[list[str] | None, typer.Option(help="Known allergy; repeatable.")] = None,
    patient: Annotated[str, typer.Option(help="A pseudonym.")] = "",
    prescriber: Annotated[str, typer.Option(help="The dentist.")] = "",
    laboratory: Annotated[str, typer.Option(help="The laboratory.")] = "",
    prescribed: Day = None,
    due: Day = None,
) -> None:
    """Make a case folder from scans and a few answers."""
    from claspwright.app.new_case import NewScans, new_case
    from claspwright.case import Answers

    absent = codes(missing, notation, "--missing")
    answers = Answers(
        case_id=case_id or folder.resolve().name,
        jaw=jaw_from(arch, absent),
        alloy=alloy,
        missing=absent,
        not_replaced=codes(not_replaced, notation, "--not-replaced"),
        present_abutments=codes(present_abutment, notation, "--present-abutment"),
        functional_depth_mm=functional_depth_mm,
        anterior_tilt_deg=anterior_tilt_deg,
        right_lateral_tilt_deg=right_lateral_tilt_deg,
        allergies=allergy or (),
        patient=patient,
        prescriber=prescriber,
        laboratory=laboratory,
        prescribed=prescribed.date() if prescribed else None,
        due=due.date() if due else None,
    )
    sheet = new_case(folder, NewScans(master, opposing, bite), answers)
    print(f"{sheet.as_posix()}\nNow: claspwright run {folder.as_posix()} --out results")


def marks(
    case: Case,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Write the whole sheet with the marks here.")
    ] = None,
) -> None:
    """Propose a mark for each tooth that has none, as lines for the case sheet."""
    from claspwright.app.propose_marks import marked_sheet

    with progress_bar(case.name) as progress:
        found = marked_sheet(case, out, progress=progress)
    sys.stdout.write(found)
