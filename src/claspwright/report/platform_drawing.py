"""Pictures of a build: platform map, layers with their vectors, film strip, times, landscape."""

from __future__ import annotations

import io
from collections.abc import Sequence
from html import escape
from typing import Any

import numpy as np
import shapely
from PIL import Image, ImageDraw

from claspwright.base import Floats
from claspwright.build import (
    CORE,
    DOWNSKIN,
    UPSKIN,
    Exposed,
    Hatches,
    Machine,
    OrientationStudy,
    Platform,
    Slices,
)
from claspwright.report.colours import mapped
from claspwright.report.drawing import font

INK, FAINT, RULE = "#20242c", "#5b6470", "#c9ced6"
SHADES = ("#d9e2ec", "#e6dfd1", "#dbe6d8", "#e8d9dc", "#dcd9e8", "#d6e5e6")
CLASSES = {CORE: "#5b6470", UPSKIN: "#b4690e", DOWNSKIN: "#8a1c5b"}
SUPPORT = "#2f5d8a"
_FONT = "Libertinus Serif, Times New Roman, Times, serif"


def platform_map_svg(
    machine: Machine, shapes: Sequence[Any], names: Sequence[str], *, size: int = 640
) -> str:
    """The platform from above with every part, its name, gas flow and recoater.

    Args:
        machine: the machine.
        shapes: outlines where they stand, shapely.
        names: what is written into each.
        size: width of the picture [px].
    """
    view = _View(machine.platform, size)
    out = view.begin(f"Platform of {machine.title} with {len(names)} parts")
    out.append(_edge(machine.platform, view))
    for k in machine.platform.keep_outs:
        x, y = view.at(k.x_mm, k.y_mm)
        out.append(
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{k.radius_mm * view.scale:.1f}" '
            f'fill="#fff" stroke="{FAINT}" stroke-dasharray="3 2"/>'
        )
    for n, shape in enumerate(shapes):
        fill = SHADES[n % len(SHADES)]
        out.append(f'<path d="{_shape_path(shape, view)}" fill="{fill}" stroke="{INK}"/>')
    for n, shape in enumerate(shapes):
        spot = shapely.point_on_surface(shape)
        x, y = view.at(spot.x, spot.y)
        words = escape(f"{n + 1}  {names[n]}")
        style = f'x="{x:.1f}" y="{y:.1f}" font-size="15" text-anchor="middle"'
        out.append(f'<text {style} fill="#fff" stroke="#fff" stroke-width="4">{words}</text>')
        out.append(f'<text {style} fill="{INK}" font-weight="bold">{words}</text>')
    out += _arrow(view, machine.gas_flow_deg, "gas flow", 0)
    out += _arrow(view, machine.recoater_deg, "recoater", 1)
    return "\n".join([*out, "</svg>"])


def layer_svg(
    exposures: Sequence[Exposed], layer: int, machine: Machine, *, size: int = 900
) -> str:
    """One layer with all its vectors: contours, hatch by class, supports."""
    view = _View(machine.platform, size)
    out = view.begin(f"Layer {layer + 1}")
    out.append(_edge(machine.platform, view))
    for one in exposures:
        if layer >= one.outline.layers:
            continue
        for kind, colour in CLASSES.items():
            out.append(_lines(one.hatches, layer, kind, colour, view))
        if one.support_hatches is not None:
            out.append(_lines(one.support_hatches, layer, CORE, SUPPORT, view))
        for track in one.contours:
            out.append(_rings(track, layer, INK, view))
        if one.support_contours is not None:
            out.append(_rings(one.support_contours, layer, SUPPORT, view))
    return "\n".join([part for part in out if part] + ["</svg>"])


def film_strip_png(
    exposures: Sequence[Exposed], machine: Machine, layers: Sequence[int], *, frame: int = 300
) -> bytes:
    """Some layers side by side: metal of parts dark, supports blue."""
    columns = min(4, max(len(layers), 1))
    rows = -(-len(layers) // columns)
    sheet = Image.new("RGB", (columns * frame, rows * (frame + 22)), "white")
    draw = ImageDraw.Draw(sheet)
    for n, layer in enumerate(layers):
        x0, y0 = (n % columns) * frame, (n // columns) * (frame + 22)
        view = _View(machine.platform, 4 * frame)
        big = Image.new("RGB", (4 * frame, 4 * frame), "white")
        pen = ImageDraw.Draw(big)
        _edge_on(pen, machine.platform, view)
        for one in exposures:
            if layer >= one.outline.layers:
                continue
            if one.support_outline is not None:
                _fill(pen, one.support_outline, layer, view, SUPPORT)
            _fill(pen, one.outline, layer, view, "#3a424d")
        sheet.paste(big.resize((frame, frame), Image.Resampling.LANCZOS), (x0, y0 + 20))
        top = exposures[0].outline.bottom_mm + (layer + 1) * exposures[0].outline.layer_mm
        draw.text((x0 + 8, y0 + 3), f"layer {layer + 1}, {top:.2f} mm", INK, font=font(13))
    raw = io.BytesIO()
    sheet.save(raw, "PNG")
    return raw.getvalue()


def times_svg(seconds: Floats, recoat_s: float, layer_mm: float, *, wide: int = 640) -> str:
    """Seconds of each layer over its height, recoating shaded."""
    tall, left, low = 200, 52, 34
    most = max(float(seconds.max(initial=1.0)), 1.0) * 1.08
    height = len(seconds) * layer_mm
    every = max(1, len(seconds) // 600)
    shown = seconds[: len(seconds) // every * every].reshape(-1, every).mean(axis=1)

    def x(n: float) -> float:
        return left + (wide - left - 10) * n / max(len(shown), 1)

    def y(value: float) -> float:
        return 10 + (tall - low - 10) * (1.0 - value / most)

    line = " ".join(f"{x(n + 0.5):.1f},{y(v):.1f}" for n, v in enumerate(shown.tolist()))
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {tall}" '
        f'font-family="{_FONT}" font-size="12" fill="{INK}">',
        "<title>Seconds of each layer over the height</title>",
        f'<rect x="{left}" y="{y(recoat_s):.1f}" width="{wide - left - 10}" '
        f'height="{y(0) - y(recoat_s):.1f}" fill="#e8ebef"/>',
        f'<polyline points="{line}" fill="none" stroke="{SUPPORT}" stroke-width="1.2"/>',
        f'<line x1="{left}" y1="{y(0):.1f}" x2="{wide - 10}" y2="{y(0):.1f}" stroke="{INK}"/>',
    ]
    for share in (0.0, 0.5, 1.0):
        at = left + (wide - left - 10) * share
        out.append(
            f'<text x="{at:.1f}" y="{tall - 16}" text-anchor="middle">{height * share:.1f}</text>'
        )
    for value in _ticks(most):
        out.append(
            f'<text x="{left - 6}" y="{y(value) + 4:.1f}" text-anchor="end">{value:g}</text>'
            f'<line x1="{left - 3}" y1="{y(value):.1f}" x2="{left}" y2="{y(value):.1f}" '
            f'stroke="{INK}"/>'
        )
    out.append(
        f'<text x="{(left + wide) / 2}" y="{tall - 2}" text-anchor="middle">height, mm</text>'
    )
    out.append(f'<text x="6" y="{y(most) + 4:.1f}">s</text>')
    out.append(f'<text x="{left + 8}" y="{y(0) - 6:.1f}" fill="{FAINT}">recoating</text></svg>')
    return "\n".join(out)


def landscape_svg(study: OrientationStudy, *, size: int = 300) -> str:
    """Cost of every orientation on the two halves of the sphere, the best few numbered.

    Each half is drawn so that equal parts of the sphere take equal areas; the middle of the
    left disc is the part's own +z up, of the right disc its -z up.
    """
    ways, cost = study.directions, study.cost_min
    low = float(cost.min())
    high = float(np.quantile(cost[cost < 1e5], 0.9)) if (cost < 1e5).any() else low + 1
    colours = mapped(cost, low, max(high, low + 1e-6))
    radius = 0.5 * size - 12
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {2 * size} {size + 26}" '
        f'font-family="{_FONT}" font-size="12" fill="{INK}">',
        "<title>Cost of every orientation on the two halves of the sphere</title>",
    ]
    dot = 1.2 * radius * np.sqrt(2.0 / len(ways))

    def place(way: Floats) -> tuple[float, float]:
        upper = way[2] >= 0
        stretch = radius * np.sqrt(1.0 / (1.0 + abs(float(way[2]))))
        middle = 0.5 * size if upper else 1.5 * size
        return middle + stretch * float(way[0]), 0.5 * size - stretch * float(way[1])

    for n in range(len(ways)):
        x, y = place(ways[n])
        r, g, b = (int(v) for v in colours[n])
        out.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{dot:.1f}" fill="rgb({r},{g},{b})"/>')
    for rank, one in enumerate(study.best[:5]):
        x, y = place(np.array(one.up))
        out.append(
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="9" fill="#fff" stroke="{INK}"/>'
            f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle">{rank + 1}</text>'
        )
    out.append(f'<text x="{0.5 * size}" y="{size + 8}" text-anchor="middle">own +z up</text>')
    out.append(f'<text x="{1.5 * size}" y="{size + 8}" text-anchor="middle">own -z up</text>')
    out.append(
        f'<text x="{size}" y="{size + 22}" text-anchor="middle" fill="{FAINT}">'
        f"light {low:.0f} min, dark {high:.0f} min and more</text></svg>"
    )
    return "\n".join(out)


class _View:
    """From millimetres on the platform to pixels."""

    def __init__(self, platform: Platform, size: int) -> None:
        """Fit the platform into a square picture."""
        self.size = size
        self.scale = (size - 24) / max(platform.width_mm, platform.depth_mm)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Pixel of a point [mm]."""
        return 0.5 * self.size + x * self.scale, 0.5 * self.size - y * self.scale

    def begin(self, title: str) -> list[str]:
        """First lines of an SVG file."""
        return [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.size} {self.size}" '
            f'font-family="{_FONT}" role="img"><title>{escape(title)}</title>',
            '<rect width="100%" height="100%" fill="#fff"/>',
        ]


def _edge(platform: Platform, view: _View) -> str:
    x, y = view.at(-0.5 * platform.width_mm, 0.5 * platform.depth_mm)
    wide, tall = platform.width_mm * view.scale, platform.depth_mm * view.scale
    if platform.shape == "round":
        return (
            f'<circle cx="{view.size / 2}" cy="{view.size / 2}" r="{wide / 2:.1f}" '
            f'fill="#f6f7f9" stroke="{FAINT}"/>'
        )
    return (
        f'<rect x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{tall:.1f}" '
        f'fill="#f6f7f9" stroke="{FAINT}"/>'
    )


def _edge_on(pen: ImageDraw.ImageDraw, platform: Platform, view: _View) -> None:
    low = view.at(-0.5 * platform.width_mm, 0.5 * platform.depth_mm)
    high = view.at(0.5 * platform.width_mm, -0.5 * platform.depth_mm)
    draw = pen.ellipse if platform.shape == "round" else pen.rectangle
    draw((*low, *high), outline=FAINT, fill="#f6f7f9", width=3)


def _arrow(view: _View, angle_deg: float, words: str, line: int) -> list[str]:
    x, y = 58.0, view.size - 46.0 + 30.0 * line
    a = np.radians(angle_deg)
    dx, dy = 16 * float(np.cos(a)), -16 * float(np.sin(a))
    tip = (x + dx - 40, y + dy)
    wing = [(-dx * 0.4 + s * dy * 0.35, -dy * 0.4 - s * dx * 0.35) for s in (1, -1)]
    heads = " ".join(f"M{tip[0]:.1f} {tip[1]:.1f} l{u:.1f} {v:.1f}" for u, v in wing)
    return [
        f'<path d="M{x - 40 - dx:.1f} {y - dy:.1f} L{tip[0]:.1f} {tip[1]:.1f} {heads}" '
        f'stroke="{INK}" fill="none"/>',
        f'<text x="{x - 14}" y="{y + 4:.1f}" font-size="13" fill="{FAINT}">{words}</text>',
    ]


def _shape_path(shape: Any, view: _View) -> str:
    out = []
    for ring in shapely.get_rings(shapely.get_parts(shape)):
        points = [view.at(x, y) for x, y in shapely.get_coordinates(ring).tolist()]
        out.append("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points) + "Z")
    return "".join(out)


def _lines(lines: Hatches, layer: int, kind: int, colour: str, view: _View) -> str:
    chosen = slice(lines.layer_start[layer], lines.layer_start[layer + 1])
    vectors = lines.vectors[chosen][lines.kinds[chosen] == kind]
    if not len(vectors):
        return ""
    ends = [(*view.at(a, b), *view.at(c, d)) for a, b, c, d in vectors.tolist()]
    path = "".join(f"M{a:.2f} {b:.2f}L{c:.2f} {d:.2f}" for a, b, c, d in ends)
    return f'<path d="{path}" stroke="{colour}" stroke-width="0.3" fill="none"/>'


def _rings(slices: Slices, layer: int, colour: str, view: _View) -> str:
    path = []
    for n in range(slices.layer_start[layer], slices.layer_start[layer + 1]):
        points = [view.at(x, y) for x, y in slices.contour(n).tolist()]
        path.append("M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in points) + "Z")
    if not path:
        return ""
    return f'<path d="{"".join(path)}" stroke="{colour}" stroke-width="0.4" fill="none"/>'


def _fill(pen: ImageDraw.ImageDraw, slices: Slices, layer: int, view: _View, colour: str) -> None:
    areas = slices.areas()
    for n in range(slices.layer_start[layer], slices.layer_start[layer + 1]):
        points = [view.at(x, y) for x, y in slices.contour(n).tolist()]
        pen.polygon(points, fill=colour if areas[n] > 0 else "#f6f7f9")


def _ticks(most: float) -> list[float]:
    step = 10.0 ** np.floor(np.log10(most))
    if most / step < 2.5:
        step /= 2
    return [float(v) for v in np.arange(0.0, most, step)]
