"""Time, energy and feedstock from the vectors, layer by layer.

Source:
    check-values F01 to F03 (volumetric energy density, rate, job time), W6.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, frozen_floats
from claspwright.build.exposure import Exposed
from claspwright.build.hatch import Hatches
from claspwright.build.machine import Beam, Machine, Process
from claspwright.build.slices import Slices, layer_count


def energy_density(beam: Beam, hatch_mm: float, layer_mm: float) -> float:
    """Volumetric energy density P / (v h t) [J/mm3] (check-values F01)."""
    return beam.power_w / (beam.speed_mm_s * hatch_mm * layer_mm)


def exposure_rate(beam: Beam, hatch_mm: float, layer_mm: float) -> float:
    """Volume exposed in a second, v h t [mm3/s] (check-values F02)."""
    return beam.speed_mm_s * hatch_mm * layer_mm


def job_time(volume_mm3: float, rate_mm3_s: float, layers: int, recoat_s: float) -> float:
    """Time of a build without jumps and contours [s] (check-values F03)."""
    return volume_mm3 / rate_mm3_s + layers * recoat_s


@dataclass(frozen=True, slots=True, eq=False)
class LayerTimes:
    """Seconds that each layer of one part takes, recoating left out."""

    contour_s: Floats  # (L,)
    hatch_s: Floats  # (L,) core and skins
    support_s: Floats  # (L,)
    jump_s: Floats  # (L,) jumps and settling
    energy_j: Floats  # (L,) light

    def __post_init__(self) -> None:
        for name in ("contour_s", "hatch_s", "support_s", "jump_s", "energy_j"):
            object.__setattr__(self, name, frozen_floats(getattr(self, name), (None,), name))

    @property
    def exposure_s(self) -> Floats:
        """(L,) all of it [s]."""
        return self.contour_s + self.hatch_s + self.support_s + self.jump_s


def layer_times(exposed: Exposed, machine: Machine, process: Process) -> LayerTimes:
    """Exposure of one part with its supports by the vectors: length over speed, jumps, delays."""
    layers = exposed.outline.layers
    contour, support, jump, count = (np.zeros(layers) for _ in range(4))
    energy = np.zeros(layers)
    for track in exposed.contours:
        length = contour_lengths(track)
        contour += length / process.contour.speed_mm_s
        energy += length / process.contour.speed_mm_s * process.contour.power_w
        jump += _contour_jumps(track)
        count += np.diff(track.layer_start)
    beams = (process.core, process.upskin, process.downskin)
    hatch, light = _hatch_times(exposed.hatches, beams, layers)
    energy += light
    jump += _hatch_jumps(exposed.hatches, layers)
    count += np.diff(exposed.hatches.layer_start)
    if exposed.support_contours is not None and exposed.support_hatches is not None:
        lines, track = exposed.support_hatches, exposed.support_contours
        length = contour_lengths(track)
        length += _by_layer(lines.lengths(), lines)
        support += length / process.support.speed_mm_s
        energy += length / process.support.speed_mm_s * process.support.power_w
        jump += _contour_jumps(track) + _hatch_jumps(lines, layers)
        count += np.diff(track.layer_start) + np.diff(lines.layer_start)
    moved = jump / machine.jump_mm_s + 0.001 * machine.vector_delay_ms * count
    share = 1.0 / machine.lasers  # the work of a layer spread evenly
    return LayerTimes(contour * share, hatch * share, support * share, moved * share, energy)


def contour_lengths(slices: Slices) -> Floats:
    """(L,) length of the closed contours of each layer [mm]."""
    if not slices.contours:
        return np.zeros(slices.layers)
    following = np.arange(1, len(slices.points) + 1)
    following[slices.contour_start[1:] - 1] = slices.contour_start[:-1]
    steps = np.hypot(*(slices.points[following] - slices.points).T)
    layer = np.repeat(slices.layer_of_contour(), np.diff(slices.contour_start))
    return np.asarray(np.bincount(layer, weights=steps, minlength=slices.layers), np.float64)


def _contour_jumps(slices: Slices) -> Floats:
    """(L,) way from one contour to the next of a layer [mm]."""
    if slices.contours < 2:
        return np.zeros(slices.layers)
    begin = slices.points[slices.contour_start[:-1]]
    layer = slices.layer_of_contour()
    way = np.hypot(*(begin[1:] - begin[:-1]).T) * (layer[1:] == layer[:-1])
    return np.asarray(np.bincount(layer[1:], weights=way, minlength=slices.layers), np.float64)


def _layer_of(lines: Hatches) -> Floats:
    return np.repeat(np.arange(len(lines.layer_start) - 1), np.diff(lines.layer_start))


def _by_layer(values: Floats, lines: Hatches) -> Floats:
    size = len(lines.layer_start) - 1
    return np.asarray(np.bincount(_layer_of(lines), weights=values, minlength=size), np.float64)


def _hatch_times(lines: Hatches, beams: tuple[Beam, ...], layers: int) -> tuple[Floats, Floats]:
    """(L,) seconds and (L,) joules of hatches by class."""
    if not len(lines.vectors):
        return np.zeros(layers), np.zeros(layers)
    speeds = np.array([beam.speed_mm_s for beam in beams])[lines.kinds]
    powers = np.array([beam.power_w for beam in beams])[lines.kinds]
    seconds = lines.lengths() / speeds
    return _by_layer(seconds, lines), _by_layer(seconds * powers, lines)


def _hatch_jumps(lines: Hatches, layers: int) -> Floats:
    """(L,) way from the end of a vector to the begin of the next [mm]."""
    if len(lines.vectors) < 2:
        return np.zeros(layers)
    way = np.hypot(*(lines.vectors[1:, :2] - lines.vectors[:-1, 2:]).T)
    layer = _layer_of(lines)
    way = way * (layer[1:] == layer[:-1])
    return np.asarray(np.bincount(layer[1:], weights=way, minlength=layers), np.float64)


@dataclass(frozen=True, slots=True)
class PlatformEstimate:
    """Time, energy, gas and powder of one platform."""

    layers: int
    height_mm: float
    contour_h: float
    hatch_h: float
    support_h: float
    jump_h: float
    recoat_h: float
    begin_end_h: float
    laser_energy_mj: float
    electricity_kwh: float
    gas_m3: float
    powder_laid_kg: float  # over the whole platform up to the top
    powder_melted_kg: float
    powder_lost_kg: float

    @property
    def total_h(self) -> float:
        """From the closed door to the open door [h]."""
        exposure = self.contour_h + self.hatch_h + self.support_h + self.jump_h
        return exposure + self.recoat_h + self.begin_end_h


def platform_estimate(
    parts: list[LayerTimes],
    volume_mm3: float,
    height_mm: float,
    density_g_cm3: float,
    machine: Machine,
    process: Process,
) -> PlatformEstimate:
    """Add the parts of one platform up; every layer is recoated once for all of them.

    Args:
        parts: exposure of each part.
        volume_mm3: metal of all parts with supports.
        height_mm: of the tallest part.
        density_g_cm3: of the alloy.
        machine: the machine.
        process: the process.
    """
    layers = layer_count(height_mm, process.layer_mm)

    def hours(name: str) -> float:
        return sum(float(getattr(one, name).sum()) for one in parts) / 3600.0

    recoat = layers * machine.recoat_s / 3600.0
    begin_end = (machine.begin_min + machine.end_min) / 60.0
    laser = sum(float(one.energy_j.sum()) for one in parts) / 1e6
    named = {name: hours(name) for name in ("contour_s", "hatch_s", "support_s", "jump_s")}
    total = sum(named.values()) + recoat + begin_end
    melted = volume_mm3 * density_g_cm3 * 1e-6
    filled = machine.platform.area_mm2 * height_mm - volume_mm3
    loose = max(filled, 0.0) * density_g_cm3 * process.powder_density_share * 1e-6
    return PlatformEstimate(
        layers=layers,
        height_mm=height_mm,
        contour_h=named["contour_s"],
        hatch_h=named["hatch_s"],
        support_h=named["support_s"],
        jump_h=named["jump_s"],
        recoat_h=recoat,
        begin_end_h=begin_end,
        laser_energy_mj=laser,
        electricity_kwh=total * machine.idle_power_kw + laser / 3.6 / machine.laser_efficiency,
        gas_m3=total * 60.0 * machine.gas_l_min / 1000.0,
        powder_laid_kg=loose + melted,
        powder_melted_kg=melted,
        powder_lost_kg=loose * process.powder_lost_share,
    )
