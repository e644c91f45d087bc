"""Survey: path of placement, undercuts, survey lines, blockout and relief."""

from claspwright.survey.model import BlockedOut, PathOfPlacement, Survey

__all__ = ["BlockedOut", "PathOfPlacement", "Survey"]
