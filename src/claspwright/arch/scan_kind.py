"""What kind of scan it is: trimmed stone or mouth, one layer or two."""

from __future__ import annotations

import numpy as np
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from claspwright.base import Finding, Floats
from claspwright.geometry import Mesh, face_areas, face_normals

STONE_MM2 = 180.0  # research scans: at most 120 mm2 in mouths, 290 mm2 or more on trimmed stone
TURN = 1.0 / 12.0  # normals in steps of about five degrees count as one plane
OFFSET_MM = 0.7
PARALLEL = 0.9976  # cosine of four degrees
PLANES = 12
LAYER_MM = 0.5  # a second surface nearer than this, facing the same way, is a double layer
LAYER_SHARE = 0.002
RAYS = 6000
OWN = "own measurement on research scans of whole arches"


def flat_area_mm2(surface: Mesh) -> float:
    """Area that lies in one plane, the largest of such [mm2]."""
    normals = face_normals(surface)
    middles = surface.middles
    offset = np.einsum("fd,fd->f", middles, normals)
    key = np.round(np.column_stack([normals / TURN, offset / OFFSET_MM])).astype(np.int64)
    base = np.array([1, 64, 64**2, 64**3])
    _, plane = np.unique((key + 16) @ base, return_inverse=True)
    plane, areas = plane.reshape(-1), face_areas(surface)
    size = np.bincount(plane, areas)
    best = 0.0
    for largest in np.argsort(-size, kind="stable")[:PLANES]:
        inside = plane == largest
        for _ in range(2):  # a bin may hold only a part of its plane
            normal = areas[inside] @ normals[inside]
            normal /= max(float(np.linalg.norm(normal)), 1e-30)
            level = middles @ normal
            middle = float(areas[inside] @ level[inside] / areas[inside].sum())
            near = (normals @ normal > PARALLEL) & (np.abs(level - middle) < OFFSET_MM / 2)
            inside = near if near.any() else inside
        best = max(best, float(areas[inside].sum()))
    return best


def double_layer(surface: Mesh) -> tuple[float, Floats]:
    """Share of a surface over or under which another lies that faces the same way, and where.

    Rays from faces, evenly taken, to both sides.
    """
    step = max(1, len(surface.faces) // RAYS)
    normals = face_normals(surface)
    start, out = surface.middles[::step], normals[::step]
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, surface.vertices.astype(np.float32), np.array(surface.faces))
    doubled = np.zeros(len(start), dtype=np.bool_)
    for sign in (1.0, -1.0):
        ray = sign * out
        hit = scene.run(
            (start + 1e-3 * ray).astype(np.float32), ray.astype(np.float32), output=True
        )
        prim = np.asarray(hit["primID"])
        near = (prim >= 0) & (np.asarray(hit["tfar"]) < LAYER_MM)
        same = np.einsum("fd,fd->f", normals[np.maximum(prim, 0)], out) > 0.7
        doubled |= near & same
    at = start[doubled].mean(axis=0) if doubled.any() else np.zeros(3)
    return float(doubled.mean()), at


def kind_findings(surface: Mesh, patched_mm2: float, doubled_mm2: float) -> list[Finding]:
    """Stone or mouth, and double layers.

    Args:
        surface: the cleaned scan, arch frame.
        patched_mm2: area of the largest patch over a hole, which is flat as well.
        doubled_mm2: area of loose pieces that lay on the scan and were left out.
    """
    flat = max(0.0, flat_area_mm2(surface) - patched_mm2)
    stone = flat > STONE_MM2
    text = (
        f"{flat:.0f} mm2 of the scan lie in one plane, as on a trimmed stone model; what was "
        "trimmed or poured there is no tissue. Allow for the expansion of the stone."
        if stone
        else "Nothing of the scan is trimmed flat: it was taken as a scan in the mouth."
    )
    out = [Finding("scan.kind", "note", text, OWN, round(flat, 1), STONE_MM2, "mm2")]
    share, at = double_layer(surface)
    share += doubled_mm2 / max(float(face_areas(surface).sum()), 1e-9)
    if share > LAYER_SHARE:
        text = (
            f"Over {share:.1%} of the scan two layers lie within {LAYER_MM} mm of one another, as "
            "where passes of the scanner were not stitched. Which of them is the tooth is not "
            "known: scan that place again."
        )
        place = None if not at.any() else (float(at[0]), float(at[1]), float(at[2]))
        out.append(
            Finding("scan.layers", "look", text, OWN, round(share, 4), LAYER_SHARE, "share", place)
        )
    return out
