"""What is known of a case while it is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from claspwright.arch import Bite, DentalArch, KennedyClass, MasterScan
from claspwright.base import Finding, Floats
from claspwright.case import CaseSheet
from claspwright.framework import Design, Framework, Room
from claspwright.survey import PathChoice, PathOfPlacement, Survey, Zone


@dataclass(slots=True, eq=False)
class Work:
    """Filled stage by stage; None where the work did not come so far. Arch frame."""

    sheet: CaseSheet
    kennedy: KennedyClass
    scan: MasterScan | None = None
    arch: DentalArch | None = None
    zones: tuple[Zone, ...] = ()  # of the clasps that the path was judged on
    choice: PathChoice | None = None  # the path and what it was held against
    path: PathOfPlacement | None = None
    path_reason: str = ""  # empty where the sheet names the path
    surveyed: Survey | None = None
    design: Design | None = None
    framework: Framework | None = None
    bite: Bite | None = None  # where an opposing arch is known
    room: Room | None = None  # for artificial teeth and acrylic on the framework
    findings: list[Finding] = field(default_factory=list)

    @property
    def marks(self) -> Mapping[int, Floats]:
        """(3,) mark of each tooth that was found."""
        teeth = {} if self.arch is None else self.arch.teeth
        return {code: tooth.mark for code, tooth in sorted(teeth.items())}
