"""Cusps, ridges and outlines of the sixteen crown forms, as fractions of the crown's size.

Tooth frame: m towards the midline along the arch, b towards the cheek or lip, z occlusal
from the cervix. Proportions after the descriptions in textbooks of dental anatomy (common
knowledge of the trade, no single source); depths of fossae after the medians measured on
179 research scans.
"""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch import Jaw


@dataclass(frozen=True, slots=True)
class Cusp:
    """One cusp: place in fractions of the half sizes, how far its tip lies below the highest.

    `aim` is where its inner ridge runs to, in the same fractions.
    """

    m: float
    b: float
    drop_mm: float = 0.0
    aim: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class PosteriorForm:
    """Occlusal surface of a premolar or molar."""

    cusps: tuple[Cusp, ...]
    fossa_mm: float  # central fossa below the highest cusp
    ridge_mm: tuple[float, float]  # mesial, distal marginal ridge below the highest cusp
    ridge_at: tuple[float, float] = (0.80, 0.80)  # of the half width
    grooves: tuple[tuple[float, float], ...] = ()  # (m fraction, side: +1 buccal, -1 lingual)
    outline: float = 2.6  # exponent of the outline seen from occlusal
    shear: float = 0.0  # m moved per b: rhomboid outline
    buccal_inset: float = 0.30  # outline at the top, inside the buccal crest, of the half width
    lingual_inset: float = 0.26
    lingual_narrow: float = 0.0  # the crown is narrower on the lingual side


@dataclass(frozen=True, slots=True)
class AnteriorForm:
    """Incisor or canine: profile in fractions of the half labiolingual size."""

    edge_b: float  # labiolingual place of the incisal edge
    edge_mm: float  # thickness near the edge
    cingulum: float  # height of the cingulum's crest, of the crown length
    fossa_mm: float  # depth of the lingual fossa between its marginal ridges
    point_mm: float  # how far the edge falls from the tip to its corners
    corner: tuple[float, float]  # rounding of the mesial and distal corner [mm]
    contact: tuple[float, float] = (0.84, 0.78)  # heights of the contacts, of the length
    outline: float = 2.3
    labial_ridge_mm: float = 0.0


_U4 = PosteriorForm(
    cusps=(Cusp(-0.05, 0.60, 0.0, (0.0, 0.0)), Cusp(0.16, -0.58, 0.9, (0.0, 0.0))),
    fossa_mm=2.6,
    ridge_mm=(1.75, 1.65),
    outline=2.35,
    buccal_inset=0.28,
    lingual_inset=0.30,
    lingual_narrow=0.10,
)
_U5 = PosteriorForm(
    cusps=(Cusp(0.02, 0.58, 0.0), Cusp(0.12, -0.56, 0.3)),
    fossa_mm=2.15,
    ridge_mm=(1.4, 1.35),
    outline=2.35,
    buccal_inset=0.28,
    lingual_inset=0.30,
    lingual_narrow=0.05,
)
_U6 = PosteriorForm(
    cusps=(
        Cusp(0.50, 0.62, 0.25, (0.30, 0.05)),
        Cusp(-0.40, 0.60, 0.45, (0.05, -0.10)),
        Cusp(0.26, -0.50, 0.0, (-0.05, 0.15)),
        Cusp(-0.56, -0.52, 1.2, (-0.35, -0.10)),
    ),
    fossa_mm=2.55,
    ridge_mm=(1.45, 1.6),
    grooves=((0.04, 1.0), (-0.22, -1.0)),
    outline=2.9,
    shear=0.13,
    buccal_inset=0.24,
    lingual_inset=0.26,
)
_U7 = PosteriorForm(
    cusps=(
        Cusp(0.48, 0.62, 0.2, (0.28, 0.05)),
        Cusp(-0.40, 0.58, 0.6, (0.05, -0.10)),
        Cusp(0.18, -0.50, 0.0, (-0.05, 0.15)),
        Cusp(-0.58, -0.45, 1.7, (-0.35, -0.05)),
    ),
    fossa_mm=2.7,
    ridge_mm=(1.5, 1.8),
    grooves=((0.04, 1.0), (-0.28, -1.0)),
    outline=2.7,
    shear=0.17,
    buccal_inset=0.24,
    lingual_inset=0.27,
    lingual_narrow=0.08,
)
_U8 = PosteriorForm(
    cusps=(
        Cusp(0.45, 0.58, 0.2, (0.2, 0.0)),
        Cusp(-0.40, 0.52, 0.9, (-0.1, -0.1)),
        Cusp(0.08, -0.52, 0.0, (0.0, 0.1)),
    ),
    fossa_mm=2.4,
    ridge_mm=(1.4, 1.7),
    grooves=((0.0, 1.0),),
    outline=2.4,
    shear=0.15,
    lingual_narrow=0.15,
)
_L4 = PosteriorForm(
    cusps=(Cusp(0.04, 0.36, 0.0, (0.0, -0.2)), Cusp(0.10, -0.62, 2.1, (0.05, -0.2))),
    fossa_mm=2.6,
    ridge_mm=(1.9, 1.55),
    ridge_at=(0.76, 0.80),
    outline=2.2,
    buccal_inset=0.50,
    lingual_inset=0.22,
    lingual_narrow=0.16,
)
_L5 = PosteriorForm(
    cusps=(
        Cusp(0.06, 0.48, 0.0, (0.0, -0.1)),
        Cusp(0.34, -0.56, 0.6, (0.08, -0.1)),
        Cusp(-0.44, -0.52, 1.05, (-0.12, -0.1)),
    ),
    fossa_mm=1.95,
    ridge_mm=(1.35, 1.45),
    grooves=((-0.14, -1.0),),
    outline=2.5,
    buccal_inset=0.40,
    lingual_inset=0.22,
)
_L6 = PosteriorForm(
    cusps=(
        Cusp(0.52, 0.56, 0.45, (0.30, 0.0)),
        Cusp(-0.10, 0.60, 0.5, (-0.06, 0.0)),
        Cusp(-0.66, 0.36, 1.0, (-0.42, 0.0)),
        Cusp(0.50, -0.62, 0.0, (0.26, -0.05)),
        Cusp(-0.36, -0.62, 0.2, (-0.22, -0.05)),
    ),
    fossa_mm=2.45,
    ridge_mm=(1.4, 1.6),
    grooves=((0.22, 1.0), (-0.42, 1.0), (0.06, -1.0)),
    outline=3.0,
    buccal_inset=0.34,
    lingual_inset=0.22,
)
_L7 = PosteriorForm(
    cusps=(
        Cusp(0.46, 0.56, 0.3, (0.25, 0.0)),
        Cusp(-0.44, 0.55, 0.5, (-0.25, 0.0)),
        Cusp(0.46, -0.62, 0.0, (0.25, -0.05)),
        Cusp(-0.44, -0.60, 0.25, (-0.25, -0.05)),
    ),
    fossa_mm=2.6,
    ridge_mm=(1.4, 1.6),
    grooves=((0.02, 1.0), (0.02, -1.0)),
    outline=3.0,
    buccal_inset=0.34,
    lingual_inset=0.22,
)
_L8 = PosteriorForm(
    cusps=(
        Cusp(0.46, 0.54, 0.3, (0.2, 0.0)),
        Cusp(-0.42, 0.50, 0.6, (-0.2, 0.0)),
        Cusp(0.44, -0.58, 0.0, (0.2, -0.05)),
        Cusp(-0.42, -0.54, 0.4, (-0.2, -0.05)),
    ),
    fossa_mm=2.3,
    ridge_mm=(1.3, 1.5),
    grooves=((0.02, 1.0), (0.02, -1.0)),
    outline=2.6,
    buccal_inset=0.34,
    lingual_inset=0.24,
)

FORMS: dict[Jaw, tuple[AnteriorForm | PosteriorForm, ...]] = {
    "maxilla": (
        AnteriorForm(0.18, 1.15, 0.17, 0.55, 0.15, (0.35, 0.9), (0.86, 0.76), 2.7),
        AnteriorForm(0.16, 1.10, 0.18, 0.50, 0.30, (0.6, 1.2), (0.80, 0.70), 2.4),
        AnteriorForm(0.12, 1.5, 0.22, 0.30, 1.9, (0.6, 0.8), (0.70, 0.58), 2.2, 0.35),
        _U4, _U5, _U6, _U7, _U8,
    ),
    "mandible": (
        AnteriorForm(0.02, 1.2, 0.16, 0.22, 0.05, (0.3, 0.35), (0.88, 0.87), 2.2),
        AnteriorForm(0.02, 1.2, 0.17, 0.25, 0.15, (0.35, 0.5), (0.87, 0.82), 2.2),
        AnteriorForm(0.04, 1.5, 0.20, 0.25, 1.6, (0.5, 0.8), (0.80, 0.66), 2.15, 0.30),
        _L4, _L5, _L6, _L7, _L8,
    ),
}  # fmt: skip
