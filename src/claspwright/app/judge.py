"""Hold the work against the rule book, as far as it has come."""

from __future__ import annotations

from claspwright.app.work import Work
from claspwright.base import Finding, Progress, silent
from claspwright.materials import material
from claspwright.rules import Facts, Finished, check_all, check_prescription


def judge(work: Work, *, progress: Progress = silent) -> tuple[Finding, ...]:
    """All rules where a framework lies, else those that need only the prescription."""
    facts = facts_for_rules(work)
    if work.arch is None or work.surveyed is None or work.framework is None:
        return check_prescription(facts)
    finished = Finished(facts, work.arch, work.surveyed, work.framework)
    return check_all(finished, progress=progress)


def out_of_scope(work: Work) -> bool:
    """Whether the prescription asks for something that is refused."""
    return any(
        finding.rule.startswith("scope") and finding.severity == "stop"
        for finding in check_prescription(facts_for_rules(work))
    )


def facts_for_rules(work: Work) -> Facts:
    """What the prescription says, as the rules ask for it."""
    asked = work.sheet.prescription
    return Facts(
        jaw=asked.jaw,
        material=material(asked.alloy),
        kennedy=work.kennedy,
        functional_depth_mm=asked.functional_depth_mm,
        allergies=asked.allergies,
        allergies_cleared=asked.allergies_cleared,
        prosthesis=asked.prosthesis,
        retention=asked.retention,
        base_material=asked.base_material,
        swinging_connector=asked.swinging_connector,
    )
