"""What can be entered: each kind with its fields, and which of them name what it came from."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from claspwright.base import InputError

Body = Mapping[str, Any]  # Any: a JSON object
_WORDS = {str: "a text", float: "a number", bool: "true or false", list: "a list", dict: "a table"}


@dataclass(frozen=True, slots=True)
class Kind:
    """The fields of one kind of entry.

    A field under `parents` holds the id (or a list of ids, or a list of tables with `id` and
    `mass_g`) of things of another kind that this one was made from or belongs to.
    """

    needed: Mapping[str, type]
    optional: Mapping[str, type] = field(default_factory=dict)
    parents: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # field: kinds it may name


FEEDSTOCK = ("lot", "batch")
KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "case": Kind(
            {"arch": str, "patient": str, "prescriber": str},
            {"due": str, "alloy": str, "parent_case": str, "price": float, "currency": str,
             "received": str, "kennedy_class": str, "health_institution": str, "teeth": str,
             "shade": str, "gum_shade": str, "tooth_mould": str, "altered_cast": bool,
             "work": str, "reason": str},
            {"parent_case": ("case",)},
        ),
        "revision": Kind(
            {"case": str, "hash": str}, {"text": str, "design": str, "files": list},
            {"case": ("case",)},
        ),
        "approval": Kind(
            {"revision": str, "hash": str, "approved": bool}, {"text": str},
            {"revision": ("revision",)},
        ),
        "lot": Kind(
            {"alloy": str, "mass_g": float, "received": str},
            {"maker_lot": str, "certificate": dict, "certificate_file": str, "expires": str,
             "certificate_passed": bool, "findings": list},
        ),
        "batch": Kind(
            {"operation": str, "sources": list},
            {"sieve_um": float, "lost_g": float, "build": str, "text": str},
            {"sources": FEEDSTOCK, "build": ("build",)},
        ),
        "build": Kind(
            {"machine": str, "feedstock": list},
            {"started": str, "ended": str, "layers": float, "layer_um": float, "loaded_g": float,
             "recovered_g": float, "sieved_out_g": float, "parts_g": float, "supports_g": float,
             "file": str, "recoater": str},
            {"feedstock": FEEDSTOCK},
        ),
        "part": Kind(
            {"case": str, "build": str},
            {"revision": str, "x_mm": float, "y_mm": float, "turn_deg": float, "mass_g": float,
             "contacts": list, "untouched": list, "finishing": list, "masked": list},
            {"case": ("case",), "build": ("build",), "revision": ("revision",)},
        ),
        "furnace_run": Kind(
            {"builds": list, "schedule": str, "passed": bool},
            {"log": str, "instrument": str, "gas": str, "text": str, "hours": float,
             "soak_min": float, "highest_c": float, "cooling_c_per_h": float, "findings": list,
             "calibrated": bool, "calibrated_until": str},
            {"builds": ("build",), "instrument": ("instrument",)},
        ),
        "instrument": Kind({"what": str}, {"serial": str, "range": str}),
        "calibration": Kind(
            {"instrument": str, "done": str, "due": str, "passed": bool},
            {"certificate_file": str, "deviation": float, "unit": str},
            {"instrument": ("instrument",)},
        ),
        "inspection": Kind(
            {"part": str, "passed": bool},
            {"bias_um": float, "rms_um": float, "p95_um": float, "rest_gap_um": float,
             "file": str, "instrument": str, "text": str, "what": str, "sd_um": float,
             "overlap_share": float, "rocking_um": float, "regions": dict, "rests": dict,
             "design": str, "scan": str, "scan_to_design": list, "findings": list,
             "calibrated": bool,
             "calibrated_until": str},
            {"part": ("part",), "instrument": ("instrument",)},
        ),
        "adjustment": Kind(
            {"part": str, "place": str, "amount_um": float},
            {"text": str, "seated": bool, "how": str, "minutes": float},
            {"part": ("part",)},
        ),
        "jaw_record": Kind(
            {"case": str, "made": str},
            {"part": str, "wax_rims": bool, "vertical_mm": float, "file": str, "text": str},
            {"case": ("case",), "part": ("part",)},
        ),
        "altered_cast": Kind(
            {"case": str, "needed": bool}, {"done": str, "file": str, "text": str},
            {"case": ("case",)},
        ),
        "delivery": Kind(
            {"case": str, "delivered": str, "fits": bool}, {"minutes": float, "text": str},
            {"case": ("case",)},
        ),
        "follow_up": Kind(
            {"case": str, "seen": str, "worn": bool},
            {"retains": bool, "sore": bool, "fracture": bool, "relined": bool, "text": str},
            {"case": ("case",)},
        ),
        "nonconformity": Kind(
            {"about": str, "cause": str, "open": bool},
            {"text": str, "remake": str, "action": str},
            {"about": ("part", "case", "build", "lot", "batch", "furnace_run")},
        ),
        "acrylic": Kind(
            {"case": str, "powder_lot": str, "liquid_lot": str},
            {"powder_g": float, "liquid_ml": float, "cycle": str, "tooth_lot": str,
             "base_cm3": float, "shrinkage_percent": float},
            {"case": ("case",)},
        ),
        "document": Kind(
            {"case": str, "title": str, "file": str}, {"text": str, "revision_hash": str},
            {"case": ("case",)},
        ),
        "signature": Kind({"about": str, "hash": str, "meaning": str}, {"role": str}),
        "complaint": Kind(
            {"case": str, "text": str, "open": bool}, {"harm": bool, "action": str},
            {"case": ("case",)},
        ),
        "dispatch": Kind(
            {"case": str}, {"sent": str, "text": str, "minutes": float, "cost": float},
            {"case": ("case",)},
        ),
        "erasure": Kind({"pseudonym": str}, {"reason": str}),
    }
)  # fmt: skip


def checked(kind: str, body: Body) -> dict[str, Any]:
    """The body, once every field is known, present and of its type.

    Raises:
        InputError: the kind or a field is unknown, missing or of another type.
    """
    if kind not in KINDS:
        raise InputError(f"no kind of entry {kind!r}", remedy=f"Known ones: {', '.join(KINDS)}.")
    rules = KINDS[kind]
    types = {**rules.needed, **rules.optional}
    for name in rules.needed:
        if name not in body:
            raise InputError(f"the field {name!r} is missing", place=kind)
    for name, value in body.items():
        if name not in types:
            known = ", ".join(types)
            raise InputError(f"no field {name!r}", place=kind, remedy=f"Known ones: {known}.")
        if not _fits(value, types[name]):
            raise InputError(f"{name!r} must be {_WORDS[types[name]]}, got {value!r}", place=kind)
    return dict(body)


def _fits(value: Any, wanted: type) -> bool:
    if wanted is float:
        return isinstance(value, (int, float)) and not isinstance(value, bool)
    return isinstance(value, wanted)


def parents_of(kind: str, body: Body) -> list[tuple[str, str, float | None]]:
    """(relation, id or kind:id, mass [g] or None) of all that an entry came from."""
    out: list[tuple[str, str, float | None]] = []
    for name in KINDS[kind].parents:
        value = body.get(name)
        for one in value if isinstance(value, list) else [value] if value else []:
            if isinstance(one, dict):
                mass = one.get("mass_g")
                out.append((name, str(one.get("id", "")), None if mass is None else float(mass)))
            else:
                out.append((name, str(one), None))
    return out


def canonical(value: Any) -> str:
    """JSON with sorted keys and no blanks: the same value gives the same text."""
    try:
        return json.dumps(
            value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False
        )
    except (TypeError, ValueError) as error:
        raise InputError(f"cannot be kept as JSON: {error}") from error
