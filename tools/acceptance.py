"""Work the eight invented cases out with real crowns; measure, and draw contact sheets.

acceptance.py --crowns FOLDER --out FOLDER [--person a b] [--seed 1 2] [--case NAME ...]
"""

from __future__ import annotations

import argparse
import pickle
import sys
import time
from pathlib import Path

import numpy as np
from framework_measures import HEAD, Measures, measure, row, worked_out

from claspwright.app.demo_arch import read_crowns
from claspwright.app.work import Work
from claspwright.demo import EIGHT
from claspwright.report import METAL, Item, Scene, Stage, close_up, contact_sheet, png, view

SIZE = (760, 560)


def draw(work: Work, stem: Path) -> None:
    """Write four sides on the model, the framework alone, and each tip from nearby."""
    arch, framework = work.arch, work.framework
    assert arch is not None and framework is not None
    jaw = arch.scan.jaw
    metal = Item(framework.solid, METAL, "framework", shine=0.35)
    on = Stage(Scene((Item(arch.scan.surface), metal)))
    sides = ("occlusal", "from the right", "from the left", "from behind")
    looks = [view(side, jaw, tilt_deg=30.0 if side == "from behind" else 12.0) for side in sides]
    sheet = contact_sheet(on, tuple(looks), columns=2, size=SIZE)
    stem.with_name(stem.name + "_model.png").write_bytes(png(sheet))
    alone = tuple(view(side, jaw, tilt_deg=15.0) for side in ("tissue side", "from behind"))
    sheet = contact_sheet(Stage(Scene((metal,))), alone, columns=2, size=SIZE)
    stem.with_name(stem.name + "_alone.png").write_bytes(png(sheet))
    near = []
    for arm in framework.components:
        if arm.tooth is None or arm.kind not in ("retentive arm", "reciprocal arm"):
            continue
        tooth = arch.teeth[arm.tooth]
        end = arm.line[-1]
        side = tooth.buccal if (end - tooth.centre) @ tooth.buccal > 0 else tooth.lingual
        look = view("from the front", jaw)
        toward = side + np.array([0.0, 0.0, 0.25])
        whole = type(look)(arm.id, toward, look.up)
        near.append(close_up((tooth.centre + end) / 2, whole, 15.0))
    if near:
        sheet = contact_sheet(on, tuple(near), columns=4, size=(420, 320))
        stem.with_name(stem.name + "_arms.png").write_bytes(png(sheet))


def one(
    name: str, person: str, seed: int, crowns: Path, out: Path, keep: bool
) -> tuple[Measures, list[str]] | None:
    """Work one case out, draw it; what was measured, and its row of the table."""
    jaw = next(case.jaw for case in EIGHT if case.name == name)
    start = time.perf_counter()
    built = {
        code: mesh
        for which in ("mandible", "maxilla")
        for code, mesh in read_crowns(crowns, person, which).items()  # type: ignore[arg-type]
    }
    work = worked_out(name, built, seed=seed)
    key = f"{name}_{person}{seed}"
    print(f"{key} ({jaw}): {time.perf_counter() - start:.0f} s", flush=True)
    for finding in work.findings:
        if finding.severity != "note" or finding.rule.startswith("framework"):
            print(f"  {finding.severity}  {finding.rule}: {finding.text[:140]}", flush=True)
    if work.framework is None or work.arch is None or work.surveyed is None:
        print("  no framework", flush=True)
        return None
    measures = measure(work.arch, work.surveyed, work.framework)
    print("  " + " | ".join(row(key, measures, work.findings)), flush=True)
    print(f"  {measures}", flush=True)
    if keep:
        with (out / f"{key}.pkl").open("wb") as file:
            pickle.dump(work, file, protocol=4)
    draw(work, out / key)
    return measures, row(key, measures, work.findings)


def main() -> int:
    """Work the cases out, print the table; 1 where a line of the acceptance does not hold."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--crowns", type=Path, required=True)
    ask.add_argument("--out", type=Path, required=True)
    ask.add_argument("--person", nargs="+", default=["a", "b"])
    ask.add_argument("--seed", type=int, nargs="+", default=[1])
    ask.add_argument("--case", nargs="+", default=[case.name for case in EIGHT])
    ask.add_argument("--keep", action="store_true", help="keep what was worked out, as a pickle")
    given = ask.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    rows, wrong = [], 0
    for person in given.person:
        for seed in given.seed:
            for name in given.case:
                found = one(name, person, seed, given.crowns, given.out, given.keep)
                key = f"{name}_{person}{seed}"
                missing = [key, "no framework", *[""] * (len(HEAD) - 2)]
                rows.append(missing if found is None else found[1])
                wrong += found is None or bool(found[0].misses)
                lines = [HEAD, ["---"] * len(HEAD), *rows]
                table = "\n".join("| " + " | ".join(line) + " |" for line in lines)
                (given.out / "table.md").write_text(table + "\n", encoding="utf-8")
    print(table)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
