"""`claspwright papers`, `dispatch`, `month`: documents, letting a case go, the month's figures."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import EnteredBy, EnteredOn
from claspwright.cli.outcome import CLEAN, STOPPED
from claspwright.cli.register import HERE, Files, Where

if TYPE_CHECKING:
    from claspwright.app.month import Month

CaseId = Annotated[str, typer.Argument(metavar="CASE", help="Id of the case in the register.")]


def papers(
    case: CaseId,
    laboratory: Annotated[Path, typer.Option(help="TOML file: name, address, responsible, ...")],
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for the PDF files.")],
    by: EnteredBy,
    on: EnteredOn,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Write all documents of a case as PDF/A and enter them in the register."""
    from claspwright.app.case_papers import read_laboratory, write_case_papers
    from claspwright.records import Signed, open_register

    lab = read_laboratory(laboratory)
    with open_register(where, files=files) as opened, progress_bar(case) as progress:
        made = write_case_papers(opened, case, lab, out, Signed(by, on), progress=progress)
    for file in made:
        print(file.as_posix())


def dispatch(
    case: CaseId,
    by: EnteredBy,
    on: EnteredOn,
    ask: Annotated[bool, typer.Option("--ask", help="Only say what stands in the way.")] = False,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter that a case was sent; refused while any stop is open."""
    from claspwright.app.dispatch import dispatch as send
    from claspwright.app.dispatch import open_stops
    from claspwright.records import Signed, open_register

    with open_register(where, files=files) as opened:
        if ask:
            stops = open_stops(opened, case, on=on[:10])
            for stop in stops:
                print(f"stop: {stop.text}")
            print(f"{len(stops)} open stops")
            raise typer.Exit(STOPPED if stops else CLEAN)
        print(f"entry {send(opened, case, Signed(by, on))}")


def month(
    first: Annotated[str, typer.Argument(help="First day, YYYY-MM-DD.")],
    last: Annotated[str, typer.Argument(help="Last day, YYYY-MM-DD.")],
    laboratory: Annotated[
        Path | None,
        typer.Option(help="Laboratory's file, for its own prices; options prevail."),
    ] = None,
    currency: Annotated[str | None, typer.Option(help="Of the costs. Else EUR.")] = None,
    powder_per_g: Annotated[
        float | None, typer.Option(min=0.0, help="Price of powder. Else 0.25.")
    ] = None,
    machine_per_build: Annotated[
        float | None, typer.Option(min=0.0, help="Cost of a build. Else 180.")
    ] = None,
    furnace_per_hour: Annotated[
        float | None, typer.Option(min=0.0, help="Cost of the furnace. Else 9.")
    ] = None,
    labour_per_framework: Annotated[
        float | None, typer.Option(min=0.0, help="Labour, good or not. Else 140.")
    ] = None,
    casting_per_framework: Annotated[
        float | None,
        typer.Option(min=0.0, help="Lost-wax casting by your own figures, to compare."),
    ] = None,
    casting_alloy_g: Annotated[
        float | None, typer.Option(min=0.0, help="The same by shares: alloy melted for one.")
    ] = None,
    casting_alloy_per_g: Annotated[float | None, typer.Option(min=0.0, help="Price of it.")] = None,
    casting_materials: Annotated[
        float | None, typer.Option(min=0.0, help="Wax, duplicating mass, investment for one.")
    ] = None,
    casting_labour: Annotated[float | None, typer.Option(min=0.0, help="Labour for one.")] = None,
    casting_remake_share: Annotated[
        float | None, typer.Option(min=0.0, max=0.99, help="Share of castings made again.")
    ] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the figures as PDF/A.")] = None,
    where: Where = HERE,
    files: Files = "",
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """What the laboratory made, what it took and what went wrong, from the register."""
    from claspwright.app.month import Rates, month_of
    from claspwright.app.month_page import month_page
    from claspwright.app.rates_file import changed, read_rates
    from claspwright.app.whole_file import write_whole
    from claspwright.base import InputError
    from claspwright.records import open_register

    if laboratory is not None and not laboratory.is_file():
        raise InputError("there is no such file", place=laboratory.as_posix())
    rates = changed(
        Rates() if laboratory is None else read_rates(laboratory),
        {
            "currency": currency, "powder_per_g": powder_per_g,
            "machine_per_build": machine_per_build, "furnace_per_hour": furnace_per_hour,
            "labour_per_framework": labour_per_framework,
            "casting_per_framework": casting_per_framework,
        },
        {
            "alloy_g": casting_alloy_g, "alloy_per_g": casting_alloy_per_g,
            "materials": casting_materials, "labour": casting_labour,
            "remake_share": casting_remake_share,
        },
    )  # fmt: skip
    with open_register(where, files=files) as opened:
        found = month_of(opened, first, last, rates)
    tell_month(found, as_json=json_)
    if pdf is not None:
        content = month_page(found, first, last)
        write_whole(pdf, lambda path: path.write_bytes(content))


def demo_month(
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for register and documents.")],
    cases: Annotated[int, typer.Option(min=1, max=5000, help="Number of cases.")] = 200,
    seed: Annotated[int, typer.Option(help="The same seed gives the same month.")] = 1,
    database: Annotated[str, typer.Option(help="URL of an empty PostgreSQL database.")] = "",
) -> None:
    """Put the month of an invented laboratory through a register: a demo and a load test."""
    from claspwright.app.demo_month import demo_month as make

    with progress_bar("invented month") as progress:
        found, run = make(out, cases, seed=seed, where=database, progress=progress)
    print(f"An invented laboratory: {run['entries']} entries and {run['sent']} dispatches "
          f"in {run['seconds']:.1f} s, chain {'whole' if run['whole'] else 'BROKEN'}")  # fmt: skip
    tell_month(found, as_json=False)
    print((out / f"documents-{run['documents_of']}").as_posix())


def tell_month(found: Month, *, as_json: bool) -> None:
    """The figures, as lines or as JSON."""
    import json
    from dataclasses import asdict

    figures = asdict(found)
    if as_json:
        print(json.dumps(figures, ensure_ascii=False, default=dict))
        return
    for name, value in figures.items():
        if isinstance(value, float):
            print(f"{name}: {value:.2f}")
        elif name == "gaps" and value:
            print(f"rest gap, um: mean {value['middle']:.0f}, limits {value['lower']:.0f} to "
                  f"{value['upper']:.0f}, {len(value['outside'])} outside")  # fmt: skip
        elif name == "gap_capability" and value:
            print(f"rest gap Cpk against its acceptance limit: {value['cpk']:.2f} "
                  f"({value['cpk_low']:.2f} to {value['cpk_high']:.2f})")  # fmt: skip
        elif isinstance(value, Mapping):
            rows = (
                f"{k} {v:.2f}" if isinstance(v, float) else f"{k} {v}" for k, v in value.items()
            )
            print(f"{name}: {'; '.join(rows) or 'none'}")
        else:
            print(f"{name}: {'not known' if value is None else value}")
