from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from invented import with_teeth

from claspwright.arch.spans import gaps
from claspwright.geometry import DistanceTree, arc_lengths, closest_points


def test_gaps_are_listed_from_the_patients_right() -> None:
    present = [47, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35]
    found = gaps("mandible", present)
    assert [(g.missing, g.ends) for g in found] == [
        ((46,), (47, 45)),
        ((36, 37, 38), (35, None)),
    ]
    assert gaps("mandible", present, replaced=(48,))[0].missing == (48,)


@pytest.mark.parametrize(
    ("name", "spans"),
    [
        ("mandible_class_2_mod_1", [((46,), (47, 45)), ((36, 37, 38), (35, None))]),
        ("maxilla_class_3_mod_1", [((16, 15), (17, 14)), ((24, 25), (23, 26))]),
        ("mandible_class_4", [((42, 41, 31, 32), (43, 33))]),
    ],
)
def test_crests_run_along_the_ridge_and_never_on_a_crown(
    name: str, spans: list[tuple[tuple[int, ...], tuple[int | None, int | None]]]
) -> None:
    arch = with_teeth(name)
    assert [(s.missing, s.ends) for s in arch.spans] == spans
    tree = DistanceTree(arch.scan.surface)
    for span in arch.spans:
        near = closest_points(tree, span.crest)
        assert np.abs(near.distance).max() < 0.05
        assert (arch.crown_of_face[near.faces] == 0).all()
        step = np.diff(arc_lengths(span.crest))
        assert step.max() < 1.5 * np.median(step)
        for width in (span.buccal_width_mm, span.lingual_width_mm):
            assert width.shape == (len(span.crest),) and (width >= 0).all() and width.max() <= 8
            assert np.median(width) > 3.0
        for code, end in zip(span.ends, (span.crest[0], span.crest[-1]), strict=True):
            if code is not None:
                margin = arch.teeth[code].margin
                assert np.linalg.norm(margin - end, axis=1).min() < 2.5


def test_a_free_end_stops_before_the_border_and_below_the_occlusal_plane() -> None:
    arch = with_teeth("mandible_class_2_mod_1")
    crest = arch.spans[1].crest
    assert 15 < arc_lengths(crest)[-1] < 45
    assert crest[-1, 1] < crest[0, 1]  # runs backwards
    assert crest[:, 2].max() < -0.5


def test_buccal_is_outwards() -> None:
    for name in ("mandible_class_2_mod_1", "maxilla_class_3_mod_1"):
        for span in with_teeth(name).spans:
            assert (span.buccal[:, 0] * np.sign(span.crest[:, 0]) > 0.3).all()
            assert np.allclose(np.linalg.norm(span.buccal, axis=1), 1)
