"""The arch plan: the scan from occlusal with tooth codes and the components in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.framework import Design, Framework
from claspwright.report.render import camera_for, png, render
from claspwright.report.scene import METAL, Item, Scene
from claspwright.report.views import view
from claspwright.report.words import retainer_parts

_Place = Callable[[Floats], tuple[float, float]]

LINE_PX = 20.0
_WIDTH = 1060.0
_PICTURE = 600  # px, width of the picture in the middle of the plan
_TOP = 44.0


@dataclass(frozen=True, slots=True)
class PlanText:
    """Words on the plan; `anchor` says which end of them lies at x."""

    x: float
    y: float
    text: str
    anchor: str = "middle"  # "start", "middle" or "end"
    bold: bool = False
    faint: bool = False
    size: float = 17.0


@dataclass(frozen=True, slots=True)
class Plan:
    """The occlusal picture with words and leaders round it, in pixels."""

    size: tuple[int, int]
    picture: bytes  # PNG
    box: tuple[float, float, float, float]  # x, y, width, height of the picture
    texts: tuple[PlanText, ...]
    leaders: tuple[tuple[tuple[float, float], ...], ...]
    alt: str


@dataclass(frozen=True, slots=True)
class _Block:
    """A few lines of words that belong to a place on the picture."""

    at: tuple[float, float]
    head: str
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        return LINE_PX * (1 + len(self.lines)) + 12.0


def arch_plan(arch: DentalArch, framework: Framework | None = None) -> Plan:
    """Lay out the plan of an arch, with the framework in place where there is one."""
    jaw = arch.scan.jaw
    items = [Item(arch.scan.surface)]
    if framework is not None:
        items.append(Item(framework.shown, METAL, shine=0.35))
    scene, look = Scene(tuple(items)), view("occlusal", jaw)
    span = np.ptp(scene.bounds(), axis=0)
    size = (_PICTURE, int(np.clip(_PICTURE * span[1] / span[0], 300, 900)))
    picture = png(render(scene, look, (size[0] * 2, size[1] * 2), finish=1, scale_bar=False))
    camera = camera_for(scene, look, size)
    left = (_WIDTH - _PICTURE) / 2

    def place(point: Floats) -> tuple[float, float]:
        x, y, _ = camera.project(point)[0]
        return float(x) + left, float(y) + _TOP

    design = None if framework is None else framework.design
    texts = _codes(arch, place)
    blocks = _blocks(arch, design, place)
    leaders: list[tuple[tuple[float, float], ...]] = []
    columns = [
        [b for b in blocks if (b.at[0] < _WIDTH / 2) == on_left] for on_left in (True, False)
    ]
    height = max(size[1] + _TOP, *(sum(b.height for b in c) + _TOP for c in columns)) + 40.0
    for column, on_left in zip(columns, (True, False), strict=True):
        words, lines = _column(column, on_left, height - 40.0)
        texts += words
        leaders += lines
    if framework is not None:
        texts += _connector(framework, place)
    texts += _sides(height)
    box = (left, _TOP, float(size[0]), float(size[1]))
    return Plan(
        (int(_WIDTH), int(height)), picture, box, tuple(texts), tuple(leaders), _alt(arch, design)
    )


def _codes(arch: DentalArch, place: _Place) -> list[PlanText]:
    """Codes on the present teeth, and in brackets along the ridge for the missing ones."""
    texts = []
    for code, tooth in sorted(arch.teeth.items()):
        x, y = place(tooth.centre)
        texts.append(PlanText(x, y, str(code), bold=True))
    for span in arch.spans:
        share = (np.arange(len(span.missing)) + 0.5) / len(span.missing)
        along = share * (len(span.crest) - 1)
        for code, at in zip(span.missing, along, strict=True):
            x, y = place(span.crest[round(float(at))])
            texts.append(PlanText(x, y, f"({code})"))
    return texts


def _connector(framework: Framework, place: _Place) -> list[PlanText]:
    """The major connector's form, once, in the middle of its line."""
    lines = [c.line for c in framework.components if c.kind == "major connector"]
    if not lines:
        return []
    x, y = place(np.vstack(lines).mean(axis=0))
    return [PlanText(x, y, framework.design.connector.form, size=18)]


def _blocks(arch: DentalArch, design: Design | None, place: _Place) -> list[_Block]:
    if design is None:
        return []
    blocks = [
        _Block(place(arch.teeth[r.tooth].centre), str(r.tooth), tuple(retainer_parts(r)))
        for r in design.retainers
        if r.tooth in arch.teeth
    ]
    for base in design.bases:
        span = next((s for s in arch.spans if set(base.teeth) & set(s.missing)), None)
        if span is not None:
            at = place(span.crest[len(span.crest) // 2])
            teeth = ", ".join(str(t) for t in base.teeth)
            words = (f"denture base, {base.retention}", f"relief {base.relief_mm:g} mm")
            blocks.append(_Block(at, teeth, words))
    return blocks


def _column(
    blocks: list[_Block], on_left: bool, floor: float
) -> tuple[list[PlanText], list[tuple[tuple[float, float], ...]]]:
    """Stack the blocks of one side without overlap, near the height of their places."""
    blocks = sorted(blocks, key=lambda b: b.at[1])
    tops = [max(_TOP, b.at[1] - b.height / 2) for b in blocks]
    for i in range(1, len(blocks)):
        tops[i] = max(tops[i], tops[i - 1] + blocks[i - 1].height)
    for i in reversed(range(len(blocks))):
        tops[i] = min(tops[i], floor - blocks[i].height)
        floor = tops[i]
    edge = (_WIDTH - _PICTURE) / 2
    x = edge - 14 if on_left else _WIDTH - edge + 14
    anchor = "end" if on_left else "start"
    texts: list[PlanText] = []
    leaders: list[tuple[tuple[float, float], ...]] = []
    for block, top in zip(blocks, tops, strict=True):
        y = top + LINE_PX
        texts.append(PlanText(x, y, block.head, anchor, bold=True))
        for n, line in enumerate(block.lines, start=1):
            texts.append(PlanText(x, y + n * LINE_PX, line, anchor, size=16))
        knee = x + (8 if on_left else -8)
        leaders.append(((knee, y - 5), (knee + (12 if on_left else -12), y - 5), block.at))
    return texts, leaders


def _sides(height: float) -> list[PlanText]:
    """The patient's right is on the viewer's left in either jaw."""
    return [
        PlanText(20, 24, "patient's right", "start", faint=True, size=15),
        PlanText(_WIDTH - 20, 24, "patient's left", "end", faint=True, size=15),
        PlanText(_WIDTH / 2, height - 14, "codes in brackets: missing teeth", faint=True, size=15),
    ]


def _alt(arch: DentalArch, design: Design | None) -> str:
    teeth = ", ".join(str(c) for c in sorted(arch.teeth))
    gone = ", ".join(str(c) for span in arch.spans for c in span.missing)
    words = f"Occlusal view of the {arch.scan.jaw}. Present: {teeth}. Missing: {gone or 'none'}."
    if design is None:
        return words
    parts = "; ".join(f"{r.tooth}: {', '.join(retainer_parts(r))}" for r in design.retainers)
    return f"{words} Framework with {design.connector.form}; {parts}."
