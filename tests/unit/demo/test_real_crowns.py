from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from claspwright.arch import Jaw, jaw_of
from claspwright.base import InputError
from claspwright.demo import build_arch, options_for, scenario
from claspwright.demo.real_crowns import arch_motion
from claspwright.formats import read_mesh
from claspwright.geometry import DistanceTree, Mesh, ball, closest_points


def crowns_of(scans: Path, adult: str) -> dict[int, Mesh]:
    files = sorted((scans / "crowns").glob(f"{adult}_*.ply"))
    return {int(f.stem.split("_")[1]): read_mesh(f) for f in files}


@pytest.mark.scans
@pytest.mark.parametrize(
    ("adult", "name"), [("a", "mandible_class_2_mod_1"), ("b", "maxilla_class_3_mod_1")]
)
def test_real_crowns_keep_their_shape_and_arrangement(scans: Path, adult: str, name: str) -> None:
    crowns = crowns_of(scans, adult)
    case = scenario(name)
    options = options_for(case, crowns=crowns, edge_mm=0.25)
    arch = build_arch(replace(options, seats={}, planes={}, with_opposing=False))
    own = {c: m for c, m in crowns.items() if jaw_of(c) == case.jaw}
    motion = arch_motion(case.jaw, own)
    for code in set(own) - set(case.missing):
        faces = arch.truth.crown_of_face == code
        points = arch.master.vertices[np.unique(arch.master.faces[faces])]
        crown = own[code].moved(motion)
        high = points[:, 2] > crown.bounds[:, 2].mean()  # above the necks
        tree = DistanceTree(crown)
        away = np.abs(closest_points(tree, points[high]).distance)
        assert np.median(away) < 0.03, code
        assert np.percentile(away, 90) < 0.12, code
    assert not set(case.missing) & set(np.unique(arch.truth.crown_of_face).tolist())


@pytest.mark.scans
@pytest.mark.parametrize("jaw", ["mandible", "maxilla"])
@pytest.mark.parametrize("adult", ["a", "b"])
def test_real_crowns_come_right_way_up(scans: Path, adult: str, jaw: Jaw) -> None:
    own = {c: m for c, m in crowns_of(scans, adult).items() if jaw_of(c) == jaw}
    motion = arch_motion(jaw, own)
    at = {c: motion.apply(m.vertices.mean(axis=0)) for c, m in own.items()}
    right, left = ((4, 3), (1, 2))[jaw == "maxilla"]
    sign = 1.0 if jaw == "mandible" else -1.0
    assert sign * at[10 * right + 6][0] > 15.0 > -15.0 > sign * at[10 * left + 6][0]
    assert at[10 * right + 1][1] > at[10 * right + 7][1] + 25.0
    for code in (10 * right + 6, 10 * left + 6):
        # cusps make the upper end of a molar rougher than the closed lower one
        points = motion.apply(own[code].vertices)
        low, high = points[:, 2].min(), points[:, 2].max()
        assert high < 3.0 and low < -3.0


@pytest.mark.scans
def test_both_real_jaws_close_without_sinking_in(scans: Path) -> None:
    options = options_for(
        scenario("mandible_class_3_mod_1"), crowns=crowns_of(scans, "b"), edge_mm=0.3
    )
    arch = build_arch(replace(options, seats={}, planes={}))
    assert arch.opposing is not None
    near = closest_points(DistanceTree(arch.master), arch.opposing.vertices, 0.5)
    hit = near.faces >= 0
    corners = arch.master.corners[near.faces[hit]]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    away = arch.opposing.vertices[hit] - near.points[hit]
    deep = np.where(np.einsum("ij,ij->i", away, normal) < 0, np.linalg.norm(away, axis=1), 0.0)
    assert deep.max() < 0.05
    assert (np.linalg.norm(away, axis=1) < 0.05).sum() > 50


def test_too_few_or_open_crowns_are_refused() -> None:
    closed = ball(3.0, 1.0)
    case = scenario("mandible_class_1")
    with pytest.raises(InputError, match="no real crown for"):
        build_arch(options_for(case, crowns={36: closed}))
