"""Draw a few spoilt scans onto one sheet: docs/images/wrong-scans.png."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

from PIL import Image

from claspwright.arch.topology import compacted
from claspwright.demo import build_arch, options_for, scenario
from claspwright.report import STONE, Item, Scene, oblique, png, render

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "unit" / "arch"))
SIZE = (460, 360)
SHOWN = (
    "palate missing",
    "hole in a tooth",
    "two passes not stitched",
    "one tooth loose from the rest",
)


def main() -> None:
    """Write the picture."""
    from wrong_scans import WRONG

    tiles = []
    for case in (case for case in WRONG if case.title in SHOWN):
        made = build_arch(
            replace(options_for(scenario(case.base), edge_mm=0.3), with_opposing=False)
        )
        spoilt = case.spoil(made.master, dict(made.truth.marks))
        scene = Scene((Item(compacted(spoilt.vertices, spoilt.faces), STONE),))
        tiles.append(render(scene, oblique(made.jaw, turn_deg=-30.0, tilt_deg=50.0), SIZE))
    sheet = Image.new("RGB", (2 * SIZE[0], 2 * SIZE[1]), (255, 255, 255))
    for k, tile in enumerate(tiles):
        sheet.paste(tile, ((k % 2) * SIZE[0], (k // 2) * SIZE[1]))
    (ROOT / "docs" / "images" / "wrong-scans.png").write_bytes(png(sheet))


if __name__ == "__main__":
    main()
