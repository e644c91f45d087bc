"""Teeth: regions beside the heat method, and the whole stage at three sizes.

pytest benchmarks/bench_teeth.py --benchmark-only
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import potpourri3d
import pytest

from claspwright.arch import MasterScan, find_teeth, present_teeth, propose_marks
from claspwright.arch.regions import face_graph, grow_regions
from claspwright.demo import DemoArch, build_arch, options_for, scenario
from claspwright.geometry import IDENTITY

CASE = "mandible_class_2_mod_1"
EDGES = (0.5, 0.3, 0.2)  # mm; about 50, 130 and 300 thousand faces


@cache
def _case(edge_mm: float) -> tuple[MasterScan, DemoArch]:
    made = build_arch(replace(options_for(scenario(CASE), edge_mm=edge_mm), with_opposing=False))
    return MasterScan(made.jaw, made.master, made.master, IDENTITY, edge_mm), made


@pytest.mark.parametrize("edge_mm", EDGES)
def test_find_teeth(benchmark: Any, edge_mm: float) -> None:
    scan, made = _case(edge_mm)
    benchmark.extra_info["faces"] = len(scan.surface.faces)
    benchmark(find_teeth, scan, made.truth.marks, scenario(CASE).missing)


@pytest.mark.parametrize("edge_mm", EDGES)
def test_propose_marks(benchmark: Any, edge_mm: float) -> None:
    scan, _ = _case(edge_mm)
    benchmark(propose_marks, scan, present_teeth(scan.jaw, scenario(CASE).missing))


@pytest.mark.parametrize("edge_mm", EDGES)
def test_regions_by_shortest_paths(benchmark: Any, edge_mm: float) -> None:
    scan, made = _case(edge_mm)
    graph = face_graph(scan.surface)
    seeds = {
        code: np.array([np.argmin(np.linalg.norm(graph.centres - mark, axis=1))], np.int32)
        for code, mark in made.truth.marks.items()
    }
    benchmark(grow_regions, graph, seeds)


@pytest.mark.parametrize("edge_mm", EDGES)
def test_reference_heat_method_one_field(benchmark: Any, edge_mm: float) -> None:
    """One distance field; a region a tooth would need one solve for each."""
    scan, _ = _case(edge_mm)
    mesh = scan.surface
    solver = potpourri3d.MeshHeatMethodDistanceSolver(np.array(mesh.vertices), np.array(mesh.faces))
    benchmark(solver.compute_distance, 0)
