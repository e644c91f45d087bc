"""Supports carry every layer, keep off protected faces and away from the part."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.build import (
    LayerPlan,
    Slices,
    SupportPlan,
    find_contacts,
    find_islands,
    find_overhangs,
    labelled,
    signs,
    slice_solid,
    support,
)
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    ball,
    box,
    check_solid,
    difference,
    face_normals,
    revolved,
    signed_distance,
    union,
    volume,
)

PLAN = SupportPlan()
LAYER = 0.1


def hook() -> Mesh:
    """A post with a long arm at its top, whose end hangs down, and a ball over the post's foot."""
    post = box(np.array([0.0, 0.0, 4.0]), np.array([3.0, 6.0, 14.0]))
    arm = box(np.array([2.0, 0.0, 12.0]), np.array([14.0, 6.0, 14.0]))
    end = box(np.array([12.0, 0.0, 8.0]), np.array([14.0, 6.0, 13.0]))
    drop = Mesh(ball(1.5, 0.4).vertices + np.array([7.0, 3.0, 11.2]), ball(1.5, 0.4).faces)
    shelf = box(np.array([-0.5, 0.0, 4.0]), np.array([9.0, 6.0, 5.0]))
    return union(post, arm, end, drop, shelf)


def test_nothing_begins_over_loose_powder() -> None:
    part = hook()
    bare = slice_solid(part, LayerPlan(LAYER, 0.0, 140))
    none = slice_solid(
        box(np.array([50.0, 0, 0]), np.array([51.0, 1, 0.05])), LayerPlan(LAYER, 0.0, 140)
    )
    alone = find_islands(bare, none)
    assert {round(i.at_mm[2], 1) for i in alone} >= {4.0, 8.0}  # foot and hanging end
    held = support(part, np.zeros(len(part.faces), bool), PLAN, LAYER)
    assert not held.islands
    assert not find_islands(held.part_slices, held.slices)
    reach = 0.75 * PLAN.spacing_mm + 0.5
    assert not find_overhangs(held.part_slices, held.slices, reach)
    assert find_overhangs(bare, none, reach)  # the check can fail
    assert check_solid(held.solid).watertight
    assert held.solid.bounds[0, 2] == 0.0
    assert not [f for f in held.findings if f.severity == "stop"]


def layered(*solids: Mesh) -> Slices:
    return slice_solid(union(*solids), LayerPlan(LAYER, 0.0, 20))


def test_only_what_lies_on_metal_is_no_island() -> None:
    """Bodies beside each other, each with what it lies on: corners on metal or not."""
    cone = revolved(np.array([[0.0, 0.0], [0.3, 0.0], [2.0, 2.0], [0.0, 2.0]]), 12)
    lower = box(np.array([10.0, -0.5, 0.0]), np.array([20.0, 0.5, 1.0]))
    across = box(np.array([14.0, -5.0, 0.95]), np.array([15.0, 5.0, 2.0]))  # no corner on it
    outer = revolved(np.array([[0.0, 0.0], [5.0, 0.0], [5.0, 2.0], [0.0, 2.0]]), 24)
    inner = revolved(np.array([[0.0, -1.0], [4.0, -1.0], [4.0, 3.0], [0.0, 3.0]]), 24)
    ring = difference(outer, inner)
    round_about = Mesh(ring.vertices + [30.0, 0.0, 0.0], ring.faces)
    loose = box(np.array([29.0, -1.0, 1.0]), np.array([31.0, 1.0, 2.0]))  # in the ring's hole
    none = layered(box(np.array([50.0, 0, 0]), np.array([51.0, 1, 0.05])))
    assert not find_islands(layered(cone, lower, across), none)
    found = find_islands(layered(cone, lower, across, round_about, loose), none)
    assert [(i.layer, round(i.area_mm2, 6)) for i in found] == [(10, 4.0)]
    np.testing.assert_allclose(found[0].at_mm, [30.0, 0.0, 1.0], atol=0.6)
    carried = layered(box(np.array([29.5, -0.5, 0.0]), np.array([30.5, 0.5, 1.0])))
    assert not find_islands(layered(cone, lower, across, round_about, loose), carried)


def test_pins_keep_their_distance_below_the_neck() -> None:
    part = hook()
    held = support(part, np.zeros(len(part.faces), bool), PLAN, LAYER)
    tree = DistanceTree(part)
    straight = [c for c in held.columns if c.base == "plate"]
    assert len(straight) > 8
    for column in straight:
        x, y, z = column.contact.at_mm
        low = np.linspace(0.0, z - 2.0, 12)
        points = np.column_stack([np.full(12, x), np.full(12, y), low])
        assert signed_distance(tree, points).min() > 0.5 * PLAN.pin_mm
    bases = {c.base for c in held.columns}
    assert bases & {"branch", "post", "part"}  # over the shelf no pin goes straight down


def test_protected_faces_are_left_alone_where_others_carry() -> None:
    """A flat underside of which every second strip of 1 mm is protected."""
    strips = [box(np.array([float(n), 0.0, 4.0]), np.array([n + 1.0, 8.0, 6.0])) for n in range(10)]
    part = union(*strips)
    fine = _split(part)
    centres = fine.corners.mean(axis=1)
    down = face_normals(fine)[:, 2] < -0.9
    protected = down & (np.floor(centres[:, 0]).astype(int) % 2 == 0)
    contacts = find_contacts(fine, protected, PLAN)
    below = [c for c in contacts if c.kind == "downskin"]
    assert below and not any(c.protected for c in below)
    every = find_contacts(fine, down, PLAN)  # all of it protected: carried and said
    assert every and all(c.protected for c in every)


def _split(mesh: Mesh) -> Mesh:
    """Triangles of at most 0.6 mm."""
    import trimesh

    points, faces = trimesh.remesh.subdivide_to_size(mesh.vertices, mesh.faces, 0.6)  # type: ignore[no-untyped-call] # has no types
    body = trimesh.Trimesh(points, faces, process=True)
    return Mesh(np.asarray(body.vertices), np.asarray(body.faces))


def test_free_ends_get_the_stronger_neck() -> None:
    part = box(np.array([0.0, 0.0, 4.0]), np.array([12.0, 2.0, 5.0]))
    ends = np.array([[12.0, 1.0, 4.5]])
    held = support(part, np.zeros(12, bool), PLAN, LAYER, free_ends=ends)
    kinds = [c.contact.kind for c in held.columns]
    assert kinds.count("free end") == 1


def test_a_tag_reads_and_stands_apart() -> None:
    assert signs("b-0142") == "B-0142"
    assert signs("a/b") == "A-B"
    part = box(np.array([0.0, 0.0, 4.0]), np.array([30.0, 30.0, 5.0]))
    held = support(part, np.zeros(12, bool), SupportPlan(spacing_mm=6.0), LAYER)
    feet = np.array([c.foot_mm[:2] for c in held.columns])
    tagged = labelled(part, held.solid, feet, "B-1")
    assert len(tagged.faces) > len(held.solid.faces)
    found = check_solid(tagged)
    assert found.watertight and found.volume_mm3 > check_solid(held.solid).volume_mm3 + 20.0
    assert signed_distance(DistanceTree(part), tagged.vertices[-8:]).shape == (8,)


@pytest.mark.parametrize("angle", [30.0, 60.0])
def test_steeper_than_self_supporting_needs_none(angle: float) -> None:
    """A leaning slab: its underside needs contacts only when flatter than 45 deg."""
    turn = np.radians(90.0 - angle)
    rotation = np.array(
        [[np.cos(turn), 0, np.sin(turn)], [0, 1, 0], [-np.sin(turn), 0, np.cos(turn)]]
    )
    slab = box(np.zeros(3), np.array([2.0, 10.0, 20.0]))
    points = slab.vertices @ rotation.T
    part = Mesh(points + [0, 0, 4.0 - points[:, 2].min()], slab.faces)
    contacts = find_contacts(part, np.zeros(12, bool), PLAN)
    high = [c for c in contacts if c.at_mm[2] > 6.5 and c.kind == "downskin"]
    assert bool(high) == (angle < 45.0)


def test_contacts_share_pins_that_stand() -> None:
    part = hook()
    held = support(part, np.zeros(len(part.faces), bool), PLAN, LAYER)
    stems = {c.foot_mm[:2] for c in held.columns if c.base in ("plate", "branch")}
    boughs = [c for c in held.columns if c.base == "post"]
    assert len(boughs) > len(stems)
    assert {c.foot_mm[:2] for c in boughs} <= stems
    alone = support(part, np.zeros(len(part.faces), bool), replace(PLAN, bough_mm=0.01), LAYER)
    assert volume(held.solid) < 0.85 * volume(alone.solid)


def test_steeper_downskins_need_fewer_contacts_and_shallow_dips_none() -> None:
    def wedge(rise: float) -> Mesh:
        slab = box(np.array([0.0, 0.0, 4.0]), np.array([10.0, 10.0, 8.0]))
        points = slab.vertices.copy()
        points[:, 2] += rise * points[:, 0] / 10.0
        return Mesh(points, slab.faces)

    bare = np.zeros(12, bool)
    flat, slanted = (len(find_contacts(wedge(rise), bare, PLAN)) for rise in (0.0, 8.0))
    assert slanted < 0.6 * flat
    dip = Mesh(ball(0.6, 0.2).vertices + [5.0, 5.0, 4.59], ball(0.6, 0.2).faces)
    foot = Mesh(ball(0.6, 0.2).vertices + [1.5, 1.5, 4.3], ball(0.6, 0.2).faces)
    dipped = union(wedge(0.0), dip, foot)  # the lowest of all always counts
    bare = np.zeros(len(dipped.faces), bool)
    for deep, found in ((0.005, True), (0.025, False)):
        lows = find_contacts(dipped, bare, PLAN, deep_mm=deep)
        under = [c for c in lows if c.kind == "lowest point" and c.at_mm[0] > 4.0]
        assert bool(under) is found


def test_a_bar_closes_a_clasp_to_a_ring_where_it_passes() -> None:
    back = box(np.array([0.0, 0.0, 4.0]), np.array([8.0, 2.0, 6.0]))
    arms = [box(np.array([x, 0.0, 4.5]), np.array([x + 1.2, 8.0, 5.7])) for x in (0.0, 6.8)]
    tips = ((0.6, 7.5, 5.1), (7.4, 7.5, 5.1))
    part = union(back, *arms)
    bare = np.zeros(len(part.faces), bool)
    held = support(part, bare, PLAN, LAYER, rings=[tips])
    assert held.rings == 1 and not held.islands
    assert any(
        abs(c.contact.at_mm[0] - 4.0) < 2.0 and c.contact.at_mm[1] > 7.0 for c in held.columns
    )  # the bar is carried too
    wall = union(part, box(np.array([3.5, 0.0, 4.0]), np.array([4.5, 9.0, 7.0])))
    stopped = support(wall, np.zeros(len(wall.faces), bool), PLAN, LAYER, rings=[tips])
    assert stopped.rings == 0
