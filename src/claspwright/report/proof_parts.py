"""The fields of a proof as parts of the review page: stress of the metal, force that lifts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Finding
from claspwright.framework import Framework
from claspwright.geometry import Mesh
from claspwright.mechanics import DentureProof, FrameworkFe
from claspwright.report.content import Part, ReportContent
from claspwright.report.force_map import envelope_values, lifting_values
from claspwright.report.lighten import lightened
from claspwright.report.scene import STONE

LIGHT = 140_000  # faces of the framework on the page
RAISED_MM = 0.05  # of the coloured bases over the model, so that they are seen


def with_proof(
    content: ReportContent,
    arch: DentalArch,
    framework: Framework,
    denture: DentureProof | None,
    solid: FrameworkFe | None,
    findings: Sequence[Finding],
) -> ReportContent:
    """A review page that shows a proof: its fields on the parts, its findings first.

    Args:
        content: of the case.
        arch: teeth and scan, arch frame.
        framework: the solid.
        denture: the lifting map; None: without.
        solid: finite elements; None: without.
        findings: of the proof, arch frame.
    """
    parts = [_stressed(one, framework, solid) for one in content.parts]
    if denture is not None:
        at = next((k for k, one in enumerate(parts) if one.key == "model"), len(parts) - 1)
        parts.insert(at + 1, _bases(arch, denture))
    return replace(content, parts=tuple(parts), findings=(*findings, *content.findings))


def _stressed(part: Part, framework: Framework, solid: FrameworkFe | None) -> Part:
    if part.key != "framework" or solid is None:
        return part
    light, _ = lightened(framework.solid, LIGHT)
    values, top = envelope_values(light, solid)
    return replace(
        part, mesh=light, values=values, values_name="stress under any bite", values_unit="MPa",
        low=0.0, high=top, levels=(top / 4, top / 2),
    )  # fmt: skip


def _bases(arch: DentalArch, denture: DentureProof) -> Part:
    """The ridge under the bases by itself, a little raised, with the force that lifts there."""
    surface = arch.scan.surface
    values, top = lifting_values(surface, denture)
    faces = surface.faces[(values[surface.faces] > 0).all(axis=1)]
    used, corners = np.unique(faces, return_inverse=True)
    raised = surface.vertices[used] + [0.0, 0.0, RAISED_MM]
    mesh = Mesh(raised, corners.reshape(faces.shape).astype(surface.faces.dtype))
    return Part(
        "bases", "denture bases", mesh, STONE, shown=False, values=values[used],
        values_name="force that lifts", values_unit="N", low=0.0, high=top, levels=(top / 2,),
    )  # fmt: skip
