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
    scaled = _scaled(values, decimals)
    count, many = scaled.shape
    said = [word.encode("ascii") for word in words]
    letters: NDArray[Any] = np.array(list(b"".join(said)), np.uint8)
    start = np.concatenate([[0], np.cumsum([len(word) for word in said])])
    out = np.empty(count * (many * LONGEST + len(letters)), np.uint8)
    ends = np.zeros(count + 1, np.int64)
    kernels.write_rows(scaled, decimals, letters, start, out, ends[1:])
    return out[: ends[-1]].tobytes(), ends


def groups(
    values: Floats, start: NDArray[Any], decimals: int, heads: Sequence[bytes]
) -> tuple[memoryview, NDArray[np.int64]]:
    """The text of groups of rows of numbers, a line each, and where each line ends.

    Args:
        values: (N, K) numbers.
        start: (G + 1,) rows at which groups begin; none is empty.
        decimals: digits behind the point; zeros at their end are left out.
        heads: (G,) what stands before the numbers of each; commas stand between these.

    Raises:
        InputError: a number is not finite or too large to be written exactly.
    """
    scaled = _scaled(values, decimals)
    letters = np.frombuffer(b"".join(heads), np.uint8)
    head_start = np.concatenate([[0], np.cumsum([len(head) for head in heads])]).astype(np.int64)
    out = np.empty(scaled.size * (LONGEST + 1) + len(letters), np.uint8)
    ends = np.zeros(len(heads), np.int64)
    kernels.write_groups(scaled, start.astype(np.int64), decimals, letters, head_start, out, ends)
    return out[: int(ends.max(initial=0))].data, ends


def byte_groups(
    values: Floats, start: NDArray[Any], heads: Sequence[bytes]
) -> tuple[memoryview, NDArray[np.int64]]:
    """Groups of rows of numbers as four bytes each, and where each group ends.

    Args:
        values: (N, K) numbers.
        start: (G + 1,) rows at which groups begin.
        heads: (G,) what stands before the numbers of each, equally long.
    """
    raw = np.ascontiguousarray(values, "<f4").view(np.uint8)
    size = len(heads[0]) if heads else 0
    letters = np.frombuffer(b"".join(heads), np.uint8)
    out = np.empty(raw.size + len(letters), np.uint8)
    kernels.copy_groups(raw, start.astype(np.int64), letters, size, out)
    ends = start[1:] * raw.shape[1] + size * np.arange(1, len(heads) + 1)
    return out.data, ends.astype(np.int64)


def _scaled(values: Floats, decimals: int) -> NDArray[np.int64]:
    """Whole numbers of 10^-decimals."""
    scaled = np.rint(np.asarray(values, dtype=np.float64) * 10.0**decimals)
    if scaled.size and not max(float(scaled.max()), -float(scaled.min())) < LARGEST:
        raise InputError("a file cannot hold numbers that are not finite or beyond all measure")
    return scaled.astype(np.int64)
