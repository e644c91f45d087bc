"""Lines, words and a scale bar on a picture."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from claspwright.base import Floats, Singles
from claspwright.report.scene import INK, Label, Line

Project = Callable[[Floats], Floats]


def draw_lines(
    colours: Singles, depth: Floats, lines: tuple[Line, ...], project: Project, finish: int
) -> None:
    """Draw polylines into (H, W, 3) colours, hidden where `depth` lies in front of them."""
    height, width = depth.shape
    for line in lines:
        points = np.vstack([line.points, line.points[:1]]) if line.closed else line.points
        track, along = _stepped(project(np.asarray(points)), np.asarray(points))
        if line.dash_mm > 0:
            track = track[(along // line.dash_mm).astype(int) % 2 == 0]
        radius = max(0.5, line.width_px * finish / 2)
        reach = int(np.ceil(radius))
        column, row = np.rint(track[:, 0]).astype(int), np.rint(track[:, 1]).astype(int)
        inside = (column >= 0) & (column < width) & (row >= 0) & (row < height)
        column, row, near = column[inside], row[inside], track[inside, 2]
        seen = depth[row, column] <= near + line.lift_mm
        column, row = column[seen], row[seen]
        for dy in range(-reach, reach + 1):
            for dx in range(-reach, reach + 1):
                if dx * dx + dy * dy <= radius * radius:
                    x = np.clip(column + dx, 0, width - 1)
                    y = np.clip(row + dy, 0, height - 1)
                    colours[y, x] = line.colour


def _stepped(track: Floats, points: Floats) -> tuple[Floats, Floats]:
    """Samples along a projected polyline at most half a pixel apart, and their arc length."""
    arc = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    pieces, along = [track[:1]], [arc[:1]]
    for i in range(len(track) - 1):
        far = float(np.abs(track[i + 1, :2] - track[i, :2]).max())
        share = np.linspace(0, 1, int(np.ceil(2 * far)) + 2)[1:]
        pieces.append(track[i] + share[:, None] * (track[i + 1] - track[i]))
        along.append(arc[i] + share * (arc[i + 1] - arc[i]))
    return np.vstack(pieces), np.concatenate(along)


def font(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    """Pillow's own built-in typeface."""
    return ImageFont.load_default(size)


def draw_labels(
    image: Image.Image, depth: Floats, labels: tuple[Label, ...], project: Project
) -> None:
    """Write words with a light rim at projected points."""
    pen = ImageDraw.Draw(image)
    for label in labels:
        x, y, near = project(np.asarray(label.at, dtype=np.float64))[0]
        row, column = round(y), round(x)
        inside = 0 <= row < depth.shape[0] and 0 <= column < depth.shape[1]
        if not label.when_hidden and inside and depth[row, column] > near + 0.6:
            continue
        if label.dot:
            pen.ellipse([x - 4, y - 4, x + 4, y + 4], fill=label.colour, outline=(255, 255, 255))
        dx, dy = label.offset_px
        if np.hypot(dx, dy) > label.size_px:
            pen.line([x, y, x + dx, y + dy], fill=label.colour, width=1)
        pen.text(
            (x + dx, y + dy), label.text, fill=label.colour, font=font(label.size_px),
            anchor="mm", stroke_width=3, stroke_fill=(255, 255, 255),
        )  # fmt: skip


def word_px(image: Image.Image) -> int:
    """Height of small words that stay readable when the picture is half a page wide."""
    return max(13, image.width // 44)


def draw_scale_bar(image: Image.Image, pixel_mm: float) -> None:
    """A bar of a round length at the lower left, with its length in mm."""
    size, longest = word_px(image), image.width * pixel_mm / 4
    length = max((n for n in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50) if n <= longest), default=0.1)
    pen = ImageDraw.Draw(image)
    left, base = 14.0, image.height - 14.0
    right = left + length / pixel_mm
    pen.line([left, base, right, base], fill=INK, width=2)
    for x in (left, right):
        pen.line([x, base - 5, x, base + 1], fill=INK, width=2)
    pen.text(
        ((left + right) / 2, base - 6), f"{length:g} mm", fill=INK, font=font(size), anchor="ms",
        stroke_width=2, stroke_fill=(255, 255, 255),
    )  # fmt: skip


def draw_caption(image: Image.Image, text: str) -> None:
    """A caption at the upper left."""
    ImageDraw.Draw(image).text(
        (12, 10), text, fill=INK, font=font(word_px(image) + 2), anchor="la",
        stroke_width=3, stroke_fill=(255, 255, 255),
    )  # fmt: skip
