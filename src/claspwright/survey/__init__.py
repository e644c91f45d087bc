"""Survey: path of placement, undercuts, survey lines, blockout and relief."""

from claspwright.survey.blockout import block_out
from claspwright.survey.gauge import GaugeReading, gauge
from claspwright.survey.lines import undercut_line
from claspwright.survey.model import BlockedOut, PathOfPlacement, Survey
from claspwright.survey.path import path_from_tilts, tilts_of
from claspwright.survey.surveying import survey

__all__ = [
    "BlockedOut",
    "GaugeReading",
    "PathOfPlacement",
    "Survey",
    "block_out",
    "gauge",
    "path_from_tilts",
    "survey",
    "tilts_of",
    "undercut_line",
]
