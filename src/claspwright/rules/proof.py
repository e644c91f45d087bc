"""Findings of a proof: arms as they will be made, and the denture as a body."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.limits import limit
from claspwright.materials import Material, condition, published_life
from claspwright.mechanics import (
    ArmCase,
    ArmProof,
    Choice,
    DentureProof,
    FrameworkFe,
    Grip,
    alloy_of,
    free_points,
    laid_ride,
    prove_denture,
)
from claspwright.rules.clasps import prescribed
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point

WORDS = {
    "modulus": "the modulus",
    "finish.depth": "what finishing takes off",
    "friction": "the friction",
    "tooth.give": "how far the tooth gives way",
    "undercut": "the undercut itself",
}


def body_of(context: Finished) -> DentureProof | None:
    """The denture as a body, its arms as they were laid: quick, for every run."""
    alloy = context.facts.material
    case = ArmCase(context.framework, context.arch, context.survey, alloy, context.scan_tree)
    holds = {}
    for arm, _ in prescribed(context):
        modulus = alloy_of(arm, alloy).modulus.nominal
        grip = Grip(condition("friction").nominal, condition("tooth.give").nominal, modulus)
        holds[arm.id] = laid_ride(case, arm, grip).withdrawal_n
    return prove_denture(context.framework, context.arch, context.survey, holds)


def lifting(context: Finished) -> tuple[Finding, ...]:
    """The least force that lifts the denture anywhere on its bases, and about which line."""
    proof = body_of(context)
    return () if proof is None else lifting_findings(proof, "arms as laid, before finishing")


def arm_findings(proofs: Sequence[ArmProof], alloy: Material) -> tuple[Finding, ...]:
    """Withdrawal, stress, side load and life of every arm as it will be made."""
    found: list[Finding] = []
    for one in proofs:
        own = alloy_of(one.arm, alloy)
        found += [_withdrawal(one), _stress(one, own), _side_load(one), _life(one)]
    return tuple(found)


def _withdrawal(one: ArmProof) -> Finding:
    low, high = one.withdrawal_range_n
    text = (
        f"{one.arm.id} comes off at {one.ride.withdrawal_n:.1f} N over the real crown, between "
        f"{low:.1f} and {high:.1f} N over all ranges together; {WORDS[one.decides]} decides most; "
        f"before finishing {one.unfinished.withdrawal_n:.1f} N; it goes in at "
        f"{one.ride.insertion_n:.1f} N"
    )
    remedy = "Thicken or shorten a weak arm, or lead its tip to a steeper place of the undercut."
    return judged(
        "proof.withdrawal", "clasp.force", one.ride.withdrawal_n, text, remedy=remedy,
        at=one.arm.line[-1], component=one.arm.id,
    )  # fmt: skip


def _stress(one: ArmProof, alloy: Material) -> Finding:
    rigid, soft = one.rigid.peak_stress_mpa, one.ride.peak_stress_mpa
    text = (
        f"{one.arm.id}, cut from the solid and finished, reaches {soft:.0f} MPa on a tooth that "
        f"gives way and {rigid:.0f} MPa on one that does not, {one.rigid.peak_at_mm:.1f} mm beyond "
        f"its joint; {one.peak_range_mpa[0]:.0f} to {one.peak_range_mpa[1]:.0f} MPa over all "
        f"ranges; it is bent for good beyond the proof stress, {alloy.proof.nominal:.0f} MPa "
        f"published, {alloy.proof.low:.0f} MPa at least ({alloy.proof.cited})"
    )
    remedy = "Thin or lengthen the arm, take less undercut, or another form of clasp."
    finding = judged(
        "proof.stress", "clasp.proof_factor", alloy.proof.nominal / rigid, text, remedy=remedy,
        at=one.arm.line[-1], component=one.arm.id,
    )  # fmt: skip
    if finding.severity == "stop" and soft <= alloy.proof.nominal:
        return replace(finding, severity="look")
    return finding


def _side_load(one: ArmProof) -> Finding:
    load = float(one.ride.side_n.max())
    text = f"{one.arm.id} loads its tooth sideways with {load:.1f} N as it passes its bulge"
    remedy = "Reciprocate the arm along its whole way, or thin it."
    return judged(
        "proof.side_load", "clasp.side_load", load, text, remedy=remedy,
        at=one.arm.line[-1], component=one.arm.id,
    )  # fmt: skip


def _life(one: ArmProof) -> Finding:
    life = published_life()
    a_day = condition("seatings.a_day").nominal
    years = {made: cycles / (365 * a_day) for made, _, cycles in life.clasps}
    worst = min(years.values())
    told = "; ".join(f"{made} {span:.0f} years" for made, span in years.items())
    bars = "; ".join(f"{made} {strength:.0f} MPa" for made, strength in life.bars)
    text = (
        f"{one.arm.id} has a Goodman factor of {one.goodman:.2f} after {one.seatings:.0f} seatings "
        f"on a tooth that does not give way. Published clasps sprung by 0.5 mm lasted, at "
        f"{a_day:.0f} seatings a day: {told} ({life.clasp_source}); bars of the alloy rank the "
        f"directions the other way: {bars} ({life.bar_source})"
    )
    remedy = "Agree on the direction of building with whoever prints."
    return judged(
        "proof.life", "proof.lifetime", worst, text, remedy=remedy,
        at=one.arm.line[-1], component=one.arm.id,
    )  # fmt: skip


def lifting_findings(proof: DentureProof, basis: str) -> tuple[Finding, ...]:
    """Where the denture lifts, about which line, and what the indirect retainers add."""
    weak = proof.weakest
    about = " and ".join(weak.about[:2]) if weak.line is not None else "no line: straight off"
    drawn = ", ".join(weak.yielding) or "no clasp"
    text = (
        f"The denture lifts most easily at ({proof.weakest_at[0]:.0f}, {proof.weakest_at[1]:.0f}) "
        f"mm, at {weak.load_n:.1f} N, about {about}; {drawn} gives way first ({basis}; rests push, "
        "clasps pull to their limit, guiding planes and saliva left out)"
    )
    if proof.without_indirect_n is not None:
        gain = weak.load_n - proof.without_indirect_n
        text += f"; the indirect retainers add {gain:.1f} N"
    remedy = (
        "Move an indirect retainer farther from the line, or add a clasp or rest beyond it; "
        "guiding planes add to it."
    )
    return (
        judged("denture.lifting", "denture.lifting", weak.load_n, text, remedy=remedy,
               at=proof.weakest_at),
    )  # fmt: skip


def bite_findings(proof: DentureProof) -> tuple[Finding, ...]:
    """What a bite on an artificial tooth does: tips a tooth-borne base, sinks a free end."""
    load = condition("bite.base").nominal
    found = []
    free = {tooth: base.free for base in proof.bases for tooth in base.teeth}
    for bite in proof.bites:
        if free[bite.tooth]:
            share, sinks = bite.ridge, bite.deepest_mm
            text = (
                f"A bite of {load:.0f} N on {bite.tooth} goes to the ridge by "
                f"{100 * share[0]:.0f} % ({100 * share[1]:.0f} to {100 * share[2]:.0f} %), and the "
                f"base sinks {sinks[0]:.2f} mm ({sinks[1]:.2f} to {sinks[2]:.2f} mm over published "
                f"stiffness of mucosa)"
            )
            remedy = "Cover more of the ridge, and reline when it settles."
            found.append(
                judged("denture.sinking", "base.sinking", sinks[0], text, remedy=remedy, at=bite.at)
            )
        elif np.isfinite(bite.tips_at_n):
            text = f"A bite of {bite.tips_at_n:.0f} N on {bite.tooth} tips the denture on its rests"
            remedy = "Set the tooth nearer to the line between the rests, or add a rest."
            found.append(
                judged("denture.bite_tips", "denture.bite_tips", bite.tips_at_n, text,
                       remedy=remedy, at=bite.at)
            )  # fmt: skip
    return tuple(found)


def choice_finding(name: str, choice: Choice, at: Floats) -> tuple[Finding, ...]:
    """What sizes would reach the wanted force, or that none would."""
    best = choice.best
    dimension = limit("clasp.force")
    return (
        Finding(
            "proof.choice",
            "note" if choice.reached else "look",
            f"For {choice.wanted_n:g} N on the way of {name}: {choice.words}.",
            dimension.cited,
            measured=None if best is None else round(best.withdrawal_n, 2),
            limit=choice.wanted_n,
            unit="N",
            at_mm=point(at),
            component=name,
        ),
    )


def solid_findings(proof: FrameworkFe, alloy: Material) -> tuple[Finding, ...]:
    """First yield under a bite, and stiffness of the connector, by finite elements."""
    worst = proof.worst
    name, peak = proof.bites[worst], proof.peak_mpa[worst]
    text = (
        f"Under a {name} of {condition('bite.base').nominal:.0f} N the framework reaches "
        f"{peak:.0f} MPa and first yields at {proof.yields_at[worst]:.1f} times that (finite "
        f"elements, {_moved(proof, proof.peak_moved[worst])}; rests on teeth that give way, free "
        f"ends on mucosa; proof stress {alloy.proof.nominal:.0f} MPa, {alloy.proof.cited})"
    )
    remedy = "Thicken the metal there, or round the corner where it springs from."
    found = [
        judged("solid.yield", "solid.yield", proof.yields_at[worst], text, remedy=remedy,
               at=proof.answer.peak_at(worst))
    ]  # fmt: skip
    for name, moved in (("spread", proof.spread_mm), ("twist", proof.twist_mm)):
        if moved is not None:
            how = "apart" if name == "spread" else "up on one and down on the other"
            change = proof.stiffness_moved[proof.answer.names.index(name)]
            text = (
                f"The sides give {moved:.2f} mm against each other under 10 N {how} "
                f"({_moved(proof, change)})"
            )
            remedy = "Thicken or widen the major connector."
            key = f"connector.{name}"
            found.append(judged(key, key, moved, text, remedy=remedy))
    found.append(_mesh(proof))
    return tuple(found)


def _moved(proof: FrameworkFe, change: float) -> str:
    return (
        f"cells of {proof.cells.step:g} mm; {100 * change:+.1f} % from cells of "
        f"{proof.coarser_mm:g} mm"
    )


def _mesh(proof: FrameworkFe) -> Finding:
    """Which figures the mesh still decides, and by how much."""
    names = proof.answer.names
    rows = [
        (abs(change), f"{what} under {name} {100 * change:+.1f} %")
        for what, changes in (("stress", proof.peak_moved), ("way", proof.stiffness_moved))
        for name, change in zip(names, changes, strict=True)
    ]
    rows.sort(key=lambda row: -row[0])
    most, allowed = rows[0][0], limit("solid.mesh").value
    over = [words for change, words in rows if change > allowed]
    text = (
        f"From cells of {proof.coarser_mm:g} mm to {proof.cells.step:g} mm the figures of "
        f"{len(names)} loads move by {100 * most:.1f} % at most; "
        + (f"beyond {100 * allowed:.0f} %: {'; '.join(over)}" if over else rows[0][1])
    )
    remedy = "Take these figures with that uncertainty, or ask for smaller cells with --step-mm."
    return judged("solid.mesh", "solid.mesh", most, text, remedy=remedy)


def lowest_free(proof: DentureProof) -> float | None:
    """Least lifting force on the free ends; None where no base ends free."""
    mask = free_points(proof.bases)
    return float(proof.lifting_n[mask].min()) if mask.any() else None


def cited_lifting() -> str:
    """Where the limit of the lifting force comes from."""
    return limit("denture.lifting").cited
