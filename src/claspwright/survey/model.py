"""What a survey leaves behind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from claspwright.base import Bools, Finding, Floats, InputError
from claspwright.geometry import DistanceTree, Field, Mesh
from claspwright.survey.shadow import Shadow, cast_shadow
from claspwright.survey.wax import NO_MAP, WaxBody, WaxMap


@dataclass(frozen=True, slots=True, eq=False)
class PathOfPlacement:
    """The direction out of the mouth, in the arch frame, and its tilts.

    path = normalise(z - tan(a) y - tan(b) r), a the anterior and b the right lateral tilt,
    r towards the patient's right (design: frames and units).
    """

    direction: Floats  # (3,) unit, arch frame
    anterior_tilt_deg: float
    right_lateral_tilt_deg: float


@dataclass(frozen=True, slots=True, eq=False)
class Survey:
    """An arch surveyed along one path. Per-vertex arrays follow the master surface."""

    path: PathOfPlacement
    undercut: Floats  # (V,) as the gauge reads it; 0 where the way out is free [mm]
    hidden: Bools  # (V,) True where the way out is not free
    survey_lines: Mapping[int, tuple[Floats, ...]]  # by tooth: (N, 3) polylines, arch frame
    scan_field: Field  # signed distance to the master solid; grid frame has +z = path
    block_field: Field  # the same after parallel blockout along the path
    findings: tuple[Finding, ...] = ()
    tree: DistanceTree | None = None  # of the master solid
    shadow: Shadow | None = None  # of the master solid along the path

    def tree_over(self, solid: Mesh) -> DistanceTree:
        """The tree of the master solid; made where the survey has not kept it."""
        return DistanceTree(solid) if self.tree is None else self.tree

    def solid_and_shadow(self) -> tuple[DistanceTree, Shadow]:
        """What the gauge reads on; the shadow is cast where it was not kept.

        Raises:
            InputError: the survey keeps no solid.
        """
        if self.tree is None:
            raise InputError("this survey keeps no solid", remedy="Survey the arch again.")
        if self.shadow is not None:
            return self.tree, self.shadow
        return self.tree, cast_shadow(self.tree.mesh, self.path.direction)


@dataclass(frozen=True, slots=True, eq=False)
class BlockedOut:
    """The blocked-out model: master solid, undercuts filled along the path, relief added."""

    model: Mesh  # watertight, arch frame
    field: Field  # block_field less the relief; bead lines are cut into the model alone
    blockout_mm3: float
    relief_mm3: float
    bodies: tuple[WaxBody, ...] = ()  # what was added or cut, by name
    map: WaxMap = NO_MAP
