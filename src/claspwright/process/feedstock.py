"""Metal powder: what blending and reuse do to it, and where its mass goes. Exact arithmetic."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from claspwright.base import Finding, InputError
from claspwright.limits import Limit

Mass = int | float | str | Fraction


@dataclass(frozen=True, slots=True)
class Powder:
    """A heap of powder by how often each part of it has been through a build."""

    mass_g: Mapping[int, Fraction]  # builds it has been through: mass [g]

    def __post_init__(self) -> None:
        if any(count < 0 or mass < 0 for count, mass in self.mass_g.items()):
            raise InputError(f"powder cannot have negative mass or reuse: {dict(self.mass_g)}")
        kept = {count: mass for count, mass in sorted(self.mass_g.items()) if mass}
        object.__setattr__(self, "mass_g", MappingProxyType(kept))

    @property
    def total_g(self) -> Fraction:
        """Mass of the heap [g]."""
        return sum(self.mass_g.values(), Fraction(0))

    @property
    def virgin_share(self) -> Fraction:
        """Share by mass that has been through no build."""
        return self.mass_g.get(0, Fraction(0)) / self.total_g if self.total_g else Fraction(0)

    @property
    def mean_reuse(self) -> Fraction:
        """Builds that a gram has been through, on average."""
        weighted = sum((count * mass for count, mass in self.mass_g.items()), Fraction(0))
        return weighted / self.total_g if self.total_g else Fraction(0)

    @property
    def most_reused(self) -> int:
        """Builds that the oldest grain may have been through."""
        return max(self.mass_g, default=0)

    def taken(self, mass_g: Mass) -> Powder:
        """A part of the heap, mixed as the heap is.

        Raises:
            InputError: more is taken than there is.
        """
        mass = exact(mass_g)
        if mass < 0 or mass > self.total_g:
            raise InputError(
                f"{float(mass):g} g cannot be taken from {float(self.total_g):g} g",
                remedy="Check the weights that were entered.",
            )
        share = mass / self.total_g if self.total_g else Fraction(0)
        return Powder({count: part * share for count, part in self.mass_g.items()})

    def used_once_more(self) -> Powder:
        """The same powder after a build."""
        return Powder({count + 1: mass for count, mass in self.mass_g.items()})


def virgin(mass_g: Mass) -> Powder:
    """Powder as it came from its maker."""
    return Powder({0: exact(mass_g)})


def blended(parts: Sequence[Powder]) -> Powder:
    """One heap of several; nothing is lost."""
    total: dict[int, Fraction] = {}
    for part in parts:
        for count, mass in part.mass_g.items():
            total[count] = total.get(count, Fraction(0)) + mass
    return Powder(total)


def exact(mass_g: Mass) -> Fraction:
    """A mass as it is written: 0.1 is one tenth, not the nearest binary number."""
    try:
        return Fraction(str(mass_g)) if isinstance(mass_g, float) else Fraction(mass_g)
    except (ValueError, ZeroDivisionError) as error:
        raise InputError(f"{mass_g!r} is not a mass in g") from error


@dataclass(frozen=True, slots=True)
class MassBalance:
    """Where the powder that was loaded into a build went [g]."""

    loaded_g: Fraction
    parts_g: Fraction
    supports_g: Fraction
    sieved_out_g: Fraction
    recovered_g: Fraction

    @classmethod
    def of(
        cls, loaded: Mass, parts: Mass, supports: Mass, sieved_out: Mass, recovered: Mass
    ) -> MassBalance:
        """From weights as they were read."""
        return cls(*(exact(mass) for mass in (loaded, parts, supports, sieved_out, recovered)))

    @property
    def melted_g(self) -> Fraction:
        """What became metal."""
        return self.parts_g + self.supports_g

    @property
    def lost_g(self) -> Fraction:
        """What is left over: filters, dust, spills; negative where weights are wrong."""
        return self.loaded_g - self.melted_g - self.sieved_out_g - self.recovered_g


def judge_balance(balance: MassBalance, limits: Mapping[str, Limit]) -> tuple[Finding, ...]:
    """More out than in is a stop; too much lost is to be looked at."""
    lost, loaded = balance.lost_g, balance.loaded_g
    if lost < 0:
        text = (
            f"{float(-lost):g} g more came out of the build than went in; weigh again, or find the "
            "powder that was not entered."
        )
        return (
            Finding("feedstock.balance", "stop", text, source="conservation of mass [derived]",
                    measured=float(lost), limit=0.0, unit="g"),
        )  # fmt: skip
    return _judged("feedstock.lost_share", float(lost / loaded) if loaded else 0.0, limits)


def judge_powder(
    powder: Powder, limits: Mapping[str, Limit], *, sieved: bool = True
) -> tuple[Finding, ...]:
    """Whether a blend may be loaded: reuse, share of virgin powder, sieving."""
    out = list(_judged("feedstock.reuse_count", float(powder.most_reused), limits))
    out += _judged("feedstock.virgin_share", float(powder.virgin_share), limits)
    if not sieved and powder.most_reused > 0:
        out.append(
            Finding("feedstock.sieve", "stop", "Used powder was not sieved; sieve it first.",
                    source="mesh of 63 or 80 um after each build [common practice]")
        )  # fmt: skip
    return tuple(out)


def _judged(key: str, value: float, limits: Mapping[str, Limit]) -> tuple[Finding, ...]:
    limit = limits[key]
    broken = limit.judge(value)
    if broken is None:
        return ()
    text = f"{limit.title}: {value:.3g}; replace powder, or have the production lead decide."
    return (
        Finding(key, broken[0], text,
                source=limit.cited, measured=round(value, 4), limit=broken[1], unit=limit.unit),
    )  # fmt: skip
