"""Build an invented scan: teeth, gum, preparations, scan edge, opposing arch and bite."""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace
from threading import Event

import numpy as np
from scipy.spatial.transform import Rotation

from claspwright.arch import Jaw, jaw_of
from claspwright.base import Cancelled, Floats, Ints, Progress, part, silent
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.bite import bite_record
from claspwright.demo.fields import step
from claspwright.demo.model import ArchOptions, DemoArch, Truth
from claspwright.demo.occlusion import bite_motion, worn
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth, centres, place_parametric
from claspwright.demo.preparation import prepared
from claspwright.demo.real_crowns import place_real
from claspwright.demo.scan import noisy, open_scan, surface, uneven
from claspwright.demo.solid import JawSolid, jaw_solid
from claspwright.geometry import IDENTITY, Mesh, Rigid, simplified

# standard deviation on gum and on teeth, and the distance over which it varies [mm]
UNEVEN_MM = (((0.10, 0.0), 7.0), ((0.035, 0.004), 2.5))
SOFT_MM = 1.5  # from the margin to where the gum is as uneven as gum is
THINNING_MM = 0.003  # flat places of a scan carry fewer triangles
_OPPOSING_COARSER = 1.3


@dataclass(frozen=True, slots=True, eq=False)
class _Jaw:
    """One jaw before and after it is scanned; arch frame."""

    solid: JawSolid
    everything: dict[int, PlacedTooth]


def _pose(seed: int | None) -> Rigid:
    if seed is None:
        return IDENTITY
    rng = np.random.default_rng([seed, 99])
    turn = Rotation.random(rng=rng).as_matrix()
    return Rigid(turn, rng.uniform(-80.0, 80.0, 3))


def _nearest_tooth(solid: JawSolid, points: Floats) -> tuple[Ints, Floats]:
    """(N,) ISO 3950 code of the nearest crown of each point (0 where none is near), distance."""
    nodes = np.rint(solid.grid.to_nodes(points)).astype(int)
    nodes = np.clip(nodes, 0, np.array(solid.grid.shape) - 1)
    code_at = np.zeros(len(points), dtype=np.int32)
    best = np.full(len(points), 9.0)
    for code, box in solid.boxes.items():
        local = nodes - np.array([s.start for s in box.slices])
        near = np.flatnonzero(((local >= 0) & (local < box.values.shape)).all(axis=1))
        value = box.values[tuple(local[near].T)]
        wins = value < best[near]
        code_at[near[wins]] = code
        best[near[wins]] = value[wins]
    return code_at, best


def _labels(solid: JawSolid, points: Floats) -> Ints:
    """(N,) ISO 3950 code of the tooth at each point of the surface, 0 on gum."""
    code, distance = _nearest_tooth(solid, points)
    nodes = np.rint(solid.grid.to_nodes(points)).astype(int)
    nodes = np.clip(nodes, 0, np.array(solid.grid.shape) - 1)
    return np.where(distance < solid.gum[tuple(nodes.T)], code, 0).astype(np.int32)


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


def _jaw(
    jaw: Jaw, missing: tuple[int, ...], spacing: float, options: ArchOptions, progress: Progress
) -> _Jaw:
    line, teeth = _teeth(jaw, missing, options)
    solid = jaw_solid(jaw, line, teeth, missing, options.seed, spacing, progress)
    return _Jaw(solid, teeth)


def _scan(solid: JawSolid, seed: tuple[int, int]) -> tuple[Mesh, Ints]:
    """Open scan of a jaw in its arch frame, and the tooth of each face."""
    rng = np.random.default_rng(seed)
    closed = surface(solid)
    soft = step(_nearest_tooth(solid, closed.vertices)[1] / SOFT_MM)
    for (gum_mm, tooth_mm), wave_mm in UNEVEN_MM:
        closed = uneven(closed, tooth_mm + (gum_mm - tooth_mm) * soft, wave_mm, rng)
    thinned = simplified(closed, THINNING_MM)
    mesh = open_scan(solid, thinned, rng)
    return mesh, _labels(solid, mesh.middles)


def build_arch(options: ArchOptions, *, progress: Progress = silent) -> DemoArch:
    """Build an invented arch that looks like a scan of a partially edentulous mouth.

    Args:
        options: jaw, missing teeth, seed, crowns, preparations, resolution, pose.
        progress: told how far the work is.

    Returns:
        Master scan with truth for tests, opposing arch and bite record in the same frame.

    Raises:
        InputError: a code does not belong to the jaw, or a crown is missing or not closed.
    """
    stop = Event()
    with ThreadPoolExecutor(1) as beside:
        try:
            return _built(options, beside, stop, progress)
        except BaseException:
            stop.set()  # nobody waits for the other jaw
            raise


def _built(
    options: ArchOptions, beside: ThreadPoolExecutor, stop: Event, progress: Progress
) -> DemoArch:
    """The arch; the other jaw is made by a thread beside this one, for it asks little of it."""
    other = beside.submit(_other_jaw, options, stop) if options.with_opposing else None
    bare = _jaw(options.jaw, options.missing, options.edge_mm, options, part(progress, 0.0, 0.5))
    meeting = beside.submit(_met, bare, other, options) if other else None
    boxes, seats, planes = prepared(bare.solid, options)
    solid = replace(bare.solid, boxes=boxes)
    master, label = _scan(solid, (options.seed, 7))
    progress(0.9, "master scan")
    pose = _pose(options.pose_seed)
    opposing, bite = None, None
    if meeting:
        opposing, bite = _opposing(bare, master, meeting.result(), options)
        opposing, bite = opposing.moved(pose), bite.moved(pose)
        progress(0.95, "opposing scan")
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
    rng = np.random.default_rng([options.seed, 8])
    scan = noisy(master, options.noise_um, rng).moved(pose)
    return DemoArch(options.jaw, scan, opposing, bite, truth)


def _other_jaw(options: ArchOptions, stop: Event) -> _Jaw:
    """The other jaw before it meets this one; arch frame of its own."""

    def heed(fraction: float, phase: str) -> None:
        if stop.is_set():
            raise Cancelled("the arch is wanted no more")

    jaw: Jaw = "mandible" if options.jaw == "maxilla" else "maxilla"
    spacing = options.edge_mm * _OPPOSING_COARSER
    return _jaw(jaw, options.opposing_missing, spacing, options, heed)


@dataclass(frozen=True, slots=True, eq=False)
class _Met:
    """The other jaw with its contacts worn in, its scan, and how it closes on this one."""

    solid: JawSolid
    mesh: Mesh
    motion: Rigid


def _met(bare: _Jaw, made: Future[_Jaw], options: ArchOptions) -> _Met:
    """Close the jaws, wear the contacts in and scan the other jaw."""
    other = made.result()  # by the only thread of the pool, so that it is done already
    motion = bite_motion(bare.solid, other.solid, bare.everything, other.everything)
    solid = replace(other.solid, boxes=worn(other.solid, bare.solid, motion))
    mesh, _ = _scan(solid, (options.seed, 9))
    return _Met(solid, mesh, motion)


def _opposing(bare: _Jaw, master: Mesh, met: _Met, options: ArchOptions) -> tuple[Mesh, Mesh]:
    """Scan of the other jaw, closed on this one, and bite record; arch frame of the master."""
    bite = bite_record(bare.solid, master, met.solid, met.mesh, met.motion)
    rng = np.random.default_rng([options.seed, 10])
    opposing = noisy(met.mesh, options.noise_um, rng).moved(met.motion)
    return opposing, noisy(bite, options.noise_um, rng)
