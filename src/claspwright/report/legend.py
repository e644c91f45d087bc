"""The legend of a colour map on a picture."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from claspwright.report.drawing import font, word_px
from claspwright.report.scene import INK, Item


def draw_legend(
    image: Image.Image, item: Item, name: str, unit: str, ends: tuple[str, str] = ("", "")
) -> None:
    """Draw the colour map of an item at the lower right, its levels marked with their values.

    Args:
        image: drawn upon.
        item: whose map it is.
        name: of the values.
        unit: of the values.
        ends: words under the low and the high end, such as what the signs mean.
    """
    size = word_px(image)
    width, height, pad = (20 if any(ends) else 14) * size, size, size
    left = image.width - width - pad
    top = image.height - height - (3 if any(ends) else 2) * size - (4 if any(ends) else 0)
    shades = item.colours(np.linspace(item.low, item.high, width))
    bar = np.broadcast_to(np.rint(shades).astype(np.uint8)[None], (height, width, 3))
    image.paste(Image.fromarray(np.ascontiguousarray(bar)), (left, top))
    pen = ImageDraw.Draw(image)
    pen.rectangle([left - 1, top - 1, left + width, top + height], outline=INK)
    zero = (0.0,) if item.low < 0.0 < item.high else ()
    for value in (item.low, *zero, *item.levels, item.high):
        x = left + (value - item.low) / (item.high - item.low) * (width - 1)
        pen.line([x, top - 1, x, top + height + 3], fill=INK, width=1)
        _word(image, (x, top + height + 4), f"{value:.2f}".rstrip("0").rstrip("."), "ma")
    below = top + 2 * height + 8
    _word(image, (left, below), ends[0], "la")
    _word(image, (left + width, below), ends[1], "ra")
    _word(image, (left + width, top - 5), f"{name}, {unit}", "rs")


def _word(image: Image.Image, at: tuple[float, float], text: str, anchor: str) -> None:
    ImageDraw.Draw(image).text(
        at, text, fill=INK, font=font(word_px(image)), anchor=anchor, stroke_width=2,
        stroke_fill=(255, 255, 255),
    )  # fmt: skip
