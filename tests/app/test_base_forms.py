"""The forms of denture base on an invented lower arch, as the screen shows them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from claspwright.app.carry_out import carry_out
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import silent
from claspwright.case import read_sheet
from claspwright.framework import Preview, Retention, preview, propose_design
from claspwright.geometry import DistanceTree, closest_points, shells, volume

from .conftest import small_case


@pytest.fixture(scope="module")
def surveyed(tmp_path_factory: pytest.TempPathFactory) -> Work:
    case = small_case(tmp_path_factory.mktemp("bases"), "mandible_class_3_mod_1")
    return carry_out(read_sheet(case), Watch(), silent, until="survey")


@pytest.fixture(scope="module")
def shown(surveyed: Work):  # type: ignore[no-untyped-def]
    @cache
    def make(retention: Retention, nails: bool = False) -> Preview:
        arch, survey = surveyed.arch, surveyed.surveyed
        assert arch is not None and survey is not None
        design = propose_design(arch, survey, surveyed.sheet.wishes)
        bases = tuple(replace(b, retention=retention, nail_heads=nails) for b in design.bases)
        return preview(arch, survey, replace(design, bases=bases))

    return make


@pytest.mark.parametrize(
    "retention", ["lattice", "fine mesh", "metal base with beads", "metal base with posts"]
)
def test_a_base_of_any_form_hangs_together(shown, surveyed: Work, retention: Retention) -> None:  # type: ignore[no-untyped-def]
    made = shown(retention)
    pieces = sorted(abs(volume(piece)) for piece in shells(made.solid))
    assert pieces[-1] > 0.99 * sum(pieces)
    arch = surveyed.arch
    assert arch is not None
    crest = np.concatenate([s.crest[len(s.crest) // 3 : -len(s.crest) // 3] for s in arch.spans])
    gap = closest_points(DistanceTree(made.solid), crest).distance
    if retention.startswith("metal"):  # it lies on the ridge
        assert np.abs(gap).max() < 0.25
    else:  # it stands over the ridge, so that acrylic flows under it
        assert gap.min() > 0.3
    ids = [c.id for c in made.components]
    assert any(".post." in i for i in ids) == (retention == "metal base with posts")
    assert any(i.endswith(".beads") for i in ids) == (retention == "metal base with beads")


def test_a_mesh_has_smaller_openings_than_a_lattice(shown) -> None:  # type: ignore[no-untyped-def]
    def struts(retention: Retention) -> int:
        return sum(c.kind == "lattice" and ".tie." not in c.id for c in shown(retention).components)

    assert struts("fine mesh") > struts("lattice") + 4


def test_nail_heads_stand_on_the_cross_bars(shown) -> None:  # type: ignore[no-untyped-def]
    plain, nailed = shown("lattice"), shown("lattice", True)
    bars = [c for c in nailed.components if ".bar." in c.id]
    nails = [c for c in nailed.components if ".nail." in c.id]
    assert len(nails) == len(bars) > 0
    for nail in nails:
        head, stem = float(nail.width_mm[-1]), float(nail.width_mm[0])
        assert head > 1.4 * stem  # the acrylic is held under the head
        up = nail.line[-1] - nail.line[0]
        assert up[2] > 0.5 * np.linalg.norm(up)
    assert volume(nailed.solid) > volume(plain.solid) + 1.0 * len(nails)
