"""What changed in a framework from one inspection to the next, and whether a film confirms it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from claspwright.base import InputError
from claspwright.records import Register, Signed, made_from

FIGURES = ("bias_um", "sd_um", "rms_um", "p95_um", "rest_gap_um", "rocking_um")
FILM, SEATING = "silicone film", "seating"


@dataclass(frozen=True, slots=True)
class Change:
    """One figure through the inspections of one kind, first to last."""

    what: str  # kind of inspection
    name: str  # of the figure, or "gap under" an area; um
    values: tuple[float, ...]

    @property
    def change(self) -> float:
        """Last less first."""
        return self.values[-1] - self.values[0]


def changes_of(register: Register, part: str) -> tuple[Change, ...]:
    """Every figure of a framework through its inspections, in the order of entry.

    Raises:
        InputError: the framework was not inspected.
    """
    rows = [body for _, body in made_from(register, f"part:{part}", "inspection")]
    if not rows:
        raise InputError("no inspection of this framework is entered", place=part)
    found: dict[tuple[str, str], list[float]] = {}
    for body in rows:
        what = body.get("what", "")
        for name in FIGURES:
            if name in body:
                found.setdefault((what, name), []).append(float(body[name]))
        for area, gap in body.get("rests", {}).items():
            found.setdefault((what, f"gap under {area}"), []).append(float(gap))
    return tuple(Change(what, name, tuple(values)) for (what, name), values in found.items())


def film_against_seating(register: Register, part: str) -> dict[str, float]:
    """Latest thickness of the film less the latest gap of the seating, by area [um]."""
    latest = {
        body.get("what", ""): body.get("rests", {})
        for _, body in made_from(register, f"part:{part}", "inspection")
    }
    film, seating = latest.get(FILM, {}), latest.get(SEATING, {})
    return {area: round(film[area] - seating[area], 1) for area in film if area in seating}


def enter_film(
    register: Register, part: str, gaps_um: Mapping[str, float], limit_um: float, signed: Signed
) -> int:
    """Enter the thickness of a silicone film under each rest, which confirms the seating.

    Args:
        register: the open register.
        part: the framework.
        gaps_um: thickness by area.
        limit_um: above which the framework does not pass.
        signed: who and when.

    Returns:
        The number of the entry.

    Source:
        the film is scanned or measured on the seated framework; check-values G20, G06, G09.
    """
    if not gaps_um or min(gaps_um.values()) < 0:
        raise InputError("a film needs a thickness of nought or more for one area or more")
    mean = sum(gaps_um.values()) / len(gaps_um)
    earlier = made_from(register, f"part:{part}", "inspection")
    number = 1 + sum(1 for _, body in earlier if body.get("what") == FILM)
    body = {
        "part": part,
        "what": FILM,
        "passed": max(gaps_um.values()) <= limit_um,
        "rests": dict(gaps_um),
        "rest_gap_um": round(mean, 1),
    }
    return register.add("inspection", f"{part}/film/{number}", body, signed)
