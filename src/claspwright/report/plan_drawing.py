"""The arch plan as a file: SVG for documents, PNG for whatever cannot show it."""

from __future__ import annotations

import base64
import io
from html import escape

from PIL import Image, ImageDraw

from claspwright.report.drawing import font
from claspwright.report.plan import Plan
from claspwright.report.render import png

_INK, _FAINT = "#20242c", "#5b6470"


def plan_svg(plan: Plan, font: str = "Libertinus Serif, Times New Roman, Times, serif") -> str:
    """The plan as one SVG file with the picture inside."""
    x, y, w, h = plan.box
    shown = base64.b64encode(plan.picture).decode("ascii")
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {plan.size[0]} {plan.size[1]}" '
        f'font-family="{font}" role="img"><title>{escape(plan.alt)}</title>',
        f'<image x="{x:g}" y="{y:g}" width="{w:g}" height="{h:g}" '
        f'href="data:image/png;base64,{shown}"/>',
    ]
    for leader in plan.leaders:
        points = " ".join(f"{px:.1f},{py:.1f}" for px, py in leader)
        out.append(
            f'<polyline points="{points}" fill="none" stroke="{_FAINT}" stroke-width="1.2"/>'
        )
        out.append(f'<circle cx="{leader[-1][0]:.1f}" cy="{leader[-1][1]:.1f}" r="3"/>')
    for text in plan.texts:
        style = ' font-weight="bold"' if text.bold else ""
        ink = _FAINT if text.faint else _INK
        common = (
            f'x="{text.x:.1f}" y="{text.y + text.size * 0.35:.1f}" font-size="{text.size:g}" '
            f'text-anchor="{text.anchor}"{style}'
        )
        words = escape(text.text)
        out.append(
            f'<text {common} fill="#fff" stroke="#fff" stroke-width="4" '
            f'stroke-linejoin="round" aria-hidden="true">{words}</text>'
        )
        out.append(f'<text {common} fill="{ink}">{words}</text>')
    return "\n".join([*out, "</svg>"])


def plan_png(plan: Plan, scale: int = 2) -> bytes:
    """The plan as a PNG, `scale` pixels for each of the plan's own."""
    image = Image.new("RGB", (plan.size[0] * scale, plan.size[1] * scale), "white")
    x, y, w, h = (round(side * scale) for side in plan.box)
    image.paste(Image.open(io.BytesIO(plan.picture)).convert("RGB").resize((w, h)), (x, y))
    pen = ImageDraw.Draw(image)
    for leader in plan.leaders:
        points = [(px * scale, py * scale) for px, py in leader]
        pen.line(points, fill=_FAINT, width=scale)
        px, py = points[-1]
        pen.ellipse([px - 3 * scale, py - 3 * scale, px + 3 * scale, py + 3 * scale], fill="black")
    for text in plan.texts:
        pen.text(
            (text.x * scale, text.y * scale), text.text, fill=_FAINT if text.faint else _INK,
            font=font(round(text.size * scale * 0.9)), anchor=_ANCHORS[text.anchor],
            stroke_width=2 * scale, stroke_fill="white",
        )  # fmt: skip
    return png(image)


_ANCHORS = {"start": "lm", "middle": "mm", "end": "rm"}
