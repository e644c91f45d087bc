"""Moving one surface onto another that shows partly the same."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from claspwright.base import Floats
from claspwright.geometry import IDENTITY, Mesh, Rigid, vertex_normals

FIT_MM = 0.15  # points that end nearer than this count as overlap
SAMPLE = 1500  # points of the moving surface that are matched
ENOUGH = 0.4  # share of overlap at which no other start is tried
NORMAL_MM = 4.0  # a right angle between normals counts like this distance times root two
STEPS_MM = (6.0, 3.0, 1.5, 0.7, 0.4, 0.2, 0.2)  # pairs further apart are left out, step by step


@dataclass(frozen=True, slots=True, eq=False)
class Match:
    """A motion and how well it brings the surfaces together."""

    motion: Rigid
    overlap: float  # share of the sampled points that end within FIT_MM, normals agreeing
    residual_um: float  # root mean square distance to the tangent plane over those points


@dataclass(frozen=True, slots=True, eq=False)
class _Target:
    points: Floats
    normals: Floats
    tree: cKDTree


def register(moving: Mesh, fixed: Mesh, *, search: bool = True) -> Match:
    """Rigid motion of `moving` onto `fixed` by normal-aware closest points, point to plane.

    Normals take part in the search for the nearest point (6D), so that a thin part cannot lock
    on to the opposite wall. It starts where the surfaces are; with `search`, also from the
    four ways to lay the principal axes on one another when that start does not fit.

    Source:
        point to plane: Chen and Medioni, Object modelling by registration of multiple range
        images, Image and Vision Computing 1992;10:145-155 (from memory).
    """
    target = _target(fixed)
    source = _sampled(moving)
    found = _refined(source, target, IDENTITY)
    if found.overlap > ENOUGH or not search:
        return found
    for start in _starts(moving, fixed):
        other = _refined(source, target, start)
        if other.overlap > found.overlap:
            found = other
    return found


def _target(mesh: Mesh) -> _Target:
    normals = vertex_normals(mesh)
    tree = cKDTree(np.concatenate([mesh.vertices, NORMAL_MM * normals], axis=1))
    return _Target(mesh.vertices, normals, tree)


def _sampled(mesh: Mesh) -> tuple[Floats, Floats]:
    step = max(1, len(mesh.vertices) // SAMPLE)
    return mesh.vertices[::step], vertex_normals(mesh)[::step]


def _starts(moving: Mesh, fixed: Mesh) -> list[Rigid]:
    frames = []
    for mesh in (moving, fixed):
        centre = mesh.vertices.mean(axis=0)
        axes = np.linalg.svd(mesh.vertices - centre, full_matrices=False)[2]
        axes[2] = np.cross(axes[0], axes[1])
        frames.append((centre, axes))
    (c0, a0), (c1, a1) = frames
    out = []
    for i, j in product((1.0, -1.0), repeat=2):
        rotation = a1.T @ np.diag([i, j, i * j]) @ a0
        out.append(Rigid(rotation, c1 - rotation @ c0))
    return out


def _refined(source: tuple[Floats, Floats], target: _Target, start: Rigid) -> Match:
    motion = start
    for reach in STEPS_MM:
        for _ in range(8):
            points, goal, normals = _pairs(source, target, motion, reach)
            if len(points) < 30:
                break
            step = _step(points, goal, normals)
            motion = step.after(motion)
            if np.abs(step.translation).max() < 1e-5:
                break
    points, goal, normals = _pairs(source, target, motion, FIT_MM)
    off = np.einsum("ij,ij->i", points - goal, normals)
    residual = 1000.0 * float(np.sqrt((off**2).mean())) if len(off) else float("inf")
    return Match(motion, len(points) / len(source[0]), residual)


def _pairs(
    source: tuple[Floats, Floats], target: _Target, motion: Rigid, reach: float
) -> tuple[Floats, Floats, Floats]:
    points, normals = motion.apply(source[0]), motion.turn(source[1])
    query = np.concatenate([points, NORMAL_MM * normals], axis=1)
    where = target.tree.query(query)[1]
    goal, goal_normals = target.points[where], target.normals[where]
    off = np.abs(np.einsum("ij,ij->i", points - goal, goal_normals))
    near = np.linalg.norm(points - goal, axis=1) < max(reach, 1.0)
    good = near & (off < reach) & (np.einsum("ij,ij->i", normals, goal_normals) > 0.7)
    return points[good], goal[good], goal_normals[good]


def _step(points: Floats, goal: Floats, normals: Floats) -> Rigid:
    """The small motion that brings points onto the tangent planes of their goals."""
    centre = points.mean(axis=0)
    rows = np.concatenate([np.cross(points - centre, normals), normals], axis=1)
    right = np.einsum("ij,ij->i", goal - points, normals)
    weight = 1.0 / np.sqrt(1.0 + (right / 0.1) ** 2)
    found = np.linalg.lstsq(rows * weight[:, None], right * weight, rcond=1e-9)[0]
    rotation = Rotation.from_rotvec(found[:3]).as_matrix()
    return Rigid(rotation, centre + found[3:] - rotation @ centre)
