"""`claspwright quality`: charts, capability, groups and drivers of the fit, from the register."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.register import HERE, Files, Where


def quality(
    first: Annotated[str, typer.Argument(help="First day, YYYY-MM-DD.")],
    last: Annotated[str, typer.Argument(help="Last day, YYYY-MM-DD.")],
    charts: Annotated[
        Path | None, typer.Option(help="Folder for a control chart of each quantity, PNG.")
    ] = None,
    where: Where = HERE,
    files: Files = "",
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Fit over builds, machines, lots and places: charts, capability, precision, drivers."""
    import json
    from functools import partial

    from claspwright.app.quality import quality_of, told
    from claspwright.app.whole_file import write_whole
    from claspwright.records import open_register
    from claspwright.report import control_chart_plot

    with open_register(where, files=files) as opened:
        found = quality_of(opened, first, last)
    if charts is not None:
        charts.mkdir(parents=True, exist_ok=True)
        for one in found.measures:
            picture = control_chart_plot(one.chart, one.name)
            write_whole(charts / f"{one.name}.png", partial(_write, picture))
    if json_:
        print(json.dumps(told(found), ensure_ascii=False))
        return
    print(f"{len(found.readings)} frameworks")
    if found.seated_share is not None:
        print(f"seated without adjustment: {found.seated_share:.0%} of those tried in")
    for one in found.measures:
        chart = one.chart
        limits = f"mean {chart.middle:.1f}, limits {chart.lower:.1f} to {chart.upper:.1f}"
        print(f"{one.name}: {limits}, {len(chart.outside)} outside, {len(chart.runs)} runs")
        if one.capability is not None:
            c = one.capability
            print(f"  Cpk {c.cpk:.2f} ({c.cpk_low:.2f} to {c.cpk_high:.2f})")
        for by, split in one.precision.items():
            within, whole = split.repeatability_sd, split.reproducibility_sd
            print(f"  by {by}: repeatability {within:.1f}, reproducibility {whole:.1f}")
        for driver in one.drivers:
            mark = " *" if driver.clear and driver.name != "intercept" else ""
            print(f"  {driver.name}: {driver.estimate:.2f} ({driver.low:.2f} to "
                  f"{driver.high:.2f}){mark}")  # fmt: skip


def _write(content: bytes, path: Path) -> None:
    path.write_bytes(content)
