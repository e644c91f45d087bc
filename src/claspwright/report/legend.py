"""The legend of a colour map on a picture."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from claspwright.report.colours import mapped
from claspwright.report.drawing import font, word_px
from claspwright.report.scene import INK, Item


def draw_legend(image: Image.Image, item: Item, name: str, unit: str) -> None:
    """Draw the colour map of an item at the lower right, its levels marked with their values."""
    size = word_px(image)
    width, height, pad = 14 * size, size, size
    left, top = image.width - width - pad, image.height - height - 2 * size
    shades = mapped(np.linspace(item.low, item.high, width), item.low, item.high)
    bar = np.broadcast_to(np.rint(shades).astype(np.uint8)[None], (height, width, 3))
    image.paste(Image.fromarray(np.ascontiguousarray(bar)), (left, top))
    pen = ImageDraw.Draw(image)
    pen.rectangle([left - 1, top - 1, left + width, top + height], outline=INK)
    for value in (item.low, *item.levels, item.high):
        x = left + (value - item.low) / (item.high - item.low) * (width - 1)
        pen.line([x, top - 1, x, top + height + 3], fill=INK, width=1)
        _word(image, (x, top + height + 4), f"{value:.2f}".rstrip("0").rstrip("."), "ma")
    _word(image, (left + width, top - 5), f"{name}, {unit}", "rs")


def _word(image: Image.Image, at: tuple[float, float], text: str, anchor: str) -> None:
    ImageDraw.Draw(image).text(
        at, text, fill=INK, font=font(word_px(image)), anchor=anchor, stroke_width=2,
        stroke_fill=(255, 255, 255),
    )  # fmt: skip
