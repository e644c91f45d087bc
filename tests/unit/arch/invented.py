"""Invented arches for the tests of this folder, in the arch frame, built once each."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from claspwright.arch import DentalArch, MasterScan, find_teeth
from claspwright.demo import DemoArch, build_arch, options_for, scenario
from claspwright.geometry import IDENTITY


@cache
def invented(name: str, edge_mm: float = 0.3) -> tuple[MasterScan, DemoArch]:
    """An invented case as an open master scan; its solid is not closed."""
    options = options_for(scenario(name), edge_mm=edge_mm)
    made = build_arch(replace(options, with_opposing=False))
    return MasterScan(made.jaw, made.master, made.master, IDENTITY, edge_mm), made


@cache
def with_teeth(name: str, edge_mm: float = 0.3) -> DentalArch:
    """The same with its teeth, from the builder's own marks."""
    scan, made = invented(name, edge_mm)
    return find_teeth(scan, made.truth.marks, scenario(name).missing)
