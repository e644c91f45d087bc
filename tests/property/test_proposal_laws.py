"""Laws that every proposal obeys, whatever teeth are missing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from claspwright.arch import (
    ARCH_ORDER,
    DentalArch,
    Jaw,
    Span,
    kind_of,
    mirrored,
    neighbours,
    side_of,
)
from claspwright.framework import Plan, Retainer, Wishes, plan_design

CODES = {"mandible": ARCH_ORDER["mandible"][1:-1], "maxilla": ARCH_ORDER["maxilla"][1:-1]}
THIRDS: dict[Jaw, tuple[int, int]] = {"mandible": (38, 48), "maxilla": (18, 28)}
jaws = st.sampled_from(["mandible", "maxilla"])
chosen = st.sets(st.integers(0, 13), min_size=1, max_size=13)
relaxed = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def arch_without(
    full: DentalArch, missing: set[int], spans: Callable[..., tuple[Span, ...]]
) -> DentalArch:
    jaw = full.scan.jaw
    teeth = {code: tooth for code, tooth in full.teeth.items() if code not in missing}
    return replace(full, teeth=teeth, spans=spans(jaw, missing))


@pytest.fixture(scope="module")
def planned(
    toy_arch: Callable[[Jaw, Sequence[int]], DentalArch],
    toy_spans: Callable[..., tuple[Span, ...]],
) -> Callable[[Jaw, set[int], Wishes], Plan]:
    full = {jaw: toy_arch(jaw, THIRDS[jaw]) for jaw in THIRDS}

    def plan(jaw: Jaw, missing: set[int], wishes: Wishes = Wishes()) -> Plan:  # noqa: B008
        arch = arch_without(full[jaw], missing | set(THIRDS[jaw]), toy_spans)
        return plan_design(arch, wishes, {})

    return plan


def beside(tooth: int, end: str) -> int | None:
    right, left = neighbours(tooth)
    return left if (end == "mesial") == (side_of(tooth) == "right") else right


@given(jaw=jaws, places=chosen)
@relaxed
def test_every_proposal_can_be_built(
    planned: Callable[..., Plan], jaw: Jaw, places: set[int]
) -> None:
    missing = {CODES[jaw][n] for n in places}
    plan = planned(jaw, missing)
    clasped = [r for r in plan.retainers if r.clasp]
    assert 1 <= len(clasped) <= 4
    assert sum(len(r.rests) for r in plan.retainers) >= min(2, 14 - len(missing)) or all(
        kind_of(r.tooth) == "incisor" for r in plan.retainers
    )
    for retainer in plan.retainers:
        assert retainer.tooth not in missing
        for end in retainer.proximal_plates:  # a plate stands beside a gap only
            assert beside(retainer.tooth, end) in missing
        front = kind_of(retainer.tooth) in ("incisor", "canine")
        assert all((rest == "cingulum") == front for rest in retainer.rests)
        if retainer.clasp and retainer.clasp.form == "I-bar":  # it hangs on a base
            assert any(retainer.tooth in area.ends for area in plan.areas)
    replaced = {code for area in plan.areas for code in area.teeth}
    assert replaced == missing
    ends = {end for area in plan.areas for end in area.ends if end is not None}
    assert ends <= {r.tooth for r in plan.retainers}


@given(jaw=jaws, places=chosen)
@relaxed
def test_a_mirrored_mouth_gets_the_mirrored_design(
    planned: Callable[..., Plan], jaw: Jaw, places: set[int]
) -> None:
    missing = {CODES[jaw][n] for n in places}
    here = planned(jaw, missing)
    there = planned(jaw, {mirrored(code) for code in missing})
    assert str(here.kennedy) == str(there.kennedy)
    if here.kennedy.kennedy_class in ("I", "III", "IV"):

        def plain(r: Retainer) -> tuple[object, ...]:
            return (set(r.rests), set(r.proximal_plates), r.clasp, r.indirect)

        turned = {mirrored(r.tooth): plain(r) for r in here.retainers}
        assert turned == {r.tooth: plain(r) for r in there.retainers}


@given(jaw=jaws, places=chosen)
@relaxed
def test_a_plan_taken_as_wishes_is_kept(
    planned: Callable[..., Plan], jaw: Jaw, places: set[int]
) -> None:
    missing = {CODES[jaw][n] for n in places}
    first = planned(jaw, missing)
    again = planned(jaw, missing, Wishes(retainers=first.retainers))
    assert again.retainers == first.retainers
