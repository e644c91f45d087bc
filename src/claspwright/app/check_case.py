"""`check`: work a case out and prove it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import numpy as np

from claspwright import __version__
from claspwright.app.carry_out import carry_out
from claspwright.app.folder import check_target, whole_folder
from claspwright.app.memory import Memory
from claspwright.app.results import facts_of, write_json, write_text
from claspwright.app.to_scan import findings_in_scan, point_of
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import (
    ClaspwrightError,
    ConvergenceError,
    Finding,
    GeometryError,
    InputError,
    Progress,
    part,
    silent,
)
from claspwright.case import read_sheet
from claspwright.materials import conditions, material
from claspwright.mechanics import (
    ArmCase,
    ArmProof,
    Choice,
    DentureProof,
    FrameworkFe,
    Swing,
    choose_arm,
    prove_arm,
    prove_denture,
    prove_solid,
)
from claspwright.report import (
    Proved,
    SheetFacts,
    compose,
    lifting_picture,
    ride_plot,
    stress_picture,
    with_proof,
    write_proof_sheet,
    write_review,
)
from claspwright.report.proof_sheet import CAUTION
from claspwright.rules import (
    arm_findings,
    bite_findings,
    choice_finding,
    lifting_findings,
    solid_findings,
)

RESULTS = frozenset(
    ("check.json", "proof.pdf", "review.html", "rides.png", "lifting.png", "stress.png")
)
ELEMENTS_MM = 0.2
FINEST_MM, COARSEST_MM = 0.1, 0.6


@dataclass(frozen=True, slots=True, eq=False)
class Checked:
    """A case with its proof; findings in the scan frame."""

    work: Work
    arms: tuple[ArmProof, ...]
    denture: DentureProof | None
    solid: FrameworkFe | None  # None where finite elements were not asked for
    findings: tuple[Finding, ...]  # of the proof
    answer: dict[str, Any]  # what check.json holds; Any: a tree for JSON
    in_arch: tuple[Finding, ...]  # of the proof, in the arch frame
    choices: Mapping[str, Choice]  # sizes for the wanted force, by the arm's id

    @property
    def stopped(self) -> bool:
        """Whether a finding of the proof or of the work says that it must not go on."""
        return any(f.severity == "stop" for f in (*self.findings, *self.work.findings))


def check_case(
    case: Path,
    out: Path | None = None,
    *,
    step_mm: float | None = ELEMENTS_MM,
    date: str = "",
    memory: Memory | None = None,
    also: Callable[[Checked], None] | None = None,
    progress: Progress = silent,
) -> Checked:
    """Work a case out until its framework, prove it, and write the proof.

    Args:
        case: a folder with `case.toml`, or that file.
        out: folder for check.json, the proof sheet, the review page with the fields of force
            and stress, and their pictures; None: nothing is written.
        step_mm: edge of the finite elements; None: without them.
        date: date of the work as it shall print; no clock is asked.
        memory: asked for what was worked out before.
        also: called with the proof before its folder appears.
        progress: told of each stage.

    Raises:
        InputError: the sheet, a scan or the place for the results cannot be used.
    """
    sheet = read_sheet(case)
    if out is not None:
        check_target(out, sheet.path.parent, RESULTS)
    if step_mm is not None and not COARSEST_MM >= step_mm >= FINEST_MM:
        raise InputError(
            f"elements must have an edge of {FINEST_MM:g} to {COARSEST_MM:g} mm, got {step_mm:g}",
            place="--step-mm",
        )
    work = carry_out(sheet, Watch(), part(progress, 0.0, 0.6), memory=memory)
    checked = prove(work, step_mm=step_mm, progress=part(progress, 0.6, 0.95))
    if out is not None:
        with whole_folder(out) as folder:
            write_json(folder / "check.json", checked.answer)
            _write_sheet(folder, checked, date)
            _write_review(folder, checked, date)
            if also is not None:
                also(checked)
    progress(1.0, "proof")
    return checked


def prove(work: Work, *, step_mm: float | None = None, progress: Progress = silent) -> Checked:
    """The proof of a case that has been worked out; empty where there is no framework.

    Args:
        work: a case with its framework.
        step_mm: edge of the finite elements; None: without them.
        progress: told of each arm.
    """
    arms: list[ArmProof] = []
    found: list[Finding] = []
    choices: dict[str, Choice] = {}
    denture, solid = None, None
    if work.framework is not None and work.arch is not None and work.surveyed is not None:
        alloy = material(work.sheet.prescription.alloy)
        tree = work.surveyed.tree_over(work.arch.scan.solid)
        shared = ArmCase(work.framework, work.arch, work.surveyed, alloy, tree)
        laid = [c for c in work.framework.components if c.kind == "retentive arm"]
        for n, arm in enumerate(laid):
            progress(0.3 * n / max(len(laid), 1), f"proof of {arm.id}")
            try:
                arms.append(prove_arm(shared, arm))
                choices[arm.id] = choose_arm(shared, arm)
                found += choice_finding(arm.id, choices[arm.id], arm.line[-1])
            except GeometryError as error:
                found.append(_unproved(error, arm.id))
        holds = {one.arm.id: one.ride.withdrawal_n for one in arms}
        denture = prove_denture(work.framework, work.arch, work.surveyed, holds)
        found += arm_findings(arms, alloy)
        if denture is not None:
            found += lifting_findings(denture, "arms as made and finished")
            found += bite_findings(denture)
        if step_mm is not None:
            try:
                solid = prove_solid(
                    work.framework, work.arch, work.surveyed, alloy, step=step_mm,
                    progress=part(progress, 0.3, 1.0),
                )  # fmt: skip
            except (GeometryError, ConvergenceError) as error:
                found.append(_unproved(error, "framework"))
            found += () if solid is None else solid_findings(solid, alloy)
    told = findings_in_scan(found, work.scan.scan_to_arch if work.scan else None)
    answer = _answer(work, arms, denture, solid, told)
    return Checked(work, tuple(arms), denture, solid, tuple(told), answer, tuple(found), choices)


def _unproved(error: ClaspwrightError, name: str) -> Finding:
    text = f"{error.what}. {error.remedy}".strip()
    return Finding("proof.arm", "look", text, source="this run", component=name)


def _answer(
    work: Work,
    arms: Sequence[ArmProof],
    denture: DentureProof | None,
    solid: FrameworkFe | None,
    findings: Sequence[Finding],
) -> dict[str, Any]:
    """What check.json holds; Any: a tree for JSON."""
    return {
        "version": __version__,
        "case_id": work.sheet.prescription.case_id,
        "alloy": work.sheet.prescription.alloy,
        "caution": CAUTION,
        "framework": work.framework is not None,
        "arms": [_arm(one) for one in arms],
        "denture": None if denture is None else _denture(work, denture),
        "solid": None if solid is None else _solid(solid),
        "assumptions": {
            one.key: {"unit": one.unit, **asdict(one.value)} for one in conditions().values()
        },
        "findings": [asdict(finding) for finding in findings],
        "stops": sum(f.severity == "stop" for f in findings),
        "looks": sum(f.severity == "look" for f in findings),
    }


def _arm(one: ArmProof) -> dict[str, Any]:
    return {
        "component": one.arm.id,
        "tooth": one.arm.tooth,
        "length_mm": round(one.length_mm, 3),
        "joint_mm": round(one.joint_mm, 3),
        "withdrawal_n": round(one.ride.withdrawal_n, 3),
        "withdrawal_low_n": round(one.withdrawal_range_n[0], 3),
        "withdrawal_high_n": round(one.withdrawal_range_n[1], 3),
        "withdrawal_unfinished_n": round(one.unfinished.withdrawal_n, 3),
        "withdrawal_rigid_tooth_n": round(one.rigid.withdrawal_n, 3),
        "insertion_n": round(one.ride.insertion_n, 3),
        "side_load_n": round(float(one.ride.side_n.max()), 3),
        "peak_stress_mpa": round(one.ride.peak_stress_mpa, 2),
        "peak_stress_rigid_tooth_mpa": round(one.rigid.peak_stress_mpa, 2),
        "peak_stress_low_mpa": round(one.peak_range_mpa[0], 2),
        "peak_stress_high_mpa": round(one.peak_range_mpa[1], 2),
        "peak_at_mm": round(one.rigid.peak_at_mm, 3),
        "goodman_factor": round(one.goodman, 4),
        "seatings": one.seatings,
        "large_displacement_change": round(one.bent_change, 5),
        "decides": one.decides,
        "sensitivity": [_swing(swing) for swing in one.swings],
        "curve": {
            "lift_mm": _numbers(one.ride.lift_mm),
            "withdrawal_n": _numbers(one.ride.out_n),
            "withdrawal_low_n": _numbers(one.weak.out_n),
            "withdrawal_high_n": _numbers(one.strong.out_n),
            "insertion_n": _numbers(one.ride.in_n),
            "insertion_low_n": _numbers(one.weak.in_n),
            "insertion_high_n": _numbers(one.strong.in_n),
            "side_n": _numbers(one.ride.side_n),
        },
        "stress": {"along_mm": _numbers(one.rigid.arc_mm), "mpa": _numbers(one.rigid.along_mpa)},
    }


def _swing(swing: Swing) -> dict[str, Any]:
    return {
        "what": swing.what,
        "low": swing.low,
        "high": swing.high,
        "withdrawal_n": _numbers(np.array(swing.withdrawal_n)),
        "peak_stress_mpa": _numbers(np.array(swing.peak_mpa)),
    }


def _denture(work: Work, proof: DentureProof) -> dict[str, Any]:
    assert work.scan is not None  # a proof needs a framework, which needs a scan
    back = work.scan.scan_to_arch.inverse()
    return {
        "least_lifting_n": _number(proof.least_n),
        "least_at_mm": point_of(back.apply(proof.weakest_at), 3),
        "lifts_about": list(proof.weakest.about),
        "gives_way": list(proof.weakest.yielding),
        "without_indirect_n": _number(proof.without_indirect_n),
        "map": [
            {"at_mm": point_of(back.apply(at), 3), "lifting_n": _number(load)}
            for at, load in zip(proof.points, proof.lifting_n.tolist(), strict=True)
        ],
        "bites": [
            {
                "tooth": bite.tooth,
                "tips_at_n": _number(bite.tips_at_n),
                "ridge_share": [_number(v) for v in bite.ridge],
                "sinks_mm": [_number(v) for v in bite.deepest_mm],
                "pressure_mpa": [_number(v) for v in bite.pressure_mpa],
            }
            for bite in proof.bites
        ],
    }


def _solid(proof: FrameworkFe) -> dict[str, Any]:
    return {
        "step_mm": proof.cells.step,
        "coarser_step_mm": _number(proof.coarser_mm),
        "rounds": proof.answer.rounds,
        "nodes": len(proof.cells.nodes),
        "volume_mm3": _number(proof.cells.volume),
        "cases": [
            {
                "load": name,
                "peak_stress_mpa": _number(proof.peak_mpa[k]),
                "peak_changed_by_mesh": _number(proof.peak_moved[k]),
                "way_changed_by_mesh": _number(proof.stiffness_moved[k]),
                "yields_at": _number(proof.yields_at[k]),
            }
            for k, name in enumerate(proof.answer.names)
        ],
        "twist_mm_under_10_n": _number(proof.twist_mm),
        "spread_mm_under_10_n": _number(proof.spread_mm),
    }


def _number(value: float | None) -> float | None:
    """A number for JSON; None where it is not one or has no end."""
    return None if value is None or not np.isfinite(value) else round(float(value), 4)


def _numbers(values: np.ndarray[Any, Any]) -> list[float]:
    return [round(float(v), 4) for v in values]


def _write_sheet(folder: Path, checked: Checked, date: str) -> None:
    work = checked.work
    asked = work.sheet.prescription
    pictures = []
    if checked.denture is not None and work.arch and work.framework and work.surveyed:
        picture = lifting_picture(
            work.arch, work.framework, work.surveyed.path.direction, checked.denture
        )
        (folder / "lifting.png").write_bytes(picture.png)
        pictures.append(picture)
    if checked.solid is not None and work.arch and work.framework:
        picture = stress_picture(work.arch, work.framework, checked.solid)
        (folder / "stress.png").write_bytes(picture.png)
        pictures.append(picture)
    if checked.arms:
        (folder / "rides.png").write_bytes(ride_plot(checked.arms).png)
    facts = SheetFacts(
        asked.case_id, asked.jaw.capitalize(), str(work.kennedy), material(asked.alloy).title,
        __version__, date,
    )  # fmt: skip
    found = sorted(checked.findings, key=lambda f: ("stop", "look", "note").index(f.severity))
    proved = Proved(checked.arms, checked.denture, found, checked.choices, checked.solid)
    sheet = write_proof_sheet(facts, proved, pictures)
    (folder / "proof.pdf").write_bytes(sheet)


def _write_review(folder: Path, checked: Checked, date: str) -> None:
    """The review page with the stress of the metal and the force that lifts as fields."""
    work = checked.work
    if work.arch is None or work.framework is None:
        return
    content = compose(
        facts_of(work, date, {}, {}), work.arch, work.surveyed, work.framework, (),
        with_pictures=False,
    )  # fmt: skip
    found = sorted(checked.in_arch, key=lambda f: ("stop", "look", "note").index(f.severity))
    shown = with_proof(
        content, work.arch, work.framework, checked.denture, checked.solid, found
    )  # fmt: skip
    write_text(folder / "review.html", write_review(shown))
