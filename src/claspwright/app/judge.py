"""Hold the work against the rule book, as far as it has come."""

from __future__ import annotations

from claspwright.app.as_built import growth_of_faces
from claspwright.app.work import Work
from claspwright.base import Finding, Progress, silent
from claspwright.materials import material
from claspwright.rules import Facts, Finished, check_all, check_prescription


def judge(work: Work, *, progress: Progress = silent) -> tuple[Finding, ...]:
    """All rules where a framework lies, else those that need only the prescription."""
    finished = finished_work(work)
    if finished is None:
        return check_prescription(facts_for_rules(work))
    return check_all(finished, progress=progress)


def finished_work(work: Work) -> Finished | None:
    """What the rules look at, with what is built on for finishing; none without a framework."""
    if work.arch is None or work.surveyed is None or work.framework is None:
        return None
    plan, growth = work.sheet.finishing, None
    if any(plan.allowances_mm().values()):
        growth = growth_of_faces(work.framework, work.framework.solid, plan)
    return Finished(facts_for_rules(work), work.arch, work.surveyed, work.framework, growth)


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
