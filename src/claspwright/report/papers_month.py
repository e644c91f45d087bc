"""The laboratory's month as a document."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.inspection import ControlChart
from claspwright.report.case_record import CHECK_LAW
from claspwright.report.chart_plot import control_chart_plot
from claspwright.report.paper import Block, Drawing, Fields, Heading, Paper, Table, Text

PRICES = (
    "Both columns rest on prices and times that the laboratory gave; no published figure stands in "
    "for one that is missing."
)
EXAMPLE = "The prices are those of an example: the laboratory has given none of its own yet."


@dataclass(frozen=True, slots=True)
class Facts:
    """What the page prints, as text."""

    facts: tuple[tuple[str, str], ...]
    remakes: tuple[tuple[str, str], ...]  # cause, number
    costs: tuple[tuple[str, str, str], ...]  # share, printed, cast
    currency: str
    given: bool = True  # the prices are the laboratory's own


def month_paper(told: Facts, first: str, last: str, gaps: ControlChart | None) -> Paper:
    """Figures of a month, remakes with their causes, and the cost beside that of casting."""
    remakes = told.remakes or (("none", "0"),)
    blocks: list[Block] = [
        Fields(told.facts),
        Heading("Remakes by cause"),
        Table(("Cause", "Number"), remakes),
        Heading("Cost of a good framework, by share"),
        Table((f"Share, {told.currency}", "Laser powder bed", "Lost-wax casting"), told.costs),
        Text(f"{PRICES if told.given else EXAMPLE} What was spoilt is borne by the good ones."),
    ]  # fmt: skip
    if gaps is not None:
        blocks += [
            Heading("Gap under the rests"),
            Drawing(
                control_chart_plot(gaps, "rest_gap_um"),
                "Control chart of the mean gap under the rests of each framework.",
                "Single values with limits of three standard deviations from the moving range.",
            ),
        ]
    period = f"{first} to {last}"
    return Paper("month", "The laboratory's month", period, "", last, tuple(blocks), CHECK_LAW)
