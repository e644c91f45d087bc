"""How the core of a loaded platform lags behind the furnace: for planning, never as proof."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import solve_banded

from claspwright.base import Floats, InputError

STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m2 K4), CODATA
ZERO_C = 273.15
LUMPED_BIOT = 0.1  # below, a body is taken as one temperature

Environment = Callable[[float], float]  # time [s] -> temperature [degC]


@dataclass(frozen=True, slots=True)
class Body:
    """A body of one temperature, in SI units as the handbooks give them."""

    volume_m3: float
    area_m2: float
    density_kg_m3: float
    heat_capacity_j_kg_k: float
    conductivity_w_m_k: float

    def __post_init__(self) -> None:
        if not min(self.volume_m3, self.area_m2, self.density_kg_m3) > 0:
            raise InputError(f"a body needs volume, area and density, got {self}")

    def biot(self, film_w_m2_k: float) -> float:
        """Film coefficient times volume over area, over conductivity."""
        return film_w_m2_k * self.volume_m3 / self.area_m2 / self.conductivity_w_m_k

    def time_constant_s(self, film_w_m2_k: float) -> float:
        """Rho V c / (h A)."""
        stored = self.density_kg_m3 * self.volume_m3 * self.heat_capacity_j_kg_k
        return stored / (film_w_m2_k * self.area_m2)


def lumped(
    body: Body,
    start_c: float,
    environment: Environment,
    times_s: Floats,
    *,
    film_w_m2_k: float,
    emissivity: float = 0.0,
) -> Floats:
    """(T,) temperature of a body of one temperature, by convection and radiation [degC].

    Args:
        body: the body; its Biot number should be under 0.1.
        start_c: at time 0.
        environment: temperature of the furnace over time.
        times_s: (T,) increasing, from 0.
        film_w_m2_k: film coefficient of convection.
        emissivity: of the body in a large black enclosure; 0 leaves radiation out.

    Source:
        F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, chapter 5.
    """
    stored = body.density_kg_m3 * body.volume_m3 * body.heat_capacity_j_kg_k

    def rate(time: float, value: Floats) -> Floats:
        around = environment(time)
        flux = film_w_m2_k * (around - value)
        if emissivity:
            kelvin, hot = value + ZERO_C, around + ZERO_C
            flux = flux + emissivity * STEFAN_BOLTZMANN * (hot**4 - kelvin**4)
        return np.asarray(flux * body.area_m2 / stored)

    span = (0.0, float(times_s[-1]))
    found = solve_ivp(
        rate, span, [start_c], method="LSODA", t_eval=times_s, rtol=1e-7, atol=1e-6,
        max_step=max(span[1] / 200.0, 1e-9),
    )  # fmt: skip
    return np.asarray(found.y[0], dtype=np.float64)


@dataclass(frozen=True, slots=True)
class Slab:
    """A wall that is heated on one face and insulated on the other; SI units.

    Half of a plate that is heated on both faces is the same thing.
    """

    thickness_m: float
    density_kg_m3: float
    heat_capacity_j_kg_k: float
    conductivity_w_m_k: float

    @property
    def diffusivity_m2_s(self) -> float:
        """K / (rho c)."""
        return self.conductivity_w_m_k / (self.density_kg_m3 * self.heat_capacity_j_kg_k)


def slab_temperatures(
    slab: Slab,
    start_c: float,
    environment: Environment,
    times_s: Floats,
    *,
    film_w_m2_k: float,
    cells: int = 80,
    steps: int = 400,
) -> Floats:
    """(T, C + 2) temperatures from the heated face over the cells to the insulated face [degC].

    One-dimensional conduction by finite volumes, Crank-Nicolson in time with two implicit
    half steps at the start, which take the jump at time 0 without ringing.

    Args:
        slab: the wall.
        start_c: everywhere at time 0.
        environment: temperature of the furnace over time.
        times_s: (T,) increasing, not before 0.
        film_w_m2_k: film coefficient at the heated face.
        cells: of equal width.
        steps: of time, to the last one asked for.

    Source:
        J. Crank, P. Nicolson, Proc Camb Phil Soc 1947;43:50-67.
    """
    width = slab.thickness_m / cells
    between = slab.conductivity_w_m_k / width
    inlet = 1.0 / (1.0 / film_w_m2_k + 0.5 / between)  # furnace to the middle of the first cell
    stored = slab.density_kg_m3 * slab.heat_capacity_j_kg_k * width
    grid = np.linspace(0.0, float(times_s[-1]), steps + 1)
    value = np.full(cells, float(start_c))
    kept = [_profile(value, start_c, inlet, film_w_m2_k)]
    for begin, end in zip(grid[:-1], grid[1:], strict=True):
        pieces = 4 if begin == 0.0 else 1
        for n in range(pieces):
            t0 = begin + (end - begin) * n / pieces
            t1 = begin + (end - begin) * (n + 1) / pieces
            share = 1.0 if begin == 0.0 else 0.5
            value = _advance(value, (t1 - t0) / stored, between, inlet, share,
                             (environment(t0), environment(t1)))  # fmt: skip
        kept.append(_profile(value, environment(end), inlet, film_w_m2_k))
    profiles = np.array(kept)
    columns = [np.interp(times_s, grid, profiles[:, c]) for c in range(profiles.shape[1])]
    return np.stack(columns, axis=1)


def _profile(value: Floats, around: float, inlet: float, film: float) -> Floats:
    """With the two faces: the heated one from the flux, the insulated one as its cell."""
    surface = around - inlet * (around - value[0]) / film
    return np.concatenate([[surface], value, value[-1:]])


def _advance(
    value: Floats, scale: float, between: float, inlet: float, share: float,
    around: tuple[float, float],
) -> Floats:  # fmt: skip
    """One step: `share` of the fluxes at its end, the rest at its beginning."""
    count = len(value)
    flux = np.zeros(count)
    flux[:-1] += between * (value[1:] - value[:-1])
    flux[1:] += between * (value[:-1] - value[1:])
    right = value + scale * (1.0 - share) * flux
    right[0] += scale * ((1.0 - share) * inlet * (around[0] - value[0]) + share * inlet * around[1])
    off = -scale * share * between
    bands = np.zeros((3, count))
    bands[0, 1:] = bands[2, :-1] = off
    bands[1] = 1.0 - 2.0 * off
    bands[1, 0] = 1.0 - off + scale * share * inlet
    bands[1, -1] = 1.0 - off
    return np.asarray(solve_banded((1, 1), bands, right))


def film_of_radiation(surface_c: float, around_c: float, emissivity: float) -> float:
    """The film coefficient that stands for radiation between two temperatures [W/(m2 K)]."""
    a, b = surface_c + ZERO_C, around_c + ZERO_C
    return emissivity * STEFAN_BOLTZMANN * (a**2 + b**2) * (a + b)


def time_at_temperature(times_s: Floats, core_c: Floats, wanted_c: float, within_c: float) -> float:
    """The first time at which the core is within a tolerance of the wanted temperature [s].

    Raises:
        InputError: it never gets there in the time given.
    """
    there = np.flatnonzero(core_c >= wanted_c - within_c)
    if not len(there):
        raise InputError(
            f"the core reaches {float(np.max(core_c)):.0f} degC only, {wanted_c:g} is wanted",
            remedy="Plan a longer run.",
        )
    return float(times_s[there[0]])
