"""When an embrasure or a ring clasp is proposed: the indication, and that it can be laid."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw
from claspwright.framework import special_forms
from claspwright.framework.areas import areas_to_replace
from claspwright.framework.courses import Course
from claspwright.framework.design import Retainer
from claspwright.framework.proposal import plan_design
from claspwright.framework.rulebook import default_clasp
from claspwright.framework.special_forms import with_special_forms
from claspwright.framework.wishes import Wishes

Arch = Callable[[Jaw, Sequence[int]], DentalArch]
Clasped = dict[int, tuple[str, str | None]]


@pytest.fixture
def bench(monkeypatch: pytest.MonkeyPatch) -> SimpleNamespace:
    """Crowns on which every arm finds 0.20 mm, every rest and every body has room."""
    state = SimpleNamespace(roof=None, sound=True, room=2.0, prepared={}, ring=0.25)

    class Seats:
        def __getitem__(self, key: tuple[int, str]) -> SimpleNamespace:
            return SimpleNamespace(prepared=state.prepared.get(key, False))

    state.ground = SimpleNamespace(seats=Seats())

    def courses(_a: Any, _s: Any, _b: Any, retainer: Retainer, tried: Any) -> Iterator[Course]:
        form, side, _ = tried[0]
        clasp = default_clasp(retainer.tooth, form, side, 0.2)
        yield Course(clasp, 0.2, np.zeros(3), 9.0, 0.5 if state.sound else 1.5)

    def ring(_ground: Any, _retainer: Any) -> tuple[Any, Any, float]:
        line = np.column_stack([np.linspace(0, 25, 101), np.zeros((101, 2))])
        return line, np.linspace(-1.0, 1.0, 101), state.ring

    monkeypatch.setattr(special_forms, "courses_of", courses)
    monkeypatch.setattr(special_forms, "rest_fits", lambda *_: True)
    monkeypatch.setattr(special_forms, "_body_room", lambda *_: state.room)
    monkeypatch.setattr(special_forms, "ring_line", ring)
    return state


def proposed(arch: DentalArch, bench: Any, wishes: Wishes | None = None) -> Clasped:
    """Form and origin of each clasp after the special forms have been looked at."""
    asked = wishes or Wishes()
    plan = plan_design(arch, asked, {})
    areas = areas_to_replace(arch, asked)
    found = with_special_forms(arch, None, asked, plan.retainers, areas, bench)  # type: ignore[arg-type]
    assert len(found.reasons) == sum(
        any(r.clasp and r.clasp.form == form for r in found.retainers)
        for form in ("embrasure", "ring")
    )
    return {r.tooth: (r.clasp.form, r.clasp.origin) for r in found.retainers if r.clasp}


def test_a_side_without_a_space_gets_an_embrasure_clasp(
    toy_arch: Arch, bench: SimpleNamespace
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))  # class II; nothing is replaced on the right
    found = proposed(arch, bench, Wishes(not_replaced=(38, 48)))
    assert found[46] == ("embrasure", "distal") and found[47] == ("embrasure", "mesial")
    assert {tooth for tooth in found if tooth > 40} == {46, 47}


@pytest.mark.parametrize("change", [{"sound": False}, {"room": 0.8}, {"prepared": None}])
def test_it_stays_with_the_present_choice_where_that_is_better(
    toy_arch: Arch, bench: SimpleNamespace, change: dict[str, Any]
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    wishes = Wishes(not_replaced=(38, 48))
    present = {r.tooth: r for r in plan_design(arch, wishes, {}).retainers if r.clasp}
    if "prepared" in change:  # the dentist has prepared the seat of the present clasp
        change = {"prepared": {(t, r.rests[0]): True for t, r in present.items()}}
    vars(bench).update(change)
    assert "embrasure" not in {form for form, _ in proposed(arch, bench, wishes).values()}


def test_no_embrasure_clasp_on_a_side_with_a_space_or_without_a_bench(
    toy_arch: Arch, bench: SimpleNamespace
) -> None:
    both = toy_arch("mandible", (36, 37, 38, 45, 48))
    assert "embrasure" not in {f for f, _ in proposed(both, bench).values()}
    one = toy_arch("mandible", (36, 37, 38, 48))
    wishes = Wishes(not_replaced=(38, 48))
    assert "embrasure" not in {f for f, _ in proposed(one, None, wishes).values()}


@pytest.mark.parametrize(("reached", "form"), [(0.25, "ring"), (0.05, None)])
def test_a_lone_molar_without_a_clasp_gets_a_ring_where_that_holds(
    toy_arch: Arch, bench: SimpleNamespace, reached: float, form: str | None
) -> None:
    bench.ring = reached
    arch = toy_arch("mandible", (36, 38, 48))
    wishes = Wishes(not_replaced=(38, 48))
    plan = plan_design(arch, wishes, {})
    bare = [Retainer(37, ("mesial occlusal",), ("mesial",))]
    bare += [r for r in plan.retainers if r.tooth != 37]
    areas = areas_to_replace(arch, wishes)
    found = with_special_forms(arch, None, wishes, bare, areas, bench)  # type: ignore[arg-type]
    (molar,) = [r for r in found.retainers if r.tooth == 37]
    assert (molar.clasp.form if molar.clasp else None) == form
    if form:
        assert molar.clasp is not None and molar.clasp.side == "lingual"
        assert molar.rests == ("mesial occlusal", "distal occlusal")
