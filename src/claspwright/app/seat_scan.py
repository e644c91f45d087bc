"""A scan of the finished metal set down on the master model: gaps under rests, rocking."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.areas_file import read_areas
from claspwright.app.laid_on import laid_on, outside_out
from claspwright.base import Finding, Floats, InputError, Progress, part, silent
from claspwright.formats import read_mesh
from claspwright.geometry import DistanceTree, Registration
from claspwright.inspection import (
    RestGap,
    Rocking,
    Seating,
    acceptance_limits,
    judged,
    limits_from,
    rest_gaps,
    rocking,
    seat,
    underside,
)


@dataclass(frozen=True, slots=True, eq=False)
class Seated:
    """How a finished framework seats on its model; frame of the model."""

    alignment: Registration
    seating: Seating
    rests: tuple[RestGap, ...]
    presses: tuple[Rocking, ...]
    tips: tuple[tuple[str, float], ...]  # area that springs: how far seating moves it [mm]
    findings: tuple[Finding, ...]

    @property
    def stopped(self) -> bool:
        """Whether a finding says that the framework must not go on."""
        return any(finding.severity == "stop" for finding in self.findings)


@dataclass(frozen=True, slots=True)
class SeatingWishes:
    """How the metal is set down."""

    path: tuple[float, float, float]  # out of the mouth, in the frame of the files
    noise_um: float = 10.0  # of the scan, across its surface
    patch_mm: float = 0.5  # radius over which a gap is averaged


def seat_scan(
    files: tuple[Path, Path, Path],
    areas: Path,
    wishes: SeatingWishes,
    *,
    limits: Path | None = None,
    progress: Progress = silent,
) -> Seated:
    """Align a scan with its design, then set it down on the master model.

    Args:
        files: design, scan, master; the design in the frame of the master, as `run` writes it.
        areas: TOML file of areas, one a rest; those with `springs = true` are left out.
        wishes: path, noise and averaging.
        limits: the laboratory's own acceptance limits.
        progress: told of each step.

    Raises:
        InputError: a file cannot be used, or no area is a rest.
    """
    progress(0.0, "reading")
    design, scan, master = (read_mesh(file) for file in files)
    named = read_areas(areas)
    rests = [area for area in named if not area.springs]
    if not rests:
        raise InputError("no area is a rest", place=areas.name,
                         remedy="Give one [[area]] a rest, without springs = true.")  # fmt: skip
    rules = dict(acceptance_limits())
    if limits is not None:
        rules |= limits_from(limits.read_text(encoding="utf-8"), place=limits.name)
    path = _unit(wishes.path)
    design, turned = outside_out(design)
    aligned, scan, over = laid_on(scan, DistanceTree(design), progress=part(progress, 0.1, 0.5))
    ground = DistanceTree(master)
    noise = wishes.noise_um / 1000.0
    under = underside(
        scan.moved(aligned.rigid), ground,
        leave_out=[area for area in named if area.springs],
        patch_mm=wishes.patch_mm, noise_mm=noise,
    )  # fmt: skip
    load_at = np.mean([area.at_mm for area in rests], axis=0)
    found = seat(under, ground, path, load_at, progress=part(progress, 0.5, 0.8))
    gaps = rest_gaps(found, rests, noise_mm=noise)
    progress(0.8, "rocking")
    presses = rocking(found, ground, path, np.array([area.at_mm for area in rests]))
    tips = tuple(
        (area.name, float(np.linalg.norm(found.pose.apply(np.array(area.at_mm)) - area.at_mm)))
        for area in named
        if area.springs
    )
    progress(1.0, "seated")
    told_by = (*turned, *over, *_findings(found, gaps, presses, rules))
    return Seated(aligned, found, gaps, presses, tips, told_by)


def told(seated: Seated) -> dict[str, Any]:  # Any: a JSON object
    """The answer as one JSON object."""
    found = seated.seating
    return {
        "scan_to_design": seated.alignment.rigid.matrix().tolist(),
        "design_to_seated": found.pose.matrix().tolist(),
        "settled": found.settled,
        "tilt_deg": round(found.tilt_deg, 4),
        "pressed_um": round(1000.0 * found.pressed_mm, 2),
        "lift_um": round(1000.0 * found.lift_mm, 2),
        "contacts": [
            {"at_mm": np.round(at, 3).tolist(), "share_of_load": round(float(share), 4)}
            for at, share in zip(found.contacts, found.forces, strict=True)
        ],
        "rests": [
            {"name": g.area.name, "points": g.count, "mean_gap_um": round(1000.0 * g.mean_mm, 2),
             "lowest_gap_um": round(1000.0 * g.lowest_mm, 2),
             "highest_gap_um": round(1000.0 * g.highest_mm, 2),
             "uncertainty_um": round(1000.0 * g.uncertainty_mm, 2)}
            for g in seated.rests
        ],
        "rocking": [
            {"at_mm": list(p.at_mm), "play_um": round(1000.0 * p.play_mm, 2),
             "tilt_deg": round(p.tilt_deg, 4)}
            for p in seated.presses
        ],
        "tips_moved_um": {name: round(1000.0 * moved, 2) for name, moved in seated.tips},
        "findings": [asdict(finding) for finding in seated.findings],
        "assumes": "rigid bodies, no friction, what springs left out; confirm with silicone film",
    }  # fmt: skip


def _unit(path: tuple[float, float, float]) -> Floats:
    vector = np.array(path, dtype=np.float64)
    size = float(np.linalg.norm(vector))
    if not size > 0:
        raise InputError("the path has no direction", remedy="Give three numbers, such as 0 0 1.")
    return np.asarray(vector / size)


def _findings(
    found: Seating, gaps: tuple[RestGap, ...], presses: tuple[Rocking, ...], rules: Any
) -> tuple[Finding, ...]:  # Any: a mapping of limits
    out: list[Finding | None] = []
    if not found.settled:
        text = "The metal found no rest: it still slid. Check alignment, path and areas."
        out.append(Finding("fit.settled", "stop", text, "statics of rigid bodies [derived]"))
    out.append(judged("fit.pressed", found.pressed_mm, rules, "depth to which it is wedged"))
    for gap in gaps:
        words = "mean gap under the rest"
        out.append(judged("fit.rest_gap", gap.mean_mm, rules, words, component=gap.area.name,
                          at_mm=gap.area.at_mm))  # fmt: skip
    if presses:
        worst = max(presses, key=lambda press: press.play_mm)
        out.append(judged("fit.rocking", worst.play_mm, rules, "play when pressed here",
                          at_mm=worst.at_mm))  # fmt: skip
    return tuple(finding for finding in out if finding is not None)
