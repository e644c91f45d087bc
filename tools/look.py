"""Draw meshes from several sides onto one sheet: look.py MESH [MESH ...] --out DIR."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

import numpy as np
import trimesh

from claspwright.geometry import Mesh
from claspwright.report import (
    METAL,
    OPPOSING,
    SIDES,
    STONE,
    TISSUE,
    WAX,
    Item,
    Scene,
    close_up,
    contact_sheet,
    oblique,
    png,
    view,
)

COLOURS = (STONE, METAL, WAX, OPPOSING, TISSUE)


def read(path: Path) -> Mesh:
    """A mesh file with equal vertices joined."""
    loaded = trimesh.load(path, force="mesh", process=False)
    points, where = np.unique(np.round(loaded.vertices, 6) + 0.0, axis=0, return_inverse=True)
    return Mesh(points, where.reshape(-1)[loaded.faces])


def main() -> int:
    """Read the meshes, draw the sheet, say where it lies."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("mesh", type=Path, nargs="+")
    ask.add_argument("--out", type=Path, default=Path("out"))
    ask.add_argument("--jaw", choices=("mandible", "maxilla"), default="mandible")
    ask.add_argument("--at", type=float, nargs=3, help="centre of a close view, mm")
    ask.add_argument("--width-mm", type=float, default=16.0, help="width of a close view")
    ask.add_argument("--size", type=int, nargs=2, default=(640, 500), help="of one picture, px")
    ask.add_argument("--sides", nargs="+", help=f"of {', '.join(SIDES)}, oblique")
    ask.add_argument("--glass", type=int, nargs="*", default=[], help="meshes drawn see-through")
    given = ask.parse_args()
    start = time.perf_counter()
    items = tuple(
        Item(
            read(path),
            COLOURS[i % len(COLOURS)],
            path.stem,
            opacity=0.35 if i in given.glass else 1.0,
            shine=0.35 if COLOURS[i % len(COLOURS)] == METAL else 0.12,
        )
        for i, path in enumerate(given.mesh)
    )
    names = given.sides or SIDES
    looks = [oblique(given.jaw) if n == "oblique" else view(n, given.jaw) for n in names]
    if given.at:
        looks = [close_up(np.array(given.at), look, given.width_mm) for look in looks]
    sheet = contact_sheet(
        Scene(items), tuple(looks), columns=min(3, len(looks)), size=tuple(given.size)
    )
    given.out.mkdir(parents=True, exist_ok=True)
    target = given.out / f"{given.mesh[0].stem}.png"
    target.write_bytes(png(sheet))
    count = sum(len(item.mesh.faces) for item in items)
    print(f"{target}  {count} triangles, {time.perf_counter() - start:.1f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
