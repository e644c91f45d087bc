"""Trueness and precision of repeated readings, as ISO 5725 defines them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError

REPEATABILITY_FACTOR = 2.8  # 1.96 * sqrt(2), rounded as the standard does


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Readings of one quantity against an accepted reference value, in the readings' unit."""

    count: int
    mean: float
    bias: float  # trueness: mean minus reference
    sd: float  # precision: standard deviation of the sample (n - 1)
    repeatability_limit: float  # two readings differ by more only once in twenty times


@dataclass(frozen=True, slots=True)
class GroupedPrecision:
    """Precision split into what varies within and between groups (days, machines, people)."""

    mean: float
    repeatability_sd: float  # s_r, within groups
    between_sd: float  # s_L, between groups; zero where the estimate is negative
    reproducibility_sd: float  # s_R
    between_mean_square: float
    within_mean_square: float


def accuracy(readings: Sequence[float] | Floats, reference: float) -> Accuracy:
    """Trueness (bias) and precision of two or more readings.

    Source:
        ISO 5725-1:1994, 3.6, 3.7 and 3.12; ISO 5725-6 (limit 2.8 s_r); check-values G01 to G03.
    """
    values = _checked(readings)
    sd = float(values.std(ddof=1))
    mean = float(values.mean())
    return Accuracy(len(values), mean, mean - reference, sd, REPEATABILITY_FACTOR * sd)


def grouped_precision(groups: Sequence[Sequence[float]]) -> GroupedPrecision:
    """Repeatability and reproducibility from two or more groups of two or more readings.

    Source:
        one-way analysis of variance; ISO 5725-2:1994, 7.4.5 (groups of unequal size).
    """
    values = [_checked(group) for group in groups]
    if len(values) < 2:
        raise InputError("precision between groups needs two or more of them")
    sizes = np.array([len(group) for group in values], dtype=np.float64)
    means = np.array([group.mean() for group in values])
    total, mean = sizes.sum(), float(np.concatenate(values).mean())
    within = sum(float(((group - group.mean()) ** 2).sum()) for group in values)
    within_ms = within / (total - len(values))
    between_ms = float((sizes * (means - mean) ** 2).sum()) / (len(values) - 1)
    typical = (total - (sizes**2).sum() / total) / (len(values) - 1)
    between = max((between_ms - within_ms) / typical, 0.0)
    return GroupedPrecision(
        mean, within_ms**0.5, between**0.5, (between + within_ms) ** 0.5, between_ms, within_ms
    )


def _checked(readings: Sequence[float] | Floats) -> Floats:
    values = np.asarray(readings, dtype=np.float64).ravel()
    if len(values) < 2 or not np.isfinite(values).all():
        raise InputError(f"precision needs two or more finite readings, got {len(values)}")
    return values
