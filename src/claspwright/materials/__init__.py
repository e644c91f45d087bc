"""Alloys as tables, each number with its source."""

from claspwright.materials.table import (
    Condition,
    Material,
    Property,
    PublishedLife,
    TypeLimits,
    condition,
    conditions,
    iso22674,
    material,
    materials,
    published_life,
    wires,
)

__all__ = [
    "Condition",
    "Material",
    "Property",
    "PublishedLife",
    "TypeLimits",
    "condition",
    "conditions",
    "iso22674",
    "material",
    "materials",
    "published_life",
    "wires",
]
