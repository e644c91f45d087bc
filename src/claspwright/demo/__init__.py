"""Invented arches that look like scans: for demonstrations and tests; no stage imports them."""

from claspwright.demo.build import build_arch
from claspwright.demo.laboratory import Happening, invented_month
from claspwright.demo.model import (
    ArchOptions,
    DemoArch,
    GuidingPlane,
    PlaneSide,
    Seat,
    SeatForm,
    Truth,
)
from claspwright.demo.scenarios import EIGHT, Scenario, options_for, scenario, sheet_for

__all__ = [
    "EIGHT",
    "ArchOptions",
    "DemoArch",
    "GuidingPlane",
    "Happening",
    "PlaneSide",
    "Scenario",
    "Seat",
    "SeatForm",
    "Truth",
    "build_arch",
    "invented_month",
    "options_for",
    "scenario",
    "sheet_for",
]
