"""Why each proposed line of a sheet is as it is."""

from __future__ import annotations

from collections.abc import Iterable

from claspwright.framework import Reason
from claspwright.limits import limit, limits

# The dimension rule behind each key, by the part that it belongs to.
_RULES = {
    "bar.height_mm": "bar.height",
    "bar.thickness_mm": "bar.thickness",
    "bar.margin_distance_mm": "bar.margin",
    "bar.relief_mm": "bar.relief_free_end",
    "strap.width_mm": "strap.width",
    "strap.thickness_mm": "strap.thickness",
    "strap.margin_distance_mm": "strap.margin",
    "lattice.relief_mm": "lattice.relief",
    "lattice.thickness_mm": "lattice.strut_thickness",
}
_OTHER = {
    "strap.relief_mm": "a palatal connector lies on the tissue (common practice, no source)",
    "lattice.retention": "what acrylic grips (common practice, no source)",
}


def figure_why(part: str, key: str) -> str:
    """The source of a usual figure, such as ("bar", "height_mm"); empty if there is none."""
    name = f"{part}.{key}"
    rule = _RULES.get(name, "")
    if rule in limits():
        return f"{limit(rule).title.lower()}: {limit(rule).cited}"
    return _OTHER.get(name, "")


class Reasons:
    """Why each component is as it is."""

    def __init__(self, reasons: Iterable[Reason]) -> None:
        self._words: dict[str, list[Reason]] = {}
        for reason in reasons:
            self._words.setdefault(reason.component, []).append(reason)

    def cited(self, component: str) -> str:
        """The reasons with their sources; empty if there is none."""
        return "; ".join(
            f"{reason.text} ({reason.source})" if reason.source else reason.text
            for reason in self._found(component)
        )

    def plain(self, component: str) -> str:
        """The reasons without sources."""
        return "; ".join(reason.text for reason in self._found(component))

    def _found(self, component: str) -> list[Reason]:
        """Reasons of a component id, or of the first id that begins with it."""
        if component in self._words:
            return self._words[component]
        longer = [key for key in self._words if key.startswith(component + ".")]
        return self._words[longer[0]] if longer else []
