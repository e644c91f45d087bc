"""The exact reading of the undercut gauge, on the triangles and outlines of a shadow.

The nearest free point lies on the border of the hidden region: on an outline seen from out of
the mouth that lies over the level of the point, at its foot or at its end, or where the outline
meets the cut of a surface that looks up at that level. `plan`, `bins`, `pieces` and
`piece_bins` are those of the shadow; lengths in mm.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

from claspwright.survey._shadow_kernels import PUSH, SLACK, covered, crossing

BESIDE = 2e-6  # mm along an outline at which it is asked
LEVEL = 0.02  # mm over the gauge's level that still hides nothing: roughness of level tissue
STRIDE = 0.02  # mm of a search along an outline whose foot the gauge cannot use
RIM = 8  # points round the lip
CROSSINGS = 64
MOST_NEAR = 4096  # pieces first met in one ring
NARROW, OPEN = 1, 2
NOT_BORDER, TOO_NARROW, BLOCKED, FREE = 0, 1, 2, 3


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _cut(t: Any, z: float, out: Any) -> Any:
    """Section of a triangle at a level: (ax, ay, bx, by) into out; False where there is none."""
    n = 0
    for c in range(3):
        a, b = 3 * c, 3 * ((c + 1) % 3)
        if (t[a + 2] > z) != (t[b + 2] > z):
            w = (z - t[a + 2]) / (t[b + 2] - t[a + 2])
            out[2 * n] = t[a] + w * (t[b] - t[a])
            out[2 * n + 1] = t[a + 1] + w * (t[b + 1] - t[a + 1])
            n += 1
    return n == 2


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _beside_cut(x: float, y: float, z: float, reach: float, plan: Any, bins: Any, cut: Any) -> Any:
    """True where the section of the surface at a level passes within reach of a point."""
    start, items, tris, top, low = bins
    size, nx, ny = plan[2], int(plan[3]), int(plan[4])
    i0, i1 = int((x - reach - plan[0]) / size), int((x + reach - plan[0]) / size)
    j0, j1 = int((y - reach - plan[1]) / size), int((y + reach - plan[1]) / size)
    for i in range(max(i0, 0), min(i1, nx - 1) + 1):
        for j in range(max(j0, 0), min(j1, ny - 1) + 1):
            for m in range(start[i * ny + j], start[i * ny + j + 1]):
                f = items[m]
                if top[f] <= z:
                    break
                if low[f] > z or not _cut(tris[f], z, cut):
                    continue
                ex, ey = cut[2] - cut[0], cut[3] - cut[1]
                square = max(ex * ex + ey * ey, 1e-30)
                t = min(max(((x - cut[0]) * ex + (y - cut[1]) * ey) / square, 0.0), 1.0)
                if np.hypot(x - cut[0] - t * ex, y - cut[1] - t * ey) <= reach:
                    return True
    return False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _beside_skin(x: float, y: float, z: float, reach: float, plan: Any, bins: Any) -> Any:
    """True where the surface passes within reach over or under a point."""
    start, items, tris, top, low = bins
    i, j = int(np.floor((x - plan[0]) / plan[2])), int(np.floor((y - plan[1]) / plan[2]))
    if i < 0 or j < 0 or i >= plan[3] or j >= plan[4]:
        return False
    cell = i * int(plan[4]) + j
    for m in range(start[cell], start[cell + 1]):
        f = items[m]
        if top[f] < z - reach:
            return False
        t = tris[f]
        if low[f] > z + reach or abs(t[9]) <= SLACK:
            continue
        u = ((t[3] - x) * (t[7] - y) - (t[6] - x) * (t[4] - y)) / t[9]
        v = ((t[6] - x) * (t[1] - y) - (t[0] - x) * (t[7] - y)) / t[9]
        if u < 0.0 or v < 0.0 or u + v > 1.0:
            continue
        if abs(u * t[2] + v * t[5] + (1.0 - u - v) * t[8] - z) <= reach:
            return True
    return False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _leaving(t: Any, dx: float, dy: float) -> Any:
    """1 where a level way leaves the solid through a triangle, -1 where it enters."""
    ux, uy, uz = t[3] - t[0], t[4] - t[1], t[5] - t[2]
    vx, vy, vz = t[6] - t[0], t[7] - t[1], t[8] - t[2]
    return 1.0 if (uy * vz - uz * vy) * dx + (uz * vx - ux * vz) * dy > 0.0 else -1.0


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _crossings(
    x: float, y: float, z: float, qx: float, qy: float, plan: Any, bins: Any, cut: Any, found: Any
) -> int:
    """Where the level way from (x, y) to (qx, qy) crosses the surface: (part of way, +1 out).

    Rows of `found` in order along the way; returns their number.
    """
    start, items, tris, top, low = bins
    x0, y0, size = plan[0], plan[1], plan[2]
    nx, ny = int(plan[3]), int(plan[4])
    i0, i1 = int(np.floor((min(x, qx) - x0) / size)), int(np.floor((max(x, qx) - x0) / size))
    dx, dy = qx - x, qy - y
    way = np.array([x, y, 0.0, qx, qy, 0.0])
    section = np.zeros(6)
    count = 0
    for i in range(max(i0, 0), min(i1, nx - 1) + 1):
        enter, leave = 0.0, 1.0  # part of the way over this column of bins
        if i0 != i1:
            one, two = (x0 + i * size - x) / dx, (x0 + (i + 1) * size - x) / dx
            enter, leave = max(min(one, two) - 1e-6, 0.0), min(max(one, two) + 1e-6, 1.0)
        one, two = y + enter * dy, y + leave * dy
        j0, j1 = (
            int(np.floor((min(one, two) - y0) / size)),
            int(np.floor((max(one, two) - y0) / size)),
        )
        for j in range(max(j0, 0), min(j1, ny - 1) + 1):
            for m in range(start[i * ny + j], start[i * ny + j + 1]):
                f = items[m]
                if top[f] <= z:
                    break
                if low[f] > z or not _cut(tris[f], z, cut):
                    continue
                section[0], section[1], section[3], section[4] = cut[0], cut[1], cut[2], cut[3]
                s, t = crossing(way, section)
                if not (0.0 < s < 1.0 and -1e-9 <= t <= 1.0 + 1e-9) or count == len(found):
                    continue
                if int((x + s * dx - x0) / size) != i or int((y + s * dy - y0) / size) != j:
                    continue  # another bin owns it
                n = count
                while n > 0 and found[n - 1, 0] > s:
                    found[n, 0], found[n, 1] = found[n - 1, 0], found[n - 1, 1]
                    n -= 1
                found[n, 0], found[n, 1] = s, _leaving(tris[f], dx, dy)
                count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _shallow(
    x: float, y: float, z: float, dx: float, dy: float, begin: float, end: float, graze: float,
    plan: Any, bins: Any, cut: Any,
) -> Any:  # fmt: skip
    """True where a part of a way within the solid keeps within `graze` of the surface."""
    chord = (end - begin) * np.hypot(dx, dy)
    if chord <= 2.0 * graze:
        return True
    if graze <= 0.0:
        return False
    steps = int(np.ceil(chord / graze))
    for m in range(1, steps):
        t = begin + (end - begin) * m / steps
        at_x, at_y = x + t * dx, y + t * dy
        if _beside_skin(at_x, at_y, z, graze, plan, bins):
            continue
        if not _beside_cut(at_x, at_y, z, graze, plan, bins, cut):
            return False
    return True


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _clear(
    x: float, y: float, z: float, qx: float, qy: float, graze: float, plan: Any, bins: Any,
    cut: Any, found: Any,
) -> Any:  # fmt: skip
    """True when the level way does not pass through the solid deeper than `graze`."""
    count = _crossings(x, y, z, qx, qy, plan, bins, cut, found)
    if count == 0:
        return True
    dx, dy = qx - x, qy - y
    begin = 0.0 if found[0, 1] > 0.0 else -1.0  # where the way enters the solid
    for n in range(count):
        if found[n, 1] < 0.0:
            if begin < 0.0:
                begin = found[n, 0]
        elif begin >= 0.0:
            if not _shallow(x, y, z, dx, dy, begin, found[n, 0], graze, plan, bins, cut):
                return False
            begin = -1.0
    return begin < 0.0 or _shallow(x, y, z, dx, dy, begin, 1.0, graze, plan, bins, cut)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _disc_fits(x: float, y: float, z: float, dx: float, dy: float, plan: Any, bins: Any) -> Any:
    """True where nothing lies over a disc; (dx, dy) leads to its rim, where the asking begins."""
    if covered(x, y, z, plan, bins):
        return False
    for n in range(RIM):
        turn = 2.0 * np.pi * n / RIM
        c, s = np.cos(turn), np.sin(turn)
        if covered(x + c * dx - s * dy, y + s * dx + c * dy, z, plan, bins):
            return False
    return True


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _lip_fits(
    x: float, y: float, z: float, ox: float, oy: float, lip: float, plan: Any, bins: Any
) -> Any:
    """True where a disc of the lip's radius finds room by a border point, within two radii."""
    for far in range(1, 4):
        reach = lip * (far + 1e-3)
        for turn in (0.0, 0.5, -0.5, 1.0, -1.0):
            c, s = np.cos(turn), np.sin(turn)
            dx, dy = c * ox - s * oy, s * ox + c * oy
            if _disc_fits(x + reach * dx, y + reach * dy, z, lip * dx, lip * dy, plan, bins):
                return True
    return False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _judge(
    home: Any, z: float, p: Any, t: float, first: float, last: float, lip: float,
    graze: float, plan: Any, bins: Any, cut: Any, found: Any,
) -> int:  # fmt: skip
    """Whether the gauge can stand at a place of a piece: NOT_BORDER, TOO_NARROW, BLOCKED, FREE.

    From `first` to `last` the piece lies over the level z.
    """
    dx, dy = p[3] - p[0], p[4] - p[1]
    beside = BESIDE / max(np.hypot(dx, dy), 1e-9)
    border = False
    for side in (-1.0, 1.0):
        w = min(max(t + side * beside, first), last)
        at_x, at_y = p[0] + w * dx + PUSH * p[6], p[1] + w * dy + PUSH * p[7]
        if not covered(at_x, at_y, z, plan, bins):
            border = True
            break
    if not border:
        return NOT_BORDER
    qx, qy = p[0] + t * dx, p[1] + t * dy
    if lip > 0.0 and not _lip_fits(qx, qy, z, p[6], p[7], lip, plan, bins):
        return TOO_NARROW
    if not _clear(home[2], home[3], home[4], qx, qy, graze, plan, bins, cut, found):
        return BLOCKED
    return FREE


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _over(p: Any, z: float) -> Any:
    """(first, last) part of a piece that lies over a level; last < first where none does."""
    if p[2] > z and p[5] > z:
        return 0.0, 1.0
    if p[2] <= z and p[5] <= z:
        return 1.0, 0.0
    w = (z - p[2]) / (p[5] - p[2])
    return (w, 1.0) if p[5] > z else (0.0, w)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _foot(x: float, y: float, p: Any, first: float, last: float) -> Any:
    """(part of the piece, distance in plan) nearest to a point."""
    dx, dy = p[3] - p[0], p[4] - p[1]
    t = ((x - p[0]) * dx + (y - p[1]) * dy) / max(dx * dx + dy * dy, 1e-30)
    t = min(max(t, first), last)
    return t, np.hypot(x - p[0] - t * dx, y - p[1] - t * dy)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _reach_along(p: Any, t: float, x: float, y: float) -> Any:
    return np.hypot(x - p[0] - t * (p[3] - p[0]), y - p[1] - t * (p[4] - p[1]))


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _search_along(
    home: Any, z: float, p: Any, t: float, first: float, last: float, best: float, lip: float,
    graze: float, plan: Any, bins: Any, cut: Any, found: Any,
) -> Any:  # fmt: skip
    """(part, distance) of the nearest usable place of a piece beside an unusable foot."""
    length = max(np.hypot(p[3] - p[0], p[4] - p[1]), 1e-9)
    best_t = -1.0
    for side in (-1.0, 1.0):
        end = first if side < 0.0 else last
        steps = int(np.ceil(abs(end - t) * length / STRIDE))
        for m in range(1, steps + 1):
            w = t + (end - t) * m / steps
            if _reach_along(p, w, home[0], home[1]) >= best:
                break
            if _judge(home, z, p, w, first, last, lip, graze, plan, bins, cut, found) != FREE:
                continue
            shut = t + (end - t) * (m - 1) / steps
            for _ in range(6):
                half = 0.5 * (shut + w)
                verdict = _judge(home, z, p, half, first, last, lip, graze, plan, bins, cut, found)
                if verdict == FREE:
                    w = half
                else:
                    shut = half
            distance = _reach_along(p, w, home[0], home[1])
            if distance < best:
                best, best_t = distance, w
            break
    return best_t, best


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _corners(
    home: Any, z: float, cell: int, best: float, pieces: Any, piece_bins: Any, lip: float,
    graze: float, plan: Any, bins: Any, cut: Any, found: Any,
) -> Any:  # fmt: skip
    """(piece, part, distance) of an outline over a rising surface in a bin; piece -1 if none."""
    start, items, tris, top, low = bins
    best_piece, best_t = -1, 0.0
    section = np.zeros(6)
    for m in range(start[cell], start[cell + 1]):
        f = items[m]
        if top[f] <= z:
            break
        if low[f] > z or tris[f, 9] <= SLACK or not _cut(tris[f], z, cut):
            continue
        section[0], section[1], section[3], section[4] = cut[0], cut[1], cut[2], cut[3]
        for n in range(piece_bins[0][cell], piece_bins[0][cell + 1]):
            s = piece_bins[1][n]
            p = pieces[s]
            t, u = crossing(p, section)
            if not (0.0 <= t <= 1.0 and 0.0 <= u <= 1.0) or p[2] + t * (p[5] - p[2]) <= z:
                continue
            distance = _reach_along(p, t, home[0], home[1])
            if (
                distance < best
                and _judge(home, z, p, t, 0.0, 1.0, lip, graze, plan, bins, cut, found) == FREE
            ):
                best, best_piece, best_t = distance, s, t
    return best_piece, best_t, best


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _gather(
    x: float, y: float, z: float, ring: int, best: float, plan: Any, pieces: Any,
    piece_bins: Any, stamp: Any, mark: int, near: Any,
) -> int:  # fmt: skip
    """Pieces met first in a ring of bins, by distance: rows (piece, foot, distance); number."""
    nx, ny, size = int(plan[3]), int(plan[4]), plan[2]
    ci, cj = int(np.floor((x - plan[0]) / size)), int(np.floor((y - plan[1]) / size))
    count = 0
    for i in range(max(ci - ring, 0), min(ci + ring, nx - 1) + 1):
        step = 1 if i == ci - ring or i == ci + ring or ring == 0 else 2 * ring
        for j in range(cj - ring, cj + ring + 1, step):
            if j < 0 or j >= ny:
                continue
            for n in range(piece_bins[0][i * ny + j], piece_bins[0][i * ny + j + 1]):
                s = piece_bins[1][n]
                if stamp[s] == mark:
                    continue
                stamp[s] = mark
                first, last = _over(pieces[s], z)
                if last < first or count == len(near):
                    continue
                t, distance = _foot(x, y, pieces[s], first, last)
                if distance >= best:
                    continue
                m = count
                while m > 0 and near[m - 1, 2] > distance:
                    near[m] = near[m - 1]
                    m -= 1
                near[m, 0], near[m, 1], near[m, 2] = s, t, distance
                count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _ring_corners(
    home: Any, z: float, ring: int, best: float, pieces: Any, piece_bins: Any, lip: float,
    graze: float, plan: Any, bins: Any, cut: Any, found: Any,
) -> Any:  # fmt: skip
    """(piece, part, distance) of the nearest corner in a ring of bins; piece -1 if none."""
    x, y = home[0], home[1]
    nx, ny, size = int(plan[3]), int(plan[4]), plan[2]
    ci, cj = int(np.floor((x - plan[0]) / size)), int(np.floor((y - plan[1]) / size))
    best_piece, best_t = -1, 0.0
    for i in range(max(ci - ring, 0), min(ci + ring, nx - 1) + 1):
        step = 1 if i == ci - ring or i == ci + ring or ring == 0 else 2 * ring
        for j in range(cj - ring, cj + ring + 1, step):
            cell = i * ny + j
            if j < 0 or j >= ny or piece_bins[0][cell] == piece_bins[0][cell + 1]:
                continue
            gx = max(max(plan[0] + i * size - x, x - plan[0] - (i + 1) * size), 0.0)
            gy = max(max(plan[1] + j * size - y, y - plan[1] - (j + 1) * size), 0.0)
            if gx * gx + gy * gy >= best * best:
                continue
            s, t, near = _corners(home, z, cell, best, pieces, piece_bins, lip, graze, plan, bins,
                                  cut, found)  # fmt: skip
            if s >= 0:
                best, best_piece, best_t = near, s, t
    return best_piece, best_t, best


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _nearest_free(
    home: Any, z: float, reach: float, lip: float, graze: float, plan: Any, bins: Any,
    pieces: Any, piece_bins: Any, stamp: Any, mark: int, near: Any, cut: Any, found: Any,
) -> Any:  # fmt: skip
    """(piece, part of it, distance, nearest too narrow place) about a hidden point.

    `home` holds x, y of the point, then x, y, z just off the surface from where ways begin;
    what does not rise over z hides nothing.
    """
    best, best_piece, best_t, narrow = reach, -1, 0.0, np.inf
    for ring in range(int(reach / plan[2]) + 2):
        if (ring - 1) * plan[2] >= best:
            break
        count = _gather(home[0], home[1], z, ring, best, plan, pieces, piece_bins, stamp, mark,
                        near)  # fmt: skip
        for n in range(count):
            s, t, distance = int(near[n, 0]), near[n, 1], near[n, 2]
            if distance >= best:
                break
            p = pieces[s]
            first, last = _over(p, z)
            verdict = _judge(home, z, p, t, first, last, lip, graze, plan, bins, cut,
                             found)  # fmt: skip
            if verdict == FREE:
                best, best_piece, best_t = distance, s, t
            elif verdict != NOT_BORDER:
                if verdict == TOO_NARROW:
                    narrow = min(narrow, distance)
                w, far = _search_along(home, z, p, t, first, last, best, lip, graze, plan, bins,
                                       cut, found)  # fmt: skip
                if w >= 0.0:
                    best, best_piece, best_t = far, s, w
        s, t, far = _ring_corners(home, z, ring, best, pieces, piece_bins, lip, graze, plan, bins,
                                  cut, found)  # fmt: skip
        if s >= 0:
            best, best_piece, best_t = far, s, t
    return best_piece, best_t, best, narrow


@numba.njit(cache=True, nogil=True, error_model="numpy")
def read_points(
    points: Any, off: Any, reach: float, lip: float, graze: float, plan: Any, bins: Any,
    pieces: Any, border: Any, piece_bins: Any, undercut: Any, below: Any, ends: Any, flags: Any,
) -> None:  # fmt: skip
    """Readings at (N, 3) points of the surface; `off` are the same just off the surface.

    Writes the undercut, the height below where the upright touches, the free end (N, 2) and
    flags: NARROW where a nearer end was too narrow for the lip, OPEN where the end lies on the
    open border of the mesh. Beyond the reach: the reach, NaN and the point itself.
    """
    stamp = np.zeros(len(pieces), np.int32)
    cut, found, home = np.empty(4), np.empty((CROSSINGS, 2)), np.empty(5)
    near = np.empty((MOST_NEAR, 3))
    for n in range(len(points)):
        x, y, z = points[n, 0], points[n, 1], points[n, 2]
        undercut[n], below[n], flags[n] = 0.0, 0.0, 0
        ends[n, 0], ends[n, 1] = x, y
        level = off[n, 2] + LEVEL
        if not covered(off[n, 0], off[n, 1], level, plan, bins):
            continue
        home[0], home[1], home[2:] = x, y, off[n]
        s, t, distance, narrow = _nearest_free(
            home, level, reach, lip, graze, plan, bins, pieces, piece_bins, stamp, n + 1, near,
            cut, found,
        )  # fmt: skip
        undercut[n] = distance
        if narrow < distance:
            flags[n] |= NARROW
        if s < 0:
            below[n] = np.nan
            continue
        p = pieces[s]
        ends[n, 0], ends[n, 1] = p[0] + t * (p[3] - p[0]), p[1] + t * (p[4] - p[1])
        below[n] = (p[2] + t * (p[5] - p[2]) if np.isnan(p[8]) else p[8]) - z
        if border[s]:
            flags[n] |= OPEN


@numba.njit(cache=True, nogil=True, error_model="numpy")
def nearest_outline(x: float, y: float, z: float, pieces: Any) -> Any:
    """(piece, part of it, distance in plan) of the outline nearest to a point; piece -1 if none."""
    best, best_piece, best_t = np.inf, -1, 0.0
    for s in range(len(pieces)):
        t, distance = _foot(x, y, pieces[s], 0.0, 1.0)
        if distance < best:
            best, best_piece, best_t = distance, s, t
    return best_piece, best_t, best
