"""The denture of a case as a body: what holds it, where it lifts, who bears a bite."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch, Span
from claspwright.base import Bools, ConvergenceError, Floats
from claspwright.framework import DentureBase, Framework, span_of_base
from claspwright.geometry import arc_lengths, point_at
from claspwright.materials import condition
from claspwright.mechanics.body import Giving, Hold, Motions, motions
from claspwright.mechanics.ridge import Bed, Sharing, sharing
from claspwright.survey import Survey

STEP = 1.0  # mm between points of the map along a crest
ROWS = (-1.0, -0.5, 0.0, 0.5, 1.0)  # of a base's width on either side of the crest
OVERHANG = 3.0  # mm that artificial teeth reach to either side of the crest


@dataclass(frozen=True, slots=True, eq=False)
class BasePoints:
    """Points of one denture base; arch frame and plan."""

    base: DentureBase
    free: bool  # the span ends free
    points: Floats  # (P, 3) on the base, arch frame [mm]
    teeth: Mapping[int, Floats]  # (3,) middle of each artificial tooth on the crest
    patches: Floats  # (P,) area of base that each point stands for [mm2]


@dataclass(frozen=True, slots=True, eq=False)
class Bite:
    """A bite on one artificial tooth."""

    tooth: int
    at: Floats  # (3,) arch frame
    tips_at_n: float  # bite that tips the denture on its rests; infinite where it stands
    ridge: tuple[float, float, float]  # share of the ridge: nominal, least, most
    deepest_mm: tuple[float, float, float]  # that the base sinks
    pressure_mpa: tuple[float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class DentureProof:
    """The denture as a body."""

    holds: tuple[Hold, ...]
    bases: tuple[BasePoints, ...]
    lifting_n: Floats  # (P,) least force at each point of all bases that lifts it
    weakest: Giving  # at the point that lifts most easily
    weakest_at: Floats  # (3,) arch frame
    without_indirect_n: float | None  # least force there without indirect retainers
    sink_line: tuple[Floats, Floats] | None  # (2,) plan: bases sink about it, through rests
    bites: tuple[Bite, ...]

    @property
    def points(self) -> Floats:
        """(P, 3) points of the lifting map."""
        return np.vstack([base.points for base in self.bases])

    @property
    def least_n(self) -> float:
        """Least dislodging force anywhere on the bases."""
        return self.weakest.load_n


def plan_axes(path: Floats) -> Floats:
    """(2, 3) rows: unit directions across the path, the first along x, the second along y."""
    first = np.cross([0.0, 1.0, 0.0], path)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(path, first)])


def prove_denture(
    framework: Framework, arch: DentalArch, survey: Survey, withdrawal_n: Mapping[str, float]
) -> DentureProof | None:
    """What lifts and tips the denture.

    Args:
        framework: rests, clasps and bases.
        arch: the spans.
        survey: the path.
        withdrawal_n: force that draws each retentive arm off, by its component's id [N].

    Returns:
        None where the framework has no bases or nothing holds it.
    """
    axes = plan_axes(survey.path.direction)
    bases = base_points(framework, arch)
    holds = holds_of(framework, axes, withdrawal_n)
    if not bases or not holds:
        return None
    body = motions(holds)
    points = np.vstack([base.points for base in bases])
    giving = body.giving(points @ axes.T)
    loads = np.array([one.load_n for one in giving])
    weakest = int(np.argmin(loads))
    return DentureProof(
        holds=holds,
        bases=bases,
        lifting_n=loads,
        weakest=giving[weakest],
        weakest_at=points[weakest],
        without_indirect_n=_without(framework, holds, points[weakest] @ axes.T),
        sink_line=_sink_line(holds),
        bites=tuple(_bites(bases, holds, body, axes)),
    )


def holds_of(
    framework: Framework, axes: Floats, withdrawal_n: Mapping[str, float]
) -> tuple[Hold, ...]:
    """Rests, which push, and clasp tips, which pull to their limit, in the plan."""
    found = []
    for part in framework.components:
        if part.kind == "rest":
            found.append(Hold(part.id, axes @ part.line.mean(axis=0), 0.0, pushes=True))
        elif part.kind == "retentive arm" and part.id in withdrawal_n:
            limit = float(withdrawal_n[part.id])
            found.append(Hold(part.id, axes @ part.line[-1], limit, pushes=False))
    return tuple(found)


def base_points(framework: Framework, arch: DentalArch) -> tuple[BasePoints, ...]:
    """Points over every denture base."""
    found = []
    for base in framework.design.bases:
        span = next((s for s in arch.spans if set(base.teeth) <= set(s.missing)), None)
        if span is not None:
            found.append(_points_on(base, span_of_base(span, base)))
    return tuple(found)


def _points_on(base: DentureBase, span: Span) -> BasePoints:
    lengths = arc_lengths(span.crest)
    share = _share(base, span, lengths)
    first, last = share[0], share[-1]
    at = np.linspace(first, last, max(int((last - first) / STEP), 1) + 1)
    crest = np.stack([np.interp(at, lengths, span.crest[:, k]) for k in range(3)], axis=1)
    out = np.stack([np.interp(at, lengths, span.buccal[:, k]) for k in range(3)], axis=1)
    width = [
        np.minimum(np.interp(at, lengths, side), 2.5 * OVERHANG)
        for side in (span.lingual_width_mm, span.buccal_width_mm)
    ]
    rows, patches = [], []
    for row in ROWS:
        wide = width[0] if row < 0 else width[1]
        rows.append(crest + (row * wide)[:, None] * out)
        strip = (width[0] + width[1]) / (len(ROWS) - 1) * (0.5 if abs(row) == 1 else 1.0)
        patches.append(strip * (last - first) / len(at))
    places = np.linspace(first, last, 2 * len(base.teeth) + 1)[1::2]
    ordered = [tooth for tooth in span.missing if tooth in base.teeth]
    teeth = {t: point_at(span.crest, float(s)) for t, s in zip(ordered, places, strict=True)}
    return BasePoints(base, None in span.ends, np.vstack(rows), teeth, np.concatenate(patches))


def _share(base: DentureBase, span: Span, lengths: Floats) -> Floats:
    """Part of a crest, by arc length, that a base covers."""
    count = len(span.missing)
    places = [k for k, tooth in enumerate(span.missing) if tooth in base.teeth]
    total = float(lengths[-1])
    return np.array([total * places[0] / count, total * (places[-1] + 1) / count])


def _without(framework: Framework, holds: tuple[Hold, ...], at: Floats) -> float | None:
    """Least lifting force at a point without the indirect retainers; None where there is none."""
    teeth = {r.tooth for r in framework.design.retainers if r.indirect}
    names = {c.id for c in framework.components if c.kind == "rest" and c.tooth in teeth}
    rest = tuple(hold for hold in holds if hold.name not in names)
    if len(rest) == len(holds) or not rest:
        return None
    return float(motions(rest).loads(at)[0])


def _sink_line(holds: tuple[Hold, ...]) -> tuple[Floats, Floats] | None:
    """The line through the hindmost rest on each side, about which free ends sink."""
    rests = [hold.at for hold in holds if hold.pushes]
    right = [at for at in rests if at[0] > 0]
    left = [at for at in rests if at[0] <= 0]
    if not right or not left:
        return None
    return min(right, key=lambda p: float(p[1])), min(left, key=lambda p: float(p[1]))


def _bites(
    bases: tuple[BasePoints, ...], holds: tuple[Hold, ...], body: Motions, axes: Floats
) -> list[Bite]:
    rests = np.array([hold.at for hold in holds if hold.pushes]).reshape(-1, 2)
    load = condition("bite.base").nominal
    found = []
    for base in bases:
        for tooth, at in base.teeth.items():
            spot = axes @ at
            tips = float(body.loads(spot, upwards=False)[0])
            shares = _shares(bases, rests, axes, spot, load)
            found.append(
                Bite(tooth, at, tips,
                     _three(shares, "ridge"), _three(shares, "deepest_mm"),
                     _three(shares, "pressure_mpa"))
            )  # fmt: skip
    return found


def _shares(
    bases: tuple[BasePoints, ...], rests: Floats, axes: Floats, spot: Floats, load: float
) -> list[Sharing]:
    """Sharing with nominal, stiff and soft mucosa; empty where the base tips off."""
    keys = ("mucosa.modulus", "mucosa.poisson", "mucosa.thickness", "rest.give")
    modulus, nu, thick, give = (condition(key) for key in keys)
    tissue = np.vstack([base.points @ axes.T for base in bases])
    area = np.concatenate([base.patches for base in bases])
    cases = (
        (layer_stiffness(modulus.nominal, nu.nominal, thick.nominal), give.nominal),
        (layer_stiffness(modulus.high, nu.nominal, thick.low), give.high),
        (layer_stiffness(modulus.low, nu.low, thick.high), give.low),
    )
    found = []
    for stiffness, sinks in cases:
        bed = Bed(rests, 1.0 / sinks, tissue, area, stiffness)
        try:
            found.append(sharing(bed, spot, load))
        except ConvergenceError:
            return []
    return found


def layer_stiffness(modulus: float, poisson: float, thickness: float) -> float:
    """Stiffness of a thin layer that cannot spread sideways [N/mm3].

    Source:
        Confined (oedometric) modulus E (1 - nu) / ((1 + nu)(1 - 2 nu)) over the thickness.
    """
    confined = modulus * (1 - poisson) / ((1 + poisson) * (1 - 2 * poisson))
    return confined / thickness


def _three(shares: list[Sharing], name: str) -> tuple[float, float, float]:
    """Nominal, least and most of a figure; not a number where nothing settles."""
    if not shares:
        return (float("nan"),) * 3
    values = [float(getattr(one, name)) for one in shares]
    return values[0], min(values), max(values)


def free_points(bases: tuple[BasePoints, ...]) -> Bools:
    """(P,) True for the points of bases that end free."""
    return np.concatenate([np.full(len(base.points), base.free) for base in bases])
