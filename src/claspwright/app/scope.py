"""Cases that this program refuses, each with the reason."""

from __future__ import annotations

from claspwright.base import Finding
from claspwright.case import Prescription

_SOURCE = "scope of this program"
_NOT_MODELLED = "needs parts and fits that this program does not model."
_REFUSED = {
    "obturator": "An obturator closes a defect that the arch scan does not show in function.",
    "implants": f"Retention by implants {_NOT_MODELLED}",
    "attachments": f"Retention by attachments {_NOT_MODELLED}",
    "flexible": "A flexible base carries no metal framework of this kind.",
    "swinging connector": f"A swinging connector {_NOT_MODELLED}",
}


def refused(asked: Prescription) -> list[Finding]:
    """A `stop` for each thing in the prescription that is outside the scope; empty if none is."""
    words = [
        ("scope.prosthesis", asked.prosthesis),
        ("scope.retention", asked.retention),
        ("scope.base_material", asked.base_material),
        ("scope.connector", "swinging connector" if asked.swinging_connector else ""),
    ]
    return [
        Finding(
            rule,
            "stop",
            f"{_REFUSED[word]} No framework is made; a clasp-retained rigid framework with acrylic "
            "bases is what this program designs.",
            _SOURCE,
            measured=word,
            limit="clasp-retained, rigid, acrylic bases",
        )
        for rule, word in words
        if word in _REFUSED
    ]
