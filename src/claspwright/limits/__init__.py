"""Dimension rules and their sources, read by components and rules alike."""

from claspwright.limits.gauges import sheet_thickness
from claspwright.limits.table import MARKS, Limit, limit, limits

__all__ = ["MARKS", "Limit", "limit", "limits", "sheet_thickness"]
