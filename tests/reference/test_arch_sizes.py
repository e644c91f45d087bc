"""The invented mouth against published tooth tables and against measured arches."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from claspwright.arch import Jaw
from claspwright.demo import ArchOptions, build_arch
from claspwright.demo.placement import PlacedTooth, centres, place_parametric
from claspwright.demo.sizes import ASH

JAWS: tuple[Jaw, ...] = ("mandible", "maxilla")
SEEDS = (1, 2, 3, 4, 5, 6)
STEP = 0.15


@cache
def mouth(jaw: Jaw, seed: int) -> dict[int, PlacedTooth]:
    """A complete dentition."""
    return place_parametric(jaw, (), seed)[1]


def crown_extents(tooth: PlacedTooth) -> dict[str, float]:
    """Extents of a crown above its cervix, and its neck, in the tooth's own directions [mm]."""
    s = tooth.size
    axes = (
        np.arange(-0.65 * s.mesiodistal, 0.65 * s.mesiodistal, STEP),
        np.arange(-0.7 * s.buccolingual, 0.7 * s.buccolingual, STEP),
        np.arange(0.0, s.length + 1.0, STEP),
    )
    m, b, z = np.meshgrid(*(a.astype(np.float32) for a in axes), indexing="ij")
    inside = tooth.shape.values(m, b, z) < 0
    neck = inside[:, :, 0]
    top = np.where(inside, z, -np.inf).max(axis=2)
    table = (np.abs(m[:, :, 0]) < 0.3 * s.mesiodistal) & (
        np.abs(b[:, :, 0]) < 0.25 * s.buccolingual
    )
    return {
        "length": float(z[inside].max()),
        "mesiodistal": float(np.ptp(m[inside])) + STEP,
        "buccolingual": float(np.ptp(b[inside])) + STEP,
        "mesiodistal_cervix": float(np.ptp(m[:, :, 0][neck])) + STEP,
        "buccolingual_cervix": float(np.ptp(b[:, :, 0][neck])) + STEP,
        "fossa": float(top.max() - top[table].min()),
    }


@pytest.mark.reference("ash2003, Table 1-1 (rows in memory are marked in arch-sizes 5a)")
@pytest.mark.parametrize("jaw", JAWS)
@pytest.mark.parametrize("n", range(1, 9))
def test_crowns_have_the_sizes_of_the_table(jaw: Jaw, n: int) -> None:
    # the seeded spread of a mouth is 2.5 %, so six mouths agree in the mean within 2.5 %; the
    # crown's form may leave its own size by two grid steps
    quadrant = 1 if jaw == "maxilla" else 3
    mouths = [mouth(jaw, seed)[10 * quadrant + n] for seed in SEEDS]
    for name in ("length", "mesiodistal", "buccolingual"):
        mean = np.mean([getattr(t.size, name) for t in mouths])
        assert mean == pytest.approx(getattr(ASH[jaw][n - 1], name), rel=0.025)
    found = crown_extents(mouths[0])
    for name in ("length", "mesiodistal", "buccolingual", "mesiodistal_cervix"):
        assert found[name] == pytest.approx(getattr(mouths[0].size, name), abs=0.4), name


@pytest.mark.reference(
    "own measurement on 179 research scans, arch-sizes 4: highest cusp over fossa"
)
@pytest.mark.parametrize(
    ("code", "low", "high"),
    [(14, 2.06, 3.08), (15, 1.75, 2.62), (16, 1.94, 3.16), (17, 2.46, 3.86),
     (35, 1.22, 2.36), (36, 1.86, 3.05), (37, 2.08, 3.79)],
)  # fmt: skip
def test_fossae_are_as_deep_as_in_most_mouths(code: int, low: float, high: float) -> None:
    # 10th to 90th percentile, and two grid steps of the measurement here
    jaw: Jaw = "maxilla" if code < 30 else "mandible"
    depth = crown_extents(mouth(jaw, 1)[code])["fossa"]
    assert low - 2 * STEP < depth < high + 2 * STEP


@pytest.mark.reference("own measurement on 179 research scans, arch-sizes 4: centroid distances")
@pytest.mark.parametrize(
    ("jaw", "pair", "mean", "spread"),
    [("maxilla", (13, 23), 33.9, 1.9), ("maxilla", (16, 26), 47.9, 3.6),
     ("mandible", (33, 43), 26.9, 1.8), ("mandible", (36, 46), 44.9, 3.7)],
)  # fmt: skip
def test_arches_are_as_wide_as_measured_ones(
    jaw: Jaw, pair: tuple[int, int], mean: float, spread: float
) -> None:
    # two standard deviations; the incisors of the table are narrower than those of the scans
    mouths = [centres(mouth(jaw, seed)) for seed in SEEDS]
    width = np.mean([abs(at[pair[0]][0] - at[pair[1]][0]) for at in mouths])
    assert width == pytest.approx(mean, abs=2 * spread)


@pytest.mark.reference("own measurement, arch-sizes 4: vault 19.8 (17.0-23.4) below the cusps")
@pytest.mark.parametrize("seed", [1, 2])
def test_the_palate_is_as_deep_as_in_most_mouths(seed: int) -> None:
    arch = build_arch(ArchOptions("maxilla", (18, 28), seed=seed, edge_mm=0.4, with_opposing=False))
    v = arch.master.vertices
    y = np.mean([arch.truth.centres[c][1] for c in (16, 26)])
    cusps = np.mean([
        v[np.unique(arch.master.faces[arch.truth.crown_of_face == c])][:, 2].max()
        for c in (16, 26)
    ])  # fmt: skip
    middle = (np.abs(v[:, 0]) < 1.5) & (np.abs(v[:, 1] - y) < 1.5)
    assert 17.0 < cusps - v[middle, 2].min() < 23.4


@pytest.mark.reference("J Jpn Prosthodont Soc 2006;50(1):54: mandibular ridge widths, n 77")
@pytest.mark.parametrize(("code", "width"), [(35, 11.5), (36, 13.0)])
def test_the_mandibular_ridge_has_a_measured_width(code: int, width: float) -> None:
    # width of the ridge's base, some 5 mm (the published height) under its crest; no spread is
    # printed, 20 % is allowed
    missing = (35, 36, 37, 38, 45, 46, 47, 48)
    arch = build_arch(ArchOptions("mandible", missing, edge_mm=0.4, with_opposing=False))
    _, teeth = place_parametric("mandible", missing, 1)
    tooth = teeth[code]
    at = tooth.to_arch(np.array([[0.0, 0.0, 0.0]]))[0]
    out = tooth.frame.rotation[1][:2] / np.linalg.norm(tooth.frame.rotation[1][:2])
    v = arch.master.vertices - at
    slab = np.abs(v[:, :2] @ np.array([-out[1], out[0]])) < 0.4
    slab &= np.abs(v[:, :2] @ out) < 14
    crest = v[slab, 2].max()
    base = slab & (np.abs(v[:, 2] - crest + 5.0) < 0.4)
    side = v[base][:, :2] @ out
    found = np.median(side[side > 0]) - np.median(side[side < 0])
    assert found == pytest.approx(width, rel=0.2)
