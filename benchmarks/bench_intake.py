"""Intake at three sizes, beside a reference library where one does the same.

pytest benchmarks/bench_intake.py --benchmark-only
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import trimesh

from claspwright.arch import take_in
from claspwright.arch.crossing import find_crossings
from claspwright.demo import build_arch, options_for, scenario
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh

CASE = "mandible_class_2_mod_1"
EDGES = (0.5, 0.3, 0.2)  # mm; about 50, 130 and 300 thousand faces


@cache
def _scan(edge_mm: float) -> Mesh:
    options = replace(options_for(scenario(CASE)), edge_mm=edge_mm, with_opposing=False)
    return build_arch(options).master


@pytest.mark.parametrize("edge_mm", EDGES)
def test_take_in(benchmark: Any, edge_mm: float) -> None:
    scan = _scan(edge_mm)
    benchmark.extra_info["faces"] = len(scan.faces)
    benchmark.pedantic(take_in, (scan,), {"jaw": "mandible"}, rounds=3, warmup_rounds=1)


@pytest.mark.parametrize("edge_mm", EDGES)
@pytest.mark.parametrize("reader", [read_mesh, trimesh.load])
def test_read_binary_stl(benchmark: Any, edge_mm: float, reader: Any, tmp_path: Path) -> None:
    file = tmp_path / "scan.stl"
    write_stl(_scan(edge_mm), file)
    benchmark(reader, file)


@pytest.mark.parametrize("edge_mm", EDGES)
def test_find_crossings(benchmark: Any, edge_mm: float) -> None:
    benchmark(find_crossings, _scan(edge_mm), 1.5 * edge_mm)
