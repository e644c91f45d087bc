"""What is asked of the dentist where no tooth of a side holds a clasp as it stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from claspwright.framework.courses import Bench
from claspwright.framework.design import Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.rulebook import default_clasp
from claspwright.framework.tooth_shaping import shaping_findings
from claspwright.framework.wishes import Wishes
from claspwright.geometry import box

TOOTH = 46
BARE = Retainer(TOOTH, ("mesial occlusal",), ("mesial",))
PLANNED = replace(BARE, clasp=default_clasp(TOOTH, "circumferential"))


def asked(ground: Ground, retainer: Retainer = BARE, wishes: Wishes | None = None) -> list[str]:
    bench = Bench(ground.arch, ground.survey)
    found = shaping_findings(
        ground.arch, ground.survey, wishes or Wishes(), [PLANNED], [retainer], bench
    )
    assert all(f.severity == "look" for f in found)
    return [f.text for f in found]


def test_a_face_without_undercut_is_to_be_shaped(ellipsoid_ground: Callable[..., Ground]) -> None:
    (text,) = asked(ellipsoid_ground(4.0, 4.0, 9.0))
    assert "retentive depression" in text and "buccal face of 46" in text
    assert "room under the opposing teeth" not in text


def test_arms_without_room_ask_for_room(sphere: Ground) -> None:
    shut = box(np.array([-8.0, -8.0, -0.6]), np.array([8.0, 8.0, 6.0]))
    (text,) = asked(replace(sphere, arch=replace(sphere.arch, opposing=shut)))
    assert "room under the opposing teeth" in text


@pytest.mark.parametrize(
    ("retainer", "wishes"), [(PLANNED, Wishes()), (BARE, Wishes(retainers=(BARE,)))]
)
def test_a_side_that_is_held_or_decided_is_left_alone(
    sphere: Ground, retainer: Retainer, wishes: Wishes
) -> None:
    assert asked(sphere, retainer, wishes) == []


def test_where_an_arm_would_hold_a_seat_is_asked_for(sphere: Ground) -> None:
    (text,) = asked(sphere)
    assert "prepare a seat for the rest of 46" in text


def test_where_no_shaping_would_do_it_is_said(ellipsoid_ground: Callable[..., Ground]) -> None:
    small = ellipsoid_ground(2.0, 2.0, 4.0)  # no arm on it is long enough to spring
    bench = Bench(small.arch, small.survey)
    (found,) = shaping_findings(small.arch, small.survey, Wishes(), [PLANNED], [BARE], bench)
    assert found.rule == "proposal.one_sided" and "too short and stiff" in found.text
