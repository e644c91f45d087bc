"""`claspwright furnace`, `certificate`, `acrylic`: powder, stress relief, denture bases."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.outcome import CLEAN, STOPPED


def furnace(
    log: Annotated[Path, typer.Argument(help="CSV file of the logger on the platform.")],
    schedule: Annotated[
        str, typer.Option(help="Schedule (stress-relief-800, anneal-1150) or alloy.")
    ],
    plot: Annotated[Path | None, typer.Option(help="Write the run as a PNG picture.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Judge a stress-relief run by its log: purge, ramp, soak, cooling, unloading, gas."""
    import json

    from claspwright.app.furnace_run import judge_furnace_log, told

    _, run = judge_furnace_log(log, schedule, plot=plot)
    if json_:
        print(json.dumps(told(run), ensure_ascii=False))
    else:
        print(f"{run.schedule.title}: {'passed' if run.passed else 'failed'}")
        for name, value in told(run).items():
            if isinstance(value, float):
                print(f"  {name}: {value:g}")
        for finding in run.findings:
            print(f"{finding.severity}: {finding.text}")
    raise typer.Exit(CLEAN if run.passed else STOPPED)


def certificate(
    file: Annotated[Path, typer.Argument(help="TOML file: lot, [percent] of elements, size_um.")],
    alloy: Annotated[str, typer.Option(help="Alloy.")] = "cocr-lpbf-stress-relieved",
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Hold the certificate of a lot of powder against the alloy's specification."""
    import json
    from dataclasses import asdict

    from claspwright.app.judge_certificate import judge_certificate_file

    found = judge_certificate_file(file, alloy)
    if json_:
        print(json.dumps({"findings": [asdict(one) for one in found]}, ensure_ascii=False))
    else:
        for one in found:
            print(f"{one.severity}: {one.text}")
        print(f"{len(found)} findings")
    raise typer.Exit(STOPPED if any(one.severity == "stop" for one in found) else CLEAN)


def acrylic(
    base_cm3: Annotated[float, typer.Option(min=0.1, help="Volume of the cured base.")],
    excess_percent: Annotated[float, typer.Option(min=0.0, help="For the flash.")] = 25.0,
) -> None:
    """Powder and liquid for a denture base, and the shrinkage to expect."""
    from claspwright.process import acrylic_amount, linear_shrinkage

    found = acrylic_amount(1000.0 * base_cm3, excess_share=excess_percent / 100.0)
    print(f"powder {found.powder_g:.1f} g ({found.powder_cm3:.1f} cm3)")
    print(f"liquid {found.liquid_ml:.1f} ml")
    print(f"linear shrinkage: {100.0 * linear_shrinkage():.2f} % ideal, 0.2 to 0.5 % observed")
    print("The maker's instructions come first. Monomer is flammable and a sensitiser.")
