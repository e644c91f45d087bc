"""From the arch frame, in which the stages work, to the scan frame, in which files are given."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from claspwright.base import Finding, Point
from claspwright.geometry import Rigid


def findings_in_scan(findings: Iterable[Finding], scan_to_arch: Rigid | None) -> list[Finding]:
    """The findings with their places in the frame of the master scan file [mm]."""
    if scan_to_arch is None:
        return [replace(finding, at_mm=None) for finding in findings]
    back = scan_to_arch.inverse()
    return [
        finding
        if finding.at_mm is None
        else replace(finding, at_mm=point_of(back.apply(np.array(finding.at_mm))))
        for finding in findings
    ]


def point_of(values: Iterable[float], digits: int = 4) -> Point:
    """Three rounded plain numbers."""
    x, y, z = (round(float(value), digits) + 0.0 for value in values)
    return (x, y, z)
