"""Jobs on a case: survey, proof, preparation, build, furnace, inspection, papers, other scans.

Each leaves what the command line leaves, in a folder of the laboratory that appears whole, and
beside it what the screen shows. A wish is a JSON object whose keys stand at each function.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.stage_views import (
    write_build_view,
    write_inspection_view,
    write_proof_view,
    write_scans_view,
)
from claspwright.app.build_files import Ready
from claspwright.app.build_platform import BuildWishes, build_platforms
from claspwright.app.carry_out import carry_out
from claspwright.app.case_areas import areas_of, areas_text, regions_of
from claspwright.app.case_papers import read_laboratory, write_case_papers
from claspwright.app.check_case import check_case
from claspwright.app.enter_runs import (
    FurnaceEntry,
    Inspected,
    enter_fit,
    enter_furnace_run,
    enter_seating,
)
from claspwright.app.fit_scan import fit_scan, write_deviation
from claspwright.app.fit_scan import told as fit_told
from claspwright.app.folder import whole_folder
from claspwright.app.furnace_run import judge_furnace_log
from claspwright.app.furnace_run import told as furnace_told
from claspwright.app.hashes import input_hashes
from claspwright.app.memory import FolderMemory
from claspwright.app.preparation import preparation
from claspwright.app.print_coupon import coupon_told
from claspwright.app.results import write_json, write_text
from claspwright.app.seat_scan import SeatingWishes, seat_scan
from claspwright.app.seat_scan import told as seat_told
from claspwright.app.survey_case import survey_case
from claspwright.app.to_scan import point_of
from claspwright.app.two_scans import against_case, as_json, rescanned
from claspwright.app.watch import Watch
from claspwright.base import InputError, Progress, part
from claspwright.build import Coupon, Machine
from claspwright.formats import read_mesh, write_ply
from claspwright.records import Signed, open_register

Wish = Mapping[str, Any]  # Any: a JSON object
COUPON = "coupon.stl"


def prove(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Prove a case; `elements_mm`: edge of the finite elements, or null for none."""
    check_case(
        lab.folder_of(case),
        lab.made("proof", case),
        step_mm=wish.get("elements_mm"),
        memory=FolderMemory(lab.kept("stages")),
        also=partial(
            write_proof_view, lab.kept("proof", case), inputs=input_hashes(lab.sheet_of(case))
        ),
        progress=progress,
    )


def survey(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Survey a case: document, maps and readings; `on`: the day to print."""
    survey_case(
        lab.folder_of(case), lab.made("survey", case), date=str(wish["on"]), progress=progress
    )


def prepare(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Say what the dentist should still reduce."""
    preparation(lab.folder_of(case), lab.made("preparation", case), progress=progress)


def build(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Prepare platforms; `build`, `cases`, `machine`, `process`, `orientation`, `layer_files`."""
    names: list[str] = list(wish["cases"])
    wishes = BuildWishes(
        wish["machine"], wish["process"], processes=1, orientation=int(wish["orientation"]),
        layer_files=bool(wish["layer_files"]),
    )  # fmt: skip
    for name in names:
        if not (lab.results_of(name) / "framework.stl").is_file():
            raise InputError("there is no framework yet", place=name, remedy="Work it out first.")
    hashes = {name: input_hashes(lab.sheet_of(name)) for name in names}

    def also(ready: Sequence[Ready], machine: Machine) -> None:
        write_build_view(lab.kept("builds", wish["build"]), ready, machine, inputs=hashes)

    build_platforms(
        [lab.results_of(name) for name in names],
        lab.root / "builds" / str(wish["build"]),
        wishes,
        also=also,
        progress=progress,
    )


def print_coupon(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Work out the coupon for distortion; `process`, `rise_mm` or null, `sizes` of `Coupon`."""
    with whole_folder(lab.coupon) as folder:
        told = coupon_told(
            Coupon(**wish["sizes"]), wish["process"], wish["rise_mm"], folder / COUPON,
            progress=progress,
        )  # fmt: skip
        write_json(folder / "coupon.json", {**told, "file": COUPON, "sizes": dict(wish["sizes"])})


def judge_furnace(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Hold a logger's file against a schedule; `upload`, `schedule`, `called`.

    With `builds` the run is entered in the register: `run`, `instrument`, `by`, `on`.
    """
    log = upload_of(lab, wish)
    with whole_folder(lab.made("furnace", case)) as folder:
        read, run = judge_furnace_log(log, wish["schedule"], plot=folder / "run.png")
        (folder / "log.csv").write_bytes(log.read_bytes())
        write_json(folder / "run.json", {"log": wish["called"], **furnace_told(run)})
        if wish.get("builds"):
            asked = FurnaceEntry(wish["run"], tuple(wish["builds"]), wish["instrument"])
            with open_register(str(lab.register), files="") as register:
                enter_furnace_run(
                    register, asked, folder / "log.csv", read, run, Signed(wish["by"], wish["on"])
                )
    progress(1.0, "judged")


def inspect(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Hold a scan of the finished metal against design and model; `upload`, `called`.

    With `part` both inspections are entered in the register: `instrument`, `by`, `on`.
    """
    scan, results = upload_of(lab, wish), lab.results_of(case)
    design = results / "framework.stl"
    if not design.is_file():
        raise InputError("there is no framework yet", place=case, remedy="Work it out first.")
    sheet = lab.sheet_of(case)
    memory = FolderMemory(lab.kept("stages"))
    work = carry_out(sheet, Watch(), part(progress, 0.0, 0.3), memory=memory)
    if work.framework is None or work.scan is None or work.path is None:
        raise InputError("no framework comes of this case", place=case)
    back = work.scan.scan_to_arch.inverse()
    path = point_of(back.turn(work.path.direction), 6)
    with whole_folder(lab.made("inspection", case)) as folder:
        parts = work.framework.components
        write_text(folder / "areas.toml", areas_text(areas_of(parts, back), path,
                                                     regions_of(parts, back)))  # fmt: skip
        write_ply(work.scan.surface.moved(back), folder / "model.ply")
        fit = fit_scan(design, scan, areas=folder / "areas.toml", progress=part(progress, 0.3, 0.6))
        write_deviation(fit, folder / "deviation.ply")
        seated = seat_scan(
            (design, scan, folder / "model.ply"), folder / "areas.toml", SeatingWishes(path),
            progress=part(progress, 0.6, 0.95),
        )  # fmt: skip
        answer = {"scan": wish["called"], **fit_told(fit, Path("deviation.ply"))}
        write_json(folder / "fit.json", answer)
        write_json(folder / "seat.json", seat_told(seated))
        if wish.get("part"):
            seen = Inspected(wish["part"], wish["instrument"], design, scan)
            with_map = replace(seen, file=folder / "deviation.ply")
            signed = Signed(wish["by"], wish["on"])
            with open_register(str(lab.register), files="") as register:
                enter_fit(register, with_map, fit, signed)
                enter_seating(register, seen, seated, signed)
        write_inspection_view(
            lab.kept("inspection", case), fit, seated, work.scan.scan_to_arch,
            inputs=input_hashes(sheet),
        )  # fmt: skip
    progress(1.0, "inspected")


def make_papers(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Write all documents of a case and enter them; `case_id`, `by`, `on`."""
    particulars = read_laboratory(lab.particulars)
    with open_register(str(lab.register), files="") as register:
        write_case_papers(
            register, wish["case_id"], particulars, lab.made("papers", case),
            Signed(wish["by"], wish["on"]), progress=progress,
        )  # fmt: skip


def compare_with_master(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Compare a scan that was sent with the case's master; `upload`, `called`."""
    sheet = lab.sheet_of(case)
    inputs = input_hashes(sheet)
    fresh = read_mesh(upload_of(lab, wish))
    found, to_arch = against_case(sheet, fresh, progress=part(progress, 0.0, 0.95))
    with whole_folder(lab.made("scans", case)) as folder:
        write_json(folder / "scans.json", {"scan": wish["called"], **as_json(found)})
        write_scans_view(lab.kept("scans", case), found, to_arch, inputs=inputs)
    progress(1.0, "compared")


def rescan(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Take a new master scan into a copy of the case; `upload`, `new_case`."""
    rescanned(
        lab.folder_of(case), upload_of(lab, wish), lab.new_folder(wish["new_case"]),
        progress=progress,
    )  # fmt: skip


def upload_of(lab: Laboratory, wish: Wish) -> Path:
    """The file that was sent with a wish.

    Raises:
        InputError: it is gone.
    """
    path = lab.kept("uploads", str(wish["upload"]))
    if not path.is_file():
        raise InputError("the file is gone", place=str(wish.get("called", "")),
                         remedy="Send it again.")  # fmt: skip
    return path
