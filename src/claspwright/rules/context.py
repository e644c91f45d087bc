"""What the rules look at: the prescription's facts, and a finished framework."""

from __future__ import annotations

from dataclasses import dataclass, field

from claspwright.arch import DentalArch, Jaw, KennedyClass, Span
from claspwright.base import Floats
from claspwright.framework import Component, ComponentKind, DentureBase, Design, Framework
from claspwright.geometry import DistanceTree
from claspwright.materials import Material
from claspwright.survey import Survey


@dataclass(frozen=True, slots=True)
class Facts:
    """What the prescription says; known before anything is scanned or designed."""

    jaw: Jaw
    material: Material
    kennedy: KennedyClass
    functional_depth_mm: float | None = None
    allergies: tuple[str, ...] = ()
    allergies_cleared: str = ""  # the prescriber's clearance; empty: none
    prosthesis: str = "partial denture"
    retention: str = "clasps"
    base_material: str = "acrylic"
    swinging_connector: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Finished:
    """A framework with everything that it was made from; arch frame."""

    facts: Facts
    arch: DentalArch
    survey: Survey
    framework: Framework
    growth_mm: Floats | None = None  # (F,) built on each face of the solid for finishing
    scan_tree: DistanceTree = field(init=False)  # of the closed master solid
    solid_tree: DistanceTree = field(init=False)  # of the framework

    def __post_init__(self) -> None:
        object.__setattr__(self, "scan_tree", self.survey.tree_over(self.arch.scan.solid))
        object.__setattr__(self, "solid_tree", DistanceTree(self.framework.solid))

    @property
    def design(self) -> Design:
        """The design that the framework was built from."""
        return self.framework.design

    @property
    def path(self) -> Floats:
        """(3,) unit vector out of the mouth."""
        return self.survey.path.direction

    @property
    def based_spans(self) -> tuple[tuple[DentureBase, Span], ...]:
        """Each denture base with the span it lies over."""
        return tuple(
            (base, span)
            for base in self.design.bases
            for span in self.arch.spans
            if set(base.teeth) <= set(span.missing)
        )

    @property
    def free_spans(self) -> tuple[Span, ...]:
        """Spans with a base that end free."""
        return tuple(span for _, span in self.based_spans if None in span.ends)

    def parts(self, *kinds: ComponentKind) -> tuple[Component, ...]:
        """The components of some kinds, in the order in which they were laid."""
        return tuple(c for c in self.framework.components if c.kind in kinds)
