"""Machine and process values refuse what cannot be built with."""

from __future__ import annotations

import pytest

from claspwright.base import InputError
from claspwright.build import Beam, Platform, SupportPlan


def test_areas() -> None:
    assert Platform("round", 100, 100, 90, 1).area_mm2 == pytest.approx(7853.98, abs=0.01)
    assert Platform("rectangular", 250, 200, 90, 1).area_mm2 == 50_000


@pytest.mark.parametrize(
    "made",
    [
        lambda: Platform("round", 100, 90, 90, 1),
        lambda: Platform("rectangular", 100, 100, 90, 60),
        lambda: Beam(0.0, 500.0),
        lambda: SupportPlan(self_supporting_deg=95.0),
        lambda: SupportPlan(neck_mm=2.0),
    ],
)
def test_refused(made) -> None:  # type: ignore[no-untyped-def] # any of the values above
    with pytest.raises(InputError):
        made()
