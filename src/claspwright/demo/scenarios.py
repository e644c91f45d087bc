"""Eight invented cases: Kennedy I to IV in both jaws, prepared as is ordinary practice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

import tomlkit

from claspwright.arch import Jaw
from claspwright.base import InputError
from claspwright.demo.model import ArchOptions, PlaneSide, SeatForm
from claspwright.geometry import Mesh


@dataclass(frozen=True, slots=True)
class Scenario:
    """One invented case: what is missing and what the dentist has prepared.

    Rest seats and guiding planes follow common practice (no single source): free ends get
    mesial rests and distal guiding planes on the last abutment and an indirect retainer in
    front; bounded spans get rests beside the gap on both abutments.
    """

    name: str
    jaw: Jaw
    kennedy_class: Literal["I", "II", "III", "IV"]
    modifications: int
    missing: tuple[int, ...]
    not_replaced: tuple[int, ...]
    seats: Mapping[int, tuple[SeatForm, ...]] = field(default_factory=dict)
    planes: Mapping[int, tuple[PlaneSide, ...]] = field(default_factory=dict)
    functional_depth_mm: float | None = None  # mandible: probed lingually


EIGHT: tuple[Scenario, ...] = (
    Scenario(
        "mandible_class_1", "mandible", "I", 0,
        (36, 37, 38, 46, 47, 48), (38, 48),
        {35: ("mesial",), 45: ("mesial",), 34: ("mesial",), 44: ("mesial",)},
        {35: ("distal",), 45: ("distal",)},
        9.5,
    ),
    Scenario(
        "mandible_class_2_mod_1", "mandible", "II", 1,
        (36, 37, 38, 46, 48), (38, 48),
        {35: ("mesial",), 45: ("distal",), 47: ("mesial",), 44: ("mesial",)},
        {35: ("distal",), 45: ("distal",), 47: ("mesial",)},
        9.0,
    ),
    Scenario(
        "mandible_class_3_mod_1", "mandible", "III", 1,
        (35, 36, 38, 46, 48), (38, 48),
        {34: ("distal",), 37: ("mesial",), 45: ("distal",), 47: ("mesial",)},
        {34: ("distal",), 37: ("mesial",), 45: ("distal",), 47: ("mesial",)},
        9.5,
    ),
    Scenario(
        "mandible_class_4", "mandible", "IV", 0,
        (31, 32, 38, 41, 42, 48), (38, 48),
        {33: ("cingulum",), 43: ("cingulum",), 36: ("mesial",), 46: ("mesial",)},
        {33: ("mesial",), 43: ("mesial",)},
        10.0,
    ),
    Scenario(
        "maxilla_class_1", "maxilla", "I", 0,
        (16, 17, 18, 26, 27, 28), (18, 28),
        {15: ("mesial",), 25: ("mesial",), 13: ("cingulum",), 23: ("cingulum",)},
        {15: ("distal",), 25: ("distal",)},
    ),
    Scenario(
        "maxilla_class_2", "maxilla", "II", 0,
        (18, 25, 26, 27, 28), (18, 28),
        {24: ("mesial",), 16: ("mesial",), 13: ("cingulum",)},
        {24: ("distal",)},
    ),
    Scenario(
        "maxilla_class_3_mod_1", "maxilla", "III", 1,
        (15, 16, 18, 24, 25, 28), (18, 28),
        {14: ("distal",), 17: ("mesial",), 23: ("cingulum",), 26: ("mesial",)},
        {14: ("distal",), 17: ("mesial",), 23: ("distal",), 26: ("mesial",)},
    ),
    Scenario(
        "maxilla_class_4", "maxilla", "IV", 0,
        (11, 12, 18, 21, 22, 28), (18, 28),
        {13: ("cingulum",), 23: ("cingulum",), 16: ("mesial",), 26: ("mesial",)},
        {13: ("mesial",), 23: ("mesial",)},
    ),
)  # fmt: skip


def scenario(name: str) -> Scenario:
    """The invented case of that name.

    Raises:
        InputError: there is none.
    """
    for case in EIGHT:
        if case.name == name:
            return case
    raise InputError(
        f"there is no invented case {name!r}",
        remedy="Choose one of " + ", ".join(case.name for case in EIGHT) + ".",
    )


def options_for(
    case: Scenario,
    *,
    seed: int = 1,
    crowns: Literal["parametric"] | Mapping[int, Mesh] = "parametric",
    pose_seed: int | None = None,
    edge_mm: float = 0.15,
    noise_um: float = 0.0,
) -> ArchOptions:
    """The builder's options for an invented case.

    Real crowns stop at the second molar, so third molars of the other jaw are absent too.
    """
    thirds = (18, 28) if case.jaw == "mandible" else (38, 48)
    return ArchOptions(
        case.jaw,
        case.missing,
        seed=seed,
        crowns=crowns,
        seats=case.seats,
        planes=case.planes,
        edge_mm=edge_mm,
        noise_um=noise_um,
        pose_seed=pose_seed,
        opposing_missing=thirds,
    )


def sheet_for(
    case: Scenario,
    *,
    master: str = "scans/master.stl",
    opposing: str | None = "scans/opposing.stl",
    bite: str | None = "scans/bite.stl",
) -> str:
    """A case sheet with scans, missing teeth and alloy only; everything else is proposed.

    Args:
        case: the invented case.
        master: path of the master scan beside the sheet.
        opposing: the same for the opposing arch, None where the case comes without.
        bite: the same for the bite record.

    Returns:
        The text of `case.toml`.
    """
    scans = {"master": master, "opposing": opposing, "bite": bite}
    teeth: dict[str, Any] = {"missing": list(case.missing), "not_replaced": list(case.not_replaced)}
    if case.functional_depth_mm is not None:
        teeth["functional_depth_mm"] = case.functional_depth_mm
    sheet: dict[str, Any] = {
        "claspwright": 1,
        "case": {
            "id": "DEMO-" + case.name.upper().replace("_", "-"),
            "arch": case.jaw,
            "notation": "iso3950",
            "alloy": "cocr-lpbf-stress-relieved",
        },
        "scans": {k: v for k, v in scans.items() if v is not None},
        "teeth": teeth,
    }
    return tomlkit.dumps(sheet)
