"""One part made ready for the platform: stood up, supported, labelled, sliced."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from claspwright.base import Bools, Finding, Floats, Point, Progress, part, silent
from claspwright.build.book import finding
from claspwright.build.columns import Column
from claspwright.build.distortion import (
    Distortion,
    FitPlace,
    compensated,
    distortion_findings,
    predict_distortion,
    remaining,
)
from claspwright.build.label import labelled
from claspwright.build.machine import Machine, Process
from claspwright.build.nesting import Outline, outline_of
from claspwright.build.orientation import Candidate, OrientationStudy, Weights, study_orientations
from claspwright.build.pose import Pose
from claspwright.build.slices import LayerPlan, Slices, slice_solid
from claspwright.build.supports import Supports, support
from claspwright.geometry import DistanceTree, HeldSolid, Mesh, Rigid, volume
from claspwright.materials import material

Foresight = Literal["none", "predict", "compensate"]


@dataclass(frozen=True, slots=True, eq=False)
class Blank:
    """A solid that is to be built."""

    name: str
    solid: Mesh
    protected: Bools  # (F,) faces that no support should touch
    free_ends: Floats | None = None  # (N, 3) tips of long free ends, in the solid's frame
    reference: Floats | None = None  # (3,) unit vector that names the tilt, such as the path
    due: str = ""
    label: str = ""  # what the tag says; empty: the name
    places: tuple[FitPlace, ...] = ()  # what must fit, in the solid's frame
    rings: tuple[tuple[Point, Point], ...] = ()  # clasp tips to be closed by a bar


@dataclass(frozen=True, slots=True, eq=False)
class ReadyPart:
    """A part with its supports in its own place: middle of its box over the origin."""

    name: str
    due: str
    solid: Mesh
    supports: Mesh
    whole: Mesh  # both in one
    motion: Rigid  # from the solid's frame
    pose: Pose
    chosen: Candidate
    study: OrientationStudy
    columns: tuple[Column, ...]
    findings: tuple[Finding, ...]
    slices: Slices
    support_slices: Slices
    outline: Outline
    tilt_deg: float | None  # of the reference from the vertical
    label: str  # what its tag says; empty where it has none
    distortion: Distortion | None = None  # where it was asked for
    places: tuple[FitPlace, ...] = ()  # as it stands
    rings: int = 0  # clasps closed to a ring by a bar

    @property
    def volume_mm3(self) -> float:
        """Metal of part and supports [mm3]; where a neck bites into the part it counts twice."""
        return volume(self.solid) + (volume(self.supports) if len(self.supports.faces) else 0.0)


def ready_part(
    blank: Blank,
    machine: Machine,
    process: Process,
    *,
    parts: int = 1,
    rank: int = 0,
    foresight: Foresight = "none",
    progress: Progress = silent,
) -> ReadyPart:
    """Choose an orientation, support the part, tie a label to it and slice both.

    Args:
        blank: the solid.
        machine: the machine.
        process: the process.
        parts: how many parts are to be built together.
        rank: which of the best orientations, 0 the best.
        foresight: whether distortion is predicted, and the shape compensated in advance.
        progress: told of the steps.
    """
    study = study_orientations(
        blank.solid,
        blank.protected,
        machine,
        process,
        weights=replace(Weights(), parts=parts),
        progress=part(progress, 0.0, 0.35),
    )
    chosen = study.best[min(rank, len(study.best) - 1)]
    pose = Pose(np.array(chosen.up), lift_mm=process.supports.stand_off_mm)
    motion = pose.motion(blank.solid)
    solid = blank.solid.moved(motion)
    ends = None if blank.free_ends is None else motion.apply(blank.free_ends)
    tree = DistanceTree(solid)
    held = support(
        solid, blank.protected, process.supports, process.layer_mm,
        free_ends=ends, rings=_turned(blank.rings, motion), tree=tree,
        progress=part(progress, 0.35, 0.85),
    )  # fmt: skip
    label = blank.label or blank.name
    feet = np.array([c.foot_mm[:2] for c in held.columns if c.base in ("plate", "branch")])
    supports = labelled(solid, held.solid, feet.reshape(-1, 2), label, tree)
    tagged = supports is not held.solid
    findings = held.findings if tagged else (*held.findings, _untagged(blank.name))
    own, columns = held.part_slices, held.columns
    layers = LayerPlan(process.layer_mm, 0.0, own.layers)
    below = held.slices if supports is held.solid else slice_solid(supports, layers)
    places = tuple(_stood(place, motion) for place in blank.places)
    told = None
    if foresight != "none":
        told = _foreseen(solid, supports, places, process, part(progress, 0.86, 0.9))
    if told is not None and foresight == "compensate":
        solid, mended, told = _answered(solid, supports, places, blank.protected, process, told)
        supports, own, below = mended.solid, mended.part_slices, mended.slices
        columns = (*columns, *mended.columns)
        findings = (*findings, *mended.findings)
    if told is not None:
        findings = (*findings, *distortion_findings(told))
    progress(0.95, "outline")
    both = HeldSolid.of(solid)
    if len(supports.faces):
        both = both.joined(HeldSolid.of(supports))
    whole = both.mesh()
    outline = outline_of(blank.name, both, float(whole.bounds[1, 2]), blank.due)
    tilt = None
    if blank.reference is not None:
        cosine = float(np.clip(np.dot(blank.reference, pose.up), -1.0, 1.0))
        tilt = float(np.degrees(np.arccos(cosine)))
    progress(1.0, "part ready")
    return ReadyPart(
        blank.name, blank.due, solid, supports, whole, motion, pose, chosen, study, columns,
        findings, own, below, outline, tilt,
        label if tagged else "", told, places, held.rings,
    )  # fmt: skip


def _turned(
    rings: tuple[tuple[Point, Point], ...], motion: Rigid
) -> tuple[tuple[Point, Point], ...]:
    moved = motion.apply(np.array(rings).reshape(-1, 3)).reshape(-1, 2, 3).tolist()
    return tuple(((a[0], a[1], a[2]), (b[0], b[1], b[2])) for a, b in moved)


def _stood(place: FitPlace, motion: Rigid) -> FitPlace:
    x, y, z = motion.apply(np.array(place.at_mm)).tolist()
    return replace(place, at_mm=(x, y, z))


def _foreseen(
    solid: Mesh, supports: Mesh, places: tuple[FitPlace, ...], process: Process, progress: Progress
) -> Distortion:
    alloy = material(process.alloy)
    return predict_distortion(
        solid, supports, places, process.distortion, modulus=alloy.modulus.nominal,
        poisson=alloy.poisson.nominal, progress=progress,
    )  # fmt: skip


def _answered(
    solid: Mesh, supports: Mesh, places: tuple[FitPlace, ...], protected: Bools,
    process: Process, told: Distortion,
) -> tuple[Mesh, Supports, Distortion]:  # fmt: skip
    """Part and supports drawn changed, and the prediction for the designed shape with what the
    model expects to be left of it.

    A flat underside that is drawn bent begins at its own lowest places: they get contacts too.
    """  # noqa: D205
    changed, follow = compensated(solid, supports, told)
    held = support(changed, protected, process.supports, process.layer_mm, standing=follow)
    again = _foreseen(changed, held.solid, (), process, silent)
    points = np.array([p.at_mm for p in places]) if places else solid.vertices[::20]
    before = np.sqrt((told.at(points) ** 2).sum(axis=1).mean())
    after = np.sqrt((remaining(solid, changed, again, points) ** 2).sum(axis=1).mean())
    return changed, held, replace(told, left_mm=(float(before), float(after)))


def _untagged(name: str) -> Finding:
    return finding(
        "build.no-label",
        f"No room was found for the tag of {name}. Mark the part by hand when it leaves the "
        "platform, so that no two patients are mixed up.",
    )
