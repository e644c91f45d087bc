"""Alloys as tables, each number with its source."""

from claspwright.materials.table import (
    Material,
    Property,
    TypeLimits,
    iso22674,
    material,
    materials,
)

__all__ = ["Material", "Property", "TypeLimits", "iso22674", "material", "materials"]
