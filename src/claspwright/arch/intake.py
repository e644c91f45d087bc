"""Intake: from a scan as it was filed to the master scan."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from claspwright.arch.close import closed, without_crossings
from claspwright.arch.holes import Hole, border_and_holes, without_holes
from claspwright.arch.model import Jaw, MasterScan
from claspwright.arch.orient import arch_frame
from claspwright.arch.quality import ScanRecord, scan_findings
from claspwright.arch.repair import cleaned
from claspwright.arch.topology import loop_length
from claspwright.arch.units import guess_unit
from claspwright.base import Floats, InputError, Progress, silent
from claspwright.geometry import Mesh, volume

SMALL_OPENING_MM = 40.0  # a shorter border is a hole of a closed model, not the opening of a scan


def take_in(
    mesh: Mesh,
    *,
    jaw: Jaw | None = None,
    progress: Progress = silent,
) -> MasterScan:
    """Clean, orient and close a scan of a whole arch, in any unit and any pose.

    Args:
        mesh: triangles as they were read; the unit is not known.
        jaw: which jaw the prescription names; None lets the shape decide, with a finding.
        progress: called with the fraction done.

    Returns:
        The master scan in the arch frame; its findings say what was assumed and what was mended.

    Raises:
        InputError: the mesh is not a scan of a dental arch.
        GeometryError: the scan cannot be closed.
    """
    if not len(mesh.faces):
        raise InputError("the mesh has no faces", remedy="Export the scan as triangles.")
    progress(0.0, "unit")
    unit = guess_unit(mesh)
    scaled = Mesh(mesh.vertices * unit.mm_per_unit, mesh.faces)
    progress(0.05, "cleaning")
    clean, cleaning = cleaned(scaled)
    edge = median_edge(clean)
    clean, holes = without_holes(clean)
    clean, more = _sealed(clean)
    clean = without_crossings(clean, edge)
    progress(0.25, "orienting")
    frame = arch_frame(clean)
    if frame.winding_reversed:
        clean = Mesh(clean.vertices, clean.faces[:, ::-1])
    clean = clean.moved(frame.to_arch)
    holes = tuple(replace(hole, at=frame.to_arch.apply(hole.at)) for hole in (*holes, *more))
    progress(0.45, "closing")
    solid = closed(clean, edge)
    progress(0.85, "judging the scan")
    record = ScanRecord(unit, cleaning, holes, frame, solid, edge)
    which, findings = scan_findings(record, jaw)
    progress(1.0, "intake")
    return MasterScan(which, solid.surface, solid.solid, frame.to_arch, edge, findings)


def _sealed(mesh: Mesh) -> tuple[Mesh, tuple[Hole, ...]]:
    """Fill the last hole of a model that is closed but for it, and turn it right side out."""
    border, _ = border_and_holes(mesh)
    holes: tuple[Hole, ...] = ()
    if len(border):
        if loop_length(mesh.vertices[border]) > SMALL_OPENING_MM:
            return mesh, ()
        mesh, holes = without_holes(mesh, all_of_them=True)
    if volume(mesh) < 0:
        mesh = Mesh(mesh.vertices, mesh.faces[:, ::-1])
    return mesh, holes


def median_edge(mesh: Mesh) -> float:
    """Median edge length [mm]."""
    corners = mesh.corners
    sides: Floats = np.linalg.norm(corners - np.roll(corners, -1, axis=1), axis=2)
    return float(np.median(sides))
