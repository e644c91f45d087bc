"""Rows of numbers as text: as many words round them as a format asks for, written at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError
from claspwright.formats import _text_kernels as kernels

LONGEST = 22  # signs of a number at most
LARGEST = 1e15  # whole numbers up to here are exact


def rows(values: Floats, decimals: int, words: Sequence[str]) -> tuple[bytes, NDArray[np.int64]]:
    """The text of (N, K) numbers, rounded, and the N + 1 places where rows begin and end.

    Args:
        values: (N, K) numbers.
        decimals: digits behind the point; zeros at their end are left out.
        words: K + 1 texts: one before each number of a row and one behind the last.

    Raises:
        InputError: a number is not finite or too large to be written exactly.
    """
    scaled = np.rint(np.asarray(values, dtype=np.float64) * 10.0**decimals)
    if scaled.size and not float(np.abs(scaled).max()) < LARGEST:
        raise InputError("a file cannot hold numbers that are not finite or beyond all measure")
    count, many = scaled.shape
    said = [word.encode("ascii") for word in words]
    letters: NDArray[Any] = np.array(list(b"".join(said)), np.uint8)
    start = np.concatenate([[0], np.cumsum([len(word) for word in said])])
    out = np.empty(count * (many * LONGEST + len(letters)), np.uint8)
    ends = np.zeros(count + 1, np.int64)
    kernels.write_rows(scaled.astype(np.int64), decimals, letters, start, out, ends[1:])
    return out[: ends[-1]].tobytes(), ends
