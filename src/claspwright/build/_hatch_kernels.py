"""Scan lines over layer contours, cut by stripes and classed by what lies below and above.

Points are given in the hatch frame: x along the lines. Line j lies at (j + 1/2) spacing; a point
carries the number of lines at or below it, so that no line ever passes through a point.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

CORE, UPSKIN, DOWNSKIN = 0, 1, 2


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _line_number(y: float, spacing: float) -> int:
    n = int(np.floor(y / spacing - 0.5)) + 1
    if (n + 0.5) * spacing <= y:
        n += 1
    elif (n - 0.5) * spacing > y:
        n -= 1
    return n


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _extent(points: Any, spacing: float) -> Any:
    low, high = 1 << 60, -(1 << 60)
    for i in range(len(points)):
        n = _line_number(points[i, 1], spacing)
        low, high = min(low, n), max(high, n)
    return low, high


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _crossings(
    points: Any, start: Any, first: int, last: int, spacing: float, low: int, high: int, owner: int,
    counts: Any, fill: Any, at: Any, step: Any, who: Any,
) -> None:  # fmt: skip
    """Count (fill empty) or store the crossings of contours first to last with each line."""
    for n in range(first, last):
        for i in range(start[n], start[n + 1]):
            j = i + 1 if i + 1 < start[n + 1] else start[n]
            a, b = _line_number(points[i, 1], spacing), _line_number(points[j, 1], spacing)
            if a == b:
                continue
            up = a < b
            for line in range(max(min(a, b), low), min(max(a, b), high)):
                if len(fill) == 0:
                    counts[line - low] += 1
                    continue
                y = (line + 0.5) * spacing
                t = (y - points[i, 1]) / (points[j, 1] - points[i, 1])
                t = min(max(t, 0.0), 1.0)
                place = fill[line - low]
                fill[line - low] += 1
                at[place] = points[i, 0] + t * (points[j, 0] - points[i, 0])
                step[place] = -1 if up else 1
                who[place] = owner


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _sort_line(at: Any, step: Any, who: Any, first: int, last: int) -> None:
    """Insertion sort of a few crossings by place."""
    for i in range(first + 1, last):
        x, s, w = at[i], step[i], who[i]
        j = i - 1
        while j >= first and at[j] > x:
            at[j + 1], step[j + 1], who[j + 1] = at[j], step[j], who[j]
            j -= 1
        at[j + 1], step[j + 1], who[j + 1] = x, s, w


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _kind(wind: Any, below: int, above: int) -> int:
    """Downskin where any of the sets below is empty here, else upskin where any above is."""
    for n in range(1, 1 + below):
        if wind[n] <= 0:
            return DOWNSKIN
    for n in range(1 + below, 1 + below + above):
        if wind[n] <= 0:
            return UPSKIN
    return CORE


@numba.njit(cache=True, nogil=True, error_model="numpy")
def scan_layer(
    points: Any, start: Any, ranges: Any, below: int, above: int, spacing: float, shortest: float
) -> Any:
    """Pieces of the lines inside the first set of contours, classed by the other sets.

    Args:
        points: (N, 2) in the hatch frame [mm].
        start: (C + 1,) into points.
        ranges: (1 + below + above, 2) first and last contour of each set.
        below: how many sets lie below.
        above: how many lie above.
        spacing: between lines [mm].
        shortest: a piece shorter than this takes the class of the piece before it [mm].

    Returns:
        (n, 2) begin and end along the line, (n,) line, (n,) class.
    """
    own = points[start[ranges[0, 0]] : start[ranges[0, 1]]]
    low, high = _extent(own, spacing) if len(own) else (0, 0)
    lines = max(high - low, 0)
    counts = np.zeros(lines + 1, np.int64)
    none = np.empty(0, np.int64)
    at, step, who = np.empty(0), np.empty(0, np.int8), np.empty(0, np.int32)
    for s in range(len(ranges)):
        _crossings(points, start, ranges[s, 0], ranges[s, 1], spacing, low, high, s,
                   counts, none, at, step, who)  # fmt: skip
    begin = np.zeros(lines + 1, np.int64)
    for line in range(lines):
        begin[line + 1] = begin[line] + counts[line]
    total = begin[lines]
    at, step, who = np.empty(total), np.empty(total, np.int8), np.empty(total, np.int32)
    fill = begin[:-1].copy() if lines else np.zeros(1, np.int64)
    for s in range(len(ranges)):
        _crossings(points, start, ranges[s, 0], ranges[s, 1], spacing, low, high, s,
                   counts, fill, at, step, who)  # fmt: skip
    pieces = np.empty((total, 2))
    number, kind = np.empty(total, np.int64), np.empty(total, np.int8)
    done = 0
    wind = np.zeros(len(ranges), np.int64)
    for line in range(lines):
        _sort_line(at, step, who, begin[line], begin[line + 1])
        wind[:] = 0
        since, now, open_ = 0.0, 0, False
        fresh = True  # no piece of this run of metal stored yet
        for i in range(begin[line], begin[line + 1]):
            wind[who[i]] += step[i]
            inside = wind[0] > 0
            kind_here = _kind(wind, below, above)
            if open_ and (not inside or kind_here != now):
                if at[i] > since:
                    if not fresh and (at[i] - since < shortest or kind[done - 1] == now):
                        pieces[done - 1, 1] = at[i]
                    else:
                        pieces[done, 0], pieces[done, 1] = since, at[i]
                        number[done], kind[done] = line + low, now
                        done += 1
                    fresh = False
                since = at[i]
            if not open_:
                since, fresh = at[i], True
            open_, now = inside, kind_here
    return pieces[:done], number[:done], kind[:done]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def cut_stripes(
    pieces: Any, number: Any, kind: Any, width: float, shortest: float, last_first: bool,
    lines_back: bool, serpentine: bool,
) -> Any:  # fmt: skip
    """Cut pieces at the borders of stripes across the lines and put them in order of exposure.

    Stripe by stripe, line by line, where `serpentine` every second line the other way round. With
    width 0 all lines are whole. `last_first` begins with the stripe farthest along the line,
    `lines_back` with the last line. Vectors shorter than `shortest` are left out.
    """
    cuts = 0
    low, high = 1 << 60, -(1 << 60)
    for i in range(len(pieces)):
        a = int(np.floor(pieces[i, 0] / width)) if width > 0.0 else 0
        b = int(np.floor(pieces[i, 1] / width)) if width > 0.0 else 0
        cuts += b - a + 1
        low, high = min(low, a), max(high, b)
    if cuts == 0:
        return pieces[:0], number[:0], kind[:0]
    stripes = high - low + 1
    counts = np.zeros(stripes + 1, np.int64)
    out = np.empty((cuts, 2))
    out_number, out_kind = np.empty(cuts, np.int64), np.empty(cuts, np.int8)
    for store in (False, True):
        if store:
            for s in range(stripes):
                counts[s + 1] += counts[s]
        fill = counts.copy()
        group = len(pieces) if lines_back else 0
        while (group > 0) if lines_back else (group < len(pieces)):
            first = last = group
            if lines_back:  # the pieces first to last - 1 lie on one line
                first -= 1
                while first > 0 and number[first - 1] == number[last - 1]:
                    first -= 1
                group = first
            else:
                last += 1
                while last < len(pieces) and number[last] == number[first]:
                    last += 1
                group = last
            odd = serpentine and number[first] % 2 != 0
            for n in range(last - first):
                i = last - 1 - n if odd else first + n
                a = int(np.floor(pieces[i, 0] / width)) if width > 0.0 else 0
                b = int(np.floor(pieces[i, 1] / width)) if width > 0.0 else 0
                for s in range(a, b + 1):
                    x0 = max(pieces[i, 0], s * width) if width > 0.0 else pieces[i, 0]
                    x1 = min(pieces[i, 1], (s + 1) * width) if width > 0.0 else pieces[i, 1]
                    if x1 - x0 < shortest or not x1 > x0:
                        continue
                    place = high - s if last_first else s - low
                    if not store:
                        counts[place + 1] += 1
                        continue
                    to = fill[place]
                    fill[place] += 1
                    out[to, 0], out[to, 1] = x0, x1
                    out_number[to], out_kind[to] = number[i], kind[i]
    return out[: counts[stripes]], out_number[: counts[stripes]], out_kind[: counts[stripes]]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def lay_out(
    pieces: Any, number: Any, spacing: float, cosine: float, sine: float, serpentine: bool, out: Any
) -> None:
    """Write x, y of begin and end in the plate frame, out (n, 4); odd lines may run back."""
    for i in range(len(pieces)):
        y = (number[i] + 0.5) * spacing
        a, b = pieces[i, 0], pieces[i, 1]
        if serpentine and number[i] % 2 != 0:
            a, b = b, a
        out[i, 0], out[i, 1] = cosine * a - sine * y, sine * a + cosine * y
        out[i, 2], out[i, 3] = cosine * b - sine * y, sine * b + cosine * y


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _gathered(points: Any, start: Any, ranges: Any, cosine: float, sine: float) -> Any:
    """The contours of some sets, turned into the hatch frame, and first and last of each set."""
    contours, total = 0, 0
    for s in range(len(ranges)):
        contours += ranges[s, 1] - ranges[s, 0]
        total += start[ranges[s, 1]] - start[ranges[s, 0]]
    own, begin = np.empty((total, 2)), np.zeros(contours + 1, np.int64)
    sets = np.empty((len(ranges), 2), np.int64)
    done = number = 0
    for s in range(len(ranges)):
        sets[s, 0] = number
        for n in range(ranges[s, 0], ranges[s, 1]):
            for i in range(start[n], start[n + 1]):
                own[done, 0] = points[i, 0] * cosine + points[i, 1] * sine
                own[done, 1] = points[i, 1] * cosine - points[i, 0] * sine
                done += 1
            number += 1
            begin[number] = done
        sets[s, 1] = number
    return own, begin, sets


@numba.njit(cache=True, nogil=True, error_model="numpy")
def fill_layers(
    points: Any, start: Any, layer_start: Any, metal: Any, first: int, last: int, skins: int,
    turns: Any, against: Any, spacing: float, shortest_skin: float, width: float, shortest: float,
    serpentine: bool,
) -> Any:  # fmt: skip
    """Vectors of the layers from `first` to below `last`, in order of exposure.

    Args:
        points: (N, 2) of what is filled and of the whole metal [mm].
        start: (C + 1,) into points.
        layer_start: (L + 1,) into the contours of what is filled.
        metal: (L + 1,) into the contours of the whole metal.
        first: first layer.
        last: the layer after the last.
        skins: metal with fewer layers above (below) is upskin (downskin); 0: no skins.
        turns: (L, 2) cosine and sine of the lines of each layer.
        against: (L, 2) whether the exposure begins with the last stripe, with the last line.
        spacing: between lines [mm].
        shortest_skin: a shorter change of class is not made [mm].
        width: of the stripes, 0: lines run through [mm].
        shortest: shorter vectors are left out [mm].
        serpentine: every second line runs back.

    Returns:
        (n, 4) vectors in the plate frame [mm], (n,) class, (last - first,) how many in each layer.
    """
    layers = len(layer_start) - 1
    counts = np.zeros(last - first, np.int64)
    vectors, kinds = np.empty((1024, 4)), np.empty(1024, np.int8)
    done = 0
    for layer in range(first, last):
        below = min(skins, layer)
        ranges = np.zeros((1 + below + skins, 2), np.int64)
        ranges[0] = layer_start[layer : layer + 2]
        for n in range(below):
            ranges[1 + n] = metal[layer - below + n : layer - below + n + 2]
        for n in range(skins):
            if layer + 1 + n < layers:
                ranges[1 + below + n] = metal[layer + 1 + n : layer + 3 + n]
        cosine, sine = turns[layer]
        own, begin, sets = _gathered(points, start, ranges, cosine, sine)
        pieces, number, kind = scan_layer(own, begin, sets, below, skins, spacing, shortest_skin)
        pieces, number, kind = cut_stripes(
            pieces, number, kind, width, shortest, against[layer, 0], against[layer, 1], serpentine
        )
        found = len(pieces)
        if done + found > len(vectors):
            vectors = np.concatenate((vectors, np.empty((len(vectors) + found, 4))))
            kinds = np.concatenate((kinds, np.empty(len(kinds) + found, np.int8)))
        lay_out(pieces, number, spacing, cosine, sine, serpentine, vectors[done : done + found])
        kinds[done : done + found] = kind
        counts[layer - first] = found
        done += found
    return vectors[:done], kinds[:done], counts
