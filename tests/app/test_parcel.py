"""A value laid aside in a file is the same value, and only the name of the file is sent."""

from __future__ import annotations

import pickle
from pathlib import Path

import numpy as np
import pytest

from claspwright.app.parcel import ALIGNED, Parcel, laid_aside
from claspwright.geometry import Mesh, box

BODY = box(np.zeros(3), np.array([1.0, 2.0, 3.0]))
VALUE = (BODY, "words", np.arange(7, dtype=np.int8), np.zeros((0, 2)), np.eye(3, order="F"))


def test_value_comes_back_from_its_file(tmp_path: Path) -> None:
    sent = pickle.dumps(laid_aside(VALUE, tmp_path))
    assert len(sent) < 400  # the arrays are not in it
    body, words, small, none, turned = pickle.loads(sent).value
    assert isinstance(body, Mesh)
    assert words == "words"
    for found, given in zip(
        (body.vertices, body.faces, small, none, turned), (BODY.vertices, BODY.faces, *VALUE[2:]),
        strict=True,
    ):  # fmt: skip
        assert found.dtype == given.dtype
        np.testing.assert_array_equal(found, given)
    assert body.vertices.ctypes.data % ALIGNED == 0
    with pytest.raises(ValueError, match="read-only"):
        body.vertices[0] = 1.0


def test_without_a_folder_the_value_itself_is_sent() -> None:
    held = laid_aside(VALUE, None)
    assert held.value is VALUE
    again: Parcel[tuple[object, ...]] = pickle.loads(pickle.dumps(held))
    assert again.value[1] == "words"


def test_each_has_a_file_of_its_own(tmp_path: Path) -> None:
    one, other = laid_aside("one", tmp_path), laid_aside("other", tmp_path)
    assert (one.value, other.value) == ("one", "other")
    assert len(list(tmp_path.iterdir())) == 2
