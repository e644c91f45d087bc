"""Kennedy class and modifications by Applegate's rules.

Source:
    check-values A07 to A18 (Kennedy 1925; Applegate's eight rules as in the textbooks).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from claspwright.arch.model import Jaw
from claspwright.arch.notation import ARCH_ORDER, in_arch_order, is_third_molar, position_of
from claspwright.base import InputError

ClassName = Literal["I", "II", "III", "IV"]


@dataclass(frozen=True, slots=True)
class EdentulousArea:
    """One run of missing teeth that the classification considers, in arch order."""

    teeth: tuple[int, ...]
    free_end: bool  # no considered tooth stands behind it on at least one side
    crosses_midline: bool
    decides: bool  # it determines the class; the others are modifications


@dataclass(frozen=True, slots=True)
class KennedyClass:
    """Kennedy class, number of modification areas, and the areas themselves."""

    kennedy_class: ClassName
    modifications: int
    areas: tuple[EdentulousArea, ...]  # patient's right to left
    not_considered: tuple[int, ...] = ()  # molars left out by Applegate's rules 2 to 4

    def __str__(self) -> str:
        words = f"Kennedy class {self.kennedy_class}"
        return f"{words} modification {self.modifications}" if self.modifications else words


def classify(
    jaw: Jaw,
    missing: Iterable[int],
    *,
    not_replaced: Iterable[int] = (),
    present_abutments: Iterable[int] = (),
    replaced: Iterable[int] = (),
) -> KennedyClass:
    """Classify a partly edentulous jaw.

    A third molar is considered only where it stands and is used as an abutment
    (`present_abutments`), or is missing and is to be replaced (`replaced`). A missing second
    molar under `not_replaced` is not considered. Every other missing tooth counts, whether it
    is to be replaced or not; a tooth under `not_replaced` counts as missing.

    Args:
        jaw: the jaw that is classified.
        missing: absent teeth, ISO 3950 (after the extractions that are planned, rule 1).
        not_replaced: absent teeth that get no artificial tooth.
        present_abutments: teeth that stand and carry the denture; matters for third molars.
        replaced: absent teeth that a denture base carries; matters for third molars.

    Raises:
        InputError: codes contradict one another or belong to the other jaw; no considered
            tooth remains; or nothing is to be replaced.
    """
    absent, kept, considered = _read(jaw, missing, not_replaced, present_abutments, replaced)
    left_out = tuple(code for code in ARCH_ORDER[jaw] if code not in considered)
    runs = _runs(considered, absent)
    if not runs:
        raise InputError(
            f"nothing is to be replaced in the {jaw}: no missing tooth counts for the class",
            remedy="List the missing teeth, and a third molar in a denture base if it gets one.",
        )
    if absent.issuperset(considered):
        remains = [code for code in ARCH_ORDER[jaw] if code not in absent and code not in kept]
        note = f" (third molars that are no abutments do not count: {remains})" if remains else ""
        raise InputError(
            f"the {jaw} is edentulous: no tooth remains to classify{note}",
            remedy="A complete denture is outside the scope of a partial-denture framework.",
        )
    return _named(runs, considered, left_out)


def _read(
    jaw: Jaw,
    missing: Iterable[int],
    not_replaced: Iterable[int],
    present_abutments: Iterable[int],
    replaced: Iterable[int],
) -> tuple[set[int], set[int], tuple[int, ...]]:
    """The absent teeth, the abutments and the considered codes in arch order."""
    skipped = set(in_arch_order(not_replaced, jaw))
    carried = set(in_arch_order(replaced, jaw))
    kept = set(in_arch_order(present_abutments, jaw))
    absent = set(in_arch_order(missing, jaw)) | skipped
    absent |= {code for code in carried if is_third_molar(code)}
    _refuse(kept & absent, "cannot be missing and an abutment at once")
    _refuse(skipped & carried, "cannot be replaced and not replaced at once")
    _refuse(carried - absent, "is to be replaced but is not among the missing teeth")
    considered = tuple(code for code in ARCH_ORDER[jaw] if _counts(code, skipped, carried, kept))
    return absent, kept, considered


def _refuse(codes: set[int], why: str) -> None:
    if codes:
        raise InputError(
            f"tooth {', '.join(map(str, sorted(codes)))} {why}",
            remedy="Correct the lists of teeth.",
        )


def _counts(code: int, skipped: set[int], carried: set[int], kept: set[int]) -> bool:
    """Whether Applegate's rules 2 to 4 leave this place in the classification."""
    if is_third_molar(code):
        return code in kept or code in carried
    return not (position_of(code) == 7 and code in skipped)


def _runs(considered: tuple[int, ...], absent: set[int]) -> list[tuple[int, ...]]:
    """Unbroken runs of absent teeth among the considered places."""
    runs: list[list[int]] = []
    open_run = False
    for code in considered:
        if code in absent:
            if not open_run:
                runs.append([])
            runs[-1].append(code)
        open_run = code in absent
    return [tuple(run) for run in runs]


def _named(
    runs: list[tuple[int, ...]], considered: tuple[int, ...], left_out: tuple[int, ...]
) -> KennedyClass:
    free = [run[0] == considered[0] or run[-1] == considered[-1] for run in runs]
    crossing = [len({code // 10 for code in run}) == 2 for run in runs]
    name: ClassName
    if any(free):
        name = "I" if sum(free) == 2 else "II"
        deciding = {i for i, is_free in enumerate(free) if is_free}
    elif len(runs) == 1 and crossing[0]:
        name, deciding = "IV", {0}
    else:
        name, deciding = "III", {max(range(len(runs)), key=lambda i: _depth(runs[i]))}
    areas = tuple(
        EdentulousArea(run, free[i], crossing[i], i in deciding) for i, run in enumerate(runs)
    )
    return KennedyClass(name, len(runs) - len(deciding), areas, left_out)


def _depth(run: tuple[int, ...]) -> int:
    """How far back an area reaches; the most posterior one decides (rule 5)."""
    return max(position_of(code) for code in run)
