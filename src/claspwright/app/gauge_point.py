"""The undercut gauge on a mesh file, as plain values for JSON."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from claspwright.base import Floats
from claspwright.formats import read_mesh
from claspwright.survey import gauge_mesh


def gauge_point(
    file: Path, path: tuple[float, float, float], at: tuple[float, float, float]
) -> dict[str, Any]:
    """Reading at one point of a mesh file, lengths in mm, frame of the file.

    Any: a tree for JSON.

    Raises:
        InputError: a mesh that cannot be read, no direction, or a point too far from the mesh.
    """
    found = gauge_mesh(read_mesh(file), np.array(path), np.array(at))
    height = found.below_survey_line_mm
    return {
        "undercut_mm": round(found.undercut_mm, 4),
        "below_survey_line_mm": None if height is None else round(height, 4) + 0.0,
        "convergence_deg": round(found.convergence_deg, 2) + 0.0,
        "point_mm": _rounded(found.point_mm),
        "moved_mm": round(found.moved_mm, 4),
        "free_point_mm": None if found.free_point_mm is None else _rounded(found.free_point_mm),
        "path": [round(float(v), 9) + 0.0 for v in found.path],
        "mesh": "closed solid" if found.closed else "open surface",
        "notes": list(found.notes),
    }


def _rounded(point: Floats) -> list[float]:
    return [round(float(v), 4) + 0.0 for v in point]
