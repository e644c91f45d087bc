"""Blockout and relief as the sheet asks for them."""

from __future__ import annotations

from claspwright.case.model import ReliefPatch, Sheet
from claspwright.limits import sheet_thickness
from claspwright.survey import Patch, Wax

USUAL_GAUGE = 30  # of relief that names no thickness; check-values B24


def wax_of(sheet: Sheet) -> Wax:
    """The sheet's blockout, reliefs and fills; places in the frame of the scan file."""
    asked = sheet.blockout
    return Wax(
        taper_deg=0.0 if asked is None else asked.taper_deg,
        ledges=False if asked is None else asked.ledges,
        embrasures=False if asked is None else asked.embrasures,
        bead_line=False if asked is None else asked.bead_line,
        reliefs=tuple(
            Patch(item.name or str(n + 1), item.at_mm, item.radius_mm, _thickness(item))
            for n, item in enumerate(sheet.relief)
        ),
        fills=tuple(
            Patch(item.name or str(n + 1), item.at_mm, item.radius_mm)
            for n, item in enumerate(sheet.fill)
        ),
    )


def _thickness(item: ReliefPatch) -> float:
    if item.thickness_mm is not None:
        return item.thickness_mm
    return sheet_thickness(USUAL_GAUGE if item.gauge is None else item.gauge)
