"""What each part of a platform takes of its time, powder, energy and money."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats
from claspwright.build.estimate import LayerTimes, PlatformEstimate
from claspwright.build.machine import Costs, Machine


@dataclass(frozen=True, slots=True)
class Share:
    """One part's share of a platform."""

    machine_h: float
    powder_g: float  # melted and lost
    electricity_kwh: float
    gas_m3: float
    bench_min: float  # platform work and grinding off the supports
    cost: float | None  # None where the laboratory has entered no prices


def layer_seconds(parts: Sequence[LayerTimes], machine: Machine, layers: int) -> Floats:
    """(L,) seconds that each layer of the platform takes, recoating included."""
    total = np.full(layers, machine.recoat_s)
    for one in parts:
        total[: len(one.exposure_s)] += one.exposure_s[:layers]
    return total


def shares(
    parts: Sequence[LayerTimes],
    masses_g: Sequence[float],
    contacts: Sequence[int],
    whole: PlatformEstimate,
    machine: Machine,
    costs: Costs,
) -> tuple[Share, ...]:
    """Split a platform between its parts.

    A part pays its own exposure, an equal part of the recoating of each layer in which it has
    metal, and an equal part of the begin and the end. Lost powder, electricity and gas follow
    the hours; melted powder and the grinding of contacts are its own.
    """
    count = len(parts)
    layers = max(len(one.exposure_s) for one in parts)
    present = np.zeros((count, layers), bool)
    for n, one in enumerate(parts):
        present[n, : len(one.exposure_s)] = one.exposure_s > 0
    sharing = np.maximum(present.sum(axis=0), 1)
    out = []
    for n, one in enumerate(parts):
        recoat = float((present[n] / sharing).sum()) * machine.recoat_s
        hours = (float(one.exposure_s.sum()) + recoat) / 3600.0 + whole.begin_end_h / count
        portion = hours / whole.total_h
        powder = masses_g[n] + 1000.0 * whole.powder_lost_kg * portion
        energy, gas = whole.electricity_kwh * portion, whole.gas_m3 * portion
        bench = costs.platform_min / count + contacts[n] * costs.contact_s / 60.0
        out.append(
            Share(
                hours, powder, energy, gas, bench, _cost(hours, powder, energy, gas, bench, costs)
            )
        )
    return tuple(out)


def _cost(
    hours: float, powder_g: float, energy: float, gas: float, bench_min: float, costs: Costs
) -> float | None:
    prices = (costs.machine_per_h, costs.powder_per_kg, costs.electricity_per_kwh)
    if not any((*prices, costs.gas_per_m3, costs.labour_per_h)):
        return None
    return (
        hours * costs.machine_per_h
        + powder_g / 1000.0 * costs.powder_per_kg
        + energy * costs.electricity_per_kwh
        + gas * costs.gas_per_m3
        + bench_min / 60.0 * costs.labour_per_h
    )
