"""The cautions that every document carries."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: a heading and what it says."""

    heading: str
    text: str


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "Judgement comes first",
        "This document supports, and does not replace, the prescription and the judgement of the "
        "licensed dentist, nor the laboratory's own quality system. Local codes and the "
        "instructions of the makers of alloy and machine come before anything printed here.",
    ),
    Caution(
        "Before clinical use",
        "The laboratory validates software and special processes in its own quality system. The "
        "regulatory status of the software is the user's to settle before clinical use. The "
        "framework is checked on the model and in the mouth before a denture is finished on it.",
    ),
    Caution(
        "Allergy",
        "A known allergy to nickel, cobalt, chromium or acrylate stops the work until the "
        "prescriber has cleared it in writing.",
    ),
    Caution(
        "Cobalt-chromium powder and grinding dust",
        "Cobalt-chromium is a sensitiser and a suspected or presumed carcinogen; its powder and "
        "fine dust can burn and explode. Extraction, no open handling, no ignition sources, "
        "respiratory and skin protection as the safety data sheet says.",
    ),
    Caution(
        "Filters, condensate and metal waste",
        "Filters and condensate of the machine can catch fire by themselves: handle, passivate "
        "and dispose of them, and of metal waste, as the machine's maker and local rules require.",
    ),
    Caution(
        "Inert gas, laser, furnace",
        "Argon and nitrogen displace air and suffocate without warning: ventilate and monitor "
        "oxygen. Laser radiation: no opening of interlocks. Furnace and hot parts: burns.",
    ),
    Caution(
        "Finishing",
        "Electropolishing acids are corrosive. Methacrylate monomer is flammable and a "
        "sensitiser. Eye, hand and breathing protection, and extraction.",
    ),
)
