"""Invented arches that look like scans: for demonstrations and tests; no stage imports them."""

from claspwright.demo.build import build_arch
from claspwright.demo.model import ArchOptions, DemoArch, GuidingPlane, Seat, Truth
from claspwright.demo.scenarios import EIGHT, Scenario, options_for, scenario, sheet_for

__all__ = [
    "EIGHT",
    "ArchOptions",
    "DemoArch",
    "GuidingPlane",
    "Scenario",
    "Seat",
    "Truth",
    "build_arch",
    "options_for",
    "scenario",
    "sheet_for",
]
