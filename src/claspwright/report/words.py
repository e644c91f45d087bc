"""Designs, components and figures in words of the trade."""

from __future__ import annotations

from math import isfinite

from claspwright.arch import Jaw
from claspwright.framework import (
    Component,
    DentureBase,
    Design,
    MajorConnector,
    Retainer,
    jaw_of_form,
)
from claspwright.report.content import Measure, RoomRow
from claspwright.survey import PathOfPlacement

_UNITS = (
    ("_per_mm2", "/mm²"), ("_mm3", "mm³"), ("_mm2", "mm²"), ("_mm", "mm"), ("_um", "µm"),
    ("_deg", "°"), ("_mpa", "MPa"), ("_gpa", "GPa"), ("_pct", "%"), ("_n", "N"), ("_g", "g"),
)  # fmt: skip


def listed(words: list[str] | tuple[str, ...]) -> str:
    """Words joined as a sentence does: a, b and c."""
    words = [w for w in words if w]
    return (
        words[0]
        if len(words) == 1
        else ", ".join(words[:-1]) + f" and {words[-1]}"
        if words
        else ""
    )


def figure(value: float | str | None, unit: str = "", *, finer: int = 0) -> str:
    """A value with its unit, to about three figures; `finer` asks for more decimals."""
    if value is None:
        return ""
    signs = {"deg": "°", "degC": "°C", "mm3": "mm³", "mm2": "mm²", "um": "µm"}
    unit = signs.get(unit, unit)
    text = value if isinstance(value, str) else _rounded(float(value), unit, finer)
    if not unit:
        return text
    if unit in ("°", "%"):
        return text + unit
    gap = " " if len(unit) > 5 else "\N{NO-BREAK SPACE}"  # a unit that is a word may wrap
    return f"{text}{gap}{unit}"


def room_cells(row: RoomRow) -> list[str]:
    """Words, room in closing, room along the path, and what is wanted."""
    return [row.words, _room(row.closing_mm), _room(row.path_mm), _room(row.wanted_mm)]


def _room(value: float | None) -> str:
    if value is None:
        return ""
    return figure(f"{round(value, 2) + 0.0:.2f}", "mm") if isfinite(value) else "free"


def compared(
    measured: float | str | None, limit: float | str | None, unit: str = ""
) -> tuple[str, str]:
    """A measured value and its limit, with as many decimals as it takes to tell them apart."""
    pair = figure(measured, unit), figure(limit, unit)
    if isinstance(measured, str) or isinstance(limit, str) or measured == limit:
        return pair
    for finer in range(1, 4):
        if pair[0] != pair[1]:
            break
        pair = figure(measured, unit, finer=finer), figure(limit, unit, finer=finer)
    return pair


def _rounded(value: float, unit: str, finer: int) -> str:
    size = abs(value)
    if unit == "°":
        digits = 1
    else:
        digits = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 0.1 or size == 0 else 4
    text = f"{value:.{digits + finer}f}"
    if digits == 4 or size == 0 or value == round(value) and not unit:
        text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "\N{MINUS SIGN}")


def has_unit(key: str) -> bool:
    """Whether the name of a figure ends in a unit; those that do not are marks for the program."""
    return any(key.lower().endswith(ending) for ending, _ in _UNITS)


def measure_of(key: str, value: float, source: str = "") -> Measure:
    """A named figure such as "tip_force_n" as a measure: tip force, N."""
    for ending, unit in _UNITS:
        if key.lower().endswith(ending):
            return Measure(key[: -len(ending)].replace("_", " "), value, unit, source)
    return Measure(key.replace("_", " "), value, "", source)


def path_words(path: PathOfPlacement) -> str:
    """The path of placement as a sentence."""
    tilts = []
    front, side = path.anterior_tilt_deg, path.right_lateral_tilt_deg
    if abs(front) >= 0.05:
        tilts.append(
            f"front of the cast {'lowered' if front > 0 else 'raised'} by {abs(front):.1f}°"
        )
    if abs(side) >= 0.05:
        tilts.append(
            f"patient's {'right' if side > 0 else 'left'} side lowered by {abs(side):.1f}°"
        )
    if not tilts:
        return "Path of placement: at right angles to the occlusal plane (no tilt)."
    return f"Path of placement: {listed(tilts)}."


def retainer_parts(retainer: Retainer) -> list[str]:
    """What one tooth carries, each in a few words."""
    parts = [f"{rest} rest" for rest in retainer.rests]
    parts += [f"{end} proximal plate" for end in retainer.proximal_plates]
    clasp = retainer.clasp
    if clasp is not None:
        form = clasp.form if clasp.is_bar else f"{clasp.form} clasp"
        parts.append(f"{clasp.side} {form}")
        parts.append(f"undercut {clasp.undercut_mm:.2f} mm")
        if clasp.reciprocal:
            other = "lingual" if clasp.side == "buccal" else "buccal"
            parts.append(f"{other} reciprocal arm")
    if retainer.indirect:
        parts.append("indirect retainer")
    return parts


def connector_words(connector: MajorConnector) -> str:
    """The major connector as a sentence."""
    across = (
        f"{connector.height_mm:g} mm high"
        if jaw_of_form(connector.form) == "mandible"
        else f"{connector.width_mm:g} mm wide"
    )
    return (
        f"Major connector: {connector.form}, {across}, {connector.thickness_mm:g} mm thick, "
        f"{connector.margin_distance_mm:g} mm or more from the gingival margins."
    )


def base_words(base: DentureBase) -> str:
    """A denture base as a sentence."""
    teeth = ", ".join(str(t) for t in base.teeth)
    return (
        f"Denture base for {teeth}: {base.retention}, struts {base.thickness_mm:g} mm, "
        f"relief {base.relief_mm:g} mm."
    )


def design_words(design: Design) -> tuple[str, ...]:
    """The design as sentences, one a retainer, connector and base."""
    retainers = [f"{r.tooth}: {listed(retainer_parts(r))}." for r in design.retainers]
    return (
        connector_words(design.connector),
        *retainers,
        *(base_words(base) for base in design.bases),
    )


def component_words(component: Component) -> str:
    """A component in words: its kind, its tooth and the rest of its id."""
    tail = [p for p in component.id.split(".")[1:] if not p.isdigit()]
    detail = " ".join(p.replace("_", " ") for p in tail)
    tooth = f" {component.tooth}" if component.tooth is not None else ""
    return f"{component.kind}{tooth}" + (f", {detail}" if detail else "")


def jaw_words(jaw: Jaw) -> str:
    """The jaw as a heading."""
    return "Mandible" if jaw == "mandible" else "Maxilla"
