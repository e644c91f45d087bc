"""The proposal of a design, on a toy arch."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw
from claspwright.base import Floats, InfeasibleError, InputError
from claspwright.framework import (
    Clasp,
    DentureBase,
    MajorConnector,
    Retainer,
    Wishes,
    plan_design,
    propose_design,
    propose_retainers,
    retention_zones,
)
from claspwright.geometry import Mesh
from claspwright.survey import Survey

Arch = Callable[[Jaw, Sequence[int]], DentalArch]
Surveyed = Callable[..., Survey]
THIRDS = {"mandible": (38, 48), "maxilla": (18, 28)}


def rules_of(findings: Sequence[object]) -> set[str]:
    return {f.rule for f in findings if f.severity != "note"}  # type: ignore[attr-defined]


def test_class_1_gets_mesial_rests_distal_plates_i_bars_and_indirect_retainers(
    toy_arch: Arch,
) -> None:
    plan = plan_design(toy_arch("mandible", (36, 37, 38, 46, 47, 48)), Wishes())
    assert plan.kennedy.kennedy_class == "I"
    by_tooth = {r.tooth: r for r in plan.retainers}
    for code in (35, 45):
        retainer = by_tooth.pop(code)
        assert retainer.rests == ("mesial occlusal",)
        assert retainer.proximal_plates == ("distal",)
        assert retainer.clasp is not None and retainer.clasp.form == "I-bar"
    assert set(by_tooth) == {33, 43}  # on 34 and 44 the minor connectors would stand too near
    assert all(r.indirect and r.clasp is None for r in by_tooth.values())


def test_class_2_is_steadied_across_the_arch(toy_arch: Arch) -> None:
    plan = plan_design(toy_arch("mandible", (36, 37, 38, 48)), Wishes())
    clasped = {r.tooth for r in plan.retainers if r.clasp}
    assert clasped == {35, 47}
    assert any(r.indirect and r.tooth // 10 == 4 for r in plan.retainers)


def test_class_3_holds_both_ends_of_the_span(toy_arch: Arch) -> None:
    plan = plan_design(toy_arch("maxilla", (16, 26, 18, 28)), Wishes())
    assert {r.tooth for r in plan.retainers} == {15, 17, 25, 27}
    for retainer in plan.retainers:
        gap = "distal" if retainer.tooth in (15, 25) else "mesial"
        assert retainer.rests == (f"{gap} occlusal",)
        assert retainer.proximal_plates == (gap,)
        assert retainer.clasp is not None and retainer.clasp.form == "circumferential"


def test_class_4_keeps_clasps_off_the_front(toy_arch: Arch) -> None:
    plan = plan_design(toy_arch("maxilla", (12, 11, 21, 22, 18, 28)), Wishes())
    assert {r.tooth for r in plan.retainers if r.clasp} == {17, 27}
    assert {r.tooth for r in plan.retainers if "cingulum" in r.rests} == {13, 23}


@pytest.mark.parametrize(
    ("jaw", "missing", "form"),
    [
        ("mandible", (36, 37), "lingual bar"),
        ("maxilla", (16, 26), "palatal strap"),
        ("maxilla", (16, 26, 11), "anterior-posterior strap"),
        ("maxilla", (16, 17), "anterior-posterior strap"),
        ("maxilla", (14, 15, 16, 26), "anterior-posterior strap"),
    ],
)
def test_the_major_connector_follows_jaw_and_spans(
    toy_arch: Arch, toy_survey: Surveyed, jaw: Jaw, missing: tuple[int, ...], form: str
) -> None:
    arch = toy_arch(jaw, (*missing, *THIRDS[jaw]))
    assert propose_design(arch, toy_survey(arch), Wishes()).connector.form == form


@pytest.mark.parametrize(("depth", "distance"), [(None, 4.0), (9.5, 4.0), (7.5, 3.5), (7.0, 3.0)])
def test_a_shallow_floor_moves_the_bar_up_but_never_onto_the_margins(
    toy_arch: Arch, toy_survey: Surveyed, depth: float | None, distance: float
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    design = propose_design(arch, toy_survey(arch), Wishes(functional_depth_mm=depth))
    assert design.connector.form == "lingual bar"
    assert design.connector.margin_distance_mm == distance


@pytest.mark.reference("C24, K: functional depth below 7 mm asks for a lingual plate")
@pytest.mark.parametrize("depth", [6.9, 5.0, 3.0])
def test_a_floor_too_shallow_for_a_bar_gets_a_plate(
    toy_arch: Arch, toy_survey: Surveyed, depth: float
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    design = propose_design(arch, toy_survey(arch), Wishes(functional_depth_mm=depth))
    connector = design.connector
    assert connector.form == "lingual plate"
    assert connector.margin_distance_mm + connector.height_mm <= max(depth, 4.0)
    reasons = [r.text for r in design.reasons if r.component == "major_connector"]
    assert any("too shallow" in text for text in reasons)


def test_what_the_sheet_says_is_kept_and_the_rest_is_proposed(
    toy_arch: Arch, toy_survey: Surveyed
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 46, 47, 48))
    mine = Retainer(35, ("distal occlusal",), ("distal",), Clasp("circumferential", "lingual"))
    bar = MajorConnector("lingual bar", height_mm=4.5)
    base = DentureBase((36,), relief_mm=0.6)
    design = propose_design(
        arch, toy_survey(arch), Wishes(retainers=(mine,), connector=bar, bases=(base,))
    )
    assert mine in design.retainers
    assert design.connector is bar
    assert design.bases[0] is base
    assert {b.teeth for b in design.bases} == {(36,), (47, 46)}
    assert 45 in {r.tooth for r in design.retainers}


def test_a_proposal_taken_as_wishes_gives_itself(toy_arch: Arch, toy_survey: Surveyed) -> None:
    arch = toy_arch("maxilla", (14, 15, 16, 17, 18, 24, 25, 26, 27, 28, 12))
    first = propose_design(arch, toy_survey(arch), Wishes())
    again = propose_design(
        arch,
        toy_survey(arch),
        Wishes(retainers=first.retainers, connector=first.connector, bases=first.bases),
    )
    assert again.retainers == first.retainers
    assert (again.connector, set(again.bases)) == (first.connector, set(first.bases))


def test_every_proposed_line_is_a_finding_with_a_source(
    toy_arch: Arch, toy_survey: Surveyed
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    design = propose_design(arch, toy_survey(arch), Wishes())
    told = {f.component for f in design.findings}
    assert {f"retainer.{r.tooth}" for r in design.retainers} <= told
    assert {"major_connector", "denture_base.36"} <= told
    assert all(f.source for f in design.findings)


def test_zones_for_the_path_are_those_of_the_clasps(toy_arch: Arch) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    zones = retention_zones(propose_retainers(arch, Wishes()))
    assert set(zones) == {(35, "buccal", 0.25), (47, "buccal", 0.25)}


def test_the_face_with_the_undercut_is_taken(toy_arch: Arch, toy_survey: Surveyed) -> None:
    arch = toy_arch("maxilla", (16, 26, 18, 28))
    tooth = arch.teeth[15]

    def only_palatal(points: Floats) -> Floats:
        near = np.linalg.norm(points - tooth.centre, axis=1) < 6.0
        palatal = (points - tooth.centre) @ tooth.buccal < 0
        return np.where((~near | palatal) & (points[:, 2] < -0.5), 0.4, 0.0)

    design = propose_design(arch, toy_survey(arch, only_palatal), Wishes())
    sides = {r.tooth: r.clasp.side for r in design.retainers if r.clasp}
    assert sides == {15: "lingual", 17: "buccal", 25: "buccal", 27: "buccal"}
    assert "proposal.lingual_retention" in rules_of(design.findings)


@pytest.mark.parametrize(
    ("deepest", "set_to", "rule"),
    [(0.4, 0.25, None), (0.22, 0.20, "proposal.shallow_undercut"), (0.1, None, "no_undercut")],
)
def test_the_undercut_decides_whether_a_clasp_holds(
    toy_arch: Arch, toy_survey: Surveyed, deepest: float, set_to: float | None, rule: str | None
) -> None:
    arch = toy_arch("maxilla", (16, 26, 18, 28))
    survey = toy_survey(arch, lambda p: np.where(p[:, 2] < -0.5, deepest, 0.0))
    design = propose_design(arch, survey, Wishes())
    for retainer in design.retainers:
        if retainer.tooth in (17, 27):
            assert (retainer.clasp.undercut_mm if retainer.clasp else None) == set_to
    assert any(rule in name for name in rules_of(design.findings)) if rule else True


def test_no_bar_clasp_in_a_shallow_vestibule(toy_arch: Arch, toy_survey: Surveyed) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 46, 47, 48))
    vertices = arch.scan.surface.vertices.copy()
    vertices[:, 2] = np.maximum(vertices[:, 2], -6.0)
    cut = replace(arch, scan=replace(arch.scan, surface=Mesh(vertices, arch.scan.surface.faces)))
    design = propose_design(cut, toy_survey(cut), Wishes())
    forms = {r.tooth: r.clasp.form for r in design.retainers if r.clasp}
    assert forms == {35: "circumferential", 45: "circumferential"}


def test_teeth_that_are_not_replaced_get_no_base(toy_arch: Arch) -> None:
    plan = plan_design(toy_arch("mandible", (37, 46, 38, 48)), Wishes(not_replaced=(37,)))
    assert plan.kennedy.kennedy_class == "III"
    assert [area.teeth for area in plan.areas] == [(46,)]


def test_a_third_molar_behind_the_span_is_asked_about(toy_arch: Arch) -> None:
    arch = toy_arch("mandible", (35, 36, 37, 48))
    plan = plan_design(arch, Wishes())
    assert plan.kennedy.kennedy_class == "III"
    assert "proposal.third_molar" in rules_of(plan.findings)
    agreed = plan_design(arch, Wishes(present_abutments=(38,)))
    assert "proposal.third_molar" not in rules_of(agreed.findings)


def test_a_single_tooth_is_asked_about(toy_arch: Arch) -> None:
    missing = [c for c in (*range(11, 19), *range(21, 29)) if c != 13]
    plan = plan_design(toy_arch("maxilla", missing), Wishes())
    assert plan.kennedy.kennedy_class == "I"
    assert "proposal.single_tooth" in rules_of(plan.findings)
    assert [r.tooth for r in plan.retainers] == [13]


@pytest.mark.parametrize(
    ("wishes", "error"),
    [
        (Wishes(retainers=(Retainer(36),)), InfeasibleError),
        (Wishes(bases=(DentureBase((36, 46)),)), InfeasibleError),
        (Wishes(connector=MajorConnector("palatal strap")), InfeasibleError),
    ],
)
def test_wishes_that_cannot_be_are_refused(
    toy_arch: Arch, toy_survey: Surveyed, wishes: Wishes, error: type[Exception]
) -> None:
    arch = toy_arch("mandible", (36, 46, 38, 48))
    with pytest.raises(error):
        propose_design(arch, toy_survey(arch), wishes)


def test_nothing_to_replace_is_refused(toy_arch: Arch) -> None:
    with pytest.raises((InputError, InfeasibleError)):
        plan_design(toy_arch("maxilla", (18, 28)), Wishes())


def test_two_retainers_for_one_tooth_are_refused() -> None:
    with pytest.raises(InputError, match="35"):
        Wishes(retainers=(Retainer(35), Retainer(35)))


def test_rests_go_where_the_dentist_prepared_seats(toy_arch: Arch) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    seats = {34: ("mesial occlusal",), 35: ("mesial occlusal",), 46: ("mesial occlusal",)}
    plan = plan_design(arch, Wishes(), {**seats, 44: ("mesial occlusal",)})
    rests = {r.tooth: r.rests for r in plan.retainers}
    assert rests == {
        35: ("mesial occlusal",),
        46: ("mesial occlusal",),  # not the last molar, which has no seat
        44: ("mesial occlusal",),  # the indirect retainer
    }


def test_a_seat_at_the_other_end_of_an_abutment_is_used(toy_arch: Arch) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    plan = plan_design(arch, Wishes(), {35: ("distal occlusal",)})
    assert next(r for r in plan.retainers if r.tooth == 35).rests == ("distal occlusal",)


def test_another_tooth_holds_where_the_planned_ones_cannot(
    toy_arch: Arch, toy_survey: Surveyed
) -> None:
    arch = toy_arch("maxilla", (16, 26, 18, 28))
    smooth = [arch.teeth[code].centre for code in (15, 17)]

    def not_there(points: Floats) -> Floats:
        on_smooth = np.any([np.linalg.norm(points - c, axis=1) < 6.2 for c in smooth], axis=0)
        return np.where(~on_smooth & (points[:, 2] < -0.5), 0.4, 0.0)

    design = propose_design(arch, toy_survey(arch, not_there), Wishes(), {})
    clasped = {r.tooth: r.rests for r in design.retainers if r.clasp}
    assert clasped[14] == ("mesial occlusal",)
    assert set(clasped) == {14, 25, 27}
    assert any("15 and 17" in r.text for r in design.reasons)


def test_the_short_arm_of_a_premolar_is_thinner_and_takes_less_undercut(
    toy_arch: Arch, toy_survey: Surveyed
) -> None:
    arch = toy_arch("maxilla", (16, 26, 18, 28))
    design = propose_design(arch, toy_survey(arch), Wishes(), {})
    clasps = {r.tooth: r.clasp for r in design.retainers if r.clasp}
    assert clasps[15].undercut_mm < clasps[17].undercut_mm == 0.25
    assert clasps[15].thickness_mm < clasps[17].thickness_mm
