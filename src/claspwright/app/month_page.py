"""The laboratory's month as a document, with lost-wax casting beside it on its own numbers."""

from __future__ import annotations

from claspwright.app.month import Month
from claspwright.report import Facts, month_paper, write_paper


def month_page(found: Month, first: str, last: str) -> bytes:
    """The figures of a month as PDF/A."""
    lost = found.powder_lost_g
    facts = (
        ("Cases", str(found.cases)),
        ("Frameworks built", str(found.frameworks)),
        ("Cases sent", f"{found.sent}, {found.late} of them late"),
        ("Turnaround, median", _days(found.turnaround_days)),
        ("Builds", str(found.builds)),
        ("Powder melted", f"{found.powder_melted_g:.0f} g; lost {lost:.0f} g"),
        ("Furnace", f"{found.furnace_hours:.1f} h, failed runs: {found.furnace_failed}"),
        ("Metal taken away at the try-in, mean", _um(found.adjusted_um)),
        ("Complaints", str(found.complaints)),
    )
    names = dict.fromkeys((*found.cost_by_share, *found.casting_by_share))
    costs = [
        (name, _money(found.cost_by_share.get(name)), _money(found.casting_by_share.get(name)))
        for name in names
    ]
    casting = found.casting_per_framework or None
    costs.append(("together", _money(found.cost_per_framework), _money(casting)))
    return write_paper(
        month_paper(
            Facts(facts, tuple((cause, str(n)) for cause, n in found.remakes.items()),
                  tuple(costs), found.currency, found.rates_given),
            first, last, found.gaps,
        )
    )  # fmt: skip


def _days(value: float | None) -> str:
    return "not known" if value is None else f"{value:.0f} days"


def _um(value: float | None) -> str:
    return "nothing entered" if value is None else f"{value:.0f} µm"


def _money(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"
