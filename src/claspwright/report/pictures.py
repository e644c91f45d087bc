"""The pictures of a report."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from claspwright.arch import DentalArch, Jaw, Tooth
from claspwright.base import Floats
from claspwright.framework import Framework
from claspwright.report.content import Picture
from claspwright.report.legend import draw_legend
from claspwright.report.render import Stage, png, render
from claspwright.report.scene import INK, METAL, STONE, Item, Label, Line, Scene
from claspwright.report.views import Side, View, oblique, view
from claspwright.survey import Survey

SIZE = (820, 500)
CLOSE = (600, 420)
UNDERCUT_LEVELS = (0.25, 0.5, 0.75)  # mm, the usual gauges
_ON_MODEL: tuple[Side, ...] = (
    "occlusal", "from behind", "from the right", "from the left", "from the front",
)  # fmt: skip
_ALONE: tuple[Side, ...] = ("occlusal", "tissue side")
_TILT_DEG: dict[Side, float] = {"from behind": 35.0}  # of the eye towards occlusal; else 15
_SURVEYED: tuple[Side, ...] = ("from the right", "from the left", "from the front", "from behind")


def undercut_item(arch: DentalArch, survey: Survey) -> Item:
    """The model coloured by undercut; plain where the way out is free."""
    return Item(
        arch.scan.surface, STONE, "model", values=survey.undercut, low=0.0, high=1.0,
        plain_below=0.01, levels=UNDERCUT_LEVELS, shine=0.05,
    )  # fmt: skip


def tips(framework: Framework) -> Iterator[tuple[int, Floats]]:
    """Tooth and tip of each retentive arm."""
    for component in framework.components:
        if component.kind == "retentive arm" and component.tooth is not None:
            yield component.tooth, component.line[-1]


def framework_pictures(arch: DentalArch, framework: Framework, finish: int) -> Iterator[Picture]:
    """The framework on the model and alone, from several sides."""
    metal = Item(framework.shown, METAL, "framework", shine=0.35)
    jaw = arch.scan.jaw
    kinds: tuple[tuple[str, tuple[Side, ...], tuple[Item, ...]], ...] = (
        ("on the model", _ON_MODEL, (Item(arch.scan.surface), metal)),
        ("alone", _ALONE, (metal,)),
    )
    for group, sides, items in kinds:
        stage = Stage(Scene(items))
        looks = [view(side, jaw, tilt_deg=_TILT_DEG.get(side, 15.0)) for side in sides]
        for look in [*looks, oblique(jaw)] if group == "on the model" else looks:
            image = render(stage, look, SIZE, finish=finish)
            alt = f"The framework {group}, seen {_seen(look.name)}."
            yield Picture(f"{group}, {look.name}", group, png(image), look.name.capitalize(), alt)


def survey_pictures(
    arch: DentalArch, survey: Survey, framework: Framework | None, finish: int
) -> Iterator[Picture]:
    """The undercut map with survey lines and arm tips, from the sides where undercuts show."""
    item = undercut_item(arch, survey)
    lines = tuple(
        Line(piece, INK, 1.6, lift_mm=0.3)
        for pieces in survey.survey_lines.values()
        for piece in pieces
    )
    stage = Stage(Scene((item,)))
    for side in _SURVEYED:
        look = view(side, arch.scan.jaw)
        shown = stage.showing(lines, _survey_labels(arch, framework, look))
        image = render(shown, look, SIZE, finish=finish)
        draw_legend(image, item, "undercut", "mm")
        alt = (
            f"Undercut along the path of placement, seen {_seen(side)}; contour lines at "
            "0.25, 0.50 and 0.75 mm, survey lines and the tips of the retentive arms."
        )
        yield Picture(f"survey, {side}", "survey", png(image), side.capitalize(), alt)


def clasp_pictures(
    arch: DentalArch, survey: Survey, framework: Framework, finish: int
) -> Iterator[Picture]:
    """Each retentive arm from the side of its tip: in place, and over the undercut of its tooth."""
    item = undercut_item(arch, survey)
    metal = Item(framework.shown, METAL, shine=0.35)
    placed, bare = Stage(Scene((Item(arch.scan.surface), metal))), Stage(Scene((item,)))
    for arm in framework.components:
        tooth = arch.teeth.get(arm.tooth or 0)
        if arm.kind != "retentive arm" or tooth is None:
            continue
        look = _tip_look(tooth, arm.line[-1], arch.scan.jaw)
        lines = [Line(p, INK, 2.0, lift_mm=0.3) for p in survey.survey_lines.get(tooth.code, ())]
        lines.append(Line(arm.line, INK, 2.5, lift_mm=1.5, dash_mm=0.5))
        tip = Label(arm.line[-1], "tip", size_px=20, offset_px=(0, 30), dot=True)
        for stage, what in (
            (placed.showing(tuple(lines[:-1]), ()), "in place"),
            (bare.showing(tuple(lines), (tip,)), "undercut and survey line"),
        ):
            image = render(stage, look, CLOSE, finish=finish)
            if stage.scene.items[0].values is not None:
                draw_legend(image, item, "undercut", "mm")
            words = f"Retentive arm {tooth.code}: {what}"
            alt = f"The retentive arm on {tooth.code} seen from the side of its tip, {what}."
            yield Picture(f"arm {arm.id}, {what}", "arms", png(image), words, alt)


def _tip_look(tooth: Tooth, tip: Floats, jaw: Jaw) -> View:
    """Towards the tooth from the side on which the tip lies, a little from occlusal."""
    side = tooth.buccal if (tip - tooth.centre) @ tooth.buccal > 0 else tooth.lingual
    level = view("from the front", jaw)
    toward = side + np.array([0.0, 0.0, 0.15])
    return View("", toward, level.up, (tooth.centre + tip) / 2, 15.0)


def _survey_labels(arch: DentalArch, framework: Framework | None, look: View) -> tuple[Label, ...]:
    """Tooth codes on the side of the crowns that is seen, and the tips of retentive arms."""
    toward = look.axes()[2]
    labels = [
        Label(t.centre + toward * 0.6 * max(t.mesiodistal_mm, t.buccolingual_mm), str(code),
              size_px=20, when_hidden=False)
        for code, t in arch.teeth.items()
    ]  # fmt: skip
    for code, at in () if framework is None else tips(framework):
        labels.append(
            Label(at, f"tip {code}", offset_px=(0, 36), dot=True, size_px=20, when_hidden=False)
        )
    return tuple(labels)


def _seen(name: str) -> str:
    words = {
        "occlusal": "from occlusal",
        "tissue side": "from its tissue side",
        "oblique": "obliquely from the front and the patient's right",
    }
    return words.get(name, name)
