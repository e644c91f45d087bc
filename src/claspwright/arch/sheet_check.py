"""Whether the teeth that the sheet names are those that the scan shows.

The line of the arch is divided among the teeth of the sheet, and again among the list with one
tooth more or less, mirrored, or of the other jaw; how much better another list fits tells the
doubt.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from claspwright.arch.model import Jaw, MasterScan, Tooth, patient_right
from claspwright.arch.notation import (
    ARCH_ORDER,
    in_arch_order,
    is_third_molar,
    kind_of,
    mirrored,
    opposed,
    side_of,
)
from claspwright.arch.partition import Partition, fit_score, partition
from claspwright.arch.profile import ArchProfile
from claspwright.base import Finding, InputError

STANDS_GAIN = 4.0  # of the score, where a tooth listed as missing seems to stand
ABSENT_GAIN = 2.0  # where a tooth not listed as missing seems to be absent
MIRROR_GAIN = 4.0  # where the mirrored list fits better
JAW_GAIN = 2.0  # where the teeth of the other jaw fit better
FRONT_TEETH = 2  # incisors without which the widths of both jaws are much alike
REACH_MM = 12.0  # of ridge behind the last tooth, at least
SURE = 0.95  # teeth laid with more confidence are not doubted
_JAW_SOURCE = "Wheeler's Dental Anatomy, Table 1-1 averages of widths; own measurement of scores"
_SOURCE = "own measurement: labelled research scans score -0.5 or less, invented arches -2.6"


def sheet_findings(
    profile: ArchProfile, jaw: Jaw, codes: Iterable[int], absent: Iterable[int]
) -> list[Finding]:
    """Doubts about the list of missing teeth, asked without the marks.

    Args:
        profile: what the scan shows along its arch.
        jaw: the jaw of the scan.
        codes: the teeth that are taken to stand.
        absent: the teeth that are listed as missing.
    """
    present = in_arch_order(codes, jaw)
    base = partition(profile, present)
    out = _other_jaw(profile, jaw, present, base)
    if out:
        return out
    out = _mirror(profile, jaw, present, base)
    if out:
        return out
    for code in in_arch_order(absent, jaw):
        if is_third_molar(code):
            continue
        gain = _gain(profile, jaw, (*present, code), base)
        if gain > STANDS_GAIN:
            text = (
                f"Tooth {code} is listed as missing, but a crown seems to stand there. Check the "
                "list of missing teeth against the scan; set the marks by hand where it is right."
            )
            out.append(_doubt("tooth.seems_present", "look", text, (gain, STANDS_GAIN), code))
    for code in present:
        if is_third_molar(code) or base.stretches[code].confidence > SURE or len(present) < 3:
            continue
        gain = _gain(profile, jaw, tuple(c for c in present if c != code), base)
        if gain > ABSENT_GAIN:
            text = (
                f"Tooth {code} is not listed as missing, but the scan seems to show no crown for "
                "it. Check the list of missing teeth; set the marks by hand where it is right."
            )
            out.append(_doubt("tooth.seems_absent", "look", text, (gain, ABSENT_GAIN), code))
    return out


def reach_findings(
    scan: MasterScan, teeth: Mapping[int, Tooth], absent: Iterable[int]
) -> list[Finding]:
    """A base that ends free needs the ridge behind the last tooth of its side in the scan."""
    out = []
    for side in ("right", "left"):
        own = [code for code in teeth if side_of(code) == side]
        lost = [code for code in absent if side_of(code) == side and code % 10 == 7]
        if not own or not lost or max(code % 10 for code in own) > 6:
            continue
        last = teeth[max(own, key=lambda code: code % 10)]
        outwards = patient_right(scan.jaw) * (1.0 if side == "right" else -1.0)
        points = scan.surface.vertices[scan.surface.vertices @ outwards > 0]
        behind = float(last.centre[1] - points[:, 1].min() - last.mesiodistal_mm / 2)
        if behind < REACH_MM:
            text = (
                f"The scan ends {behind:.0f} mm behind tooth {last.code}; a base that ends free "
                "needs the whole ridge with the retromolar pad or tuberosity."
            )
            out.append(
                Finding("scan.coverage", "look", text, "common practice, no source",
                        round(behind, 1), REACH_MM, "mm", component=f"tooth.{last.code}")
            )  # fmt: skip
    return out


def _mirror(
    profile: ArchProfile, jaw: Jaw, present: tuple[int, ...], base: Partition
) -> list[Finding]:
    other = in_arch_order([mirrored(code) for code in present], jaw)
    if other == present:
        return []
    gain = _gain(profile, jaw, other, base)
    if gain <= MIRROR_GAIN:
        return []
    gaps = ", ".join(str(code) for code in ARCH_ORDER[jaw] if code not in present)
    text = (
        f"The gaps of the scan lie on the other side: the mirrored list fits better than {gaps}. "
        "Either the scan was mirrored on export or right and left were exchanged on the sheet. "
        "Ask which; where the sheet is right, set the marks by hand to go on."
    )
    return [_doubt("scan.mirrored", "stop", text, (gain, MIRROR_GAIN), None)]


def _other_jaw(
    profile: ArchProfile, jaw: Jaw, present: tuple[int, ...], base: Partition
) -> list[Finding]:
    """The teeth of the other jaw at the same positions, on either side, against those named.

    The incisors decide: upper central ones are two thirds wider than lower ones. Labelled
    research scans and invented arches with real crowns, 31 of them: given rightly the other jaw
    fits worse by 2.7 or more, with two incisors standing.
    """
    if sum(kind_of(code) == "incisor" for code in present) < FRONT_TEETH:
        return []
    other: Jaw = "mandible" if jaw == "maxilla" else "maxilla"
    turned = profile.reversed()
    theirs = tuple(opposed(code) for code in present)
    gain = max(_gain(one, other, theirs, base) for one in (profile, turned))
    if gain <= JAW_GAIN:
        return []
    gain -= max(_gain(turned, jaw, present, base), 0.0)
    if gain <= JAW_GAIN:
        return []
    text = (
        f"The sheet says {jaw}, but the widths of the teeth, the incisors above all, are those of "
        f"a {other}. Check that the right scan was given; where the sheet is right, set the marks "
        "by hand."
    )
    return [Finding("scan.jaw", "look", text, _JAW_SOURCE, round(gain, 1), JAW_GAIN, "score")]


def _gain(profile: ArchProfile, jaw: Jaw, codes: tuple[int, ...], base: Partition) -> float:
    """How much better another list fits; strongly negative where it finds no room."""
    try:
        return fit_score(profile, in_arch_order(codes, jaw)) - base.score
    except InputError:
        return -100.0


def _doubt(
    rule: str, severity: str, text: str, score: tuple[float, float], code: int | None
) -> Finding:
    return Finding(
        rule,
        "stop" if severity == "stop" else "look",
        text,
        _SOURCE,
        measured=round(score[0], 1),
        limit=score[1],
        unit="score",
        component="" if code is None else f"tooth.{code}",
    )
