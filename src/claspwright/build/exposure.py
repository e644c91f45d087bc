"""From contours to what the laser draws: beam offset, contour passes, hatch, supports."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.base import Progress, part, silent
from claspwright.build.hatch import Hatches, HatchPlan, hatch
from claspwright.build.machine import Machine, Process
from claspwright.build.offset import SIMPLIFY_MM, moved_in_by_steps
from claspwright.build.slices import Slices, simplified_slices


@dataclass(frozen=True, slots=True, eq=False)
class Exposed:
    """All vectors of one part with its supports, in the order of exposure in each layer."""

    outline: Slices  # of the part itself, simplified
    contours: tuple[Slices, ...]  # tracks of the part, the outermost first
    hatches: Hatches
    support_outline: Slices | None = None
    support_contours: Slices | None = None
    support_hatches: Hatches | None = None


def hatch_plan(machine: Machine, process: Process) -> HatchPlan:
    """Hatch of the part as machine and process say."""
    return HatchPlan(
        spacing_mm=0.001 * process.hatch_um,
        first_angle_deg=process.first_angle_deg,
        turn_deg=process.turn_deg,
        stripe_mm=process.stripe_mm,
        shortest_mm=0.001 * process.shortest_um,
        serpentine=True,
        skin_layers=process.skin_layers,
        gas_flow_deg=machine.gas_flow_deg,
    )


def expose(
    slices: Slices,
    supports: Slices | None,
    machine: Machine,
    process: Process,
    *,
    progress: Progress = silent,
) -> Exposed:
    """Vectors of a part and its supports; both in the same layers.

    The outermost track lies the beam offset inside the contour, each further pass one step
    inside the one before, the ends of the hatch one gap inside the innermost track. Supports
    get one track and the hatch of the process without skins.
    """
    outline = simplified_slices(slices, SIMPLIFY_MM)
    passes = process.contour_passes
    gap = 0.001 * process.hatch_gap_um if passes else 0.0
    depth = 0.001 * process.beam_offset_um
    inwards = [depth, *[0.001 * process.contour_step_um] * (passes - 1), gap]
    *tracks, filled = moved_in_by_steps(outline, inwards, progress=part(progress, 0.0, 0.5))
    plan = hatch_plan(machine, process)
    lines = hatch(filled, plan, solid=outline, progress=part(progress, 0.5, 0.85))
    if supports is None:
        progress(1.0, "exposure")
        return Exposed(outline, tuple(tracks[:passes]), lines)
    below = simplified_slices(supports, SIMPLIFY_MM)
    track, filled = moved_in_by_steps(below, (depth, gap))
    fill = hatch(filled, plan, progress=part(progress, 0.85, 1.0))
    return Exposed(outline, tuple(tracks[:passes]), lines, below, track, fill)
