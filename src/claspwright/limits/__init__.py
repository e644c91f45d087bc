"""Dimension rules and their sources, read by components and rules alike."""

from claspwright.limits.crowns import ASH, ToothSize
from claspwright.limits.gauges import sheet_thickness
from claspwright.limits.table import MARKS, Limit, limit, limits

__all__ = ["ASH", "MARKS", "Limit", "ToothSize", "limit", "limits", "sheet_thickness"]
