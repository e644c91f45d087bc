"""The finished framework against its design: alignment, deviation, acceptance."""

from claspwright.inspection.acceptance import (
    acceptance_limits,
    judge_surface,
    judged,
    limits_from,
)
from claspwright.inspection.accuracy import (
    Accuracy,
    GroupedPrecision,
    accuracy,
    grouped_precision,
)
from claspwright.inspection.areas import Area, align_by_areas, figures_by_area
from claspwright.inspection.deviation import (
    Deviation,
    DeviationFigures,
    deviation,
    deviation_figures,
)

__all__ = [
    "Accuracy",
    "Area",
    "Deviation",
    "DeviationFigures",
    "GroupedPrecision",
    "acceptance_limits",
    "accuracy",
    "align_by_areas",
    "deviation",
    "deviation_figures",
    "figures_by_area",
    "grouped_precision",
    "judge_surface",
    "judged",
    "limits_from",
]
