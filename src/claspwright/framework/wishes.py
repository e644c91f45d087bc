"""What the case sheet asks of a design; what it leaves out is proposed."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.base import InputError
from claspwright.framework.design import (
    DentureBase,
    FitOffsets,
    MajorConnector,
    Retainer,
    SplintBar,
)


@dataclass(frozen=True, slots=True)
class Wishes:
    """The part of a design that a person has decided.

    A tooth that is named gets exactly what is written for it, and nothing where nothing is
    written; teeth that are not named are proposed where the design needs them.
    """

    retainers: tuple[Retainer, ...] = ()
    connector: MajorConnector | None = None
    bases: tuple[DentureBase, ...] = ()
    not_replaced: tuple[int, ...] = ()
    present_abutments: tuple[int, ...] = ()  # third molars that may carry the denture
    functional_depth_mm: float | None = None  # lingual, probed by the dentist
    fit: FitOffsets = FitOffsets()
    doubtful: tuple[int, ...] = ()  # standing teeth that will probably be lost
    open_wires: tuple[int, ...] = ()  # teeth whose wrought wire has no undercut in the sheet
    splints: tuple[SplintBar, ...] = ()

    def __post_init__(self) -> None:
        teeth = [r.tooth for r in self.retainers]
        twice = sorted({t for t in teeth if teeth.count(t) > 1})
        if twice:
            raise InputError(
                f"tooth {twice[0]} has two retainers", remedy="Join them into one [[retainer]]."
            )

    def named(self, tooth: int) -> Retainer | None:
        """The retainer that the sheet writes for a tooth."""
        return next((r for r in self.retainers if r.tooth == tooth), None)
