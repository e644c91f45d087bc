"""Kernels that write component fields into boxes of a dense grid."""

from __future__ import annotations

import numpy as np
from numba import njit

from claspwright.base import Floats, Ints, Singles


@njit(cache=True, nogil=True)
def oval(u2: float, w2: float, a: float, b: float) -> float:
    """Pseudo-distance to an ellipse of half axes a, b at squared coordinates."""
    q0 = np.sqrt(u2 / (a * a) + w2 / (b * b))
    q1 = np.sqrt(u2 / (a * a * a * a) + w2 / (b * b * b * b))
    if q1 < 1e-9:
        return -min(a, b)
    return float(q0 * (q0 - 1.0) / q1)


@njit(cache=True, nogil=True)
def looked_up(table: Singles, low: Floats, step: float, u: float, w: float) -> float:
    """Bilinear value of a table; beyond its border that of the border."""
    gu = min(max((u - low[0]) / step, 0.0), table.shape[0] - 1.001)
    gw = min(max((w - low[1]) / step, 0.0), table.shape[1] - 1.001)
    iu, iw = int(gu), int(gw)
    fu, fw = gu - iu, gw - iw
    return float(
        table[iu, iw] * (1 - fu) * (1 - fw)
        + table[iu + 1, iw] * fu * (1 - fw)
        + table[iu, iw + 1] * (1 - fu) * fw
        + table[iu + 1, iw + 1] * fu * fw
    )


@njit(cache=True, nogil=True)
def sweep(
    out: Singles,
    low: Floats,
    spacing: float,
    line: Floats,
    normal: Floats,
    across: Floats,
    off: Floats,
    table: Singles,
    table_low: Floats,
    table_step: float,
    reach: float,
    begin: int,
    end: int,
) -> None:
    """Write the distance to a section swept along a polyline, on the planes [begin, end).

    `out` holds the field on the box that starts at `low`. Across is tangent x normal, so that it
    keeps its side all along.

    With a table over (across, off the surface) the section is the table's, stretched by
    `across` and `off` at each station, and ends square. Without one (fewer than two rows) it
    is an oval of half width `across` and height `off`, and ends round.
    """
    ny, nz = out.shape[1:]
    best = np.empty((ny, nz), np.float32)  # squared distance to the line
    segment = np.empty((ny, nz), np.int32)  # whose it is, -1 where the line is out of reach
    for i in range(begin, end):
        best[:] = np.inf
        segment[:] = -1
        _nearest_segments(i, low, spacing, line, reach, best, segment)
        for j in range(ny):
            for k in range(nz):
                if segment[j, k] >= 0:
                    out[i, j, k] = _off_section(
                        low[0] + i * spacing, low[1] + j * spacing, low[2] + k * spacing,
                        segment[j, k], line, normal, across, off, table, table_low, table_step,
                    )  # fmt: skip


@njit(cache=True, nogil=True)
def _nearest_segments(
    i: int, low: Floats, spacing: float, line: Floats, reach: float, best: Singles, segment: Ints
) -> None:
    """The nearest segment of a polyline for the nodes of plane i; of equals the first."""
    ny, nz = best.shape
    for s in range(line.shape[0] - 1):
        ax, ay, az = line[s, 0], line[s, 1], line[s, 2]
        i0 = int((min(ax, line[s + 1, 0]) - reach - low[0]) / spacing)
        i1 = int((max(ax, line[s + 1, 0]) + reach - low[0]) / spacing) + 2
        if not i0 <= i < i1:
            continue
        tx, ty, tz = line[s + 1, 0] - ax, line[s + 1, 1] - ay, line[s + 1, 2] - az
        length = np.sqrt(tx * tx + ty * ty + tz * tz)
        if length < 1e-9:
            continue
        tx, ty, tz = tx / length, ty / length, tz / length
        level = tx * tx + ty * ty
        j0 = max(int((min(ay, line[s + 1, 1]) - reach - low[1]) / spacing), 0)
        j1 = min(int((max(ay, line[s + 1, 1]) + reach - low[1]) / spacing) + 2, ny)
        k0 = max(int((min(az, line[s + 1, 2]) - reach - low[2]) / spacing), 0)
        k1 = min(int((max(az, line[s + 1, 2]) + reach - low[2]) / spacing) + 2, nz)
        px = low[0] + i * spacing - ax
        for j in range(j0, j1):
            py = low[1] + j * spacing - ay
            # of a row only what a ball of `reach` round some place of the segment takes
            share = (px * tx + py * ty) / level if level > 1e-12 else 0.0
            share = min(max(share, 0.0), length)
            beside = (px - share * tx) ** 2 + (py - share * ty) ** 2
            if beside > reach * reach:
                continue
            half = np.sqrt(reach * reach - beside) + spacing
            ka = max(int((az + min(length * tz, 0.0) - half - low[2]) / spacing), k0)
            kb = min(int((az + max(length * tz, 0.0) + half - low[2]) / spacing) + 2, k1)
            for k in range(ka, kb):
                pz = low[2] + k * spacing - az
                t = min(max(px * tx + py * ty + pz * tz, 0.0), length)
                rx, ry, rz = px - t * tx, py - t * ty, pz - t * tz
                d2 = rx * rx + ry * ry + rz * rz
                if d2 < best[j, k] and d2 <= reach * reach:
                    best[j, k] = d2
                    segment[j, k] = s


@njit(cache=True, nogil=True)
def _off_section(
    x: float, y: float, z: float, s: int, line: Floats, normal: Floats, across: Floats,
    off: Floats, table: Singles, table_low: Floats, table_step: float,
) -> float:  # fmt: skip
    """Distance of a point to the section that stands on segment s of the line."""
    px, py, pz = x - line[s, 0], y - line[s, 1], z - line[s, 2]
    tx, ty, tz = (
        line[s + 1, 0] - line[s, 0], line[s + 1, 1] - line[s, 1], line[s + 1, 2] - line[s, 2],
    )  # fmt: skip
    length = np.sqrt(tx * tx + ty * ty + tz * tz)
    tx, ty, tz = tx / length, ty / length, tz / length
    raw = px * tx + py * ty + pz * tz
    t = min(max(raw, 0.0), length)
    rx, ry, rz = px - t * tx, py - t * ty, pz - t * tz
    d2 = rx * rx + ry * ry + rz * rz
    f = t / length
    ux = normal[s, 0] * (1 - f) + normal[s + 1, 0] * f
    uy = normal[s, 1] * (1 - f) + normal[s + 1, 1] * f
    uz = normal[s, 2] * (1 - f) + normal[s + 1, 2] * f
    dot = ux * tx + uy * ty + uz * tz
    ux, uy, uz = ux - dot * tx, uy - dot * ty, uz - dot * tz
    size = np.sqrt(ux * ux + uy * uy + uz * uz) + 1e-12
    ux, uy, uz = ux / size, uy / size, uz / size
    w = rx * ux + ry * uy + rz * uz
    a = across[s] * (1 - f) + across[s + 1] * f
    b = off[s] * (1 - f) + off[s + 1] * f
    if table.shape[0] <= 1:
        return float(oval(max(d2 - w * w, 0.0), w * w, a, b))
    bx, by, bz = ty * uz - tz * uy, tz * ux - tx * uz, tx * uy - ty * ux
    u = rx * bx + ry * by + rz * bz
    d = min(a, b) * looked_up(table, table_low, table_step, u / a, w / b)
    if s == 0:
        d = max(d, -raw)
    if s == line.shape[0] - 2:
        d = max(d, raw - length)
    return float(d)


@njit(cache=True, nogil=True)
def join(values: Singles, shape: Singles, i0: int, j0: int, k0: int, radius: float) -> None:
    """Unite a field with a box of another that begins at a node, with a circular fillet."""
    r = np.float32(radius)
    zero = np.float32(0.0)
    for i in range(shape.shape[0]):
        for j in range(shape.shape[1]):
            for k in range(shape.shape[2]):
                a, b = values[i0 + i, j0 + j, k0 + k], shape[i, j, k]
                low = min(a, b)
                if r > zero and a < r and b < r:
                    u, v = max(r - a, zero), max(r - b, zero)
                    low = max(r, low) - np.sqrt(u * u + v * v)
                values[i0 + i, j0 + j, k0 + k] = low


@njit(cache=True, nogil=True)
def polygon_distance(
    xs: Floats, ys: Floats, rings: Floats, starts: Floats, limit: float
) -> Singles:
    """Signed distance (negative inside) from plan nodes to closed rings, even-odd filled."""
    out = np.empty((xs.size, ys.size), np.float32)
    for i in range(xs.size):
        for j in range(ys.size):
            x, y = xs[i], ys[j]
            best = limit * limit
            inside = False
            for r in range(starts.size - 1):
                a, b = int(starts[r]), int(starts[r + 1])
                for n in range(a, b):
                    m = n + 1 if n + 1 < b else a
                    x0, y0, x1, y1 = rings[n, 0], rings[n, 1], rings[m, 0], rings[m, 1]
                    if (y0 > y) != (y1 > y) and x < (x1 - x0) * (y - y0) / (y1 - y0) + x0:
                        inside = not inside
                    dx, dy = x1 - x0, y1 - y0
                    l2 = dx * dx + dy * dy
                    t = 0.0
                    if l2 > 0:
                        t = min(max(((x - x0) * dx + (y - y0) * dy) / l2, 0.0), 1.0)
                    ex, ey = x - x0 - t * dx, y - y0 - t * dy
                    best = min(best, ex * ex + ey * ey)
            out[i, j] = -np.sqrt(best) if inside else np.sqrt(best)
    return out


@njit(cache=True, nogil=True)
def top_heights(
    values: Singles, z0: float, spacing: float, begin: int, end: int, out: Singles
) -> None:
    """Height of the topmost zero crossing of each column; NaN where a column has none.

    Those of the planes from `begin` to below `end`, into `out` (nx, ny).
    """
    ny, nz = values.shape[1:]
    out[begin:end] = np.nan
    for i in range(begin, end):
        for j in range(ny):
            for k in range(nz - 2, -1, -1):
                v0, v1 = values[i, j, k], values[i, j, k + 1]
                if v0 <= 0.0 < v1:
                    out[i, j] = z0 + spacing * (k + v0 / (v0 - v1))
                    break


@njit(cache=True, nogil=True)
def crossings(values: Singles, begin: int, end: int) -> Floats:
    """(N, 3) places where a field crosses zero along grid edges; in nodes.

    Those of the edges that start in the planes from `begin` to below `end` of the first axis.
    """
    nx, ny, nz = values.shape
    count = 0
    out = np.empty((4096, 3))
    for i in range(begin, end):
        for j in range(ny):
            for k in range(nz):
                here = values[i, j, k]
                inside = here > 0
                ahead = i + 1 < nx and (values[i + 1, j, k] > 0) != inside
                aside = j + 1 < ny and (values[i, j + 1, k] > 0) != inside
                above = k + 1 < nz and (values[i, j, k + 1] > 0) != inside
                if not (ahead or aside or above):
                    continue
                if count + 3 > len(out):
                    out = np.concatenate((out, np.empty((len(out), 3))))
                if ahead:
                    share = here / (here - values[i + 1, j, k])
                    out[count, 0], out[count, 1], out[count, 2] = i + share, j, k
                    count += 1
                if aside:
                    share = here / (here - values[i, j + 1, k])
                    out[count, 0], out[count, 1], out[count, 2] = i, j + share, k
                    count += 1
                if above:
                    share = here / (here - values[i, j, k + 1])
                    out[count, 0], out[count, 1], out[count, 2] = i, j, k + share
                    count += 1
    return out[:count]
