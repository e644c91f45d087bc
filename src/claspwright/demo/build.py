"""Build an invented scan: teeth, gum, preparations, scan edge, opposing arch and bite."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.spatial.transform import Rotation

from claspwright.arch import Jaw, jaw_of
from claspwright.base import Floats, Ints, Progress, part, silent
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.model import ArchOptions, DemoArch, Truth
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth, centres, place_parametric
from claspwright.demo.preparation import prepared
from claspwright.demo.real_crowns import place_real
from claspwright.demo.scan import noisy, open_scan, surface, uneven
from claspwright.demo.solid import JawSolid, jaw_solid
from claspwright.geometry import IDENTITY, Mesh, Rigid


def _pose(seed: int | None) -> Rigid:
    if seed is None:
        return IDENTITY
    rng = np.random.default_rng([seed, 99])
    turn = Rotation.random(rng=rng).as_matrix()
    return Rigid(turn, rng.uniform(-80.0, 80.0, 3))


def _labels(solid: JawSolid, mesh: Mesh) -> Ints:
    """(F,) ISO 3950 code of each face, 0 on gum, from the fields at the face centres."""
    middle = mesh.corners.mean(axis=1)
    nodes = np.rint(solid.grid.to_nodes(middle)).astype(int)
    nodes = np.clip(nodes, 0, np.array(solid.grid.shape) - 1)
    label = np.zeros(len(middle), dtype=np.int32)
    best = solid.gum[tuple(nodes.T)].copy()
    for code, box in solid.boxes.items():
        first = np.array([s.start for s in box.slices])
        local = nodes - first
        near = np.flatnonzero(((local >= 0) & (local < box.values.shape)).all(axis=1))
        value = box.values[tuple(local[near].T)]
        wins = value < best[near]
        label[near[wins]] = code
        best[near[wins]] = value[wins]
    return label


def _margin_line(tooth: PlacedTooth) -> Floats:
    """(72, 3) the gingival margin aimed at, in the arch frame."""
    angle = 2 * np.pi * np.arange(MARGIN_STEPS) / MARGIN_STEPS
    m = np.cos(angle) * tooth.size.mesiodistal_cervix / 2
    b = np.sin(angle) * tooth.size.buccolingual_cervix / 2
    return tooth.to_arch(np.stack([m, b, tooth.margin], axis=1))


def _mark(tooth: PlacedTooth, mesh: Mesh, label: Ints) -> Floats:
    """(3,) a point of the crown's surface near its axis, on top."""
    faces = np.flatnonzero(label == tooth.code)
    middle = mesh.corners[faces].mean(axis=1)
    local = tooth.to_tooth(middle)
    away = np.hypot(local[:, 0], local[:, 1]) - 0.3 * local[:, 2]
    return np.asarray(middle[np.argmin(away)], dtype=np.float64)


def _teeth(
    jaw: Jaw, missing: tuple[int, ...], options: ArchOptions
) -> tuple[ArchLine, dict[int, PlacedTooth]]:
    """Real crowns where they were given for this jaw, else parametric ones."""
    if not isinstance(options.crowns, str):
        own = {c: m for c, m in options.crowns.items() if jaw_of(c) == jaw}
        if own:
            return place_real(jaw, own, missing, options.seed)
    return place_parametric(jaw, missing, options.seed)


def build_arch(options: ArchOptions, *, progress: Progress = silent) -> DemoArch:
    """Build an invented arch that looks like a scan of a partially edentulous mouth.

    Args:
        options: jaw, missing teeth, seed, crowns, preparations, resolution, pose.

    Returns:
        Master scan with truth for tests, opposing arch and bite record in the same frame.

    Raises:
        InputError: a code does not belong to the jaw, or a crown is missing or not closed.
    """
    line, teeth = _teeth(options.jaw, options.missing, options)
    solid = jaw_solid(
        options.jaw, line, teeth, options.missing, options.seed, options.edge_mm,
        part(progress, 0.0, 0.5),
    )  # fmt: skip
    boxes, seats, planes = prepared(solid, options)
    solid = replace(solid, boxes=boxes)
    rng = np.random.default_rng([options.seed, 7])
    master = uneven(open_scan(solid, surface(solid), rng), 0.03, 2.5, rng)
    label = _labels(solid, master)
    pose = _pose(options.pose_seed)
    marks = {c: pose.apply(_mark(t, master, label)) for c, t in solid.placed.items()}
    truth = Truth(
        marks=marks,
        crown_of_face=label,
        seats=seats,
        planes=planes,
        arch_to_scan=pose,
        centres=centres(solid.placed),
        margins={c: _margin_line(t) for c, t in solid.placed.items()},
    )
    progress(1.0, "arch built")
    return DemoArch(
        options.jaw, noisy(master, options.noise_um, rng).moved(pose), None, None, truth
    )
