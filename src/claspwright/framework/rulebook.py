"""The table of proposal rules, as values."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Literal

from claspwright.arch import kind_of
from claspwright.framework.design import (
    BARS,
    Clasp,
    ClaspForm,
    ConnectorForm,
    MajorConnector,
    Side,
)
from claspwright.limits import limit

Role = Literal["free end", "bounded", "anterior", "cross arch", "bracing", "indirect"]
RestPlace = Literal["gap", "away", "open", "mesial", "cingulum", "none"]


@dataclass(frozen=True, slots=True)
class RoleRule:
    """What a tooth of some kind gets in one role."""

    role: Role
    rest: RestPlace
    plate: bool
    clasps: tuple[ClaspForm, ...]
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class ProposalRules:
    """The whole table."""

    roles: Mapping[tuple[Role, str], RoleRule]  # by role and kind of tooth
    numbers: Mapping[str, float]
    clasp_sizes: Mapping[str, tuple[float, float]]  # kind -> root width, thickness [mm]
    connectors: Mapping[str, Mapping[str, Any]]


@cache
def proposal_rules() -> ProposalRules:
    """Read the table."""
    path = files("claspwright.framework").joinpath("proposal_rules.toml")
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    roles: dict[tuple[Role, str], RoleRule] = {}
    for row in table["role"]:
        rule = RoleRule(
            row["role"], row["rest"], row["plate"], tuple(row["clasps"]), row["text"], row["source"]
        )
        roles |= {(rule.role, kind): rule for kind in row["kinds"]}
    sizes = {k: (v["width_mm"], v["thickness_mm"]) for k, v in table["clasp_size"].items()}
    return ProposalRules(
        MappingProxyType(roles), table["numbers"], MappingProxyType(sizes), table["connector"]
    )


def default_clasp(
    tooth: int, form: ClaspForm, side: Side = "buccal", undercut_mm: float | None = None
) -> Clasp:
    """A clasp with the root sizes that suit its form and this kind of tooth.

    A bar clasp is reciprocated by the proximal plate and the minor connector of the rest, as in
    the RPI concept (Krol 1973 [memory]); one from above by an arm.
    """
    arm = form not in BARS
    wire = form == "wrought wire"
    width, thickness = proposal_rules().clasp_sizes[kind_of(tooth) if arm else "bar"]
    if wire:
        width = thickness = limit("clasp.wire_diameter").value
    if undercut_mm is None:
        deep = wire and kind_of(tooth) == "molar"
        undercut_mm = limit("clasp.wire_undercut" if deep else "clasp.undercut").value
    return Clasp(form, side, undercut_mm, width_mm=width, thickness_mm=thickness, reciprocal=arm)


def default_connector(form: ConnectorForm) -> MajorConnector:
    """A major connector of this form with its usual sizes."""
    row = proposal_rules().connectors[form]
    return MajorConnector(
        form,
        height_mm=row["height_mm"],
        width_mm=row["width_mm"],
        thickness_mm=row["thickness_mm"],
        margin_distance_mm=row["margin_distance_mm"],
        relief_mm=row["relief_mm"],
    )
