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
RANGE_MM = 0.2
LEVELS = (-0.1, 0.1)


def deviation_picture(found: Deviation, *, finish: int = 2) -> bytes:
    """PNG: occlusal and tissue side beside each other, coloured from -0.2 to 0.2 mm.

    Contour lines at -0.1 and 0.1 mm tell the same without colour.
    """
    item = Item(
        found.scan, values=np.asarray(found.distance_mm), low=-RANGE_MM, high=RANGE_MM,
        levels=LEVELS,
    )  # fmt: skip
    stage = Stage(Scene((item,)))
    whole = Image.new("RGB", (2 * SIZE[0], SIZE[1]), "white")
    sides: tuple[Side, ...] = ("occlusal", "tissue side")
    for n, side in enumerate(sides):
        image = render(stage, view(side), SIZE, finish=finish)
        draw_legend(image, item, "deviation", "mm")
        whole.paste(image, (n * SIZE[0], 0))
    return png(whole)
