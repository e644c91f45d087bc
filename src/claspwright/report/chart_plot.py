"""A control chart as a picture."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from claspwright.inspection import ControlChart

INK, METAL, LIMIT, BAD = "#20242c", "#2f5d8a", "#9a6a2f", "#b3261e"


def control_chart_plot(chart: ControlChart, name: str) -> bytes:
    """PNG of single values in order with their limits; values beyond a limit are ringed."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # slow to import
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.2, 2.8), dpi=150, layout="constrained")
    canvas: Any = FigureCanvasAgg(figure)  # Any: partly untyped
    axes = figure.add_subplot()
    count = range(1, len(chart.values) + 1)
    axes.plot(count, chart.values, color=METAL, lw=0.9, marker=".", ms=4)
    for level, style, words in (
        (chart.middle, "-", f"mean {chart.middle:.1f}"),
        (chart.upper, "--", f"{chart.upper:.1f}"),
        (chart.lower, "--", f"{chart.lower:.1f}"),
    ):
        axes.axhline(level, color=LIMIT, lw=0.9, ls=style)
        axes.annotate(words, (1.0, level), xycoords=("axes fraction", "data"), fontsize=7.5,
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
    axes.set_ylabel(name.replace("_um", ", µm").replace("_", " "), fontsize=8)
    axes.tick_params(labelsize=8)
    out = BytesIO()
    canvas.print_png(out, metadata={"Software": "Claspwright"})
    return out.getvalue()
