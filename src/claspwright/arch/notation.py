"""Tooth codes: ISO 3950 within the program, Universal (1-32) on input.

Source:
    ISO 3950:2016 as described in check-values A01 to A06: first digit the quadrant (1 upper
    right, 2 upper left, 3 lower left, 4 lower right), second digit counted from the midline.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from claspwright.arch.model import Jaw
from claspwright.base import InputError

Notation = Literal["iso3950", "universal"]
BodySide = Literal["right", "left"]
ToothKind = Literal["incisor", "canine", "premolar", "molar"]

ARCH_ORDER: dict[Jaw, tuple[int, ...]] = {
    "maxilla": (*range(18, 10, -1), *range(21, 29)),
    "mandible": (*range(48, 40, -1), *range(31, 39)),
}
"""The sixteen codes of a jaw from the patient's right end to the left."""

PERMANENT: frozenset[int] = frozenset(ARCH_ORDER["maxilla"] + ARCH_ORDER["mandible"])
DECIDUOUS: frozenset[int] = frozenset(q * 10 + n for q in (5, 6, 7, 8) for n in range(1, 6))

_KINDS: dict[int, ToothKind] = {1: "incisor", 2: "incisor", 3: "canine", 4: "premolar"}
_KINDS |= {5: "premolar", 6: "molar", 7: "molar", 8: "molar"}


def checked_code(code: int, *, place: str = "") -> int:
    """The code itself, if it is one of the 32 permanent teeth.

    Raises:
        InputError: a deciduous tooth, or no tooth at all.
    """
    if isinstance(code, int) and not isinstance(code, bool):
        if code in PERMANENT:
            return int(code)
        if code in DECIDUOUS:
            raise InputError(
                f"tooth {code} is a deciduous tooth; frameworks are for permanent teeth only",
                place=place,
                remedy="Give permanent teeth: 11-18, 21-28, 31-38, 41-48.",
            )
    raise InputError(
        f"{code!r} is no tooth in ISO 3950",
        place=place,
        remedy="Permanent teeth are 11-18, 21-28, 31-38, 41-48.",
    )


def parse_tooth(text: str | int, notation: Notation = "iso3950", *, place: str = "") -> int:
    """Read one tooth as a person writes it.

    Args:
        text: "16", "1.6" or 16 in ISO 3950; "3" or 3 in Universal.
        notation: the system the code is written in; never guessed.
        place: where the code stands, for the message.

    Returns:
        The ISO 3950 code.

    Raises:
        InputError: the text is no permanent tooth in that system.
    """
    written = str(text).strip()
    digits = written.replace(".", "", 1) if _has_quadrant_dot(written) else written
    if isinstance(text, bool) or not (digits.isascii() and digits.isdigit()):
        raise InputError(
            f"{written!r} is no tooth code", place=place, remedy="Write two digits, such as 36."
        )
    if notation == "universal":
        return from_universal(int(digits), place=place)
    if len(digits) != 2:
        raise InputError(
            f"{written!r} is no tooth in ISO 3950",
            place=place,
            remedy="A code has two digits: quadrant 1-4, then tooth 1-8 from the midline.",
        )
    return checked_code(int(digits), place=place)


def _has_quadrant_dot(written: str) -> bool:
    return len(written) == 3 and written[1] == "."


def from_universal(number: int, *, place: str = "") -> int:
    """ISO 3950 code of a Universal number 1 to 32 (check-values A06).

    Raises:
        InputError: the number is outside 1 to 32.
    """
    if not 1 <= number <= 32:
        raise InputError(
            f"{number} is no tooth in Universal notation", place=place, remedy="Numbers are 1-32."
        )
    if number <= 8:
        return 10 + 9 - number
    if number <= 16:
        return 20 + number - 8
    if number <= 24:
        return 30 + 25 - number
    return 40 + number - 24


def to_universal(code: int) -> int:
    """Universal number 1 to 32 of an ISO 3950 code (check-values A06)."""
    quadrant, n = divmod(checked_code(code), 10)
    return {1: 9 - n, 2: 8 + n, 3: 25 - n, 4: 24 + n}[quadrant]


def jaw_of(code: int) -> Jaw:
    """The jaw a tooth stands in."""
    return "maxilla" if checked_code(code) < 30 else "mandible"


def side_of(code: int) -> BodySide:
    """The patient's side a tooth stands on."""
    return "right" if checked_code(code) // 10 in (1, 4) else "left"


def position_of(code: int) -> int:
    """Place counted from the midline, 1 (central incisor) to 8 (third molar)."""
    return checked_code(code) % 10


def kind_of(code: int) -> ToothKind:
    """Incisor, canine, premolar or molar."""
    return _KINDS[position_of(code)]


def is_third_molar(code: int) -> bool:
    """True for 18, 28, 38, 48."""
    return position_of(code) == 8


def mirrored(code: int) -> int:
    """The same tooth on the other side of the jaw: 16 and 26, 35 and 45."""
    swap = {1: 20, 2: 10, 3: 40, 4: 30}
    return swap[checked_code(code) // 10] + code % 10


def opposed(code: int) -> int:
    """The tooth at the same position of the other jaw, same side: 16 and 46, 25 and 35."""
    swap = {1: 40, 2: 30, 3: 20, 4: 10}
    return swap[checked_code(code) // 10] + code % 10


def neighbours(code: int) -> tuple[int | None, int | None]:
    """The next codes towards the patient's right and left ends of the arch; None at an end."""
    order = ARCH_ORDER[jaw_of(code)]
    at = order.index(code)
    return (order[at - 1] if at > 0 else None, order[at + 1] if at < 15 else None)


def in_arch_order(codes: Iterable[int], jaw: Jaw) -> tuple[int, ...]:
    """The distinct codes sorted from the patient's right to the left.

    Raises:
        InputError: a code is no tooth of this jaw.
    """
    order = ARCH_ORDER[jaw]
    wanted = set()
    for code in codes:
        if jaw_of(code) != jaw:
            raise InputError(
                f"tooth {code} stands in the {jaw_of(code)}, not in the {jaw}",
                remedy="Correct the code or the arch.",
            )
        wanted.add(code)
    return tuple(code for code in order if code in wanted)


def present_teeth(jaw: Jaw, missing: Iterable[int]) -> tuple[int, ...]:
    """The codes of a jaw that are not missing, from the patient's right to the left.

    Raises:
        InputError: a missing code is no tooth of this jaw.
    """
    absent = set(in_arch_order(missing, jaw))
    return tuple(code for code in ARCH_ORDER[jaw] if code not in absent)
