"""`claspwright furnace`, `certificate`, `acrylic`: powder, stress relief, denture bases."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.options import EnteredBy, EnteredOn, Instrument, Into, IntoFiles
from claspwright.cli.outcome import CLEAN, STOPPED


def furnace(
    log: Annotated[Path, typer.Argument(help="CSV file of the logger on the platform.")],
    schedule: Annotated[
        str, typer.Option(help="Schedule (stress-relief-800, anneal-1150) or alloy.")
    ],
    plot: Annotated[Path | None, typer.Option(help="Write the run as a PNG picture.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
    into: Into = "",
    run_id: Annotated[str, typer.Option("--run", help="Id of the run, to enter it.")] = "",
    build: Annotated[list[str] | None, typer.Option(help="Build that was in; repeatable.")] = None,
    instrument: Instrument = "",
    by: EnteredBy = "",
    on: EnteredOn = "",
    into_files: IntoFiles = "",
) -> None:
    """Judge a stress-relief run by its log: purge, ramp, soak, cooling, unloading, gas."""
    import json

    from claspwright.app.furnace_run import judge_furnace_log, told

    read, run = judge_furnace_log(log, schedule, plot=plot)
    if into:
        from claspwright.app.enter_runs import FurnaceEntry, enter_furnace_run
        from claspwright.records import Signed, open_register

        asked = FurnaceEntry(run_id or log.stem, tuple(build or ()), instrument)
        with open_register(into, files=into_files) as opened:
            enter_furnace_run(opened, asked, log, read, run, Signed(by, on))
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
    file: Annotated[Path, typer.Argument(help="TOML file: lot, percent of elements, size_um.")],
    alloy: Annotated[str, typer.Option(help="Alloy.")] = "cocr-lpbf-stress-relieved",
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
    into: Into = "",
    by: EnteredBy = "",
    on: EnteredOn = "",
    into_files: IntoFiles = "",
) -> None:
    """Hold the certificate of a lot of powder against the alloy's specification."""
    import json

    from claspwright.app.judge_certificate import enter_judged, judged, read_certificate, told

    read = read_certificate(file)
    found = judged(read, alloy)
    if into:
        from claspwright.records import Signed, open_register

        with open_register(into, files=into_files) as opened:
            enter_judged(opened, read, found, Signed(by, on), file=file)
    if json_:
        print(json.dumps(told(found), ensure_ascii=False))
    else:
        for row in found.rows:
            if row.value is not None:
                span = [f"{edge:g}" for edge in (row.low, row.high) if edge is not None]
                limit = f"{'at most ' if row.low is None else ''}{' to '.join(span)}"
                said = f"  limit {limit} {row.unit}" if span else "  no limit is kept"
                print(f"{row.item}: {row.value:g} {row.unit}{said}")
        for one in found.findings:
            print(f"{one.severity}: {one.text}")
        print(f"{len(found.findings)} findings")
    raise typer.Exit(CLEAN if found.passed else STOPPED)


def acrylic(
    base_cm3: Annotated[
        float | None, typer.Option(min=0.1, help="Volume of the cured base.")
    ] = None,
    results: Annotated[
        Path | None, typer.Option(help="Results of a run: its bases, as worked out there.")
    ] = None,
    excess_percent: Annotated[float, typer.Option(min=0.0, help="For the flash.")] = 25.0,
    into: Into = "",
    case: Annotated[str, typer.Option(help="Id of the case, to enter it.")] = "",
    powder_lot: Annotated[str, typer.Option(help="Lot of the powder.")] = "",
    liquid_lot: Annotated[str, typer.Option(help="Lot of the liquid.")] = "",
    tooth_lot: Annotated[str, typer.Option(help="Lot of the teeth.")] = "",
    cycle: Annotated[str, typer.Option(help="Curing cycle, in words.")] = "",
    by: EnteredBy = "",
    on: EnteredOn = "",
    into_files: IntoFiles = "",
) -> None:
    """Powder and liquid for a denture base, and the shrinkage to expect."""
    from claspwright.app.results import acrylic_of_run
    from claspwright.base import InputError
    from claspwright.process import acrylic_amount, linear_shrinkage

    if base_cm3 is None:
        if results is None:
            raise InputError(
                "no volume given", remedy="Give --base-cm3, or --results with a folder of a run."
            )
        base_cm3 = acrylic_of_run(results)
        print(f"acrylic of the bases: {base_cm3:.2f} cm3")
    found = acrylic_amount(1000.0 * base_cm3, excess_share=excess_percent / 100.0)
    if into:
        from claspwright.app.enter_runs import Packed, enter_acrylic
        from claspwright.records import Signed, open_register

        packed = Packed(case, powder_lot, liquid_lot, cycle, tooth_lot)
        with open_register(into, files=into_files) as opened:
            enter_acrylic(opened, packed, base_cm3, found, Signed(by, on))
    print(f"powder {found.powder_g:.1f} g ({found.powder_cm3:.1f} cm3)")
    print(f"liquid {found.liquid_ml:.1f} ml")
    print(f"linear shrinkage: {100.0 * linear_shrinkage():.2f} % ideal, 0.2 to 0.5 % observed")
    print("The maker's instructions come first. Monomer is flammable and a sensitiser.")
