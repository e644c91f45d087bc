"""Rules that need only the prescription: scope, class, allergies, probed depth, alloy."""

from __future__ import annotations

from claspwright.base import Finding, Severity
from claspwright.limits import limit
from claspwright.materials import iso22674
from claspwright.rules.context import Facts
from claspwright.rules.judging import judged

_SCOPE = "scope of this program [own]"
_WITHIN = "clasp-retained, rigid, acrylic bases"
_REFUSED = {
    "obturator": "An obturator closes a defect that the arch scan does not show in function",
    "implants": "Retention by implants needs parts and tolerances that are not modelled here",
    "attachments": "Retention by attachments needs parts and tolerances that are not modelled here",
    "flexible": "A flexible base carries no metal framework of this kind",
    "swinging connector": "A swinging connector has a hinge and a lock, not modelled here",
}
_ALLERGY = "a known allergy is a stop until the prescriber clears it [common practice]"
_METALS = {
    "nickel": ("nickel",),
    "cobalt": ("cobalt",),
    "chrom": ("chromium",),
    "molybden": ("molybdenum",),
    "tungsten": ("tungsten",),
    "titan": ("titanium",),
    "alumin": ("aluminium",),
    "vanadi": ("vanadium",),
    "metal": ("cobalt", "chromium", "nickel", "titanium"),
    "co-cr": ("cobalt", "chromium"),
}
_ACRYLATES = ("acryl", "mma", "resin", "monomer")


def scope(facts: Facts) -> tuple[Finding, ...]:
    """Implant or attachment retained, flexible, obturating or swinging: refused."""
    asked = (
        ("scope.prosthesis", facts.prosthesis),
        ("scope.retention", facts.retention),
        ("scope.base_material", facts.base_material),
        ("scope.connector", "swinging connector" if facts.swinging_connector else ""),
    )
    return tuple(
        Finding(
            rule,
            "stop",
            f"{_REFUSED[word]}. No framework is made; send the case back or change the sheet.",
            _SCOPE,
            measured=word,
            limit=_WITHIN,
        )
        for rule, word in asked
        if word in _REFUSED
    )


def kennedy_class(facts: Facts) -> tuple[Finding, ...]:
    """The Kennedy class that the design follows, for the record."""
    areas = "; ".join(
        f"{'-'.join(map(str, area.teeth))}{' free end' if area.free_end else ''}"
        for area in facts.kennedy.areas
    )
    return (
        Finding(
            "kennedy.class",
            "note",
            f"{facts.kennedy}, by the areas {areas}.",
            "Kennedy 1925; Applegate's rules (McCracken's) [seen B]",
            measured=str(facts.kennedy),
        ),
    )


def functional_depth(facts: Facts) -> tuple[Finding, ...]:
    """Room for a lingual bar between the margins and the floor of the mouth."""
    if facts.jaw != "mandible":
        return ()
    rule, key = "bar.functional_depth", "bar.functional_depth"
    if facts.functional_depth_mm is None:
        return (
            Finding(
                rule,
                "look",
                "The functional depth of the floor of the mouth is not given, and a scan does not "
                "show it. Ask the dentist to probe it with the tongue raised, and enter "
                "functional_depth_mm.",
                limit(key).cited,
                limit=limit(key).value,
                unit="mm",
                component="major_connector",
            ),
        )
    depth = facts.functional_depth_mm
    text = f"The floor of the mouth was probed {depth:.1f} mm below the gingival margins"
    if depth < (limit(key).stop_below or 0.0):
        return (
            Finding(
                rule,
                "look",
                f"{text}: too shallow for a lingual bar. A lingual plate is proposed where the "
                "sheet names no connector; it covers the margins and must be kept clean. Confirm "
                "the depth and the plate with the dentist.",
                limit(key).cited,
                measured=round(depth, 2),
                limit=limit(key).stop_below,
                unit="mm",
                component="major_connector",
            ),
        )
    remedy = "A lingual bar just fits; confirm the depth with the dentist."
    return (judged(rule, key, depth, text, remedy=remedy, component="major_connector"),)


def metal_allergy(facts: Facts) -> tuple[Finding, ...]:
    """Known allergies to a metal of the alloy."""
    content = (*facts.material.elements, *facts.material.traces)
    found = []
    for word in facts.allergies:
        metals = {m for stem, names in _METALS.items() if stem in word.lower() for m in names}
        hit = sorted(metals & set(content))
        if hit:
            text = f"Allergy to {word}: {facts.material.name} contains or may contain "
            found.append(_allergy("allergy.metal", facts, word, text + ", ".join(hit)))
        elif not metals and not _is_acrylate(word):
            found.append(
                Finding(
                    "allergy.unknown",
                    "look",
                    f"Allergy to {word!r}: not a material that this program knows. Check alloy, "
                    "acrylic and everything used at the chair side with the prescriber.",
                    _ALLERGY,
                    measured=word,
                )
            )
    return tuple(found)


def acrylate_allergy(facts: Facts) -> tuple[Finding, ...]:
    """Known allergies to the acrylic of the bases or its monomer."""
    return tuple(
        _allergy("allergy.acrylate", facts, word, f"Allergy to {word}: the bases are acrylic")
        for word in facts.allergies
        if _is_acrylate(word) and facts.base_material == "acrylic"
    )


def alloy_type(facts: Facts) -> tuple[Finding, ...]:
    """The alloy is meant for thin clasped parts, and for the way in which they are made."""
    five = iso22674(5)
    alloy, found = facts.material, []
    if alloy.iso22674_type < 5:
        found.append(
            Finding(
                "alloy.type",
                "look",
                f"{alloy.title} is of ISO 22674 type {alloy.iso22674_type}; clasped frameworks "
                "with thin sections ask for type 5. Have the prescriber agree to it.",
                f"{five.source} [{five.mark}]",
                measured=float(alloy.iso22674_type),
                limit=5.0,
            )
        )
    if "powder-bed" not in alloy.process:
        found.append(
            Finding(
                "alloy.process",
                "look",
                f"{alloy.title} is an alloy for {alloy.process}, but the files are for laser "
                "powder-bed fusion. Choose an alloy of that process, or cast from a printed "
                "pattern.",
                "design of this program [own]",
                measured=alloy.process,
                limit="laser powder-bed fusion",
            )
        )
    return tuple(found)


def _is_acrylate(word: str) -> bool:
    return any(stem in word.lower() for stem in _ACRYLATES)


def _allergy(rule: str, facts: Facts, word: str, text: str) -> Finding:
    cleared = facts.allergies_cleared.strip()
    severity: Severity = "note" if cleared else "stop"
    after = (
        f"The prescriber cleared it: {cleared}."
        if cleared
        else "Ask the prescriber; only the prescriber's clearance lifts this stop."
    )
    return Finding(rule, severity, f"{text}. {after}", _ALLERGY, measured=word, limit="none known")
