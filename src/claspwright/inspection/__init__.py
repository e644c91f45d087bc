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
from claspwright.inspection.charts import (
    Capability,
    ControlChart,
    Driver,
    capability,
    control_chart,
    drivers,
    sd_interval,
)
from claspwright.inspection.contact import ContactStep, contact_step
from claspwright.inspection.deviation import (
    Deviation,
    DeviationFigures,
    deviation,
    deviation_figures,
)
from claspwright.inspection.regions import (
    Region,
    RegionFigures,
    figures_by_region,
    region_of_faces,
)
from claspwright.inspection.seating import (
    RestGap,
    Rocking,
    Seating,
    Underside,
    rest_gaps,
    rocking,
    seat,
    underside,
)

__all__ = [
    "Accuracy",
    "Area",
    "Deviation",
    "DeviationFigures",
    "GroupedPrecision",
    "ContactStep",
    "Region",
    "RegionFigures",
    "RestGap",
    "Rocking",
    "Seating",
    "Underside",
    "acceptance_limits",
    "accuracy",
    "align_by_areas",
    "contact_step",
    "deviation",
    "deviation_figures",
    "figures_by_area",
    "figures_by_region",
    "grouped_precision",
    "judge_surface",
    "judged",
    "limits_from",
    "region_of_faces",
    "rest_gaps",
    "rocking",
    "seat",
    "underside",
    "Capability",
    "ControlChart",
    "Driver",
    "capability",
    "control_chart",
    "drivers",
    "sd_interval",
]
