"""Numbers as text are what the language itself writes."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.formats.number_text import byte_groups, groups, rows


def test_numbers_are_those_of_the_language() -> None:
    values = np.array(
        [[0.0, -0.0], [1.0, -1.5], [0.00004, 0.00006], [-12.3456, 1200.0], [99999.9999, -0.1]]
    )
    values = np.concatenate([values, np.random.default_rng(3).normal(0, 50, (400, 2))])
    text, ends = rows(values, 4, ["<", " ", ">\n"])
    told = [f"{v:.12g}" for v in (np.round(values, 4) + 0.0).ravel()]
    wanted = "".join(f"<{a} {b}>\n" for a, b in zip(told[::2], told[1::2], strict=True))
    assert text.decode("ascii") == wanted
    assert text[ends[1] : ends[2]] == b"<1 -1.5>\n"


def test_whole_numbers_nothing_and_what_cannot_be_written() -> None:
    assert rows(np.array([[10.0], [0.0]]), 0, ["", ","])[0] == b"10,0,"
    assert rows(np.zeros((0, 2)), 4, ["", ",", ","])[0] == b""
    for value in (np.nan, np.inf, 1e16):
        with pytest.raises(InputError):
            rows(np.array([[value]]), 0, ["", ""])


def test_groups_are_a_head_and_the_numbers_of_their_rows() -> None:
    values, start = np.array([[1.0, -2.5], [0.25, 0.0], [3.0, 4.0]]), np.array([0, 2, 3])
    text, ends = groups(values, start, 2, [b"first/", b"2/"])
    assert bytes(text) == b"first/1,-2.5,0.25,0\n2/3,4\n"
    assert bytes(text[ends[0] : ends[1]]) == b"2/3,4\n"
    packed, ends = byte_groups(values, start, [b"ab", b"cd"])
    told = values.astype("<f4")
    assert bytes(packed) == b"ab" + told[:2].tobytes() + b"cd" + told[2:].tobytes()
    assert ends.tolist() == [18, 28]


def test_no_group_and_what_a_group_cannot_hold() -> None:
    none = (np.zeros((0, 2)), np.zeros(1, np.int64))
    assert bytes(groups(*none, 2, [])[0]) == b""
    assert bytes(byte_groups(*none, [])[0]) == b""
    for value in (np.nan, -np.inf, -1e16):
        with pytest.raises(InputError):
            groups(np.array([[value]]), np.array([0, 1]), 0, [b""])
