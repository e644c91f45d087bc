"""Survey: path of placement, undercuts, survey lines, blockout and relief."""

from claspwright.survey.blockout import (
    Cutters,
    WaxShaped,
    WaxTold,
    block_out,
    shape_wax,
    tell_wax,
    wax_layers,
    with_fills,
    with_ledges,
)
from claspwright.survey.bodies import faces_by_body
from claspwright.survey.embrasures import open_embrasures
from claspwright.survey.gauge import GaugeReading, gauge, gauge_near, read_gauge
from claspwright.survey.model import BlockedOut, PathOfPlacement, Survey
from claspwright.survey.path import path_from_tilts, tilts_of
from claspwright.survey.point import PointReading, gauge_mesh
from claspwright.survey.quick import quick_field, quick_undercuts
from claspwright.survey.readings import Fill, RetainerReading, fills, read_retainers
from claspwright.survey.scored import Cone, GuidingFace, PathScore
from claspwright.survey.scores import ScorePart, score_parts
from claspwright.survey.search import PathChoice, search_path
from claspwright.survey.shadow import Shadow, cast_shadow
from claspwright.survey.surveying import survey, survey_fields
from claspwright.survey.tripod import Tripod, path_from_lines, path_from_tripod, tripod
from claspwright.survey.undercut_lines import UndercutLine, undercut_line, undercut_lines
from claspwright.survey.wax import NO_WAX, Course, Patch, Relief, Wax, WaxBody
from claspwright.survey.zones import Zone

__all__ = [
    "NO_WAX",
    "BlockedOut",
    "Cone",
    "Course",
    "Fill",
    "GaugeReading",
    "GuidingFace",
    "Patch",
    "PathChoice",
    "PathOfPlacement",
    "PathScore",
    "PointReading",
    "Relief",
    "RetainerReading",
    "ScorePart",
    "Shadow",
    "Survey",
    "Tripod",
    "UndercutLine",
    "Wax",
    "WaxBody",
    "Zone",
    "Cutters",
    "WaxShaped",
    "WaxTold",
    "block_out",
    "shape_wax",
    "tell_wax",
    "cast_shadow",
    "faces_by_body",
    "fills",
    "gauge",
    "gauge_mesh",
    "gauge_near",
    "open_embrasures",
    "path_from_lines",
    "path_from_tilts",
    "path_from_tripod",
    "quick_field",
    "quick_undercuts",
    "read_gauge",
    "read_retainers",
    "score_parts",
    "search_path",
    "survey",
    "survey_fields",
    "tilts_of",
    "tripod",
    "undercut_line",
    "undercut_lines",
    "wax_layers",
    "with_fills",
    "with_ledges",
]
