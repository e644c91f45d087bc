"""Control charts, capability, and what drives a misfit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError

D2 = 1.128  # mean range of two, in standard deviations
D4 = 3.267  # upper limit of the moving range of two
RUN = 9  # points on one side of the middle that are no chance


@dataclass(frozen=True, slots=True)
class ControlChart:
    """Single values in order, with the limits that follow from their moving range."""

    values: tuple[float, ...]
    middle: float
    lower: float
    upper: float
    range_middle: float
    range_upper: float
    outside: tuple[int, ...]  # values beyond a limit
    runs: tuple[int, ...]  # values that end a run of nine on one side of the middle


@dataclass(frozen=True, slots=True)
class Capability:
    """How a spread sits between limits; the interval is that of Cp or of the one-sided index."""

    count: int
    mean: float
    sd: float
    cp: float | None  # needs both limits
    cpk: float
    cpk_low: float  # 95 % interval of Cpk
    cpk_high: float
    share_outside: float  # expected, for a normal spread


@dataclass(frozen=True, slots=True)
class Driver:
    """One coefficient of a linear regression with its 95 % interval."""

    name: str
    estimate: float
    standard_error: float
    low: float
    high: float

    @property
    def clear(self) -> bool:
        """Whether the interval leaves zero out."""
        return self.low > 0 or self.high < 0


def control_chart(values: Sequence[float]) -> ControlChart:
    """Chart of single values and moving ranges.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; ISO 7870-2 (from memory).
    """
    x = _checked(values, 3)
    ranges = np.abs(np.diff(x))
    middle, spread = float(x.mean()), float(ranges.mean())
    reach = 3.0 * spread / D2
    side = np.sign(x - middle)
    runs, length = [], 0
    for n, s in enumerate(side):
        length = length + 1 if n and s == side[n - 1] and s != 0 else 1
        if length >= RUN:
            runs.append(n)
    outside = np.flatnonzero(np.abs(x - middle) > reach)
    return ControlChart(
        tuple(x.tolist()), middle, middle - reach, middle + reach, spread, D4 * spread,
        tuple(int(n) for n in outside), tuple(runs),
    )  # fmt: skip


def capability(
    values: Sequence[float], *, lower: float | None = None, upper: float | None = None
) -> Capability:
    """Capability of a spread against one or two limits, with the interval that its size allows.

    Source:
        NIST/SEMATECH e-Handbook, 6.1.6 (interval of Cpk after Bissell).
    """
    x = _checked(values, 3)
    if lower is None and upper is None:
        raise InputError("capability needs a lower or an upper limit")
    mean, sd, n = float(x.mean()), float(x.std(ddof=1)), len(x)
    if not sd > 0:
        raise InputError("all values are the same, which no capability can be told from")
    from scipy.stats import norm  # slow to import

    sides = [
        (limit - mean) * sign / (3.0 * sd)
        for limit, sign in ((lower, -1.0), (upper, 1.0))
        if limit is not None
    ]
    cpk = min(sides)
    error = float(np.sqrt(1.0 / (9.0 * n) + cpk**2 / (2.0 * (n - 1))))
    cp = None if lower is None or upper is None else (upper - lower) / (6.0 * sd)
    outside = float(sum(norm.sf(3.0 * side) for side in sides))
    z = float(norm.ppf(0.975))
    return Capability(n, mean, sd, cp, cpk, cpk - z * error, cpk + z * error, outside)


def sd_interval(values: Sequence[float]) -> tuple[float, float]:
    """95 % interval of a standard deviation of a normal spread."""
    from scipy.stats import chi2  # slow to import

    x = _checked(values, 2)
    n, sd = len(x), float(x.std(ddof=1))
    low, high = (sd * float(np.sqrt((n - 1) / chi2.ppf(q, n - 1))) for q in (0.975, 0.025))
    return low, high


def drivers(misfit: Sequence[float], causes: dict[str, Sequence[float]]) -> tuple[Driver, ...]:
    """Ordinary least squares of a misfit on possible causes, the first row the intercept.

    Intervals are of Student's t; they hold for independent errors of equal spread. That an
    interval leaves zero out shows that things go together, not that one drives the other.

    Raises:
        InputError: too few values, lengths differ, or causes cannot be told apart.
    """
    from scipy.stats import t  # slow to import

    y = _checked(misfit, len(causes) + 2)
    columns = [np.ones(len(y)), *(np.asarray(v, np.float64) for v in causes.values())]
    if any(len(column) != len(y) for column in columns):
        raise InputError("misfit and causes must be equally many")
    x = np.stack(columns, axis=1)
    if np.linalg.matrix_rank(x / np.maximum(np.abs(x).max(axis=0), 1e-300)) < x.shape[1]:
        raise InputError("two causes cannot be told apart", remedy="Leave one of them out.")
    estimate = np.linalg.lstsq(x, y, rcond=None)[0]
    free = len(y) - x.shape[1]
    variance = float(((y - x @ estimate) ** 2).sum()) / free
    errors = np.sqrt(variance * np.diag(np.linalg.inv(x.T @ x)))
    reach = float(t.ppf(0.975, free)) * errors
    names = ["intercept", *causes]
    return tuple(
        Driver(name, float(b), float(e), float(b - r), float(b + r))
        for name, b, e, r in zip(names, estimate, errors, reach, strict=True)
    )


def _checked(values: Sequence[float], least: int) -> Floats:
    x = np.asarray(values, dtype=np.float64).ravel()
    if len(x) < least or not np.isfinite(x).all():
        raise InputError(f"needs {least} or more finite values, got {len(x)}")
    return x
