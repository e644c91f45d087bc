from __future__ import annotations

from hypothesis import assume, given
from hypothesis import strategies as st

from claspwright.arch.kennedy import KennedyClass, classify
from claspwright.arch.model import Jaw
from claspwright.arch.notation import ARCH_ORDER, mirrored
from claspwright.base import InputError

JAWS = st.sampled_from(["mandible", "maxilla"])
PLACES = st.sets(st.integers(0, 15), max_size=13)


def _try(jaw: Jaw, missing: set[int], skipped: set[int]) -> KennedyClass | None:
    try:
        return classify(jaw, missing, not_replaced=skipped)
    except InputError:
        return None


@given(JAWS, PLACES, PLACES)
def test_swapping_the_sides_keeps_the_class(jaw: Jaw, gone: set[int], skip: set[int]) -> None:
    missing = {ARCH_ORDER[jaw][i] for i in gone}
    skipped = {ARCH_ORDER[jaw][i] for i in skip & gone}
    one = _try(jaw, missing, skipped)
    other = _try(jaw, {mirrored(c) for c in missing}, {mirrored(c) for c in skipped})
    assert (one is None) == (other is None)
    if one and other:
        assert (one.kennedy_class, one.modifications) == (other.kennedy_class, other.modifications)


@given(JAWS, PLACES)
def test_the_other_jaw_gives_the_same_class(jaw: Jaw, gone: set[int]) -> None:
    one, other = (_try(j, {ARCH_ORDER[j][i] for i in gone}, set()) for j in ("mandible", "maxilla"))  # type: ignore[arg-type]  # the two literals are the two jaws
    assert (one is None) == (other is None)
    if one and other:
        assert (one.kennedy_class, one.modifications) == (other.kennedy_class, other.modifications)


@given(JAWS, PLACES)
def test_areas_are_the_missing_teeth_and_count_the_modifications(jaw: Jaw, gone: set[int]) -> None:
    missing = {ARCH_ORDER[jaw][i] for i in gone}
    found = _try(jaw, missing, set())
    assume(found is not None)
    assert found is not None
    listed = [c for area in found.areas for c in area.teeth]
    assert listed == [c for c in ARCH_ORDER[jaw] if c in missing and c % 10 != 8]
    assert found.modifications == sum(not area.decides for area in found.areas)
    free = sum(area.free_end for area in found.areas)
    assert (found.kennedy_class == "I") == (free == 2)
    assert (found.kennedy_class == "II") == (free == 1)


@given(JAWS, PLACES, st.integers(0, 15))
def test_losing_a_tooth_never_takes_a_free_end_away(jaw: Jaw, gone: set[int], more: int) -> None:
    order = ARCH_ORDER[jaw]
    one = _try(jaw, {order[i] for i in gone}, set())
    other = _try(jaw, {order[i] for i in gone | {more}}, set())
    assume(one is not None and other is not None)
    assert one is not None and other is not None
    rank = {"IV": 0, "III": 0, "II": 1, "I": 2}
    assert rank[other.kennedy_class] >= rank[one.kennedy_class]
