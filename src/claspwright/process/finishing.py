"""What finishing takes off each kind of surface, and the sheet that goes with it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from claspwright.base import Finding, InputError, Point
from claspwright.process.tables import table

SurfaceKind = Literal["tissue", "polished", "rest", "arm"]
SURFACES: tuple[SurfaceKind, ...] = ("tissue", "polished", "rest", "arm")
STEPS = ("blasting", "grinding", "electropolishing", "polishing")


@dataclass(frozen=True, slots=True)
class FinishingPlan:
    """How a framework is to be finished: what it loses must be built on beforehand."""

    steps: tuple[str, ...] = ()
    masked: tuple[SurfaceKind, ...] = ()  # covered in the bath

    def allowances_mm(self) -> dict[SurfaceKind, float]:
        """What each kind of surface loses [mm]."""
        return {
            kind: allowance_um(kind, self.steps, masked=self.masked) / 1000.0 for kind in SURFACES
        }


@dataclass(frozen=True, slots=True)
class FinishingSheet:
    """What to take away, what to leave alone, and what each surface loses."""

    steps: tuple[str, ...]
    masked: tuple[SurfaceKind, ...]  # covered in the bath
    allowance_um: tuple[tuple[SurfaceKind, float], ...]
    contacts: tuple[Point, ...]  # supports to grind away
    untouched: tuple[str, ...]  # components whose faces on the tooth are not to be touched
    findings: tuple[Finding, ...]


def allowance_um(
    surface: SurfaceKind, steps: Sequence[str], *, masked: Collection[str] = ()
) -> float:
    """Metal that the steps take off a surface [um]; a masked one is spared by the bath.

    Source:
        common practice, no source; the table is meant to be measured anew in each laboratory.
    """
    total = 0.0
    for step in steps:
        if step not in table("finishing.toml"):
            raise InputError(f"no finishing step {step!r}", remedy=f"Known ones: {STEPS}.")
        if step == "electropolishing" and surface in masked:
            continue
        total += float(table("finishing.toml")[step][f"{surface}_um"])
    return total


def finishing_sheet(
    steps: Sequence[str],
    *,
    masked: Sequence[SurfaceKind] = (),
    contacts: Sequence[Point] = (),
    untouched: Sequence[str] = (),
    allowed: bool = True,
) -> FinishingSheet:
    """The sheet for one framework; a bath without masks is a finding.

    Args:
        steps: what is done to it.
        masked: surfaces covered in the bath.
        contacts: supports to grind away, frame of the framework.
        untouched: components whose faces on the tooth are not to be touched.
        allowed: whether the metal was built thicker by what the steps take off.
    """
    found = []
    if not allowed:
        text = (
            "No allowance was built on for these steps, which are only assumed: what they take "
            "off is missing from the designed form. Name them in the case sheet, [finishing]."
        )
        found.append(Finding("finishing.allowance", "look", text, "common practice, no source"))
    bare = [s for s in ("tissue", "rest", "arm") if s not in masked]
    if "electropolishing" in steps and bare:
        text = (
            f"The bath also attacks what is not masked: {', '.join(bare)}. Mask the tissue side, "
            "the undersides of rests and the inner sides of clasp arms, or allow for the loss."
        )
        found.append(Finding("finishing.bath", "look", text, "common practice, no source"))
    return FinishingSheet(
        tuple(steps),
        tuple(masked),
        tuple((s, allowance_um(s, steps, masked=masked)) for s in SURFACES),
        tuple(contacts),
        tuple(untouched),
        tuple(found),
    )
