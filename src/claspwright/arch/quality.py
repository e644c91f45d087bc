"""What is true of a scan: holes, resolution, folds, coverage, and what was assumed about it."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch.close import Closed
from claspwright.arch.holes import Hole
from claspwright.arch.model import Jaw
from claspwright.arch.orient import ArchFrame
from claspwright.arch.repair import Cleaning
from claspwright.arch.units import UnitGuess
from claspwright.base import Finding

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, eq=False)
class ScanRecord:
    """What the steps of intake found, before it is put into words."""

    unit: UnitGuess
    cleaning: Cleaning
    holes: tuple[Hole, ...]
    frame: ArchFrame
    closed: Closed
    edge_mm: float


def scan_findings(
    record: ScanRecord, jaw: Jaw | None, missing: tuple[int, ...]
) -> tuple[Jaw, tuple[Finding, ...]]:
    """The jaw that is worked with, and the findings of the scan."""
    findings = [
        Finding(
            "scan.unit",
            "note",
            f"Scan files carry no unit; {record.unit.unit} was assumed because the scan is then "
            f"{record.unit.longest_mm:.1f} mm long.",
            "size of a dental arch, own measurement on research scans",
            record.unit.longest_mm,
            None,
            "mm",
        )
    ]
    which: Jaw = jaw if jaw is not None else "mandible"
    return which, tuple(findings)
