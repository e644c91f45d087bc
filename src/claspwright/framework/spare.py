"""Teeth that will probably be lost: how the framework can take their place later."""

from __future__ import annotations

from collections.abc import Sequence

from claspwright.arch import DentalArch, Jaw, kind_of
from claspwright.base import Finding, Severity
from claspwright.framework.design import ConnectorForm, MajorConnector, Retainer

SOURCE = "McCracken's Removable Partial Prosthodontics, chapter on major connectors [memory]"
COVERING: tuple[ConnectorForm, ...] = ("lingual plate", "full palatal plate")


def plate_for(jaw: Jaw, doubtful: Sequence[int]) -> bool:
    """Whether a lingual plate is due because lower front teeth will have to be added.

    Source:
        McCracken's, indications of a linguoplate [memory].
    """
    return jaw == "mandible" and any(kind_of(code) in ("incisor", "canine") for code in doubtful)


def spare_findings(
    arch: DentalArch,
    retainers: Sequence[Retainer],
    connector: MajorConnector,
    doubtful: Sequence[int],
) -> list[Finding]:
    """What each doubtful tooth carries, and whether an artificial one can be added in its place.

    Args:
        arch: the arch with its teeth.
        retainers: of the design.
        connector: of the design.
        doubtful: standing teeth that will probably be lost.
    """
    found = []
    beside = {end for span in arch.spans for end in span.ends}
    for code in doubtful:
        if code not in arch.teeth:
            continue
        named = next((r for r in retainers if r.tooth == code), None)
        covered = connector.form in COVERING and kind_of(code) in ("incisor", "canine")
        severity: Severity = "look"
        if named is not None and (named.rests or named.clasp is not None):
            parts = [*(f"{rest} rest" for rest in named.rests)]
            parts += [] if named.clasp is None else ["clasp"]
            text = (
                f"Tooth {code} will probably be lost and carries its {' and '.join(parts)}. Plan "
                "a second tooth that can take them over, or ask whether it should go before."
            )
        elif covered or code in beside:
            severity = "note"
            where = "to the plate behind it" if covered else "to the base beside it"
            text = f"If tooth {code} is lost, an artificial one can be added {where}."
        else:
            text = (
                f"If tooth {code} is lost, no metal lies beside it that an artificial one could be "
                "added to. Ask for a lingual plate, or a full palatal plate, if that is likely."
            )
        x, y, z = arch.teeth[code].centre
        found.append(
            Finding("spare.tooth", severity, text, SOURCE, at_mm=(float(x), float(y), float(z)),
                    component=f"retainer.{code}")
        )  # fmt: skip
    return found
