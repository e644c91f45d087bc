"""The field of the lumps of blockout and relief, and volumes of fields."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

STEEP = 12.0
MORE = np.float32(0.01)  # mm that counts as added


@numba.njit(cache=True, nogil=True, error_model="numpy")
def lump_planes(
    scan: Any, filled: Any, floor: Any, spacing: float, overlap: float, least: float,
    first: int, last: int, out: Any,
) -> None:  # fmt: skip
    """Negative inside the lumps: where the filled field is inside and leaves the scan.

    A lump fills more than `least` here or up to four steps further along the path, so that its
    walls run on straight into the scan below. What it fills grows slowly from the survey line
    down; made STEEP, it does not pull the walls, whose distance grows by one. A lump reaches
    `overlap` into the scan, and not below the floor: (NX, NY) fractional k.
    """
    top = scan.shape[2] - 1
    for i in range(first, last):
        for j in range(scan.shape[1]):
            base = floor[i, j]
            for k in range(top + 1):
                value = max(filled[i, j, k], -scan[i, j, k] - overlap)
                value = max(value, spacing * (base - k))
                if value < overlap:
                    gain = overlap
                    for up in range(k, min(k + 4, top) + 1):
                        here = STEEP * (filled[i, j, up] - scan[i, j, up] + least)
                        gain = min(gain, max(here, filled[i, j, up]))
                    value = max(value, gain)
                out[i, j, k] = value


@numba.njit(cache=True, nogil=True, error_model="numpy")
def inside_steps(f: Any, floor: Any, spacing: float, first: int, last: int) -> float:
    """Nodes inside a distance field and over a floor (NX, NY), those at the border in part."""
    total = 0.0
    for i in range(first, last):
        for j in range(f.shape[1]):
            base = floor[i, j]
            for k in range(max(int(base) - 1, 0), f.shape[2]):  # below it nothing counts
                value = max(f[i, j, k], spacing * (base - k))
                total += min(max(0.5 - value / spacing, 0.0), 1.0)
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def added_nodes(scan: Any, relieved: Any, floor: Any, half: Any, begin: int, end: int) -> Any:
    """(M, 3) nodes about which something was added, in the planes from `begin` to below `end`.

    `half` a step; `floor` (NX, NY) is the fractional k where lumps end.
    """
    ny, nz = scan.shape[1:]
    count = 0
    out = np.empty((4096, 3), np.int64)
    for i in range(begin, end):
        for j in range(ny):
            lowest = max(int(np.floor(floor[i, j] - 0.5)) + 1, 0)
            for k in range(lowest, nz):
                if not (
                    relieved[i, j, k] < half
                    and scan[i, j, k] > relieved[i, j, k] + MORE
                    and scan[i, j, k] > -half
                ):
                    continue
                if count == len(out):
                    out = np.concatenate((out, np.empty((len(out), 3), np.int64)))
                out[count, 0], out[count, 1], out[count, 2] = i, j, k
                count += 1
    return out[:count]
