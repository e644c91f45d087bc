"""Framework: components laid on anatomy, joined to one watertight solid."""

from claspwright.framework.design import (
    Clasp,
    ClaspForm,
    ConnectorForm,
    DentureBase,
    Design,
    End,
    MajorConnector,
    Reason,
    RestForm,
    Retainer,
    Side,
)
from claspwright.framework.model import Component, Framework

__all__ = [
    "Clasp",
    "ClaspForm",
    "Component",
    "ConnectorForm",
    "DentureBase",
    "Design",
    "End",
    "Framework",
    "MajorConnector",
    "Reason",
    "RestForm",
    "Retainer",
    "Side",
]
