"""Force over lift of every retentive arm, out and in, with its range."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

import numpy as np

from claspwright.mechanics import ArmProof
from claspwright.report.content import Picture

INK, OUT, INTO = "#20242c", "#2f5d8a", "#9a5b13"
ACROSS = 3


def ride_plot(arms: Sequence[ArmProof]) -> Picture:
    """Picture of the forces that take each arm out and put it in, as its tip rides the crown."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # slow to import
    from matplotlib.figure import Figure

    down = max(-(-len(arms) // ACROSS), 1)
    across = min(max(len(arms), 1), ACROSS)
    size = (2.9 * across, 2.3 * down + 0.4)
    figure = Figure(figsize=size, dpi=140, layout="constrained")
    canvas: Any = FigureCanvasAgg(figure)  # Any: partly untyped
    for n, one in enumerate(arms):
        axes = figure.add_subplot(down, across, n + 1)
        for name, colour, words in (("out_n", OUT, "out"), ("in_n", INTO, "in")):
            lift = one.ride.lift_mm
            weak, strong = getattr(one.weak, name), getattr(one.strong, name)
            axes.fill_between(lift, weak, strong, color=colour, alpha=0.2, lw=0)
            dash = "-" if words == "out" else "--"
            axes.plot(lift, getattr(one.ride, name), color=colour, lw=1.5, ls=dash, label=words)
        axes.axhline(0.0, color=INK, lw=0.5)
        axes.set_title(one.arm.id, fontsize=8, loc="left", color=INK)
        axes.tick_params(labelsize=7)
        axes.set_xlabel("lift along the path, mm", fontsize=7)
        axes.set_ylabel("force, N", fontsize=7)
        if n == 0:
            axes.legend(fontsize=7, frameon=False)
    out = BytesIO()
    canvas.print_png(out, metadata={"Software": "Claspwright"})
    told = ", ".join(f"{a.arm.id} {np.max(a.ride.out_n, initial=0.0):.1f} N" for a in arms)
    return Picture(
        "rides", "proof", out.getvalue(), "Force over lift, out and in, with its range",
        f"Force along the path over the lift for each arm; greatest on the way out: {told}.",
    )  # fmt: skip
