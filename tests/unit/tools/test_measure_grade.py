"""What lies between two surfaces is measured by area."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest

from claspwright.geometry import box

TOOLS = Path(__file__).resolve().parents[3] / "tools"


@pytest.fixture(scope="module")
def grade() -> ModuleType:
    spec = importlib.util.spec_from_file_location("measure_grade", TOOLS / "measure_grade.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["measure_grade"] = module  # a dataclass looks its module up
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(str(TOOLS))
        spec.loader.exec_module(module)
    return module


def test_a_lid_that_is_raised_is_told_by_its_share(grade: ModuleType) -> None:
    """The lid of a slab lies 0.3 mm off, the middles of its other faces nowhere."""
    low = box(np.zeros(3), np.array([4.0, 4.0, 1.0]))
    high = box(np.zeros(3), np.array([4.0, 4.0, 1.3]))
    found = grade.apart(high, low)
    lid = 16.0 / (2 * 16.0 + 4 * 4.0 * 1.3)
    assert found.most_mm == pytest.approx(0.3)
    assert found.share_over == pytest.approx(lid)
    assert found.within_mm[0] < 1e-12 and found.within_mm[-1] == pytest.approx(0.3)


def test_the_same_surface_lies_nowhere_apart(grade: ModuleType) -> None:
    solid = box(np.zeros(3), np.ones(3))
    found = grade.apart(solid, solid)
    assert found.most_mm < 1e-12 and found.share_over == 0.0
