"""The picture of signed deviations: which sign has which colour, and for whose eyes."""

from __future__ import annotations

import io

import numpy as np
import pytest
import trimesh
from PIL import Image

from claspwright.geometry import Mesh
from claspwright.inspection import Deviation
from claspwright.report import DEVIATION_UM, deviation_picture
from claspwright.report.colours import signed

# Machado, Oliveira, Fernandes, IEEE Trans. Vis. Comput. Graph. 2009;15:1291, table for severity
# 1.0, on linear light [memory].
WITHOUT_RED = [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
               [-0.003882, -0.048116, 1.051998]]  # fmt: skip
WITHOUT_GREEN = [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
                 [-0.011820, 0.042940, 0.968881]]  # fmt: skip


def test_zero_is_pale_and_the_signs_part() -> None:
    low, zero, high = signed(np.array([-DEVIATION_UM, 0.0, DEVIATION_UM]), DEVIATION_UM)
    assert zero.min() > 240.0
    assert low[2] > 2 * low[0] and high[0] > 2 * high[2]
    beyond = signed(np.array([-1e4, 1e4]), DEVIATION_UM)
    assert np.array_equal(beyond, [low, high])
    steps = signed(np.linspace(0.0, DEVIATION_UM, 50), DEVIATION_UM) @ [0.2126, 0.7152, 0.0722]
    assert (np.diff(steps) < 0).all()  # darker all the way out, also without colour


@pytest.mark.reference("Machado, Oliveira, Fernandes 2009: dichromatic vision")
@pytest.mark.parametrize("eye", [WITHOUT_RED, WITHOUT_GREEN])
def test_the_signs_differ_for_colour_blind_eyes(eye: list[list[float]]) -> None:
    at = np.linspace(0.25, 1.0, 16) * DEVIATION_UM
    below, above = (
        np.clip((signed(sign * at, DEVIATION_UM) / 255.0) ** 2.2 @ np.array(eye).T, 0.0, 1.0)
        ** (1.0 / 2.2)
        for sign in (-1.0, 1.0)
    )
    yellow_blue = (above[:, :2].mean(axis=1) - above[:, 2]) - (
        below[:, :2].mean(axis=1) - below[:, 2]
    )
    assert yellow_blue.min() > 0.2


def test_the_picture_shows_missing_metal_blue_and_too_much_orange() -> None:
    made = trimesh.creation.icosphere(subdivisions=4, radius=10.0)
    ball = Mesh(np.asarray(made.vertices), np.asarray(made.faces))
    x = ball.vertices[:, 0]
    off = np.where(np.abs(x) < 4.0, 0.0, 0.08 * np.sign(x))
    found = Deviation(ball, off, np.zeros(len(off), dtype=np.int64))
    picture = Image.open(io.BytesIO(deviation_picture(found, finish=1)))
    seen = np.asarray(picture.convert("RGB")).astype(float)[:, : picture.width // 2]
    body = seen[: int(0.8 * len(seen))]  # above the legend
    blue = body[..., 2] - body[..., 0] > 40.0
    orange = body[..., 0] - body[..., 2] > 40.0
    columns = np.arange(body.shape[1])
    where = [float((mask.sum(axis=0) * columns).sum() / mask.sum()) for mask in (blue, orange)]
    assert blue.sum() > 5_000 and orange.sum() > 5_000
    assert abs(where[0] - where[1]) > 150.0  # on either side of what is right
    middle = body[body.shape[0] // 2, int(np.mean(where))]
    assert np.ptp(middle) < 12.0
