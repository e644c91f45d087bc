"""Results to documents and pictures."""

from claspwright.report.colours import VIRIDIS, mapped
from claspwright.report.render import contact_sheet, png, render
from claspwright.report.scene import (
    INK,
    METAL,
    OPPOSING,
    STONE,
    TISSUE,
    WAX,
    Colour,
    Item,
    Label,
    Line,
    Scene,
)
from claspwright.report.views import SIDES, Side, View, close_up, oblique, view

__all__ = [
    "INK",
    "METAL",
    "OPPOSING",
    "SIDES",
    "STONE",
    "TISSUE",
    "VIRIDIS",
    "WAX",
    "Colour",
    "Item",
    "Label",
    "Line",
    "Scene",
    "Side",
    "View",
    "close_up",
    "contact_sheet",
    "mapped",
    "oblique",
    "png",
    "render",
    "view",
]
