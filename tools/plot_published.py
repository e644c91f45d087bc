"""Plot published measurements of clasps beside ours: docs/images/clasp-published.png."""

from __future__ import annotations

from pathlib import Path

import matplotlib as mpl
import numpy as np

mpl.use("Agg")
import matplotlib.pyplot as plt

from claspwright.framework import Clasp
from claspwright.mechanics import (
    BareArm,
    Elastic,
    bare_arm,
    beam_arm,
    half_ovals,
    rounds,
    sprung,
    withdrawal_force,
)

PAGE = Path(__file__).resolve().parents[1] / "docs" / "images" / "clasp-published.png"
E_MPA = 220e3


def rod(length: float, diameter: float) -> float:
    """Force of a round rod sprung by 0.25 mm [N]."""
    line = np.zeros((41, 3))
    line[:, 0] = np.linspace(0.0, length, 41)
    up = np.array([0.0, 0.0, 1.0])
    arm = beam_arm(line, np.tile(up, (41, 1)), rounds(np.full(41, diameter)))
    return sprung(arm, up, 0.25, Elastic(E_MPA)).force_n


def default_arm(length: float, undercut: float) -> float:
    """Side force of the default arm of a design on 120 degrees [N]."""
    clasp, turn = Clasp("circumferential"), np.radians(np.linspace(0.0, 120.0, 81))
    off = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    size = np.linspace(1.0, 0.5, 81)
    sections = half_ovals(clasp.width_mm * size, clasp.thickness_mm * size)
    arm = beam_arm(length / np.radians(120.0) * off, off, sections)
    return sprung(arm, off[-1], undercut, Elastic(E_MPA)).force_n


def _withdrawal(axes: plt.Axes) -> None:
    """Measured withdrawal forces, new and worn, over the range of the default arm."""
    measured = (("laser-melted", 5.69, 5.92), ("cast", 4.86, 4.57))
    for at, (_, new, worn) in enumerate(measured):
        axes.plot(at, new, "ko", label="measured, new" if at == 0 else None)
        axes.plot(at, worn, "k^", mfc="w", label="after 9000 cycles" if at == 0 else None)
        axes.plot([at - 0.3, at + 0.3], [new / 5] * 2, "k:", lw=0.8)
        axes.plot([at - 0.3, at + 0.3], [new * 5] * 2, "k:", lw=0.8)
    side = [default_arm(x, 0.25) for x in (15.0, 12.0)]
    ends = [
        withdrawal_force(force, float(np.tan(np.radians(slope))), friction)
        for force, slope, friction in zip(side, (15.0, 25.0), (0.1, 0.2), strict=True)
    ]
    axes.fill_between(
        [-0.4, 1.4], *ends, alpha=0.3,
        label="ours, 12 to 15 mm, slope 15 to 25 degrees, friction 0.1 to 0.2",
    )  # fmt: skip
    axes.set(
        xticks=[0, 1], xticklabels=[row[0] for row in measured], yscale="log",
        ylabel="withdrawal force, N", title="Measured withdrawal; dotted: factor 5",
    )  # fmt: skip


def main() -> None:
    """Draw the four panels."""
    figure, grid = plt.subplots(2, 2, figsize=(10, 7.4), layout="constrained")
    (left, middle), (right, last) = grid
    lengths, widths = np.linspace(4, 15, 12), np.linspace(0.6, 1.6, 6)
    left.loglog(lengths, [rod(x, 1.0) for x in lengths], "o", label="ours, over length (D 1 mm)")
    left.loglog(lengths, rod(12, 1.0) * (lengths / 12) ** -3.0, "-", label="published law $L^{-3}$")
    twin = 10 * widths
    left.loglog(twin, [rod(12, d) for d in widths], "s", label="ours, over 10 D (L 12 mm)")
    left.loglog(twin, rod(12, 1.0) * widths**4.0, "--", label="published law $D^4$")
    left.set(xlabel="length, or ten times the diameter, mm", ylabel="force at 0.25 mm, N",
             title="Rods: scaling")  # fmt: skip
    angles = np.arange(0, 181, 10)
    for ratio in (1.0, 0.5):
        forces = [bare_arm(BareArm(12, 0.8, 0.25, E_MPA, ratio, a)).force_n for a in angles]
        middle.plot(angles, forces, label=f"ours, tip/root {ratio:g}")
    middle.set(xlabel="arc of an arm of 12 mm, degrees", ylabel="force at 0.25 mm, N",
               title="Curvature adds force (as published)")  # fmt: skip
    depth = np.array([0.25, 0.5, 0.75])
    right.plot(depth, [21.78, 43.57, 65.37], "ko", label="published FE, Co-Cr")
    low, high = ([default_arm(x, u) for u in depth] for x in (15.0, 12.0))
    right.fill_between(depth, low, high, alpha=0.3, label="ours, default arm, 12 to 15 mm")
    for factor in (0.2, 5.0):
        right.plot(depth, factor * np.array([21.78, 43.57, 65.37]), "k:", lw=0.8)
    right.set(xlabel="undercut, mm", ylabel="side force, N", yscale="log",
              title="Reaction force; dotted: factor 5")  # fmt: skip
    _withdrawal(last)
    for axes in (left, middle, right, last):
        axes.legend(fontsize=7)
        axes.grid(alpha=0.3)
    figure.savefig(PAGE, dpi=110, metadata={"Software": None})


if __name__ == "__main__":
    main()
