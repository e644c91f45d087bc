"""Acrylic of the denture bases: amounts, curing cycle, shrinkage, bend test."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from claspwright.base import Finding, InputError, Severity

POLYMER_G_CM3 = 1.19  # check-values H16, D45
MONOMER_G_CM3 = 0.945  # check-values H16
POWDER_TO_LIQUID_MASS = 2.5  # H09, Phillips' Science of Dental Materials (from memory)
POWDER_TO_LIQUID_VOLUME = 3.0
MONOMER_BOILS_C = 100.8  # H15, handbook (from memory)
PURE_SHRINKAGE = 1.0 - MONOMER_G_CM3 / POLYMER_G_CM3  # 20.6 % by volume
MIX_SHRINKAGE = 0.07  # of a 3:1 mix by volume, H16 (from memory)
OBSERVED_LINEAR = (0.002, 0.005)  # H17 (from memory)

Model = Literal["stone", "printed resin"]


@dataclass(frozen=True, slots=True)
class AcrylicAmount:
    """What to weigh and measure for a denture."""

    base_cm3: float  # as cured, without what is trimmed
    excess_share: float
    powder_g: float
    liquid_ml: float
    powder_cm3: float  # by volume, 3:1


def acrylic_amount(base_mm3: float, *, excess_share: float = 0.25) -> AcrylicAmount:
    """Powder and liquid for a base of a volume, with an excess for packing.

    Args:
        base_mm3: volume of the acrylic as cured.
        excess_share: for the flash at trial closure (common practice, no source).

    Source:
        2.5:1 by mass, 3:1 by volume: Phillips' (from memory); check-values H09. Mass is kept in
        curing, so that powder and liquid together weigh what the cured base weighs.
    """
    if not base_mm3 > 0 or not 0 <= excess_share <= 2:
        raise InputError(f"no amount for {base_mm3} mm3 with an excess of {excess_share}")
    mass = base_mm3 / 1000.0 * POLYMER_G_CM3 * (1.0 + excess_share)
    liquid_g = mass / (1.0 + POWDER_TO_LIQUID_MASS)
    liquid_ml = liquid_g / MONOMER_G_CM3
    return AcrylicAmount(
        base_cm3=base_mm3 / 1000.0,
        excess_share=excess_share,
        powder_g=mass - liquid_g,
        liquid_ml=liquid_ml,
        powder_cm3=POWDER_TO_LIQUID_VOLUME * liquid_ml,
    )


def linear_shrinkage(volumetric: float = MIX_SHRINKAGE) -> float:
    """Ideal linear share of a volumetric shrinkage: 1 - (1 - v)^(1/3).

    Observed is far less, 0.2 to 0.5 %, because the mass is held while it still flows.

    Source:
        check-values H17.
    """
    if not 0 <= volumetric < 1:
        raise InputError(f"a volumetric shrinkage of {volumetric} makes no sense")
    return 1.0 - float((1.0 - volumetric) ** (1.0 / 3.0))


@dataclass(frozen=True, slots=True)
class CureStep:
    """The bath at a temperature for a time; a rise lasts until the next step is reached."""

    bath_c: float
    minutes: float
    rise_min: float = 0.0  # taken to reach this temperature


LONG_CYCLE = (CureStep(74.0, 510.0, 30.0),)  # H12, 8 to 9 h
SHORT_CYCLE = (CureStep(74.0, 105.0, 30.0), CureStep(100.0, 60.0, 20.0))  # H13


def judge_cure(
    steps: Sequence[CureStep], *, model: Model, bench_cool_min: float, water_cool_min: float
) -> tuple[Finding, ...]:
    """What is wrong with a heat-curing cycle and its cooling.

    Source:
        check-values H11 to H15: Int J Dent Sci Res 3(3):6 (direct plunge worst), Phillips'
        (cycles, from memory), J Clin Diagn Res 2016;10(11):ZC50 (quenching).
    """
    if not steps or any(step.minutes < 0 or step.rise_min < 0 for step in steps):
        raise InputError("a curing cycle needs one or more steps of positive time")
    out: list[Finding] = []
    if model == "printed resin":
        out.append(
            _found(
                "acrylic.model",
                "stop",
                "A printed resin model softens in the bath: duplicate it in stone before packing.",
                "common practice, no source",
            )
        )
    warm = sum(step.minutes for step in steps if 68.0 <= step.bath_c <= 78.0)
    hot = sum(step.minutes for step in steps if step.bath_c >= 95.0)
    hottest = max(step.bath_c for step in steps)
    first_hot = next((n for n, step in enumerate(steps) if step.bath_c >= 95.0), None)
    before = sum(step.minutes for step in steps[:first_hot]) if first_hot is not None else 0.0
    if first_hot is not None and before < 60.0 and steps[first_hot].rise_min < 30.0:
        out.append(_found("acrylic.plunge", "stop", "The bath boils before the mass has set: "
                          f"the monomer boils at {MONOMER_BOILS_C} degC and leaves pores. Hold at "
                          "74 degC first.", "Int J Dent Sci Res 3(3):6 [seen A]", before, 60.0,
                          "min"))  # fmt: skip
    if hottest > MONOMER_BOILS_C:
        out.append(
            _found(
                "acrylic.too_hot",
                "stop",
                "The bath is hotter than the monomer boils.",
                "handbook [memory]",
                hottest,
                MONOMER_BOILS_C,
                "degC",
            )
        )
    if not (warm >= 480.0 or (warm >= 90.0 and hot >= 60.0) or (hot >= 60.0 and before == 0.0)):
        out.append(_found("acrylic.cycle", "look", "Neither the long cycle (74 degC, 8 to 9 h) nor "
                          "the short one (74 degC for 1.5 to 2 h, then 100 degC for 1 h): follow "
                          "the maker's instructions.", "Phillips' [memory]"))  # fmt: skip
    if bench_cool_min < 30.0:
        out.append(_found("acrylic.quench", "look", "Cool on the bench for 30 min, then in water "
                          "for 15 min: quenching warps the base.",
                          "J Clin Diagn Res 2016;10(11):ZC50 [seen A]; times [memory]",
                          bench_cool_min, 30.0, "min"))  # fmt: skip
    elif water_cool_min < 15.0:
        out.append(
            _found(
                "acrylic.opened_warm",
                "look",
                "Cool in water for 15 min before opening.",
                "times from memory",
                water_cool_min,
                15.0,
                "min",
            )
        )
    return tuple(out)


def flexural_strength(force_n: float, span: float, width: float, height: float) -> float:
    """Three-point bending: 3 F L / (2 b h^2) [MPa], lengths in mm.

    Source:
        ISO 20795-1 (from memory); check-values W12.
    """
    return 3.0 * force_n * span / (2.0 * width * height**2)


def flexural_modulus(slope_n_mm: float, span: float, width: float, height: float) -> float:
    """Three-point bending: slope L^3 / (4 b h^3) [MPa], lengths in mm."""
    return slope_n_mm * span**3 / (4.0 * width * height**3)


def _found(
    rule: str, severity: Severity, text: str, source: str, measured: float | None = None,
    limit: float | None = None, unit: str = "",
) -> Finding:  # fmt: skip
    return Finding(rule, severity, text, source, measured, limit, unit)
