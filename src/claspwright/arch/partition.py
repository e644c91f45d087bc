"""Which stretch of the arch each present tooth takes: dynamic programming along the line.

Present codes are known from the prescription. A stretch is scored by its width against the
average width of that tooth, by the creases at both of its ends and by how much its stations
look like a crown; what lies between stretches by how little it does.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import logsumexp

from claspwright.arch.archline import STEP
from claspwright.arch.notation import ARCH_ORDER, jaw_of
from claspwright.arch.profile import ArchProfile
from claspwright.arch.sizes import average_crown
from claspwright.base import Floats, InputError

SCALES = (0.88, 0.95, 1.02, 1.1, 1.18)  # of all teeth against the average
WIDTH_SPREAD = 0.13  # of ln(width), within one mouth
CREASE_GAIN = 3.0  # for a full crease at an end
CROWN_GAIN = 0.35  # for each mm that looks fully like a crown
END_COST = 0.3  # for each mm that looks like a crown outside the first and last tooth
GAP_COST = 0.5  # for each mm between neighbours that should touch
MARK_COST = 1.0  # for each mm that a mark lies outside its stretch, squared
SURE_MM = 2.0  # a centre within this distance counts as the same place
GAPS_KEPT = 32  # tables of scores, for the many lists that are tried on one arch


@dataclass(frozen=True, slots=True)
class Stretch:
    """The arch coordinates where one tooth begins and ends, and how sure that is."""

    code: int
    start_mm: float
    end_mm: float
    confidence: float  # probability that the centre lies within SURE_MM, 0 to 1

    @property
    def centre_mm(self) -> float:
        """Arch coordinate of the middle [mm]."""
        return 0.5 * (self.start_mm + self.end_mm)


@dataclass(frozen=True, slots=True, eq=False)
class Partition:
    """The stretches by code, and how well the whole arch fits them."""

    stretches: Mapping[int, Stretch]
    score: float  # larger is better; comparable on one arch


def partition(
    profile: ArchProfile, present: tuple[int, ...], marks_mm: Mapping[int, float] | None = None
) -> Partition:
    """Divide the arch among the present teeth.

    Args:
        profile: what the scan shows along its arch.
        present: codes in arch order, patient's right to left.
        marks_mm: arch coordinates of marks that a person set, by code.

    Raises:
        InputError: the arch is too short for these teeth.
    """
    total, path, sweeps = _best(profile, present, marks_mm or {})
    sure = _confidence(sweeps, path, _left_over(profile))
    stretches = {
        code: Stretch(code, STEP * a, STEP * b, float(p))
        for code, (a, b), p in zip(present, path, sure, strict=True)
    }
    return Partition(stretches, total)


def fit_score(profile: ArchProfile, present: tuple[int, ...]) -> float:
    """The score of the partition among these teeth, without telling how sure each place is.

    Raises:
        InputError: the arch is too short for these teeth.
    """
    return _best(profile, present, {})[0]


def _best(
    profile: ArchProfile, present: tuple[int, ...], marks: Mapping[int, float]
) -> tuple[float, list[tuple[int, int]], list[_Sweep]]:
    """Score, stretches in stations and sweeps of the scale that fits best."""
    best: tuple[float, list[tuple[int, int]], list[_Sweep]] | None = None
    for scale in SCALES:
        sweeps = _forward(profile, present, marks, scale)
        total, path = _trace(sweeps, _left_over(profile))
        total -= 0.5 * (np.log(scale / 1.03) / 0.08) ** 2
        if np.isfinite(total) and (best is None or total > best[0]):
            best = (total, path, sweeps)
    if best is None:
        raise InputError(
            f"{len(present)} teeth find no room on an arch of {len(profile.top) * STEP:.0f} mm",
            remedy="Check the list of missing teeth and the unit of the scan.",
        )
    return best


@dataclass(frozen=True, slots=True, eq=False)
class _Sweep:
    """Scores of one tooth: for stretches by first station and width, and for gaps before it."""

    widths: NDArray[np.intp]  # (W,) stations
    stretch: Floats  # (K, W) score of a stretch that starts at k and has that width
    gap: Floats  # (K, K) score of the gap from the end of the tooth before to a start
    start: Floats  # (K,) best score up to a start here
    end: Floats  # (K,) best score up to an end here


def _forward(
    profile: ArchProfile, present: tuple[int, ...], marks: Mapping[int, float], scale: float
) -> list[_Sweep]:
    count = len(profile.top)
    crown = _crown_likeness(profile)
    sums = np.concatenate([[0.0], np.cumsum(crown * STEP)])
    sweeps: list[_Sweep] = []
    before = None
    for code in present:
        widths, stretch = _stretch_scores(profile, sums, code, scale, marks.get(code))
        if before is None:
            gap = np.zeros((1, count))
            start = -END_COST * np.maximum(sums[:count], 0.0)
        else:
            gap = _gap_scores(sums, before, code, scale)
            start = (sweeps[-1].end[:, None] + gap).max(axis=0)
        end = np.full(count, -np.inf)
        for j, w in enumerate(widths):
            np.maximum(end[w:], (start + stretch[:, j])[: count - w], out=end[w:])
        sweeps.append(_Sweep(widths, stretch, gap, start, end))
        before = code
    return sweeps


def _left_over(profile: ArchProfile) -> Floats:
    """(K,) cost of ending the last tooth here: what looks like a crown behind it."""
    sums = np.concatenate([[0.0], np.cumsum(_crown_likeness(profile) * STEP)])
    return np.asarray(END_COST * np.maximum(sums[-1] - sums[:-1], 0.0))


def _crown_likeness(profile: ArchProfile) -> Floats:
    """(K,) from about -1 (surely no crown) to +1 for each station."""
    level = np.median(profile.top[profile.wall > 0.6])
    low = np.clip((level - profile.top - 3.0) / 3.0, 0.0, 1.0)
    return np.clip(2.2 * np.minimum(profile.wall, 0.9) - 1.0, -1, 1) - low


def _stretch_scores(
    profile: ArchProfile, sums: Floats, code: int, scale: float, mark: float | None
) -> tuple[NDArray[np.intp], Floats]:
    count = len(profile.top)
    average = average_crown(code).mesiodistal_mm * scale / STEP
    widths = np.arange(int(0.65 * average), int(1.5 * average) + 1)
    first = np.arange(count)[:, None]
    last = np.minimum(first + widths, count - 1)
    score = -0.5 * (np.log(widths / average) / WIDTH_SPREAD)[None, :] ** 2
    score = score + CREASE_GAIN * (profile.valley[first] + profile.valley[last])
    score = score + CROWN_GAIN * (sums[last] - sums[first])
    score = np.where(first + widths < count, score, -np.inf)
    if mark is not None:
        edge = 0.15 * widths
        short = np.maximum(first + edge - mark / STEP, 0) + np.maximum(
            mark / STEP - (last - edge), 0
        )
        score = score - MARK_COST * np.minimum((STEP * short) ** 2, 400.0)
    return widths, score


def _gap_scores(sums: Floats, before: int, code: int, scale: float) -> Floats:
    """(K, K) from an end (rows) to a start (columns)."""
    order = ARCH_ORDER[jaw_of(code)]
    lost = order[order.index(before) + 1 : order.index(code)]
    room = scale * sum(average_crown(c).mesiodistal_mm for c in lost)
    return _gaps(sums.tobytes(), room)


@lru_cache(maxsize=GAPS_KEPT)
def _gaps(sums_bytes: bytes, room: float) -> Floats:
    """Scores of gaps for so much lost width [mm]; most pairs of neighbours have lost none."""
    sums = np.frombuffer(sums_bytes)
    count = len(sums) - 1
    end = np.arange(count)[:, None]
    start = np.arange(count)[None, :]
    gap = STEP * (start - end)
    unused = np.maximum(sums[start] - sums[end], 0.0)
    if room > 0.0:
        cost = 0.5 * np.minimum(((gap - 0.9 * room) / (0.5 * room)) ** 2, 6.0)
        cost = cost + np.maximum(gap - 1.5 * room, 0.0) * GAP_COST
    else:
        cost = GAP_COST * np.maximum(gap - 0.5, 0.0)
    scores = np.where(gap >= 0, -cost - CROWN_GAIN * unused, -np.inf)
    scores.setflags(write=False)
    return scores


def _trace(sweeps: list[_Sweep], left_over: Floats) -> tuple[float, list[tuple[int, int]]]:
    final = sweeps[-1].end - left_over
    last = int(np.argmax(final))
    total = float(final[last])
    path: list[tuple[int, int]] = []
    if not np.isfinite(total):
        return total, path
    for i in range(len(sweeps) - 1, -1, -1):
        sweep = sweeps[i]
        starts = last - sweep.widths
        fits = starts >= 0
        score = np.full(len(starts), -np.inf)
        j = np.flatnonzero(fits)
        score[j] = sweep.start[starts[j]] + sweep.stretch[starts[j], j]
        first = int(starts[int(np.argmax(score))])
        path.append((first, last))
        if i:
            last = int(np.argmax(sweeps[i - 1].end + sweep.gap[:, first]))
    return total, path[::-1]


def _confidence(sweeps: list[_Sweep], path: list[tuple[int, int]], left_over: Floats) -> Floats:
    """Probability that each centre lies within SURE_MM of the chosen one (sum over all ways)."""
    count = len(sweeps[0].start)
    ahead = [sweeps[0].start]
    for i, sweep in enumerate(sweeps):
        end = np.full(count, -np.inf)
        for j, w in enumerate(sweep.widths):
            end[w:] = np.logaddexp(end[w:], (ahead[-1] + sweep.stretch[:, j])[: count - w])
        if i + 1 < len(sweeps):
            ahead.append(logsumexp(end[:, None] + sweeps[i + 1].gap, axis=0))
    behind = -left_over
    out = np.zeros(len(sweeps))
    for i in range(len(sweeps) - 1, -1, -1):
        sweep = sweeps[i]
        first = np.arange(count)[:, None]
        last = np.minimum(first + sweep.widths, count - 1)
        whole = ahead[i][:, None] + sweep.stretch + behind[last]
        share = np.exp(whole - logsumexp(whole))
        centre = 0.5 * (path[i][0] + path[i][1])
        out[i] = share[np.abs(first + 0.5 * sweep.widths - centre) * STEP <= SURE_MM].sum()
        if i:
            begin = logsumexp(sweep.stretch + behind[last], axis=1)
            behind = logsumexp(sweep.gap + begin[None, :], axis=1)
    return np.clip(out, 0.0, 1.0)
