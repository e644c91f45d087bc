"""The rule book: every rule in order, with its id, title and source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from claspwright.base import Finding, Progress, silent
from claspwright.limits import limit, limits
from claspwright.rules import (
    bases,
    clasp_forces,
    clasps,
    connectors,
    finish_lines,
    grooves,
    insertion,
    path,
    prescription,
    proof,
    rests,
    solid,
    splints,
)
from claspwright.rules.context import Facts, Finished

PrescriptionCheck = Callable[[Facts], tuple[Finding, ...]]
FinishedCheck = Callable[[Finished], tuple[Finding, ...]]


@dataclass(frozen=True, slots=True)
class PrescriptionRule:
    """A rule that needs only the prescription."""

    id: str
    title: str
    check: PrescriptionCheck
    source: str


@dataclass(frozen=True, slots=True)
class FinishedRule:
    """A rule that needs a finished framework."""

    id: str
    title: str
    check: FinishedCheck
    source: str


def _asked(rule: str, title: str, check: PrescriptionCheck, source: str = "") -> PrescriptionRule:
    return PrescriptionRule(rule, title, check, source or _cited(rule))


def _made(rule: str, title: str, check: FinishedCheck, source: str = "") -> FinishedRule:
    return FinishedRule(rule, title, check, source or _cited(rule))


def _cited(rule: str) -> str:
    return limit(rule).cited if rule in limits() else ""


PRESCRIPTION_RULES: tuple[PrescriptionRule, ...] = (
    _asked("scope", "Within the scope of this program", prescription.scope, "scope [own]"),
    _asked(
        "kennedy.class", "Kennedy class", prescription.kennedy_class,
        "Kennedy 1925; Applegate's rules (McCracken's) [seen B]",
    ),
    _asked(
        "allergy.metal", "Allergy to a metal of the alloy", prescription.metal_allergy,
        "a known allergy is a stop until the prescriber clears it [common practice]",
    ),
    _asked(
        "allergy.acrylate", "Allergy to acrylates", prescription.acrylate_allergy,
        "a known allergy is a stop until the prescriber clears it [common practice]",
    ),
    _asked(
        "alloy.type", "The alloy suits clasped frameworks and the process",
        prescription.alloy_type, "ISO 22674:2016, type 5 [seen A]",
    ),
    _asked(
        "bar.functional_depth", "Room for a lingual bar, probed by the dentist",
        prescription.functional_depth,
    ),
)  # fmt: skip

FINISHED_RULES: tuple[FinishedRule, ...] = (
    _made("path.tilt", "Tilt of the path of placement", path.path_tilt),
    _made(
        "path.zero_tilt_retention", "Retention at zero tilt", path.retention_at_zero_tilt,
        "university texts on surveying [memory]",
    ),
    _made("clasp.count", "Number of clasps", clasps.clasp_count),
    _made("clasp.undercut", "Prescribed undercut", clasps.prescribed_undercut),
    _made(
        "clasp.tip_undercut", "Undercut at each clasp tip", clasps.tip_undercut,
        limit("clasp.undercut_tolerance").cited,
    ),
    _made("clasp.retentive_share", "Only the last third below the survey line",
          clasps.retentive_third),
    _made("clasp.tip_margin", "Clasp tip to the gingival margin", clasps.tip_to_margin),
    _made("clasp.approach_margin", "Approach arm to the gingival margins",
          clasps.approach_to_margin),
    _made("clasp.arm_length", "Length of retentive arms", clasps.arm_length),
    _made("clasp.section", "Section and taper of retentive arms", clasps.arm_section,
          limit("clasp.root_width").cited),
    _made("clasp.encirclement", "Encirclement of clasped teeth", clasps.encirclement),
    _made("clasp.reciprocation", "Reciprocation of retentive arms", clasps.reciprocation,
          limit("clasp.reciprocal_ratio").cited),
    _made("clasp.force", "Force that withdraws each clasp", clasp_forces.withdrawal),
    _made("denture.retention", "Force that withdraws the denture", clasp_forces.whole_retention),
    _made("denture.lifting", "Least force that lifts the denture", proof.lifting),
    _made("clasp.stress", "Permanent set of clasp arms", clasp_forces.permanent_set,
          limit("clasp.proof_factor").cited),
    _made("clasp.fatigue", "Fatigue of clasp arms", clasp_forces.fatigue,
          limit("clasp.fatigue_factor").cited),
    _made("rest.seat_missing", "Rest seats prepared by the dentist", rests.rest_seat,
          limit("rest.seat_depth").cited),
    _made("rest.thickness", "Metal over the marginal ridge", rests.rest_thickness),
    _made("rest.count", "Support", rests.support, "support on three points [common practice]"),
    _made("indirect.distance", "Indirect retainer to the fulcrum line", rests.indirect_retainer,
          limit("indirect.share").cited),
    _made("bar.section", "Height and thickness of a lingual bar", connectors.bar_section,
          limit("bar.height").cited),
    _made("bar.margin", "Lingual bar to the gingival margins", connectors.bar_to_margin),
    _made("bar.floor", "Lingual bar above the floor of the mouth", connectors.bar_over_floor,
          "Stratton & Wiebelt 1988, as adapted in an open article [seen C]"),
    _made("connector.form", "What a form of major connector asks of the mouth",
          connectors.connector_form, "usual forms first [common practice]"),
    _made("apron.thickness", "Thickness of the apron of a lingual plate",
          connectors.apron_thickness),
    _made("insertion.sweep", "The way in and out along the path", insertion.insertion,
          limit("insertion.collision").cited),
    _made("strap.width", "Width of palatal straps", connectors.strap_width),
    _made("strap.thickness", "Thickness of palatal straps", connectors.strap_thickness),
    _made("strap.margin", "Palatal connector to the gingival margins",
          connectors.strap_to_margin),
    _made("minor.section", "Width and thickness of minor connectors", connectors.minor_section,
          limit("minor.width").cited),
    _made("minor.spacing", "Distance between minor connectors", connectors.minor_spacing),
    _made("splint.section", "Height and thickness of splinting bars", splints.splint_section,
          limit("splint.height").cited),
    _made("splint.length", "Length of splinting bars across a space", splints.splint_length),
    _made("splint.gap", "Splinting bars over the ridge", splints.splint_gap),
    _made("lattice.coverage", "Lattice over the ridge", bases.lattice_coverage,
          limit("lattice.coverage_mandible").cited),
    _made("lattice.section", "Struts of the lattice and relief under it", bases.lattice_section,
          limit("lattice.strut_width").cited),
    _made("base.tissue_stop", "Tissue stop of free-end bases", bases.tissue_stop,
          limit("stop.size").cited),
    _made("base.finish_line", "Finish lines", bases.finish_lines, limit("finish.height").cited),
    _made("base.finish_wall", "Walls of finish lines", finish_lines.finish_walls,
          limit("finish.height").cited),
    _made("base.finish_stagger", "Finish lines outside and inside", finish_lines.finish_staggers,
          limit("finish.stagger").cited),
    _made("occlusal.clearance", "Clearance to the opposing teeth", solid.occlusal_clearance),
    _made("metal.thickness", "Metal thickness anywhere", solid.least_thickness),
    _made("metal.wisp", "Wisps of metal", solid.wisps_left),
    _made("groove.width", "Walls that face each other across a groove", grooves.groove_width),
    _made("tooth.overlap", "No metal inside a tooth", solid.inside_teeth),
    _made("scan.support", "The scan shows what the metal lies on", solid.scan_coverage,
          "metal can only be laid on what was scanned [common practice]"),
    _made("solid.watertight", "Closed and sound solid", solid.watertight,
          "every edge between two faces of opposite direction [derived]"),
    _made("solid.one_body", "One body", solid.one_body, "one casting, one body [derived]"),
)  # fmt: skip


def check_prescription(facts: Facts) -> tuple[Finding, ...]:
    """Every rule that needs only the prescription."""
    return tuple(finding for rule in PRESCRIPTION_RULES for finding in rule.check(facts))


def check_all(context: Finished, *, progress: Progress = silent) -> tuple[Finding, ...]:
    """Every rule, those of the prescription first.

    What the laying-out of the framework already found under the same rule and component is
    not said again.
    """
    found = list(check_prescription(context.facts))
    for n, rule in enumerate(FINISHED_RULES):
        progress(n / len(FINISHED_RULES), rule.title)
        found += rule.check(context)
    progress(1.0, "rules")
    said = {(f.rule, f.component) for f in context.framework.findings}
    return tuple(f for f in found if (f.rule, f.component) not in said)
