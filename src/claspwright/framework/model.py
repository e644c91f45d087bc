"""What the framework stage leaves behind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from claspwright.base import Finding, Floats
from claspwright.framework.design import Design
from claspwright.geometry import Mesh, merged
from claspwright.survey import BlockedOut

ComponentKind = Literal[
    "rest",
    "retentive arm",
    "reciprocal arm",
    "approach arm",
    "proximal plate",
    "minor connector",
    "major connector",
    "lattice",
    "finish line",
    "tissue stop",
    "splinting bar",
]


@dataclass(frozen=True, slots=True, eq=False)
class Component:
    """One component as laid on the anatomy; arch frame, mm.

    Arms and bars carry a centreline on the tooth or tissue from clamp to tip, with their
    width across the surface and thickness off it at each station.
    """

    id: str  # such as "clasp.35.buccal"
    kind: ComponentKind
    line: Floats  # (N, 3) centreline, or outline of a plate or rest
    width_mm: Floats  # (N,) or (1,)
    thickness_mm: Floats  # (N,) or (1,)
    tooth: int | None = None
    figures: Mapping[str, float] = field(default_factory=dict)  # named measures, unit in the name
    # (N, 2) of an arm from above: share of the way by angle, height over the survey line [mm]
    course: Floats | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Wire:
    """A round wire that is bent and fixed in its socket after printing; arch frame, mm."""

    id: str  # of its arm
    diameter_mm: float
    length_mm: float  # from the back of its socket to its tip
    solid: Mesh


@dataclass(frozen=True, slots=True, eq=False)
class Framework:
    """The solid and what it was made of; arch frame."""

    design: Design
    solid: Mesh  # one watertight body
    blocked_out: BlockedOut
    components: tuple[Component, ...]
    findings: tuple[Finding, ...] = ()  # of the laying-out itself: seats missing, ways that failed
    wires: tuple[Wire, ...] = ()  # not part of the solid

    @property
    def shown(self) -> Mesh:
        """The solid with its wires in place, for pictures."""
        return (
            merged(self.solid, *(wire.solid for wire in self.wires)) if self.wires else self.solid
        )
