"""The denture as a rigid body on its rests and clasps: what lifts it, and what tips it.

Rests push only, clasps pull to their limit and no further. A motion of the body along the path
is v = a + b x + c y over the plan; by the theorem of limit analysis the least load that moves
it is the least work of the clasps over all motions that no rest forbids. Those motions are
turns about lines through two of the points (the fulcrum lines) and the plain lift.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.optimize import linprog

from claspwright.base import Floats, InputError

HOLDS = 1e-7  # relative slack with which a rest counts as not lifted


@dataclass(frozen=True, slots=True, eq=False)
class Hold:
    """A point that holds the denture along the path; plan coordinates across the path [mm]."""

    name: str
    at: Floats  # (2,)
    limit_n: float  # pull that it bears; 0 for a rest or tissue, which push only
    pushes: bool  # True: it lets nothing sink; False: a clasp that slides on its guide


@dataclass(frozen=True, slots=True, eq=False)
class Giving:
    """How the denture gives way under a load at a point."""

    load_n: float  # least one that moves it; infinite where nothing can
    line: tuple[Floats, Floats] | None  # two points of the fulcrum line; None: a plain lift
    about: tuple[str, ...]  # what the line runs through
    yielding: tuple[str, ...]  # clasps drawn off, the one that moves most first


@dataclass(frozen=True, slots=True, eq=False)
class Motions:
    """Every motion that may decide, with what it costs."""

    holds: tuple[Hold, ...]
    planes: Floats  # (M, 3) v = planes @ (1, x, y), greatest |v| on a point 1
    cost: Floats  # (M,) work of the clasps for it
    through: tuple[tuple[int, ...], ...]  # (M,) holds on the fulcrum line

    def giving(self, at: Floats, *, upwards: bool = True) -> tuple[Giving, ...]:
        """How the denture gives way under a load at each of (P, 2) points.

        Source:
            Kinematic theorem of limit analysis: load = work of the clasps / way of the load.
        """
        points = np.atleast_2d(at)
        way = np.column_stack([np.ones(len(points)), points]) @ self.planes.T
        way = way if upwards else -way
        with np.errstate(divide="ignore"):
            load = np.where(way > 1e-9, self.cost[None] / np.maximum(way, 1e-9), np.inf)
        best = np.argmin(load, axis=1)
        return tuple(self._told(int(m), float(load[p, m])) for p, m in enumerate(best))

    def loads(self, at: Floats, *, upwards: bool = True) -> Floats:
        """(P,) least load at each of (P, 2) points [N]; infinite where nothing can move it."""
        return np.array([one.load_n for one in self.giving(at, upwards=upwards)])

    def _told(self, motion: int, load: float) -> Giving:
        if not np.isfinite(load):
            return Giving(np.inf, None, (), ())
        plane = self.planes[motion]
        rise = np.array([plane @ [1.0, *hold.at] for hold in self.holds])
        drawn = [k for k, h in enumerate(self.holds) if h.limit_n > 0 and rise[k] > 1e-6]
        drawn.sort(key=lambda k: -rise[k])
        on_line = self.through[motion]
        line = None
        if len(on_line) >= 2:
            line = self.holds[on_line[0]].at, self.holds[on_line[-1]].at
        return Giving(
            load, line, tuple(self.holds[k].name for k in on_line),
            tuple(self.holds[k].name for k in drawn),
        )  # fmt: skip


def motions(holds: tuple[Hold, ...]) -> Motions:
    """Every motion that may decide how a denture gives way.

    Raises:
        InputError: a limit is negative, or nothing holds it.
    """
    if not holds or min(hold.limit_n for hold in holds) < 0:
        raise InputError("a denture needs holds, with limits that are not negative")
    spots = np.array([hold.at for hold in holds])
    ones = np.column_stack([np.ones(len(spots)), spots])
    pushing = np.array([hold.pushes for hold in holds])
    limits = np.array([hold.limit_n for hold in holds])
    planes, cost, through = [], [], []
    for plane in _candidates(spots):
        rise = ones @ plane
        size = float(np.abs(rise).max())
        if size <= 1e-9:  # a turn about a line that holds every point: nothing resists it
            size = 1.0
        rise, scaled = rise / size, plane / size
        if np.any(rise[pushing] < -HOLDS):
            continue
        planes.append(scaled)
        cost.append(float(limits @ np.maximum(rise, 0.0)))
        through.append(tuple(int(k) for k in np.flatnonzero(np.abs(rise) < 1e-6)))
    return Motions(holds, np.array(planes), np.array(cost), tuple(through))


def _candidates(spots: Floats) -> list[Floats]:
    """Planes (a, b, c): up, down, and both turns about each line through two points."""
    found = [np.array([1.0, 0.0, 0.0]), np.array([-1.0, 0.0, 0.0])]
    for i, j in combinations(range(len(spots)), 2):
        along = spots[j] - spots[i]
        length = float(np.linalg.norm(along))
        if length < 1e-6:
            continue
        square = np.array([-along[1], along[0]]) / length
        plane = np.array([-square @ spots[i], *square])
        found += [plane, -plane]
    if len(spots) == 1 or np.ptp(spots, axis=0).max() < 1e-6:  # free to turn about any line
        for direction in np.eye(2):
            plane = np.array([-direction @ spots[0], *direction])
            found += [plane, -plane]
    return found


def dislodging_load(holds: tuple[Hold, ...], at: Floats, *, upwards: bool = True) -> float:
    """Greatest load at one point that the holds can balance, by linear programming [N].

    The static counterpart of `motions`: both give the same number, this one from equilibrium.

    Args:
        holds: rests and clasps.
        at: (2,) place of the load in the plan.
        upwards: along the path out of the mouth, or into it.

    Source:
        Static theorem of limit analysis; solved by HiGHS through scipy.
    """
    spots = np.array([hold.at for hold in holds])
    lever = np.column_stack([np.ones(len(spots)), spots]).T  # (3, H)
    push = lever[:, [hold.pushes for hold in holds]]
    pull = -lever
    load = (1.0 if upwards else -1.0) * np.array([[1.0], [at[0]], [at[1]]])
    matrix = np.hstack([load, push, pull])
    bounds = [(0.0, None)] * (1 + push.shape[1]) + [(0.0, hold.limit_n) for hold in holds]
    goal = np.zeros(matrix.shape[1])
    goal[0] = -1.0
    found = linprog(goal, A_eq=matrix, b_eq=np.zeros(3), bounds=bounds, method="highs")
    if found.status == 3 or found.x is None:  # unbounded: nothing can move it
        return float("inf")
    return float(found.x[0])
