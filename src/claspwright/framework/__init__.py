"""Framework: components laid on anatomy, joined to one watertight solid."""

from claspwright.framework.amend import Amended, Workpiece
from claspwright.framework.areas import Area
from claspwright.framework.arm_course import course_heights
from claspwright.framework.arm_ways import SEAT_OF
from claspwright.framework.artificial_teeth import Room, room_for_teeth
from claspwright.framework.base_outline import base_border, span_of_base
from claspwright.framework.build import Kept, Preview, build, build_kept, preview, taken_up
from claspwright.framework.casting import indirect_reaches
from claspwright.framework.connector_choice import connectors_of
from claspwright.framework.design import (
    COURSE_FORMS,
    MOST_COURSE,
    Clasp,
    ClaspForm,
    ConnectorForm,
    CoursePoint,
    DentureBase,
    Design,
    End,
    FitOffsets,
    MajorConnector,
    Reason,
    RestForm,
    Retainer,
    Retention,
    Side,
    SplintBar,
    jaw_of_form,
)
from claspwright.framework.fulcrum import distance_to_fulcrum, fulcrum_line, rest_point
from claspwright.framework.model import Component, ComponentKind, Framework, Wire
from claspwright.framework.proposal import (
    Plan,
    plan_design,
    propose_design,
    propose_retainers,
    retention_zones,
)
from claspwright.framework.rest_kinds import facing
from claspwright.framework.rulebook import default_clasp, default_connector
from claspwright.framework.wishes import Wishes
from claspwright.framework.wisps import wisps

__all__ = [
    "base_border",
    "span_of_base",
    "COURSE_FORMS",
    "MOST_COURSE",
    "SEAT_OF",
    "Amended",
    "Area",
    "Clasp",
    "ClaspForm",
    "Component",
    "ComponentKind",
    "ConnectorForm",
    "CoursePoint",
    "DentureBase",
    "Design",
    "End",
    "FitOffsets",
    "Framework",
    "Kept",
    "MajorConnector",
    "Plan",
    "Preview",
    "Reason",
    "RestForm",
    "Retainer",
    "Retention",
    "Room",
    "Side",
    "SplintBar",
    "Wire",
    "Wishes",
    "Workpiece",
    "build",
    "build_kept",
    "connectors_of",
    "course_heights",
    "default_clasp",
    "default_connector",
    "distance_to_fulcrum",
    "facing",
    "fulcrum_line",
    "indirect_reaches",
    "jaw_of_form",
    "plan_design",
    "preview",
    "propose_design",
    "propose_retainers",
    "rest_point",
    "retention_zones",
    "room_for_teeth",
    "taken_up",
    "wisps",
]
