"""Every form of major connector on an invented arch of each jaw, as the screen shows it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from claspwright.app.carry_out import carry_out
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.arch import Jaw
from claspwright.base import Floats, silent
from claspwright.case import read_sheet
from claspwright.framework import (
    ConnectorForm,
    Preview,
    default_connector,
    preview,
    propose_design,
)
from claspwright.geometry import DistanceTree, closest_points, shells, volume

from .conftest import small_case


@pytest.fixture(scope="module")
def surveyed(tmp_path_factory: pytest.TempPathFactory) -> dict[Jaw, Work]:
    names: dict[Jaw, str] = {"mandible": "mandible_class_1", "maxilla": "maxilla_class_1"}
    made: dict[Jaw, Work] = {}
    for jaw, name in names.items():
        case = small_case(tmp_path_factory.mktemp(jaw), name)
        made[jaw] = carry_out(read_sheet(case), Watch(), silent, until="survey")
    return made


@pytest.fixture(scope="module")
def shown(surveyed: dict[Jaw, Work]):  # type: ignore[no-untyped-def]
    @cache
    def make(jaw: Jaw, form: ConnectorForm, indirect: bool = True) -> tuple[Work, Preview]:
        work = surveyed[jaw]
        assert work.arch is not None and work.surveyed is not None
        design = propose_design(work.arch, work.surveyed, work.sheet.wishes)
        # the way of an indirect retainer from the lips over the contact of 43 and 44 is cut off
        # by the opposing teeth of this arch
        kept = tuple(r for r in design.retainers if indirect or not r.indirect)
        design = replace(design, retainers=kept, connector=default_connector(form))
        return work, preview(work.arch, work.surveyed, design)

    return make


def one_piece(preview: Preview) -> bool:
    pieces = sorted(abs(volume(piece)) for piece in shells(preview.solid))
    return pieces[-1] > 0.995 * sum(pieces)


def gap(preview: Preview, points: Floats) -> Floats:
    """Signed distance of points to the metal, negative inside [mm]."""
    return closest_points(DistanceTree(preview.solid), points).distance


@pytest.mark.parametrize("form", ["lingual bar", "lingual plate", "sublingual bar", "cingulum bar"])
def test_lower_connectors_hang_together(shown, form: ConnectorForm) -> None:  # type: ignore[no-untyped-def]
    work, made = shown("mandible", form)
    assert one_piece(made)
    codes = [42, 41, 31, 32]
    margins = [lingual(work, code) for code in codes]
    up = np.array([0.0, 0.0, 1.0])
    on_margin = gap(made, np.array([m + 0.5 * d for m, d in margins]))
    cingula = gap(made, np.array([m + 0.5 * d + 1.5 * up for m, d in margins]))
    below = gap(made, np.array([m + 1.5 * d - 6.0 * up for m, d in margins]))
    if form == "lingual plate":  # covers margins and cingula
        assert on_margin.max() < 0.6 and cingula.max() < 0.8
    elif form == "cingulum bar":
        assert cingula.max() < 1.6 and below.min() > 2.0
    else:  # keeps off the margins
        assert on_margin.min() > 2.0
    if form != "cingulum bar":
        assert below.min() < 2.5


def test_a_labial_bar_hangs_together_in_front_of_the_teeth(shown) -> None:  # type: ignore[no-untyped-def]
    work, made = shown("mandible", "labial bar", indirect=False)
    assert one_piece(made)
    up = np.array([0.0, 0.0, 1.0])
    for code in (42, 41, 31, 32):
        front, ahead = lingual(work, code, labial=True)
        behind, back = lingual(work, code)
        assert gap(made, front[None] + 0.5 * ahead)[0] > 1.5  # keeps off the margin
        assert gap(made, front[None] + 1.5 * ahead - 5.0 * up)[0] < 2.5
        assert gap(made, behind[None] + 1.5 * back - 6.0 * up)[0] > 2.5  # nothing on this side


def lingual(work: Work, code: int, *, labial: bool = False) -> tuple[Floats, Floats]:
    """Middle of a tooth's lingual margin, and the way towards the tongue; of its labial one."""
    assert work.arch is not None
    tooth = work.arch.teeth[code]
    way = tooth.buccal if labial else tooth.lingual
    across = np.abs((tooth.margin - tooth.centre) @ tooth.mesial)
    behind = (tooth.margin - tooth.centre) @ way > 0
    return tooth.margin[np.argmin(np.where(behind, across, 9e9))], way


@pytest.mark.parametrize(
    ("form", "middle", "back"),
    [
        ("palatal strap", True, False),
        ("anterior-posterior strap", False, True),
        ("U-shaped palatal connector", False, False),
        ("full palatal plate", True, True),
    ],
)
def test_upper_connectors_open_where_their_form_does(  # type: ignore[no-untyped-def]
    shown, form: ConnectorForm, middle: bool, back: bool
) -> None:
    _, made = shown("maxilla", form)
    assert one_piece(made)
    over = made.solid.vertices
    midline = over[np.abs(over[:, 0]) < 1.0]
    assert len(midline)  # the two sides are joined
    rests = [c for c in made.components if c.kind == "rest"]
    rear = min(float(c.line[:, 1].min()) for c in made.components if c.kind == "lattice")
    front = max(float(c.line[:, 1].max()) for c in rests)
    covered = covered_at(made, [0.5 * (front + rear), rear + 3.0])
    assert covered == [middle, back]


def covered_at(made: Preview, ys: list[float]) -> list[bool]:
    """Whether metal crosses the midline at places from front to back [mm]."""
    points = made.solid.vertices
    return [
        bool(((np.abs(points[:, 0]) < 1.0) & (np.abs(points[:, 1] - y) < 0.8)).any()) for y in ys
    ]


def test_the_preview_lies_within_a_tenth_of_the_fields(shown) -> None:  # type: ignore[no-untyped-def]
    """No metal of the preview is inside the scan by more than its own grid's error."""
    work, made = shown("mandible", "lingual plate")
    assert work.surveyed is not None
    inside = work.surveyed.scan_field.at(made.solid.vertices)
    assert np.percentile(inside, 1) > -0.1
