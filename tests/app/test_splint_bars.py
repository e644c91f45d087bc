"""Splinting bars on an invented arch, as the screen shows them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.app.carry_out import carry_out
from claspwright.app.memory import FolderMemory
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import silent
from claspwright.case import read_sheet
from claspwright.framework import (
    Design,
    Preview,
    Retainer,
    SplintBar,
    default_clasp,
    default_connector,
    preview,
    propose_design,
)
from claspwright.geometry import DistanceTree, Mesh, closest_points, shells, volume

from .conftest import Done

FRONT = (43, 42, 41, 31, 32, 33)


@pytest.fixture(scope="module")
def work(done: Done) -> Work:
    memory = FolderMemory(done.stages)
    return carry_out(read_sheet(done.case), Watch(), silent, until="survey", memory=memory)


@pytest.fixture(scope="module")
def plain(work: Work) -> Design:
    """The proposal, with nothing on the right but rests and plates beside the space of 46."""
    assert work.arch is not None and work.surveyed is not None
    design = propose_design(work.arch, work.surveyed, work.sheet.wishes)
    assert design.splints == ()
    kept = [
        replace(r, clasp=default_clasp(r.tooth, "circumferential") if r.tooth == 45 else r.clasp)
        for r in design.retainers
    ]
    return replace(design, retainers=tuple(kept))


def shown(work: Work, design: Design) -> Preview:
    assert work.arch is not None and work.surveyed is not None
    return preview(work.arch, work.surveyed, design)


def without_base(design: Design, tooth: int) -> Design:
    return replace(design, bases=tuple(b for b in design.bases if tooth not in b.teeth))


def told(made: Preview) -> list[tuple[str, str]]:
    return [(f.rule, f.component) for f in made.findings if f.rule.startswith("splint.")]


def one_piece(made: Preview) -> bool:
    pieces = sorted(abs(volume(piece)) for piece in shells(made.solid))
    return pieces[-1] > 0.995 * sum(pieces)


def test_a_bar_across_a_space_joins_its_plates_and_clears_the_ridge(
    work: Work, plain: Design
) -> None:
    design = replace(without_base(plain, 46), splints=(SplintBar((47, 45)),))
    made = shown(work, design)
    assert told(made) == [] and one_piece(made)
    bar = next(c for c in made.components if c.id == "splint.47-45")
    plates = [c.line[1] for c in made.components if c.id in ("plate.47.mesial", "plate.45.distal")]
    gaps = [np.linalg.norm((bar.line - spot)[:, :2], axis=1).min() for spot in plates]
    assert max(gaps) < 0.05
    assert work.arch is not None and work.surveyed is not None
    middle = bar.line[len(bar.line) // 3 : -(len(bar.line) // 3)]
    tree = DistanceTree(made.solid)
    assert (closest_points(tree, middle).distance < -0.6).all()  # metal all the way
    path = work.surveyed.path.direction
    under = middle - (0.5 * bar.figures["height_mm"] + 0.15) * path
    on_bar = closest_points(tree, under).points
    off_ridge = closest_points(DistanceTree(work.arch.scan.solid), on_bar).distance
    assert off_ridge.min() > 0.9


def test_a_bar_along_front_teeth_lies_on_them_from_one_minor_connector_to_the_other(
    work: Work, plain: Design
) -> None:
    rests = [
        replace(r, rests=("mesial occlusal", *r.rests)) if r.tooth == 34 else r
        for r in plain.retainers
    ]
    design = replace(
        plain, retainers=(*rests, Retainer(44, ("mesial occlusal",))), splints=(SplintBar(FRONT),)
    )
    made = shown(work, design)
    assert [rule for rule, _ in told(made) if rule != "splint.contact"] == [] and one_piece(made)
    bar = next(c for c in made.components if c.id == "splint.43-33")
    tree = DistanceTree(made.solid)
    assert (closest_points(tree, bar.line).distance < 0.3).all()
    assert work.arch is not None
    for code in FRONT:
        tooth = work.arch.teeth[code]
        away = np.linalg.norm((bar.line - tooth.centre) @ np.vstack([tooth.mesial]).T, axis=1)
        near = bar.line[int(away.argmin())]
        assert (near - tooth.centre) @ tooth.lingual > 0  # on the tongue side


def test_a_bar_without_a_place_is_left_off_under_a_stop(work: Work, plain: Design) -> None:
    wanted = (SplintBar((47, 45)), SplintBar((43, 41)), SplintBar((42, 41, 31)))
    made = shown(work, replace(plain, splints=wanted))
    assert told(made) == [
        ("splint.place", "splint.47-45"),
        ("splint.place", "splint.43-41"),
        ("splint.joined", "splint.42-31"),
    ]
    words = ["a base with its teeth fills that space", "neither the two neighbours of one space",
             "no rest, plate or minor connector"]  # fmt: skip
    stops = [f for f in made.findings if f.rule.startswith("splint.")]
    for finding, part in zip(stops, words, strict=True):
        assert finding.severity == "stop" and part in finding.text and finding.source
    assert not any(c.kind == "splinting bar" for c in made.components)


def test_a_bar_needs_plates_and_no_lingual_plate(work: Work, plain: Design) -> None:
    bare = [replace(r, proximal_plates=()) if r.tooth == 47 else r for r in plain.retainers]
    design = replace(
        without_base(plain, 46),
        retainers=tuple(bare),
        connector=default_connector("lingual plate"),
        splints=(SplintBar((47, 45)), SplintBar(FRONT)),
    )
    made = shown(work, design)
    assert told(made) == [("splint.joined", "splint.47-45"), ("splint.place", "splint.43-33")]
    texts = [f.text for f in made.findings if f.rule.startswith("splint.")]
    assert "tooth 47 has no proximal plate towards the space" in texts[0]
    assert "the lingual plate lies on the tongue side of these teeth already" in texts[1]


def test_a_bar_without_room_under_the_opposing_teeth_is_left_off(work: Work, plain: Design) -> None:
    assert work.arch is not None and work.surveyed is not None and work.arch.opposing is not None
    low = work.arch.opposing
    down = Mesh(low.vertices - 3.5 * work.surveyed.path.direction, low.faces)
    arch = replace(work.arch, opposing=down)
    design = replace(without_base(plain, 46), splints=(SplintBar((47, 45)),))
    made = preview(arch, work.surveyed, design)
    assert told(made) == [("splint.room", "splint.47-45")]
