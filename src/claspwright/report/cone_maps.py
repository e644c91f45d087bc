"""Maps of the score of a path of placement, and of each of its parts, over the cone of tilts."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.ndimage import distance_transform_edt

from claspwright.base import Floats
from claspwright.report.colours import mapped
from claspwright.survey import Cone, PathChoice, score_parts

if TYPE_CHECKING:  # slow to import
    from matplotlib.colors import ListedColormap
    from matplotlib.figure import Figure

STYLE: Any = {  # the library types its keys one by one
    "svg.hashsalt": "claspwright",
    "svg.fonttype": "path",
    "font.family": "DejaVu Sans",
    "font.size": 8.0,
    "axes.titlesize": 9.0,
    "axes.linewidth": 0.6,
    "axes.edgecolor": "#5b6470",
    "text.color": "#20242c",
    "axes.labelcolor": "#20242c",
    "figure.facecolor": "white",
}
LEVELS = 9
USUAL_DEG = 10.0
FLAT = 1e-4  # a map that changes by less is the same everywhere


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One map: values over the tilts of the cone."""

    key: str  # row of the table of scores, "all" or "weakest"
    title: str
    unit: str
    values: Floats  # (D,)


def light_is_low() -> ListedColormap:
    """The report's map of colours, light for low values: where points are few."""
    from matplotlib.colors import ListedColormap  # slow to import

    return ListedColormap(mapped(np.linspace(0.0, 1.0, 256), 0.0, 1.0) / 255.0, name="light is low")


def panels_of(cone: Cone) -> tuple[Panel, ...]:
    """The score, its parts, and the undercut of the clasp that has least."""
    rows = score_parts()
    costs = {row.key: cone.points[n] for n, row in enumerate(rows)}
    tilt = costs.pop("tilt") + costs.pop("beyond")
    found = [Panel("all", "All points: fewer are better", "points", cone.totals)]
    titles = {row.key: row.title for row in rows}
    found += [
        Panel(key, titles[key][0].upper() + titles[key][1:], "points", cost)
        for key, cost in costs.items()
    ]
    found.append(Panel("tilt", "Tilt off the occlusal plane's normal", "points", tilt))
    if len(cone.usable_mm):
        weakest = cone.usable_mm.min(axis=0)
        found.append(Panel("weakest", "Usable undercut of the weakest clasp", "mm", weakest))
    return tuple(found)


def cone_maps(choice: PathChoice, panels: Sequence[Panel], *, columns: int = 2) -> Figure:
    """Maps side by side, with contour lines and the chosen, second and untilted paths.

    Args:
        choice: with its cone.
        panels: what to show; `panels_of` gives all.
        columns: of maps.
    """
    from matplotlib import rc_context  # slow to import
    from matplotlib.figure import Figure

    cone = choice.cone
    assert cone is not None
    rows = -(-len(panels) // columns)
    with rc_context(STYLE):
        figure = Figure(figsize=(3.5 * columns, 3.1 * rows + 0.45), layout="constrained")
        axes = np.atleast_1d(figure.subplots(rows, columns, squeeze=False)).ravel()
        for at, panel in zip(axes, panels, strict=False):
            _draw(at, cone, panel)
            _mark(at, choice)
        for spare in axes[len(panels) :]:
            spare.set_axis_off()
        handles, labels = axes[0].get_legend_handles_labels()
        figure.legend(
            handles, labels, loc="outside lower center", ncols=2 * min(columns, 2), frameon=False
        )
    return figure


def as_svg(figure: Figure) -> bytes:
    """The figure as SVG, the same bytes for the same figure."""
    from matplotlib import rc_context  # slow to import

    with rc_context(STYLE):
        out = io.BytesIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return out.getvalue()


def as_png(figure: Figure, dpi: int = 110) -> bytes:
    """The figure as PNG, the same bytes for the same figure."""
    from matplotlib import rc_context  # slow to import

    with rc_context(STYLE):
        out = io.BytesIO()
        figure.savefig(out, format="png", dpi=dpi, metadata={"Software": None})
    return out.getvalue()


def _draw(at: Any, cone: Cone, panel: Panel) -> None:
    from matplotlib.patches import Circle  # slow to import

    ticks, square = cone.square(panel.values)
    reach = float(ticks[-1])
    at.set_title(panel.title)
    at.set_aspect("equal")
    at.set(xlim=(-reach - 1, reach + 1), ylim=(-reach - 1, reach + 1))
    at.set_xlabel("right lateral tilt, deg", labelpad=1)
    at.set_ylabel("anterior tilt, deg", labelpad=0)
    at.tick_params(length=2, width=0.5)
    at.set_xticks(np.arange(-20, 21, 10))
    at.set_yticks(np.arange(-20, 21, 10))
    rim = Circle((0, 0), reach, facecolor="none", edgecolor="#5b6470", linewidth=0.8)
    at.add_patch(rim)
    at.add_patch(Circle((0, 0), USUAL_DEG, facecolor="none", edgecolor="#20242c", linewidth=0.6,
                        linestyle=(0, (4, 3)), zorder=4))  # fmt: skip
    low, high = float(panel.values.min()), float(panel.values.max())
    if high - low < FLAT:
        words = f"{low:.2f} {panel.unit}\neverywhere"
        at.text(0, 0.55 * reach, words, ha="center", va="center", fontsize=8)
        return
    levels = _levels(low, high)
    whole = _without_gaps(square)
    shades = light_is_low() if panel.unit == "points" else light_is_low().reversed()
    filled = at.contourf(ticks, ticks, whole, levels, cmap=shades, extend="both")
    lines = at.contour(ticks, ticks, whole, levels, colors="#20242c", linewidths=0.5)
    for drawn in (filled, lines):
        drawn.set_clip_path(rim)
    digits = max(0, int(np.ceil(-np.log10(levels[1] - levels[0]) - 1e-9)))
    for label in at.clabel(lines, fontsize=6.5, fmt=f"%.{digits}f", inline_spacing=2):
        label.set_visible(float(np.hypot(*label.get_position())) < reach - 1.5)
        label.set_bbox({"facecolor": "white", "alpha": 0.75, "pad": 0.5, "linewidth": 0})
    at.text(reach + 0.8, -reach - 0.6, panel.unit, ha="right", va="bottom", fontsize=7)


def _levels(low: float, high: float) -> Floats:
    """Round levels over the range, about nine."""
    rough = (high - low) / LEVELS
    size = 10.0 ** np.floor(np.log10(rough))
    step = size * float(next(s for s in (1.0, 2.0, 5.0, 10.0) if s * size >= rough))
    first = np.ceil(low / step) * step
    levels = np.arange(first, high + 1e-9, step)
    return levels if len(levels) > 1 else np.array([low, high])


def _without_gaps(square: Floats) -> Floats:
    """Places off the cone take the nearest value, so that the map runs up to its rim."""
    gaps = np.isnan(square)
    near = distance_transform_edt(gaps, return_distances=False, return_indices=True)
    return np.asarray(square[tuple(near)])


def _mark(at: Any, choice: PathChoice) -> None:
    second = "best found" if choice.named else "second best distinct path"
    chosen = "path that the sheet names" if choice.named else "chosen path"
    for score, sign, words in (
        (choice.untilted, "+", "zero tilt"),
        (choice.second, "s", second),
        (choice.score, "o", chosen),
    ):
        if score is None:
            continue
        x, y = score.path.right_lateral_tilt_deg, score.path.anterior_tilt_deg
        edge = {"markeredgecolor": "black"} if sign == "+" else {"markeredgecolor": "white"}
        at.plot([x], [y], sign, color="black", markersize=7 if sign == "+" else 5.5,
                label=words, zorder=5, linestyle="none", **edge)  # fmt: skip
