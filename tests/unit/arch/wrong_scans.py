"""Wrong inputs, each with the finding that must come of it: read by the tests and by the docs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.arch import Jaw
from claspwright.base import Bools, Floats, Severity
from claspwright.geometry import Mesh, vertex_normals

LOWER, UPPER = "mandible_class_2_mod_1", "maxilla_class_3_mod_1"
LOWER_MISSING = (36, 37, 38, 46, 48)
UPPER_MISSING = (15, 16, 18, 24, 25, 28)


@dataclass(frozen=True)
class WrongScan:
    """One wrong input and what must be said of it."""

    title: str
    spoil: Callable[[Mesh, Mapping[int, Floats]], Mesh]
    rule: str
    severity: Severity
    base: str = LOWER
    jaw: Jaw = "mandible"
    missing: tuple[int, ...] = LOWER_MISSING
    edge_mm: float = 0.6
    teeth: bool = False  # the finding comes with the teeth, not with the scan


def kept(mesh: Mesh, keep: Bools) -> Mesh:
    return Mesh(mesh.vertices, mesh.faces[keep])


def as_it_is(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    return mesh


def scaled(factor: float) -> Callable[[Mesh, Mapping[int, Floats]], Mesh]:
    return lambda mesh, marks: Mesh(mesh.vertices * factor, mesh.faces)


def mirrored(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    return Mesh(mesh.vertices * [-1.0, 1.0, 1.0], mesh.faces[:, ::-1])


def mirrored_carelessly(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    return Mesh(mesh.vertices * [-1.0, 1.0, 1.0], mesh.faces)


def inside_out(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    return Mesh(mesh.vertices, mesh.faces[:, ::-1])


def pierced(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    gap = cKDTree(marks[34][None]).query(mesh.corners.mean(axis=1))[0]
    return kept(mesh, np.asarray(gap > 1.2))


def without_palate(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    middle = mesh.corners.mean(axis=1)
    return kept(mesh, (np.abs(middle[:, 0]) > 14.0) | (middle[:, 1] > -12.0))


def without_sulcus(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    return kept(mesh, mesh.corners[:, :, 2].mean(axis=1) > -6.5)


def cut_behind(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    behind = marks[35][1] - 9.0
    return kept(mesh, mesh.corners[:, :, 1].mean(axis=1) > behind)


def doubled(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    """A second pass over the front, 0.2 mm off."""
    lifted = mesh.vertices + 0.2 * vertex_normals(mesh)
    front = mesh.corners[:, :, 1].mean(axis=1) > -15.0
    return Mesh(
        np.concatenate([mesh.vertices, lifted]),
        np.concatenate([mesh.faces, mesh.faces[front] + len(mesh.vertices)]),
    )


def lost_tooth(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    """One tooth cut free from the rest."""
    gap = cKDTree(marks[34][None, :2]).query(mesh.corners.mean(axis=1)[:, :2])[0]
    return kept(mesh, np.asarray((gap < 5.0) | (gap > 6.0)))


def noisy(mesh: Mesh, marks: Mapping[int, Floats]) -> Mesh:
    shake = np.random.default_rng(1).normal(0.0, 0.06, (len(mesh.vertices), 1))
    return Mesh(mesh.vertices + shake * vertex_normals(mesh), mesh.faces)


WRONG = (
    WrongScan("mirrored on export", mirrored, "scan.mirrored", "stop", teeth=True),
    WrongScan("mirrored, its faces left inside out", mirrored_carelessly, "scan.winding", "look"),
    WrongScan("faces inside out", inside_out, "scan.winding", "look"),
    WrongScan("in centimetres", scaled(0.1), "scan.unit", "look"),
    WrongScan("in micrometres", scaled(1000.0), "scan.unit", "look"),
    WrongScan("mandible given as maxilla", as_it_is, "scan.jaw", "look", jaw="maxilla",
              missing=(16, 18, 26, 27, 28), teeth=True),
    WrongScan("mandible given as maxilla, its palate looked for", as_it_is, "scan.coverage",
              "look", jaw="maxilla", missing=(16, 18, 26, 27, 28)),
    WrongScan("palate missing, and given as mandible", without_palate, "scan.jaw", "look",
              base=UPPER, missing=(35, 36, 38, 44, 45, 48), teeth=True),
    WrongScan("maxilla given as mandible", as_it_is, "scan.jaw", "look", base=UPPER,
              missing=(35, 36, 38, 44, 45, 48)),
    WrongScan("no jaw named", as_it_is, "scan.jaw", "look"),
    WrongScan("palate missing", without_palate, "scan.coverage", "look", base=UPPER,
              jaw="maxilla", missing=UPPER_MISSING),
    WrongScan("sulcus missing", without_sulcus, "scan.border", "look"),
    WrongScan("ridge behind the last tooth missing", cut_behind, "scan.coverage", "look",
              teeth=True),
    WrongScan("hole in a tooth", pierced, "scan.holes_on_teeth", "look"),
    WrongScan("two passes not stitched", doubled, "scan.layers", "look"),
    WrongScan("one tooth loose from the rest", lost_tooth, "scan.islands", "look"),
    WrongScan("edges of 0.6 mm", as_it_is, "scan.resolution", "look"),
    WrongScan("noise of 60 um", noisy, "scan.noise", "look", edge_mm=0.25),
    WrongScan("a standing tooth listed as missing", as_it_is, "tooth.seems_present", "look",
              missing=(*LOWER_MISSING, 35), teeth=True),
    WrongScan("an absent tooth not listed", as_it_is, "tooth.seems_absent", "look",
              missing=(37, 38, 46, 48), teeth=True),
)  # fmt: skip

# Told by the bite record: title, and which scan was mirrored (test_opposing.py).
MIRRORED_PAIRS = (
    ("master mirrored, opposing and record not; any gaps", "master"),
    ("opposing arch mirrored, master and record not", "opposing"),
)
