from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from invented import invented, with_teeth

from claspwright.arch import find_guiding_plane, find_rest_seat, kind_of
from claspwright.base import InputError

NAMES = ["mandible_class_1", "maxilla_class_3_mod_1"]
FINE = 0.2


@pytest.mark.parametrize("name", NAMES)
def test_prepared_occlusal_seats_are_found_where_they_were_cut(name: str) -> None:
    _, made = invented(name, FINE)
    arch = with_teeth(name, FINE)
    cut = [s for s in made.truth.seats if s.form != "cingulum"]
    assert cut
    for seat in cut:
        found = find_rest_seat(arch, seat.tooth, seat.form)
        assert found.prepared, (seat.tooth, seat.form)
        assert np.linalg.norm(found.point - seat.centre) < 1.3
        assert 0.5 < found.depth_mm < 2.2
        assert 1.5 < found.width_mm < 3.6
        tooth = arch.teeth[seat.tooth]
        inward = tooth.distal if seat.form == "mesial" else tooth.mesial
        assert found.direction @ inward > np.cos(np.radians(30))


def test_a_seat_is_sought_once_for_an_arch_and_anew_for_a_changed_one() -> None:
    arch = with_teeth("mandible_class_4", 0.3)
    code = next(c for c in arch.teeth if kind_of(c) == "molar")
    seat = find_rest_seat(arch, code, "mesial")
    assert find_rest_seat(arch, code, "mesial") is seat
    assert find_rest_seat(arch, code, "distal") is not seat
    again = find_rest_seat(replace(arch, teeth=arch.teeth), code, "mesial")
    assert again is not seat
    np.testing.assert_array_equal(again.point, seat.point)


def test_cingulum_seats_at_the_level_of_the_margin_are_found() -> None:
    _, made = invented("mandible_class_4", 0.3)
    arch = with_teeth("mandible_class_4", 0.3)
    cut = [s for s in made.truth.seats if s.form == "cingulum"]
    assert len(cut) == 2
    for seat in cut:
        found = find_rest_seat(arch, seat.tooth, seat.form)
        assert found.prepared
        assert np.linalg.norm(found.point - seat.centre) < 1.3
    bare = [c for c in arch.teeth if kind_of(c) == "canine" and c not in {s.tooth for s in cut}]
    assert not any(find_rest_seat(arch, code, "cingulum").prepared for code in bare)


@pytest.mark.parametrize("name", NAMES)
def test_places_without_a_seat_are_asked_for(name: str) -> None:
    _, made = invented(name, FINE)
    arch = with_teeth(name, FINE)
    cut = {(s.tooth, s.form) for s in made.truth.seats}
    for code in arch.teeth:
        if kind_of(code) not in ("premolar", "molar"):
            continue
        for where in ("mesial", "distal"):
            if (code, where) in cut:
                continue
            found = find_rest_seat(arch, code, where)  # type: ignore[arg-type]  # a literal
            assert not found.prepared, (code, where)
            assert found.depth_mm == 0
            assert np.isfinite(found.outline).all()


@pytest.mark.reference("check-values C01: rounded triangle, base 2.5 mm or more")
def test_the_place_asked_for_has_the_size_of_a_seat() -> None:
    arch = with_teeth("mandible_class_1", FINE)
    found = find_rest_seat(arch, 44, "distal")
    across = np.cross([0, 0, 1], found.direction)
    assert np.ptp(found.outline @ across) > 2.4
    assert found.width_mm >= 2.5


def test_a_cingulum_is_asked_for_on_the_lingual_side() -> None:
    arch = with_teeth("mandible_class_1", FINE)
    tooth = arch.teeth[43]
    found = find_rest_seat(arch, 43, "cingulum")
    assert not found.prepared
    assert (found.point - tooth.centre) @ tooth.lingual > 0.5
    assert found.direction @ tooth.buccal == pytest.approx(1.0)
    with pytest.raises(InputError, match="no cingulum"):
        find_rest_seat(arch, 45, "cingulum")
    with pytest.raises(InputError, match="does not stand"):
        find_rest_seat(arch, 46, "mesial")


def test_guiding_planes_are_parallel_to_the_path() -> None:
    _, made = invented("mandible_class_1", FINE)
    arch = with_teeth("mandible_class_1", FINE)
    up = np.array([0.0, 0.0, 1.0])
    for plane in made.truth.planes:
        found = find_guiding_plane(arch, plane.tooth, plane.side, up)
        assert found.area_mm2 > 2.0
        assert found.height_mm > 1.0
        assert found.mean_deviation_deg < 3.0
        assert (arch.crown_of_face[found.faces] == plane.tooth).all()
