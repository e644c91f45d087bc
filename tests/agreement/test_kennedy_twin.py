"""The classifier beside a twin written another way: a picture of the arch and patterns on it."""

from __future__ import annotations

import random
import re

import pytest

from claspwright.arch.kennedy import classify
from claspwright.base import InputError


def _twin(upper: bool, missing: set[int], unreplaced: set[int], abutment8: set[int],
          replaced8: set[int]) -> tuple[str, int] | None:  # fmt: skip
    right, left = (10, 20) if upper else (40, 30)
    picture = ""
    for side, numbers in ((right, range(8, 0, -1)), (left, range(1, 9))):
        for number in numbers:
            code = side + number
            if number == 8:
                picture += "#" if code in abutment8 else "." if code in replaced8 else ""
            elif code not in missing | unreplaced:
                picture += "#"
            elif not (number == 7 and code in unreplaced):
                picture += "."
        if side == right:
            picture += "|"
    plain = picture.replace("|", "")
    if "." not in plain or "#" not in plain:
        return None
    gaps = len(re.findall(r"\.+", plain))
    if plain.startswith(".") and plain.endswith("."):
        return "I", gaps - 2
    if plain.startswith(".") or plain.endswith("."):
        return "II", gaps - 1
    if re.fullmatch(r"#+\.+\|\.+#+", picture):
        return "IV", 0
    return "III", gaps - 1


@pytest.mark.parametrize("seed", [1, 2])
def test_a_thousand_random_jaws(seed: int) -> None:
    rng = random.Random(seed)
    for _ in range(1000):
        upper = rng.random() < 0.5
        sides = (10, 20) if upper else (40, 30)
        share = rng.choice([0.05, 0.2, 0.5, 0.9])
        missing = {s + n for s in sides for n in range(1, 9) if rng.random() < share}
        unreplaced = {c for c in missing if rng.random() < 0.25}
        thirds = {s + 8 for s in sides}
        abutments = {c for c in thirds - missing if rng.random() < 0.5}
        replaced = {c for c in (thirds & missing) - unreplaced if rng.random() < 0.5}
        want = _twin(upper, missing, unreplaced, abutments, replaced)
        try:
            found = classify(
                "maxilla" if upper else "mandible",
                missing,
                not_replaced=unreplaced,
                present_abutments=abutments,
                replaced=replaced,
            )
            got = (found.kennedy_class, found.modifications)
        except InputError:
            got = None
        assert got == want, (sorted(missing), sorted(unreplaced), abutments, replaced)
