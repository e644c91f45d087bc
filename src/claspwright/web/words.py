"""A prescription as sentences."""

from __future__ import annotations

from claspwright.case import CaseSheet


def prescription_sentences(sheet: CaseSheet, kennedy: str) -> list[str]:
    """What the dentist asks for, as one would read it out."""
    asked = sheet.prescription
    replaced = [t for t in asked.missing if t not in asked.not_replaced]
    out = [
        f"{asked.jaw.capitalize()}, {kennedy}.",
        f"Missing and to be replaced: {_teeth(replaced)}.",
    ]
    if asked.not_replaced:
        out.append(f"Missing, not replaced: {_teeth(asked.not_replaced)}.")
    if asked.present_abutments:
        out.append(f"Third molars that carry the denture: {_teeth(asked.present_abutments)}.")
    if asked.functional_depth_mm is not None:
        out.append(f"Functional lingual depth, probed: {asked.functional_depth_mm:g} mm.")
    elif asked.jaw == "mandible":
        out.append("The functional lingual depth was not probed.")
    if asked.allergies:
        cleared = asked.allergies_cleared or "not cleared by the prescriber"
        out.append(f"Allergies: {', '.join(asked.allergies)} ({cleared}).")
    if asked.vertical_dimension:
        out.append(f"Vertical dimension: {asked.vertical_dimension}")
    who = [asked.patient and f"Patient {asked.patient}", asked.prescriber, asked.laboratory]
    if any(who):
        out.append(", ".join(word for word in who if word) + ".")
    if asked.prescribed:
        out.append(f"Prescribed on {asked.prescribed:%Y-%m-%d}.")
    if asked.notes:
        out.append(asked.notes)
    return out


def _teeth(codes: tuple[int, ...] | list[int]) -> str:
    return ", ".join(str(code) for code in codes) or "none"
