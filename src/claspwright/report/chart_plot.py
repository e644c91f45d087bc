"""A control chart as a picture."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from claspwright.inspection import ControlChart

NAMES = {  # of quantities, and whether one can be below zero
    "bias_um": ("mean deviation, µm", True),
    "rest_gap_um": ("gap under rests, µm", False),
    "p95_um": ("95th percentile, µm", False),
    "adjusted_um": ("metal taken away, µm", False),
}
INK, METAL, LIMIT, BAD = "#20242c", "#2f5d8a", "#9a6a2f", "#b3261e"


def control_chart_plot(chart: ControlChart, name: str) -> bytes:
    """PNG of single values in order with their limits; values beyond a limit are ringed.

    A lower limit below zero says nothing of a quantity that cannot be below zero: it is left out.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # slow to import
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.2, 2.8), dpi=150, layout="constrained")
    canvas: Any = FigureCanvasAgg(figure)  # Any: partly untyped
    axes = figure.add_subplot()
    count = range(1, len(chart.values) + 1)
    axes.plot(count, chart.values, color=METAL, lw=0.9, marker=".", ms=4)
    words, signed = NAMES.get(name, (name.replace("_um", ", µm").replace("_", " "), True))
    levels = [
        (chart.middle, "-", f"mean {chart.middle:.1f}"),
        (chart.upper, "--", f"{chart.upper:.1f}"),
    ]
    if signed or chart.lower > 0.0:
        levels.append((chart.lower, "--", f"{chart.lower:.1f}"))
    for level, style, told in levels:
        axes.axhline(level, color=LIMIT, lw=0.9, ls=style)
        axes.annotate(told, (1.0, level), xycoords=("axes fraction", "data"), fontsize=7.5,
                      xytext=(4, -2), textcoords="offset points", color=INK)  # fmt: skip
    if chart.outside:
        places = [n + 1 for n in chart.outside]
        axes.plot(places, [chart.values[n] for n in chart.outside], "o", mfc="none", mec=BAD, ms=9,
                  label="beyond a limit")  # fmt: skip
    if chart.runs:
        axes.plot([n + 1 for n in chart.runs], [chart.values[n] for n in chart.runs], "s",
                  mfc="none", mec=INK, ms=9, label="ninth or later on one side")  # fmt: skip
    if chart.outside or chart.runs:
        axes.legend(
            fontsize=7.5, frameon=False, loc="upper right", bbox_to_anchor=(1.0, -0.1), ncols=2
        )
    axes.set_xlabel("framework, in the order of building", fontsize=8)
    axes.set_ylabel(words, fontsize=8)
    axes.tick_params(labelsize=8)
    out = BytesIO()
    canvas.print_png(out, metadata={"Software": "Claspwright"})
    return out.getvalue()
