"""`claspwright arm` and `check`: will it hold, and will it last."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import Case, WorkDay, iso_day
from claspwright.cli.outcome import CLEAN, STOPPED

AsJson = Annotated[bool, typer.Option("--json", help="Answer as JSON.")]


def arm(
    length_mm: Annotated[float, typer.Option(help="Length along the arm.")],
    radius_mm: Annotated[
        float, typer.Option(help="Radius of the half-round at the root: its thickness.")
    ],
    undercut_mm: Annotated[float, typer.Option(help="Travel of the tip, across the flat.")],
    modulus_mpa: Annotated[float, typer.Option(help="Young's modulus, such as 220000.")],
    tip_ratio: Annotated[float, typer.Option(help="Tip dimension over root dimension.")] = 1.0,
    arc_deg: Annotated[
        float, typer.Option(help="Angle of the circular arc the arm lies on; 0 is straight.")
    ] = 0.0,
    convergence_deg: Annotated[
        float | None, typer.Option(help="Angle between tooth and path under the tip.")
    ] = None,
    friction: Annotated[
        float | None, typer.Option(help="Friction of metal on wet enamel, such as 0.15.")
    ] = None,
    json: AsJson = False,
) -> None:
    """Force and stress of a bare half-round clasp arm, by bending alone."""
    from claspwright.app.single_arm import arm_told
    from claspwright.mechanics import BareArm

    asked = BareArm(length_mm, radius_mm, undercut_mm, modulus_mpa, tip_ratio, arc_deg)
    told = arm_told(asked, convergence_deg=convergence_deg, friction=friction)
    if json:
        from json import dumps

        print(dumps(told))
        return
    print(f"Force at the tip: {told['force_n']:.3f} N")
    peak, at = told["peak_stress_mpa"], told["peak_at_mm"]
    print(f"Peak stress: {peak:.1f} MPa, {at:.2f} mm from the root")
    if told["withdrawal_n"] is not None:
        print(f"Withdrawal force: {told['withdrawal_n']:.3f} N")
    print(f"Source: {told['source']}.")
    print(told["caution"])


def check(
    case: Case,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Folder for check.json and the proof sheet.")
    ] = None,
    step_mm: Annotated[
        float, typer.Option(help="Edge of the finite elements; 0.3 is coarser and faster.")
    ] = 0.2,
    no_elements: Annotated[
        bool, typer.Option("--no-elements", help="Leave the finite elements out.")
    ] = False,
    date: WorkDay = None,
    json: AsJson = False,
) -> None:
    """Prove a case: will it hold, and last. Exit code 0 clean, 1 stop, 2 bad input."""
    from claspwright.app.check_case import check_case

    day = iso_day(date)
    with progress_bar(case.name) as progress:
        step = None if no_elements else step_mm
        found = check_case(case, out, step_mm=step, date=day, progress=progress)
    if json:
        from json import dumps

        print(dumps(found.answer, ensure_ascii=False))
    else:
        _tell(found.answer)
    raise typer.Exit(STOPPED if found.stopped else CLEAN)


def _tell(answer: dict[str, Any]) -> None:
    """The proof in a few lines."""
    if not answer["framework"]:
        print("No framework was made: nothing to prove.")
    for arm in answer["arms"]:
        print(
            f"{arm['component']}: comes off at {arm['withdrawal_n']:.1f} N "
            f"({arm['withdrawal_low_n']:.1f} to {arm['withdrawal_high_n']:.1f}), peak stress "
            f"{arm['peak_stress_mpa']:.0f} to {arm['peak_stress_rigid_tooth_mpa']:.0f} MPa"
        )
    if answer["denture"]:
        least = answer["denture"]["least_lifting_n"]
        print(f"Least force that lifts the denture: {least:.1f} N")
    print(f"stop: {answer['stops']}, look: {answer['looks']}")
    for finding in answer["findings"]:
        if finding["severity"] != "note":
            print(f"  {finding['severity']} {finding['rule']}: {finding['text']}")
    print(answer["caution"])
