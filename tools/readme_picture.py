"""Draw the picture of the README: readme_picture.py SCAN FRAMEWORK --out docs/images/framework.png.

SCAN and FRAMEWORK are the master scan of an invented case and the framework that a run made for
it, both in one frame that is also the arch frame (an arch built without a random pose).
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from PIL import Image

from claspwright.formats import read_mesh
from claspwright.report import METAL, Item, Scene, Stage, png, render, view


def main() -> int:
    """Two looks side by side."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("scan", type=Path)
    ask.add_argument("framework", type=Path)
    ask.add_argument("--jaw", choices=("mandible", "maxilla"), default="mandible")
    ask.add_argument("--out", type=Path, default=Path("docs/images/framework.png"))
    given = ask.parse_args()
    metal = Item(read_mesh(given.framework), METAL, shine=0.35)
    stage = Stage(Scene((Item(read_mesh(given.scan)), metal)))
    looks = (view("occlusal", given.jaw), view("from behind", given.jaw, tilt_deg=40.0))
    sheet = Image.new("RGB", (1400, 560), (255, 255, 255))
    for index, look in enumerate(looks):
        sheet.paste(render(stage, look, (700, 560), scale_bar=index == 0), (700 * index, 0))
    given.out.parent.mkdir(parents=True, exist_ok=True)
    given.out.write_bytes(png(sheet.quantize(128, dither=Image.Dither.NONE).convert("RGB")))
    print(given.out)
    return 0


if __name__ == "__main__":
    sys.exit(main())
