"""The signed deviation of a scanned framework as a picture from two sides."""

from __future__ import annotations

import numpy as np
from PIL import Image

from claspwright.inspection import Deviation
from claspwright.report.legend import draw_legend
from claspwright.report.render import Stage, png, render
from claspwright.report.scene import Item, Scene
from claspwright.report.views import Side, view

SIZE = (760, 560)
DEVIATION_UM = 150.0  # ends of the scale of deviations
DEVIATION_LEVELS = (-100.0, -50.0, 0.0, 50.0, 100.0)
SIGN_WORDS = ("metal missing", "metal too much")  # at the ends of the scale


def deviation_picture(found: Deviation, *, finish: int = 2) -> bytes:
    """PNG: occlusal and tissue side beside each other, coloured from -150 to 150 um.

    Blue where metal is missing, orange where there is too much, pale where nothing differs;
    contour lines tell the same without colour.
    """
    item = Item(
        found.scan, values=1000.0 * np.asarray(found.distance_mm), low=-DEVIATION_UM,
        high=DEVIATION_UM, levels=tuple(v for v in DEVIATION_LEVELS if v),  # noise is about zero
    )  # fmt: skip
    stage = Stage(Scene((item,)))
    whole = Image.new("RGB", (2 * SIZE[0], SIZE[1]), "white")
    sides: tuple[Side, ...] = ("occlusal", "tissue side")
    for n, side in enumerate(sides):
        image = render(stage, view(side), SIZE, finish=finish)
        draw_legend(image, item, "deviation", "um", SIGN_WORDS)
        whole.paste(image, (n * SIZE[0], 0))
    return png(whole)
