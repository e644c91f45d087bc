"""Survey: path of placement, undercuts, survey lines, blockout and relief."""

from claspwright.survey.blockout import block_out
from claspwright.survey.gauge import GaugeReading, gauge
from claspwright.survey.lines import undercut_line
from claspwright.survey.model import BlockedOut, PathOfPlacement, Survey
from claspwright.survey.path import path_from_tilts, tilts_of
from claspwright.survey.search import PathChoice, PathScore, search_path
from claspwright.survey.surveying import survey
from claspwright.survey.zones import Zone

__all__ = [
    "BlockedOut",
    "GaugeReading",
    "PathChoice",
    "PathOfPlacement",
    "PathScore",
    "Survey",
    "Zone",
    "block_out",
    "gauge",
    "path_from_tilts",
    "search_path",
    "survey",
    "tilts_of",
    "undercut_line",
]
