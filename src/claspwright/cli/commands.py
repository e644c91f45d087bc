"""The command `claspwright` and its sub-commands.

What a command needs is imported when it runs, so that help and quick commands answer at once.
"""

from __future__ import annotations

import typer

from claspwright.cli.bench import account, bench
from claspwright.cli.build import build, coupon, slice_
from claspwright.cli.cases import marks, new, run
from claspwright.cli.classes import classify
from claspwright.cli.clinic import clinic
from claspwright.cli.frame import frame
from claspwright.cli.gauge import gauge
from claspwright.cli.inspection import areas, fit, seat
from claspwright.cli.invented import demo, demo_arch
from claspwright.cli.outcome import guarded
from claspwright.cli.papers import demo_month, dispatch, month, papers
from claspwright.cli.preparation import preparation
from claspwright.cli.process import acrylic, certificate, furnace
from claspwright.cli.proof import arm, check
from claspwright.cli.quality import quality
from claspwright.cli.register import register
from claspwright.cli.scans import compare_scans, rescan
from claspwright.cli.survey import survey

app = typer.Typer(
    name="claspwright",
    help="Metal partial-denture frameworks, from arch scan and prescription to print-ready solid.",
    epilog="It does not replace the prescription or the judgement of the licensed dentist.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
app.command()(run)
app.command()(new)
app.command()(marks)
app.command()(frame)
app.command()(classify)
app.command("compare-scans")(compare_scans)
app.command()(rescan)
app.command()(preparation)
app.command()(bench)
app.command()(account)
app.command("demo-arch")(demo_arch)
app.command()(demo)
app.command()(gauge)
app.command()(arm)
app.command()(check)
app.command("slice")(slice_)
app.command()(build)
app.command()(coupon)
app.command()(fit)
app.command()(seat)
app.command()(areas)
app.command()(furnace)
app.command()(certificate)
app.command()(acrylic)
app.command()(papers)
app.command()(dispatch)
app.command()(month)
app.command()(quality)
app.command("demo-month")(demo_month)
app.command()(survey)
app.add_typer(register, name="register")
app.add_typer(clinic, name="clinic")


def _version(asked: bool) -> None:
    if asked:
        from claspwright import __version__

        print(__version__)
        raise typer.Exit


@app.callback()
def _options(
    version: bool = typer.Option(
        False, "--version", callback=_version, is_eager=True, help="Print the version and end."
    ),
) -> None:
    """Options before the command."""


def main() -> None:
    """Run the command line; the exit code is 0 clean, 1 with a stop, 2 for bad input."""
    guarded(app)
