"""The invented arch at three sizes; no reference library makes one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from claspwright.demo import build_arch, options_for, scenario


@pytest.mark.parametrize("edge_mm", [0.4, 0.25, 0.15])
def test_master_arch(benchmark: Any, edge_mm: float) -> None:
    options = options_for(scenario("maxilla_class_3_mod_1"), edge_mm=edge_mm)
    benchmark.pedantic(
        build_arch, args=(replace(options, with_opposing=False),), rounds=1, iterations=1
    )


@pytest.mark.parametrize("edge_mm", [0.4, 0.25, 0.15])
def test_both_arches_in_occlusion(benchmark: Any, edge_mm: float) -> None:
    options = options_for(scenario("maxilla_class_3_mod_1"), edge_mm=edge_mm)
    benchmark.pedantic(build_arch, args=(options,), rounds=1, iterations=1)
