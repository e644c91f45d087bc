"""Polylines in space: arc length, even steps, smoothing, distances."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.base import Floats, InputError


def arc_lengths(line: Floats) -> Floats:
    """(N,) length along an (N, 3) polyline from its start to each point [mm]."""
    steps = np.linalg.norm(np.diff(line, axis=0), axis=1)
    return np.concatenate([[0.0], np.cumsum(steps)])


def length(line: Floats) -> float:
    """Length of a polyline [mm]."""
    return float(arc_lengths(line)[-1]) if len(line) else 0.0


def point_at(line: Floats, where: Floats | float) -> Floats:
    """Points at given arc lengths; (3,) for one number, (M, 3) for an array [mm].

    Lengths beyond an end give that end.
    """
    along = arc_lengths(line)
    columns = [np.interp(where, along, line[:, axis]) for axis in range(line.shape[1])]
    return np.stack(columns, axis=-1)


def resampled(line: Floats, step: float) -> Floats:
    """The polyline in even steps, as near to `step` [mm] as fits; the ends stay.

    A closed line repeats its first point at the end, before and after.
    """
    if len(line) < 2 or not step > 0:
        raise InputError(f"a line needs 2 points and a positive step, got {len(line)}, {step} mm")
    total = length(line)
    count = max(round(total / step), 1)
    return point_at(line, np.linspace(0.0, total, count + 1))


def smoothed(line: Floats, reach: float, *, closed: bool = False) -> Floats:
    """The polyline after a Gaussian of standard deviation `reach` [mm] along it.

    It keeps its number of points, now in even steps. The ends of an open line stay; a closed
    line repeats its first point at the end.
    """
    count = len(line)
    total = length(line)
    if count < 3 or not total > 0 or not reach > 0:
        return np.array(line, dtype=np.float64)
    even = point_at(line, np.linspace(0.0, total, count))
    sigma = reach / (total / (count - 1))
    if closed:
        inner = gaussian_filter1d(even[:-1], sigma, axis=0, mode="wrap")
        return np.concatenate([inner, inner[:1]])
    width = min(int(np.ceil(4.0 * sigma)), count - 1)
    padded = np.pad(even, ((width, width), (0, 0)), mode="reflect", reflect_type="odd")
    out = gaussian_filter1d(padded, sigma, axis=0, mode="nearest")[width : width + count]
    out[0], out[-1] = line[0], line[-1]
    return np.asarray(out)


def tangents(line: Floats) -> Floats:
    """(N, 3) unit directions along a polyline, by central differences."""
    along = np.gradient(np.asarray(line, dtype=np.float64), axis=0)
    size = np.linalg.norm(along, axis=1, keepdims=True)
    return np.asarray(np.divide(along, size, out=np.zeros_like(along), where=size > 0))


def distance_to_line(line: Floats, points: Floats) -> tuple[Floats, Floats]:
    """Nearest distance of (P, 3) points to a polyline, and the arc length there [mm].

    Compares every point with every segment: meant for up to some 10 million pairs.
    """
    start = line[:-1]
    along = np.diff(line, axis=0)
    square = np.maximum(np.einsum("sd,sd->s", along, along), 1e-300)
    offset = points[:, None, :] - start[None]
    t = np.clip(np.einsum("psd,sd->ps", offset, along) / square, 0.0, 1.0)
    gap = np.linalg.norm(offset - t[..., None] * along, axis=2)
    best = gap.argmin(axis=1)
    rows = np.arange(len(points))
    lengths = arc_lengths(line)
    return gap[rows, best], lengths[best] + t[rows, best] * np.sqrt(square[best])
