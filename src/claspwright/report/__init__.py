"""Results to documents and pictures."""

from claspwright.report.build_sheet import (
    SheetContent,
    SheetDistortion,
    SheetPart,
    write_build_sheet,
)
from claspwright.report.case_record import CaseRecord, Laboratory, PartRecord
from claspwright.report.chart_plot import control_chart_plot
from claspwright.report.colours import VIRIDIS, mapped
from claspwright.report.compose import compose
from claspwright.report.cone_maps import as_png, as_svg, cone_maps, panels_of
from claspwright.report.content import (
    CaseFacts,
    ComponentRow,
    Measure,
    Part,
    Picture,
    ReportContent,
    Track,
)
from claspwright.report.deviation_picture import (
    DEVIATION_LEVELS,
    DEVIATION_UM,
    SIGN_WORDS,
    deviation_picture,
)
from claspwright.report.distortion_drawing import distortion_png
from claspwright.report.force_map import (
    fulcrum_drawn,
    lifting_picture,
    lifting_values,
    stress_picture,
    stress_values,
)
from claspwright.report.furnace_plot import furnace_plot
from claspwright.report.paper import Paper, qr_code, write_paper
from claspwright.report.papers_law import (
    authorisation,
    cobalt_note,
    label,
    leaflet,
    recall_list,
    statement,
    vigilance_note,
)
from claspwright.report.papers_month import Facts, month_paper
from claspwright.report.papers_work import (
    build_sheet,
    finishing_paper,
    furnace_certificate,
    inspection_report,
    invoice_quantities,
    work_ticket,
)
from claspwright.report.pdf import write_report
from claspwright.report.plan import Plan, arch_plan
from claspwright.report.plan_drawing import plan_png, plan_svg
from claspwright.report.platform_drawing import (
    film_strip_png,
    landscape_svg,
    layer_svg,
    platform_map_svg,
    times_svg,
)
from claspwright.report.preparation_page import PreparationAsk, write_preparation_page
from claspwright.report.proof_parts import with_proof
from claspwright.report.proof_sheet import Proved, SheetFacts, write_proof_sheet
from claspwright.report.render import Stage, camera_for, contact_sheet, png, render
from claspwright.report.review import write_review
from claspwright.report.ride_plot import ride_plot
from claspwright.report.scene import (
    INK,
    METAL,
    OPPOSING,
    STONE,
    TISSUE,
    WAX,
    Colour,
    Item,
    Label,
    Line,
    Scene,
)
from claspwright.report.survey_plots import ArmSize, tooth_section, undercut_histogram
from claspwright.report.survey_sheet import SurveyContent, survey_pictures, write_survey_sheet
from claspwright.report.views import SIDES, Side, View, close_up, oblique, view

__all__ = [
    "Facts",
    "control_chart_plot",
    "cobalt_note",
    "month_paper",
    "SheetContent",
    "SheetDistortion",
    "distortion_png",
    "SheetPart",
    "film_strip_png",
    "landscape_svg",
    "layer_svg",
    "platform_map_svg",
    "times_svg",
    "write_build_sheet",
    "ArmSize",
    "SurveyContent",
    "as_png",
    "as_svg",
    "cone_maps",
    "panels_of",
    "survey_pictures",
    "tooth_section",
    "undercut_histogram",
    "write_survey_sheet",
    "CaseFacts",
    "CaseRecord",
    "Laboratory",
    "PartRecord",
    "PreparationAsk",
    "Paper",
    "qr_code",
    "write_paper",
    "write_preparation_page",
    "authorisation",
    "label",
    "leaflet",
    "recall_list",
    "statement",
    "vigilance_note",
    "build_sheet",
    "finishing_paper",
    "furnace_certificate",
    "inspection_report",
    "invoice_quantities",
    "work_ticket",
    "deviation_picture",
    "ComponentRow",
    "Measure",
    "Part",
    "Picture",
    "Plan",
    "Proved",
    "ReportContent",
    "Track",
    "arch_plan",
    "camera_for",
    "compose",
    "plan_png",
    "plan_svg",
    "SheetFacts",
    "furnace_plot",
    "lifting_picture",
    "ride_plot",
    "stress_picture",
    "with_proof",
    "write_proof_sheet",
    "write_report",
    "write_review",
    "INK",
    "DEVIATION_LEVELS",
    "DEVIATION_UM",
    "METAL",
    "OPPOSING",
    "SIDES",
    "SIGN_WORDS",
    "STONE",
    "TISSUE",
    "VIRIDIS",
    "WAX",
    "Colour",
    "Item",
    "Label",
    "Line",
    "Scene",
    "Side",
    "Stage",
    "View",
    "close_up",
    "contact_sheet",
    "mapped",
    "oblique",
    "png",
    "render",
    "view",
    "fulcrum_drawn",
    "lifting_values",
    "stress_values",
]
