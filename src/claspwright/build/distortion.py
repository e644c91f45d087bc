"""Prediction of distortion of a supported part, and the shape that answers it in advance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Finding, Floats, InputError, Point, Progress, part, silent
from claspwright.build.book import finding
from claspwright.build.coupon import LUMP, STEP_MM
from claspwright.build.machine import DistortionPlan
from claspwright.geometry import Mesh
from claspwright.mechanics.cells import Cells, Distance, cut_cells
from claspwright.mechanics.growth import CutFree, at_points, cut_free, grow, in_plane
from claspwright.mechanics.solid_distance import mesh_distance

SCANS_NEEDED = 3  # of printed frameworks, before a shape may be compensated
AGREE = (0.5, 2.0)  # measured over predicted, within which the model is taken to know the part


@dataclass(frozen=True, slots=True)
class FitPlace:
    """A place of a part that must fit."""

    name: str
    kind: str  # such as "rest" or "clasp tip"
    at_mm: Point


@dataclass(frozen=True, slots=True)
class PlaceMoved:
    """How far one place lies from where it was designed, best fit of the whole part."""

    place: FitPlace
    before_mm: float  # cut free without stress relief
    after_mm: float  # cut free after stress relief on the plate
    vector_mm: Point  # after


@dataclass(frozen=True, slots=True, eq=False)
class Distortion:
    """What the model says of one part; plate frame."""

    plan: DistortionPlan
    cut: CutFree
    places: tuple[PlaceMoved, ...]
    before_mm: tuple[float, float]  # median and 99th percentile over the part
    after_mm: tuple[float, float]
    lumps: int
    left_mm: tuple[float, float] | None = None  # rms before and after compensation, if made

    @property
    def rms_mm(self) -> float:
        """Root mean square at the places, after stress relief; over the part without places."""
        if self.places:
            return _rms(np.array([p.after_mm for p in self.places]))
        return _rms(np.linalg.norm(self.cut.moved(self.plan.stress_left), axis=1))

    def at(self, points: Floats) -> Floats:
        """(P, 3) displacement after stress relief and cutting free [mm]."""
        return self.cut.at(points, self.plan.stress_left)


def predict_distortion(
    solid: Mesh,
    supports: Mesh,
    places: Sequence[FitPlace],
    plan: DistortionPlan,
    *,
    modulus: float,
    poisson: float,
    step_mm: float = STEP_MM,
    lump: int = LUMP,
    progress: Progress = silent,
) -> Distortion:
    """Lay part and supports on the plate, relieve the stress, cut the part free.

    Args:
        solid: the part as it stands, +z up, z = 0 the plate.
        supports: what carries it; may be empty where the part itself stands on the plate.
        places: what must fit, in the plate frame.
        plan: strain and share of stress left.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        step_mm: edge of a cell; the strain of a coupon belongs to one cell and lump.
        lump: rows of cells laid at once.
        progress: told of the lumps.

    Source:
        Inherent strain in lumped layers; elastic, see `mechanics.growth`.
    """
    own, whole, low, high = _distances(solid, supports, step_mm, part(progress, 0.0, 0.1))
    both = cut_cells(whole, low, high, step_mm, progress=part(progress, 0.1, 0.2))
    left = both if own is whole else cut_cells(own, low, high, step_mm)
    strain = in_plane(plan.strain, len(both.place))
    grown = grow(
        both, strain, modulus=modulus, poisson=poisson, lump=lump, progress=part(progress, 0.2, 0.9)
    )
    free = cut_free(
        grown, left, modulus=modulus, poisson=poisson, progress=part(progress, 0.9, 1.0)
    )
    before, after = free.moved(1.0), free.moved(plan.stress_left)
    return Distortion(
        plan, free, _moved(free.cells, before, after, places), _spread(before), _spread(after),
        grown.lumps,
    )  # fmt: skip


def compensated(solid: Mesh, supports: Mesh, found: Distortion) -> tuple[Mesh, Mesh]:
    """Part and supports drawn where the model says they must be drawn to end up as designed.

    The feet of the supports stay on the plate; what reaches the part follows it.
    """
    shift = -found.at(solid.vertices)
    if not len(supports.faces):
        return Mesh(solid.vertices + shift, solid.faces), supports
    _, near = cKDTree(solid.vertices).query(supports.vertices)
    height = supports.vertices[:, 2] / np.maximum(solid.vertices[near, 2], 1e-6)
    follow = np.clip(height, 0.0, 1.0)[:, None] * shift[near]
    follow[supports.vertices[:, 2] < 1e-6] = 0.0
    moved = supports.vertices + follow
    moved[:, 2] = np.maximum(moved[:, 2], 0.0)
    return Mesh(solid.vertices + shift, solid.faces), Mesh(moved, supports.faces)


def remaining(solid: Mesh, changed: Mesh, again: Distortion, points: Floats) -> Floats:
    """(P, 3) deviation that is left of the designed shape after compensation [mm].

    Args:
        solid: the designed part.
        changed: the part as it is drawn, vertex by vertex.
        again: the prediction for what is drawn.
        points: places of the designed part.
    """
    _, nearest = cKDTree(solid.vertices).query(points)
    every = np.unique(np.asarray(nearest))
    some = np.union1d(every, np.arange(0, len(solid.vertices), max(1, len(solid.vertices) // 5000)))
    gap = changed.vertices[some] + again.at(changed.vertices[some]) - solid.vertices[some]
    gap = _without_motion(solid.vertices[some], gap)
    return np.asarray(gap[np.searchsorted(some, nearest)])


def check_compensation(plan: DistortionPlan) -> None:
    """Refuse to change a shape before the laboratory has held the model against its own prints.

    Raises:
        InputError: no coupon, too few scans, or scans that do not agree with the model.
    """
    place = "[distortion] of the process record"
    if not plan.coupon.strip():
        raise InputError(
            "no shape is compensated by a start value: the strain needs a coupon",
            place=place,
            remedy="Print a coupon, see `claspwright coupon`, and enter strain and coupon.",
        )
    if len(plan.scans) < SCANS_NEEDED:
        raise InputError(
            f"{len(plan.scans)} scans of printed frameworks are entered, {SCANS_NEEDED} are needed "
            "before a shape is compensated",
            place=place,
            remedy="Scan printed frameworks and enter them as [[distortion.scans]].",
        )
    ratio = float(np.exp(np.mean([np.log(s.measured_mm / s.predicted_mm) for s in plan.scans])))
    if not AGREE[0] <= ratio <= AGREE[1]:
        raise InputError(
            f"the scans measured {ratio:.2f} times what was predicted; the model does not know "
            "these parts well enough",
            place=place,
            remedy="Calibrate again; do not compensate.",
        )


def distortion_findings(found: Distortion) -> tuple[Finding, ...]:
    """What the prediction asks a person to judge."""
    plan, out = found.plan, []
    over = [p for p in found.places if p.after_mm > plan.most_mm]
    if over and found.left_mm is None:
        worst = max(over, key=lambda p: p.after_mm)
        out.append(
            finding(
                "build.distortion",
                f"The model expects {len(over)} of {len(found.places)} rests and clasp tips "
                f"farther than {plan.most_mm:g} mm from the design after stress relief, most at "
                f"{worst.place.name}. Relieve the stress on the plate, tie free ends, or choose "
                "another orientation; measure before the try-in.",
                measured=round(worst.after_mm, 3),
                limit=plan.most_mm,
                unit="mm",
                at_mm=worst.place.at_mm,
                component=worst.place.name,
            )
        )
    if not plan.coupon.strip():
        out.append(
            finding(
                "build.distortion-uncalibrated",
                f"The distortion rests on a start value of {plan.strain:g}, not on a coupon of "
                "this machine and alloy: use it to compare orientations and supports only.",
                measured=plan.strain,
            )
        )
    if found.left_mm is not None:
        out.append(
            finding(
                "build.compensated",
                f"The shape was drawn changed: the model expects {found.left_mm[1]:.3f} mm (root "
                f"mean square) in place of {found.left_mm[0]:.3f} mm. It corrects only what the "
                "model knows; measure the printed part.",
                measured=round(found.left_mm[1], 4),
                unit="mm",
            )
        )
    return tuple(out)


def _distances(
    solid: Mesh, supports: Mesh, step_mm: float, progress: Progress
) -> tuple[Distance, Distance, Floats, Floats]:
    """Distance to the part and to all, and the box of the cells with the plate as its floor."""
    own = mesh_distance(solid, step_mm, progress=progress)
    low, high = solid.bounds
    whole = own
    if len(supports.faces):
        below = mesh_distance(supports, step_mm)
        low = np.minimum(low, supports.bounds[0])
        high = np.maximum(high, supports.bounds[1])

        def either(points: Floats) -> Floats:
            return np.minimum(own(points), below(points))

        whole = either
    low = np.floor((low - step_mm) / step_mm) * step_mm
    low[2] = 0.0
    return own, whole, low, high + step_mm


def _moved(
    cells: Cells, before: Floats, after: Floats, places: Sequence[FitPlace]
) -> tuple[PlaceMoved, ...]:
    if not places:
        return ()
    points = np.array([place.at_mm for place in places])
    first, second = at_points(cells, before, points), at_points(cells, after, points)
    return tuple(
        PlaceMoved(
            place, float(np.linalg.norm(one)), float(np.linalg.norm(two)),
            (float(two[0]), float(two[1]), float(two[2])),
        )
        for place, one, two in zip(places, first, second, strict=True)
    )  # fmt: skip


def _spread(moved: Floats) -> tuple[float, float]:
    half, most = np.percentile(np.linalg.norm(moved, axis=1), [50.0, 99.0])
    return float(half), float(most)


def _rms(values: Floats) -> float:
    return float(np.sqrt(np.mean(values**2)))


def _without_motion(points: Floats, moved: Floats) -> Floats:
    """Displacements less the small rigid motion that fits them best."""
    arm = points - points.mean(axis=0)
    columns = [np.tile(row, (len(arm), 1)) for row in np.eye(3)]
    columns += [np.cross(row, arm) for row in np.eye(3)]
    motion = np.stack(columns, axis=2)
    found, *_ = np.linalg.lstsq(motion.reshape(-1, 6), moved.ravel(), rcond=None)
    return np.asarray(moved - motion @ found)
