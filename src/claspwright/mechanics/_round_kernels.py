"""Kernels of the solver's rounds, compiled for a fixed number of loads at once.

With the width a constant the inner loops become single instructions over many loads. Fields are
(N, 3, W); `near` (N, 27) holds each node's neighbours, -1 where there is none; `values`
(N, 27, 9) the rows of their 3 x 3 stiffness one after the other, `inverse` (N, 9) those of the
inverse of each node's own block. `Some` are single numbers where many loads are
borne, double where one is.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numba import njit

from claspwright.base import Floats, Ints, Singles

WIDE = 16  # loads that one pass takes
Some = Floats | Singles


class RoundKernels(NamedTuple):
    """Kernels for one width; each works on the rows first to last."""

    product: Callable[[int, int, Ints, Floats, Floats, Floats, Floats], None]
    left: Callable[[int, int, Ints, Floats, Some, Floats, Some], None]
    begin: Callable[[int, int, Some, Some, float, Some, Some], None]
    sweep: Callable[[int, int, Ints, Some, Some, Some, Some, float, float, Some, Some], None]
    advance: Callable[[int, int, Floats, Floats, Floats, Floats, Floats, Some, Floats], None]
    meet: Callable[[int, int, Floats, Floats, Some, Floats, Floats], None]
    turn: Callable[[int, int, Floats, Floats, Floats], None]
    gather: Callable[[int, int, Ints, Ints, Floats, Floats, Floats], None]
    spread: Callable[[int, int, Ints, Ints, Floats, Floats, Some, Floats], None]
    substitute: Callable[
        [Ints, Ints, Floats, Ints, Ints, Floats, Ints, Ints, Floats, Floats, Floats], None
    ]


def _made(width: int) -> RoundKernels:
    @njit(cache=True, nogil=True)
    def product(first: int, last: int, near: Ints, values: Floats, x: Floats, out: Floats,
                dots: Floats) -> None:  # fmt: skip
        """Set out = A x, and the products of x and out for each load."""
        r0, r1, r2 = np.empty(width), np.empty(width), np.empty(width)
        for k in range(width):
            dots[k] = 0.0
        for n in range(first, last):
            for k in range(width):
                r0[k], r1[k], r2[k] = 0.0, 0.0, 0.0
            for s in range(27):
                m = near[n, s]
                if m < 0:
                    continue
                v = values[n, s]
                for k in range(width):
                    x0, x1, x2 = x[m, 0, k], x[m, 1, k], x[m, 2, k]
                    r0[k] += v[0] * x0 + v[1] * x1 + v[2] * x2
                    r1[k] += v[3] * x0 + v[4] * x1 + v[5] * x2
                    r2[k] += v[6] * x0 + v[7] * x1 + v[8] * x2
            for k in range(width):
                out[n, 0, k], out[n, 1, k], out[n, 2, k] = r0[k], r1[k], r2[k]
                dots[k] += x[n, 0, k] * r0[k] + x[n, 1, k] * r1[k] + x[n, 2, k] * r2[k]

    @njit(cache=True, nogil=True)
    def left(first: int, last: int, near: Ints, values: Floats, x: Some, load: Floats,
             out: Some) -> None:  # fmt: skip
        """Set out = load - A x, in double numbers until it is written down."""
        r0, r1, r2 = np.empty(width), np.empty(width), np.empty(width)
        for n in range(first, last):
            for k in range(width):
                r0[k], r1[k], r2[k] = load[n, 0, k], load[n, 1, k], load[n, 2, k]
            for s in range(27):
                m = near[n, s]
                if m < 0:
                    continue
                v = values[n, s]
                for k in range(width):
                    x0, x1, x2 = x[m, 0, k], x[m, 1, k], x[m, 2, k]
                    r0[k] -= v[0] * x0 + v[1] * x1 + v[2] * x2
                    r1[k] -= v[3] * x0 + v[4] * x1 + v[5] * x2
                    r2[k] -= v[6] * x0 + v[7] * x1 + v[8] * x2
            for k in range(width):
                out[n, 0, k], out[n, 1, k], out[n, 2, k] = r0[k], r1[k], r2[k]

    @njit(cache=True, nogil=True)
    def begin(first: int, last: int, inverse: Some, load: Some, scale: float, step: Some,
              out: Some) -> None:  # fmt: skip
        """First step of the polynomial from nothing: out = step = scale D^-1 load."""
        by = inverse.dtype.type(scale)
        for n in range(first, last):
            d = inverse[n]
            for k in range(width):
                a, b, c = load[n, 0, k], load[n, 1, k], load[n, 2, k]
                step[n, 0, k] = by * (d[0] * a + d[1] * b + d[2] * c)
                step[n, 1, k] = by * (d[3] * a + d[4] * b + d[5] * c)
                step[n, 2, k] = by * (d[6] * a + d[7] * b + d[8] * c)
                for i in range(3):
                    out[n, i, k] = step[n, i, k]

    @njit(cache=True, nogil=True)
    def sweep(first: int, last: int, near: Ints, values: Some, inverse: Some, x: Some,
              load: Some, keep: float, scale: float, step: Some, out: Some) -> None:  # fmt: skip
        """A step of the polynomial: step = keep step + scale D^-1 (load - A x); out = x + step."""
        kind = inverse.dtype
        r0, r1, r2 = np.empty(width, kind), np.empty(width, kind), np.empty(width, kind)
        hold, by = kind.type(keep), kind.type(scale)
        for n in range(first, last):
            for k in range(width):
                r0[k], r1[k], r2[k] = load[n, 0, k], load[n, 1, k], load[n, 2, k]
            for s in range(27):
                m = near[n, s]
                if m < 0:
                    continue
                v = values[n, s]
                for k in range(width):
                    x0, x1, x2 = x[m, 0, k], x[m, 1, k], x[m, 2, k]
                    r0[k] -= v[0] * x0 + v[1] * x1 + v[2] * x2
                    r1[k] -= v[3] * x0 + v[4] * x1 + v[5] * x2
                    r2[k] -= v[6] * x0 + v[7] * x1 + v[8] * x2
            d = inverse[n]
            for k in range(width):
                a, b, c = r0[k], r1[k], r2[k]
                step[n, 0, k] = hold * step[n, 0, k] + by * (d[0] * a + d[1] * b + d[2] * c)
                step[n, 1, k] = hold * step[n, 1, k] + by * (d[3] * a + d[4] * b + d[5] * c)
                step[n, 2, k] = hold * step[n, 2, k] + by * (d[6] * a + d[7] * b + d[8] * c)
                out[n, 0, k] = x[n, 0, k] + step[n, 0, k]
                out[n, 1, k] = x[n, 1, k] + step[n, 1, k]
                out[n, 2, k] = x[n, 2, k] + step[n, 2, k]

    @njit(cache=True, nogil=True)
    def advance(first: int, last: int, x: Floats, along: Floats, residual: Floats, pushed: Floats,
                length: Floats, rounded: Some, dots: Floats) -> None:  # fmt: skip
        """Take x += length along; residual -= length pushed, and it rounded; its squares."""
        for k in range(width):
            dots[k] = 0.0
        for n in range(first, last):
            for i in range(3):
                for k in range(width):
                    x[n, i, k] += length[k] * along[n, i, k]
                    rest = residual[n, i, k] - length[k] * pushed[n, i, k]
                    residual[n, i, k] = rest
                    rounded[n, i, k] = rest
                    dots[k] += rest * rest

    @njit(cache=True, nogil=True)
    def meet(first: int, last: int, residual: Floats, pushed: Floats, more: Some, ready: Floats,
             dots: Floats) -> None:  # fmt: skip
        """Take ready += more; for each load its products with the residual, then with `pushed`."""
        for k in range(2 * width):
            dots[k] = 0.0
        for n in range(first, last):
            for i in range(3):
                for k in range(width):
                    value = ready[n, i, k] + more[n, i, k]
                    ready[n, i, k] = value
                    dots[k] += residual[n, i, k] * value
                    dots[width + k] += pushed[n, i, k] * value

    @njit(cache=True, nogil=True)
    def turn(first: int, last: int, ready: Floats, share: Floats, along: Floats) -> None:
        """Take along = ready + share along."""
        for n in range(first, last):
            for i in range(3):
                for k in range(width):
                    along[n, i, k] = ready[n, i, k] + share[k] * along[n, i, k]

    @njit(cache=True, nogil=True)
    def gather(first: int, last: int, starts: Ints, nodes: Ints, blocks: Floats, x: Floats,
               out: Floats) -> None:  # fmt: skip
        """Set out (C, 6, W) = 6 x 3 blocks, row by row, times x."""
        sums = np.empty((6, width))
        for c in range(first, last):
            for q in range(6):
                for k in range(width):
                    sums[q, k] = 0.0
            for at in range(starts[c], starts[c + 1]):
                n = nodes[at]
                for q in range(6):
                    e, f, g = blocks[at, q, 0], blocks[at, q, 1], blocks[at, q, 2]
                    for k in range(width):
                        sums[q, k] += e * x[n, 0, k] + f * x[n, 1, k] + g * x[n, 2, k]
            for q in range(6):
                for k in range(width):
                    out[c, q, k] = sums[q, k]

    @njit(cache=True, nogil=True)
    def spread(first: int, last: int, starts: Ints, parts: Ints, blocks: Floats, x: Floats,
               more: Some, out: Floats) -> None:  # fmt: skip
        """Set out (N, 3, W) = more + 3 x 6 blocks, row by row, times x (C, 6, W)."""
        r0, r1, r2 = np.empty(width), np.empty(width), np.empty(width)
        for n in range(first, last):
            for k in range(width):
                r0[k], r1[k], r2[k] = more[n, 0, k], more[n, 1, k], more[n, 2, k]
            for at in range(starts[n], starts[n + 1]):
                c = parts[at]
                for q in range(6):
                    e, f, g = blocks[at, 0, q], blocks[at, 1, q], blocks[at, 2, q]
                    for k in range(width):
                        value = x[c, q, k]
                        r0[k] += e * value
                        r1[k] += f * value
                        r2[k] += g * value
            for k in range(width):
                out[n, 0, k], out[n, 1, k], out[n, 2, k] = r0[k], r1[k], r2[k]

    @njit(cache=True, nogil=True)
    def substitute(l_starts: Ints, l_rows: Ints, l_values: Floats, u_starts: Ints, u_rows: Ints,
                   u_values: Floats, row: Ints, column: Ints, b: Floats, y: Floats,
                   out: Floats) -> None:  # fmt: skip
        """Set out = A^-1 b by the factors of A, columns sorted; y (D, W) is scratch."""
        size = len(row)
        for i in range(size):
            for k in range(width):
                y[row[i], k] = b[i, k]
        for j in range(size):  # the first entry of a column of L is the one on its diagonal
            for at in range(l_starts[j] + 1, l_starts[j + 1]):
                i, value = l_rows[at], l_values[at]
                for k in range(width):
                    y[i, k] -= value * y[j, k]
        for j in range(size - 1, -1, -1):  # the last of a column of U
            end = u_starts[j + 1] - 1
            by = 1.0 / u_values[end]
            for k in range(width):
                y[j, k] *= by
            for at in range(u_starts[j], end):
                i, value = u_rows[at], u_values[at]
                for k in range(width):
                    y[i, k] -= value * y[j, k]
        for i in range(size):
            for k in range(width):
                out[i, k] = y[column[i], k]

    return RoundKernels(
        product, left, begin, sweep, advance, meet, turn, gather, spread, substitute
    )


_ONE, _MANY = _made(1), _made(WIDE)


def round_kernels(loads: int) -> tuple[int, RoundKernels]:
    """Width that a number of loads is brought to, and its kernels."""
    return (1, _ONE) if loads == 1 else (WIDE, _MANY)
