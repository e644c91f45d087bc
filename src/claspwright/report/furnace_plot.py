"""The platform's temperature over a furnace run, against its schedule."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import numpy as np

from claspwright.process import FurnaceLog, FurnaceRun

INK, METAL, BAND, GAS = "#20242c", "#2f5d8a", "#e9dcc0", "#5b6470"


def furnace_plot(log: FurnaceLog, run: FurnaceRun) -> bytes:
    """PNG of a run: the platform's thermocouple, the band of the soak, gas where it was logged."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # slow to import
    from matplotlib.figure import Figure

    wanted = run.schedule
    figure = Figure(figsize=(7.2, 3.6), dpi=150, layout="constrained")
    canvas: Any = FigureCanvasAgg(figure)  # Any: partly untyped
    axes = figure.add_subplot()
    hours = log.time_s / 3600.0
    low, high = wanted.soak_c - wanted.tolerance_c, wanted.soak_c + wanted.tolerance_c
    axes.axhspan(low, high, color=BAND, label=f"soak {low:g} to {high:g} °C")
    if log.setpoint_c is not None:
        axes.plot(hours, log.setpoint_c, color=GAS, lw=0.9, ls="--", label="set point")
    axes.plot(hours, log.platform_c, color=METAL, lw=1.6, label="platform")
    axes.axhline(wanted.unload_c, color=INK, lw=0.7, ls=":", label=f"unload {wanted.unload_c:g} °C")
    gas = log.oxygen_ppm if log.oxygen_ppm is not None else log.gas_l_min
    if gas is not None:
        other = axes.twinx()
        words = "oxygen, ppm" if log.oxygen_ppm is not None else "gas, l/min"
        other.step(hours, gas, color=GAS, lw=0.8, where="post")
        other.set_ylabel(words, color=GAS, fontsize=8)
        other.set_ylim(0.0, 2.5 * max(float(np.max(gas)), 1e-6))
        other.tick_params(labelsize=8, colors=GAS)
    axes.set_xlabel("hours", fontsize=8)
    axes.set_ylabel("temperature, °C", fontsize=8)
    axes.set_title(wanted.title, fontsize=9, loc="left", color=INK)
    axes.tick_params(labelsize=8)
    axes.set_ylim(bottom=0.0)
    axes.legend(
        fontsize=7.5, loc="upper center", bbox_to_anchor=(0.5, -0.14), ncols=4, frameon=False
    )
    out = BytesIO()
    canvas.print_png(out, metadata={"Software": "Claspwright"})
    return out.getvalue()
