"""Make docs/gallery.md: components close up and complete designs, drawn and measured.

gallery.py --crowns FOLDER --cache FOLDER [--docs docs] [--only KEY ...] [--minutes N]

What is there already is kept: a second run goes on where the first one ended.
"""

from __future__ import annotations

import argparse
import json
import pickle
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from framework_measures import measure
from gallery_designs import COMPONENTS, DESIGNS, Near, Shown
from PIL import Image

from claspwright.app.carry_out import carry_out, kennedy_of
from claspwright.app.demo_arch import read_crowns, write_case
from claspwright.app.demo_case import answers_of
from claspwright.app.judge import facts_for_rules
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.arch import DentalArch
from claspwright.base import ClaspwrightError, silent
from claspwright.case import read_sheet
from claspwright.demo import options_for, scenario
from claspwright.framework import Framework, build, propose_design
from claspwright.geometry import Mesh
from claspwright.report import (
    METAL,
    Item,
    Scene,
    Stage,
    close_up,
    contact_sheet,
    oblique,
    png,
    view,
)
from claspwright.report.views import patient_right
from claspwright.rules.context import Finished
from claspwright.rules.insertion import insertion

PICTURES = "images/gallery"
SIZE = (400, 300)
NEAR = (300, 240)
NEAR_MM = 17.0
COLOURS = 48
CREDIT = (
    "Real crowns: SJTUzhou/3D-Teeth-Reconstruction-from-Five-Intra-oral-Images, MIT licence; "
    "the arches round them are invented."
)


def arch_of(shown: Shown, crowns: Path, cache: Path) -> Work:
    """The arch of a design, surveyed; worked out once from files and kept."""
    kept = cache / f"{shown.arch}.pkl"
    if kept.exists():
        sheet, arch, surveyed = pickle.loads(kept.read_bytes())
    else:
        case = scenario(shown.case)
        meshes: Literal["parametric"] | dict[int, Mesh] = "parametric"
        if shown.person != "demo":
            meshes = {}
            for which in ("mandible", "maxilla"):
                meshes |= read_crowns(crowns, shown.person, which)  # type: ignore[arg-type]
        answers = answers_of(case, f"DEMO-{shown.seed}")
        options = options_for(case, seed=shown.seed, crowns=meshes, pose_seed=shown.seed + 100)
        with tempfile.TemporaryDirectory() as folder:
            write_case(options, answers, Path(folder) / "case")
            work = carry_out(read_sheet(Path(folder) / "case"), Watch(), silent, until="survey")
        sheet, arch, surveyed = work.sheet, work.arch, work.surveyed
        cache.mkdir(parents=True, exist_ok=True)
        kept.write_bytes(pickle.dumps((sheet, arch, surveyed), protocol=5))
    return Work(sheet, kennedy_of(sheet), arch=arch, surveyed=surveyed)


def framed(work: Work, shown: Shown, *, opposed: bool = True) -> Framework:
    """The framework of a design on its arch."""
    arch, surveyed = work.arch, work.surveyed
    assert arch is not None and surveyed is not None
    if not opposed:
        arch = replace(arch, opposing=None)
    design = propose_design(arch, surveyed, shown.wishes(work.sheet.wishes))
    design = replace(design, bases=shown.bases(design.bases))
    return build(arch, surveyed, design)


def small(sheet: Image.Image) -> bytes:
    """A picture with few colours, so that many fit into the repository."""
    few = sheet.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    return png(few)


def whole_picture(arch: DentalArch, framework: Framework) -> bytes:
    """Four sides of a framework on its arch."""
    jaw = arch.scan.jaw
    items = (Item(arch.scan.surface), Item(framework.solid, METAL, shine=0.35))
    looks = (
        view("occlusal", jaw),
        oblique(jaw),
        view("from behind", jaw, tilt_deg=30.0),
        view("tissue side", jaw),
    )
    stage = Stage(Scene(items))
    sheet = Image.new("RGB", (2 * SIZE[0], 2 * SIZE[1]), (255, 255, 255))
    upper = contact_sheet(stage, looks[:3], columns=3, size=SIZE)
    alone = contact_sheet(Stage(Scene(items[1:])), looks[3:], columns=1, size=SIZE)
    for n in range(3):
        crop = upper.crop((n * SIZE[0], 0, (n + 1) * SIZE[0], SIZE[1]))
        sheet.paste(crop, ((n % 2) * SIZE[0], (n // 2) * SIZE[1]))
    sheet.paste(alone, (SIZE[0], SIZE[1]))
    return small(sheet)


def near_picture(arch: DentalArch, framework: Framework, near: Near) -> bytes:
    """Four sides of one component."""
    jaw = arch.scan.jaw
    part = next(c for c in framework.components if c.id.startswith(near.part))
    at = part.line.mean(axis=0)
    long = part.kind == "major connector" or part.figures.get("length_mm", 0.0) > 1.5 * NEAR_MM
    wide = 46.0 if long else NEAR_MM
    side = "from the right" if at[0] * _right(jaw) > 0 else "from the left"
    if part.tooth is None and long:
        side = "from the front"
    sides = (
        view("occlusal", jaw),
        view(side, jaw, tilt_deg=25.0),  # type: ignore[arg-type]
        view("from behind", jaw, tilt_deg=35.0),
        oblique(jaw),
    )
    looks = tuple(close_up(at, look, wide) for look in sides)
    items = (Item(arch.scan.surface), Item(framework.solid, METAL, shine=0.35))
    return small(contact_sheet(Stage(Scene(items)), looks, columns=4, size=NEAR))


def _right(jaw: str) -> float:
    """Sign of x on the patient's right."""
    return float(patient_right(jaw)[0])  # type: ignore[arg-type]


def measured(work: Work, shown: Shown, framework: Framework) -> dict[str, Any]:
    """What the table says of one design; Any: words and numbers."""
    arch, surveyed = work.arch, work.surveyed
    assert arch is not None and surveyed is not None
    found = measure(arch, surveyed, framework)
    context = Finished(facts_for_rules(work), arch, surveyed, framework)
    swept = insertion(context)
    return {
        "title": shown.title,
        "case": str(work.kennedy),
        "jaw": arch.scan.jaw,
        "crowns": "invented" if shown.person == "demo" else f"real ({shown.crowns})",
        "sound": found.status == "NoError" and found.watertight and found.bodies == 1,
        "tissue_um": round(found.tissue_95_um, 2),
        "on_scan_um": round(found.on_scan_95_um, 2),
        "tooth_um": round(found.in_tooth_um, 2),
        "opposing_um": round(found.through_opposing_um, 2),
        "tips": [[t.arm, round(t.gauge_mm, 3), t.asked_mm] for t in found.tips],
        "tips_off_mm": round(max((abs(t.off_mm) for t in found.tips), default=0.0), 3),
        "sweep": [[f.severity, f.measured] for f in swept],
        "volume_mm3": round(found.volume_mm3, 1),
    }


def sweep_words(swept: list[list[Any]]) -> str:
    """Deepest meeting on the way out; Any: severity and depth."""
    depths = [d for _, d in swept if isinstance(d, float | int)]
    worst = max(depths, default=0.0)
    return f"{1000 * worst:.0f} um" + (" (stop)" if any(s == "stop" for s, _ in swept) else "")


def write_page(docs: Path) -> None:
    """The page from what is there."""
    folder = docs / PICTURES
    rows, designs, parts = [], [], []
    for shown in DESIGNS:
        figures = folder / f"{shown.key}.json"
        if not figures.exists():
            continue
        told = json.loads(figures.read_text(encoding="utf-8"))
        name = f"{told['jaw']}, {told['case']}, {told['crowns']} crowns: {told['title']}"
        if "refused" in told:
            rows.append(f"| [{shown.key}](#{shown.key}) | no framework: {told['refused']} |")
            continue
        tips = ", ".join(f"{a.split('.')[1]} {g:.2f}/{w:.2f}" for a, g, w in told["tips"])
        rows.append(
            f"| [{shown.key}](#{shown.key}) | {'yes' if told['sound'] else 'no'} "
            f"| {told['tissue_um']:.1f} | {told['on_scan_um']:.1f} | {told['tooth_um']:.1f} "
            f"| {told['opposing_um']:.1f} "
            f"| {tips or 'no clasp'} | {sweep_words(told['sweep'])} | {told['volume_mm3']:.0f} |"
        )
        designs.append(f"### {shown.key}\n\n{name}.\n\n![{name}]({PICTURES}/{shown.key}.png)\n")
    for near in COMPONENTS:
        if (folder / f"part-{near.key}.png").exists():
            room = "" if near.opposed else " Drawn on an arch without opposing teeth."
            parts.append(
                f"### {near.title}\n\nOn {near.shown.arch}.{room}\n\n"
                f"![{near.title}]({PICTURES}/part-{near.key}.png)\n"
            )
    head = (
        "| design | one sound body | tissue side 95 % [um] | on the scan where nothing is "
        "blocked out 95 % [um] | in a tooth [um] | "
        "through opposing [um] | tips: gauge/asked [mm] | rigid metal on its way out | mm3 |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"
    )
    text = (
        "# Gallery\n\nEvery picture here is made by the code from a case sheet and invented scans:"
        "\n\n```\npython tools/gallery.py --crowns FOLDER --cache FOLDER\n```\n\n"
        f"{CREDIT}\n\nNothing is placed by hand. A design is the proposal for its arch, with what "
        "its title names asked for in the sheet. Measured as in "
        "[frameworks looked at](frameworks-looked-at.md): inside and outside by libigl's winding "
        "number; the last but one column is the rule `insertion.sweep`. Here are "
        f"{len(rows)} of the {len(DESIGNS)} designs and {len(parts)} of the {len(COMPONENTS)} "
        "components of the list in `tools/gallery_designs.py`; the same command makes the others."
        "\n\n"
        f"{head}\n" + "\n".join(rows) + "\n\n## Components\n\n" + "\n".join(parts)
        + "\n## Complete designs\n\nFrom above, from the front, from behind, and the tissue side "
        "alone.\n\n" + "\n".join(designs)
    )  # fmt: skip
    (docs / "gallery.md").write_text(text.rstrip() + "\n", encoding="utf-8")


def one_frame(
    shown: Shown, nears: list[Near], whole: bool, opposed: bool, given: argparse.Namespace
) -> None:
    """Build one framework; measure and draw it, and the components that are shown on it."""
    folder = given.docs / PICTURES
    work = arch_of(shown, given.crowns, given.cache)
    arch = work.arch
    assert arch is not None
    try:
        framework = framed(work, shown, opposed=opposed)
    except ClaspwrightError as error:
        words = f"{error.what}. {error.remedy}"
        print(shown.key, "no framework:", words, flush=True)
        if whole:
            told = {"title": shown.title, "case": str(work.kennedy), "jaw": arch.scan.jaw,
                    "crowns": shown.crowns, "refused": words}  # fmt: skip
            (folder / f"{shown.key}.json").write_text(json.dumps(told, indent=1) + "\n")
        return
    if whole:
        told = measured(work, shown, framework)
        (folder / f"{shown.key}.png").write_bytes(whole_picture(arch, framework))
        (folder / f"{shown.key}.json").write_text(json.dumps(told, indent=1) + "\n")
        print(shown.key, told, flush=True)
    for near in nears:
        if not any(c.id.startswith(near.part) for c in framework.components):
            print(near.key, "not there:", near.part, flush=True)
            continue
        picture = near_picture(arch, framework, near)
        (folder / f"part-{near.key}.png").write_bytes(picture)
        print(near.key, len(picture), flush=True)


def wanted(given: argparse.Namespace) -> list[tuple[Shown, list[Near], bool, bool]]:
    """Frameworks to build, with the components shown on each; what is there already is left."""
    folder = given.docs / PICTURES

    def open_(key: str, name: str) -> bool:
        asked = key in given.only if given.only else not (folder / name).exists()
        return bool(asked)

    todo: list[tuple[Shown, list[Near], bool, bool]] = []
    for shown in DESIGNS:
        nears = [
            n for n in COMPONENTS
            if n.shown == shown and n.opposed and open_(n.key, f"part-{n.key}.png")
        ]  # fmt: skip
        whole = open_(shown.key, f"{shown.key}.json")
        todo.append((shown, nears, whole, True))
    rest = [n for n in COMPONENTS if not (n.shown in DESIGNS and n.opposed)]
    for shown, opposed in dict.fromkeys((n.shown, n.opposed) for n in rest):
        nears = [
            n for n in rest
            if n.shown == shown and n.opposed == opposed and open_(n.key, f"part-{n.key}.png")
        ]  # fmt: skip
        todo.insert(2 if opposed is False else len(todo) // 3, (shown, nears, False, opposed))
    return [one for one in todo if one[1] or one[2]]


def main() -> int:
    """Make what is missing, then the page."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--crowns", type=Path, required=True)
    ask.add_argument("--cache", type=Path, required=True, help="surveyed arches are kept here")
    ask.add_argument("--docs", type=Path, default=Path("docs"))
    ask.add_argument("--only", nargs="+", default=[], help="these, even if they are there")
    ask.add_argument("--minutes", type=float, default=600.0, help="begin nothing new after these")
    ask.add_argument("--cached", action="store_true", help="only arches that are there")
    given = ask.parse_args()
    folder = given.docs / PICTURES
    folder.mkdir(parents=True, exist_ok=True)
    start = time.monotonic()
    for shown, nears, whole, opposed in wanted(given):
        if time.monotonic() - start > 60.0 * given.minutes:
            break
        if given.cached and not (given.cache / f"{shown.arch}.pkl").exists():
            continue
        one_frame(shown, nears, whole, opposed, given)
        write_page(given.docs)
    write_page(given.docs)
    size = sum(p.stat().st_size for p in folder.iterdir())
    print(f"{len(list(folder.glob('*.png')))} pictures, {size / 1e6:.1f} MB", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
