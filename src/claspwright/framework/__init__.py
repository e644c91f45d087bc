"""Framework: components laid on anatomy, joined to one watertight solid."""

from claspwright.framework.design import (
    Clasp,
    DentureBase,
    Design,
    MajorConnector,
    Reason,
    Retainer,
)
from claspwright.framework.model import Component, Framework

__all__ = [
    "Clasp",
    "Component",
    "DentureBase",
    "Design",
    "Framework",
    "MajorConnector",
    "Reason",
    "Retainer",
]
