"""What the documents of one case print, gathered from the register; all of it as text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from claspwright.base import Finding

CHECK_LAW = (
    "To be checked by the user against local law and the laboratory's own quality system before "
    "use. Made with Claspwright; it does not replace the judgement of the licensed dentist."
)


@dataclass(frozen=True, slots=True)
class Laboratory:
    """Who makes the device, as its documents print it."""

    name: str
    address: str
    sites: tuple[str, ...] = ()  # further manufacturing sites
    authorised_representative: str = ""
    responsible: str = ""  # who signs
    country: str = ""
    registration: str = ""
    phone: str = ""


@dataclass(frozen=True, slots=True)
class PartRecord:
    """One framework of a case with all that it went through."""

    id: str
    build: str
    position: str
    mass_g: str
    lots: tuple[str, ...]
    batches: tuple[str, ...]
    furnace: Mapping[str, str] = field(default_factory=dict)
    inspection: Mapping[str, str] = field(default_factory=dict)
    adjustments: tuple[tuple[str, str, str], ...] = ()  # place, amount um, text


@dataclass(frozen=True, slots=True)
class CaseRecord:
    """One case as its documents need it."""

    id: str
    patient: str  # pseudonym
    prescriber: str
    health_institution: str
    arch: str
    kennedy_class: str
    alloy: str  # in words
    alloy_elements: tuple[str, ...]
    alloy_traces: tuple[str, ...]
    received: str
    due: str
    teeth: str
    tooth_mould: str
    shade: str
    gum_shade: str
    altered_cast: bool
    design: str
    revision: str
    revision_hash: str
    approved: str
    parts: tuple[PartRecord, ...]
    acrylic: Mapping[str, str] = field(default_factory=dict)
    price: str = ""
    parent_case: str = ""
    open_stops: tuple[Finding, ...] = ()
    date: str = ""
