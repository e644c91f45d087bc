"""Numbers as text are what the language itself writes."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.formats.number_text import rows


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
