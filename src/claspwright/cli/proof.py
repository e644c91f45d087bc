"""`claspwright arm` and `check`: will it hold, and will it last."""

from __future__ import annotations

from typing import Annotated

import typer

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
    from claspwright.mechanics import BareArm, bare_arm

    asked = BareArm(length_mm, radius_mm, undercut_mm, modulus_mpa, tip_ratio, arc_deg)
    found = bare_arm(asked, convergence_deg=convergence_deg, friction=friction)
    if json:
        from dataclasses import asdict
        from json import dumps

        print(dumps(asdict(found)))
        return
    print(f"Force at the tip: {found.force_n:.3f} N")
    print(f"Peak stress: {found.peak_stress_mpa:.1f} MPa, {found.peak_at_mm:.2f} mm from the root")
    if found.withdrawal_n is not None:
        print(f"Withdrawal force: {found.withdrawal_n:.3f} N")
    print("A computed aid: it replaces neither a test nor the dentist's judgement.")
