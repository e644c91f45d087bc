"""Alloys as tables, each number with its source."""

from claspwright.materials.table import (
    Condition,
    Material,
    Property,
    TypeLimits,
    condition,
    conditions,
    iso22674,
    material,
    materials,
)

__all__ = [
    "Condition",
    "Material",
    "Property",
    "TypeLimits",
    "condition",
    "conditions",
    "iso22674",
    "material",
    "materials",
]
