"""The arch frame of a scan in any pose: occlusal direction, anterior direction, midline.

The occlusal plane is the plane on which the highest points of angular sectors round the arch
lie; the front is where the arch curve closes; the midline is the axis of the
symmetrical arch form that fits it best. Every step follows a rigid motion of the scan.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.optimize import least_squares
from scipy.spatial import cKDTree

from claspwright.arch.topology import border_vertices
from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.geometry import Mesh, Rigid, face_areas, face_vectors, vertex_normals

SECTORS = 48
BORDER_MM = 2.0  # nothing this near to the border counts as a tooth tip
TIP_BAND_MM = 2.0  # tips lie within this of the occlusal plane
RIDGE_BELOW_MM = 10.0  # the arch curve may dip this far below the plane over a ridge
TALLEST = 0.8  # height over length of an arch; stone models with a base reach 0.65
BASE_SHARE = 0.08  # a flat base has at least this share of the area of a closed model
SHEET_SHARE = 0.15  # an open scan has a normal sum of at least this share of its area


@dataclass(frozen=True, slots=True, eq=False)
class ArchFrame:
    """Where the arch frame lies in the scan, and the evidence for it."""

    to_arch: Rigid
    winding_reversed: bool  # True: the faces must be turned for their normals to look outwards
    tips: Floats  # (T, 3) tooth points on the occlusal plane, arch frame [mm]
    curve: Floats  # (C, 3) highest points of the sectors on teeth and ridges, arch frame [mm]
    above_share: float  # area share more than 1 mm above the plane
    gap_deg: float  # angle of the open end, seen from the centre of the arch
    form_mm: float  # mean distance of the arch curve from a symmetrical arch form
    tip_depth_mm: float  # extent of the tips from front to back
    tip_width_mm: float  # extent of the tips from side to side


@dataclass(frozen=True, slots=True, eq=False)
class _Plane:
    normal: Floats
    level: float
    tops: Ints  # (T,) vertices, one a sector
    on_plane: Bools  # (T,)
    above: float
    relief: float  # area share more than 4 mm below


@dataclass(frozen=True, slots=True, eq=False)
class _Cloud:
    """A scan prepared for the search."""

    mesh: Mesh
    normals: Floats
    weight: Floats  # (V,) area at each vertex
    inner: Bools  # (V,) far from the border
    centre: Floats


def arch_frame(mesh: Mesh) -> ArchFrame:
    """Find the arch frame of a clean scan in mm.

    Raises:
        InputError: the scan does not look like a dental arch.
    """
    cloud = _cloud(mesh)
    plane, reversed_ = _occlusal_plane(cloud)
    if plane.relief < 0.10:
        raise _hopeless(f"only {plane.relief:.0%} of it lies deeper than 4 mm below its top")
    points = mesh.vertices - cloud.centre
    front, gap = _front(points, plane, _main_axis(cloud, plane.normal))
    if gap < 25.0:
        raise _hopeless("its rim runs all the way round and has no open end at the back")
    curve = _arch_curve(cloud, plane, front)
    axis, offset, mirror = _midline(curve - cloud.centre, plane, front, cloud.centre)
    return _frame(cloud, plane, curve, axis, offset, (mirror, gap, reversed_))


def _hopeless(why: str) -> InputError:
    return InputError(
        f"the scan does not look like a dental arch: {why}",
        remedy="Give a scan of the whole arch, with teeth, as one mesh.",
    )


def _cloud(mesh: Mesh) -> _Cloud:
    areas = face_areas(mesh)
    weight = np.zeros(len(mesh.vertices))
    for corner in range(3):
        weight += np.bincount(mesh.faces[:, corner], weights=areas / 3, minlength=len(weight))
    border = border_vertices(mesh)
    inner = np.ones(len(weight), dtype=np.bool_)
    if border.any():
        inner = np.asarray(cKDTree(mesh.vertices[border]).query(mesh.vertices)[0] > BORDER_MM)
    centre = weight @ mesh.vertices / weight.sum()
    return _Cloud(mesh, vertex_normals(mesh), weight, inner, centre)


def _occlusal_plane(cloud: _Cloud) -> tuple[_Plane, bool]:
    """The plane of the tooth tips, and whether the winding has to be turned."""
    vectors = face_vectors(cloud.mesh)
    total = vectors.sum(axis=0)
    share = float(np.linalg.norm(total) / np.linalg.norm(vectors, axis=1).sum())
    if share > SHEET_SHARE:
        up = total / np.linalg.norm(total)
        as_filed = _tip_plane(cloud, up)
        turned = _tip_plane(_reversed(cloud), -up)
        if as_filed and turned and turned.above + 0.005 < 0.25 * (as_filed.above + 0.005):
            return turned, True
        if as_filed:
            return as_filed, False
        if turned:
            return turned, True
        raise _hopeless("no plane touches its highest points all round")
    base = _base_direction(cloud)
    ways = _axes(cloud) if base is None else [-base]
    found = [p for p in (_tip_plane(cloud, up) for up in ways) if p is not None]
    if not found:
        raise _hopeless("no plane touches its highest points all round")
    return min(found, key=_closed_cost), False


def _closed_cost(plane: _Plane) -> float:
    """Low for the tooth side of a closed model, high for its base and its sides."""
    flat = max(0.0, 0.6 - plane.relief)
    return plane.above + flat + 0.3 * (1.0 - float(plane.on_plane.sum()) / SECTORS)


def _base_direction(cloud: _Cloud) -> Floats | None:
    """Outward normal of the flat base that a closed model stands on; None without one.

    A base is flat, carries a good part of the area, and has the whole model on one side.
    """
    vectors = face_vectors(cloud.mesh)
    double = np.linalg.norm(vectors, axis=1)
    normals = vectors / np.maximum(double, 1e-30)[:, None]
    best, best_share = None, BASE_SHARE
    for face in np.argsort(-double, kind="stable")[:60]:
        level = cloud.mesh.vertices @ normals[face]
        there = float(level[cloud.mesh.faces[face, 0]])
        if level.max() > there + 0.3:
            continue
        on_base = (normals @ normals[face] > 0.999) & (
            np.abs(level[cloud.mesh.faces] - there).max(axis=1) < 0.3
        )
        share = float(double[on_base].sum() / double.sum())
        if share > best_share:
            best, best_share = normals[face], share
    return best


def _reversed(cloud: _Cloud) -> _Cloud:
    return _Cloud(cloud.mesh, -cloud.normals, cloud.weight, cloud.inner, cloud.centre)


def _axes(cloud: _Cloud) -> list[Floats]:
    """Directions to try on a closed model: away from its flat base, and its principal axes."""
    points = cloud.mesh.vertices - cloud.centre
    spread = np.einsum("v,vi,vj->ij", cloud.weight, points, points)
    axes = np.linalg.eigh(spread)[1].T
    vectors = face_vectors(cloud.mesh)
    main = np.concatenate([axes, -axes])
    cosines = vectors @ main.T / np.maximum(np.linalg.norm(vectors, axis=1), 1e-30)[:, None]
    near = np.where(cosines > np.cos(np.radians(35)), 1.0, 0.0)
    flat = near.T @ vectors
    flat /= np.maximum(np.linalg.norm(flat, axis=1, keepdims=True), 1e-30)
    return [*main[[0, 3]], *(-flat[[0, 3]]), *main[[1, 2, 4, 5]]]


def _angles(points: Floats, normal: Floats, ahead: Floats) -> tuple[Floats, Floats]:
    """(V,) angle from `ahead` about `normal` [rad] and (V,) distance from the axis [mm]."""
    side = np.cross(normal, ahead)
    a, b = points @ ahead, points @ side
    return np.arctan2(b, a), np.hypot(a, b)


def _main_axis(cloud: _Cloud, normal: Floats) -> Floats:
    """The longest in-plane axis of the scan."""
    points = cloud.mesh.vertices - cloud.centre
    flat = points - np.outer(points @ normal, normal)
    spread = np.einsum("v,vi,vj->ij", cloud.weight, flat, flat)
    axis = np.linalg.eigh(spread)[1][:, 2]
    axis = axis - (axis @ normal) * normal
    return np.asarray(axis / np.linalg.norm(axis))


def _highest(height: Floats, sector: Ints, usable: Bools) -> Ints:
    """The highest usable vertex of each sector that has one."""
    index = np.flatnonzero(usable)
    order = index[np.lexsort((height[index], sector[index]))]
    last = np.flatnonzero(np.diff(sector[order], append=-1))
    return np.asarray(order[last], dtype=np.int32)


def _tip_plane(cloud: _Cloud, start: Floats) -> _Plane | None:
    """Plane through the sector tops that carries most of them and has little above it."""
    normal, points = start, cloud.mesh.vertices
    for _ in range(8):
        ahead = _main_axis(cloud, normal)
        angle, _ = _angles(points - cloud.centre, normal, ahead)
        sector = (np.floor((angle + np.pi) * (SECTORS / (2 * np.pi))) % SECTORS).astype(np.int32)
        usable = cloud.inner & (cloud.normals @ normal > 0.2)
        tops = _highest(points @ normal, sector, usable)
        fitted = _fit(points[tops], normal) if len(tops) >= 6 else None
        if fitted is None:
            return None
        turned = float(np.arccos(min(1.0, float(fitted[0] @ normal))))
        normal, level, on_plane = fitted
        if turned < 1e-7:
            break
    height = cloud.mesh.middles @ normal - level
    areas = face_areas(cloud.mesh)
    above = float(areas[height > 1.0].sum() / areas.sum())
    relief = float(areas[height < -4.0].sum() / areas.sum())
    return _Plane(normal, level, tops, on_plane, above, relief)


def _fit(tops: Floats, start: Floats) -> tuple[Floats, float, Bools] | None:
    """Best plane over all triples of tops, then least squares over those near it."""
    triple = np.array(list(combinations(range(len(tops)), 3)))
    base = tops[triple[:, 0]]
    normal = np.cross(tops[triple[:, 1]] - base, tops[triple[:, 2]] - base)
    length = np.linalg.norm(normal, axis=1)
    normal = normal / np.maximum(length, 1e-30)[:, None]
    normal *= np.where(normal @ start < 0, -1.0, 1.0)[:, None]
    good = (length > 20.0) & (normal @ start > np.cos(np.radians(35)))
    if not good.any():
        return None
    normal, base = normal[good], base[good]
    rest = tops @ normal.T - np.einsum("ij,ij->i", base, normal)
    score = np.clip(1 - (rest / TIP_BAND_MM) ** 2, 0, 1).sum(axis=0)
    score -= 2 * np.clip(rest - 1.5, 0, 1).sum(axis=0)
    best = int(np.argmax(score))
    n, level = normal[best], float(base[best] @ normal[best])
    near = np.abs(tops @ n - level) < TIP_BAND_MM
    for _ in range(10):
        mean = tops[near].mean(axis=0)
        n_new = np.linalg.svd(tops[near] - mean)[2][2]
        n_new = n_new * (1.0 if n_new @ n > 0 else -1.0)
        if n_new @ start < np.cos(np.radians(40)):
            return None
        n, level = n_new, float(mean @ n_new)
        again = np.abs(tops @ n - level) < TIP_BAND_MM
        if again.sum() < 5 or (again == near).all():
            break
        near = again
    return n, level, near


def _front(points: Floats, plane: _Plane, ahead: Floats) -> tuple[Floats, float]:
    """(3,) rough anterior direction and the angle of the open end [deg].

    The rim round the centre is high over teeth and ridges, and low or absent at the back.
    """
    n = 180
    angle, radius = _angles(points, plane.normal, ahead)
    # heights are measured from the plane of the tips, whatever the origin of `points`
    height = points @ plane.normal
    height = height - np.sort(height[plane.tops][plane.on_plane]).mean()
    rim = np.full(n, -RIDGE_BELOW_MM)
    sector = (np.floor((angle + np.pi) * (n / (2 * np.pi))) % n).astype(np.int32)
    far = radius > 8.0
    np.maximum.at(rim, sector[far], height[far])
    weight = np.clip(rim + RIDGE_BELOW_MM, 0.0, RIDGE_BELOW_MM)
    middle = (np.arange(n) + 0.5) * (2 * np.pi / n) - np.pi
    x, y = weight @ np.cos(middle), weight @ np.sin(middle)
    front = x * ahead + y * np.cross(plane.normal, ahead)
    if np.hypot(x, y) < 1e-6 * weight.sum():
        return ahead, 0.0
    return front / np.linalg.norm(front), float((weight < 1.0).mean() * 360.0)


def _arch_curve(cloud: _Cloud, plane: _Plane, front: Floats) -> Floats:
    """(C, 3) middles of what is high in each sector, over teeth and ridges, in the scan frame."""
    points = cloud.mesh.vertices - cloud.centre
    angle, radius = _angles(points, plane.normal, front)
    sector = (np.floor((angle + np.pi) * (SECTORS / (2 * np.pi))) % SECTORS).astype(np.int32)
    usable = cloud.inner & (radius > 8.0)
    height = cloud.mesh.vertices @ plane.normal - plane.level
    tops = _highest(height, sector, usable)
    peak = np.full(SECTORS, np.inf)
    peak[sector[tops]] = height[tops]
    peak[peak < -RIDGE_BELOW_MM] = np.inf
    share = np.where(usable, np.clip(1.0 - (peak[sector] - height) / 3.0, 0.0, 1.0), 0.0)
    share *= cloud.weight
    total = np.bincount(sector, weights=share, minlength=SECTORS)
    full = total > 0
    sums = [np.bincount(sector, weights=share * points[:, i], minlength=SECTORS) for i in range(3)]
    return np.stack(sums, axis=1)[full] / total[full][:, None] + cloud.centre


def _midline(
    curve: Floats, plane: _Plane, front: Floats, centre: Floats
) -> tuple[Floats, float, float]:
    """Anterior unit vector, sideways offset of the midline, and mean misfit [mm].

    Fits y = c - a x^2 - b x^4, turned and shifted, to the arch curve. A fourth-order
    polynomial is a usual arch form (Angle Orthod 2008;78:281). Places deep below the occlusal
    plane, on ridges or on the way to the palate, count for less.
    """
    side = np.cross(front, plane.normal)  # x = y cross z
    depth = plane.level - (curve + centre) @ plane.normal
    trust = np.clip(1.0 - depth / RIDGE_BELOW_MM, 0.1, 1.0)
    flat = np.stack([curve @ side, curve @ front], axis=1)
    if len(flat) < 8:
        raise _hopeless("its highest points do not follow an arch")

    def misfit(values: Floats) -> Floats:
        yaw, x0, c, a, b = values
        x = np.cos(yaw) * flat[:, 0] - np.sin(yaw) * flat[:, 1] - x0
        y = np.sin(yaw) * flat[:, 0] + np.cos(yaw) * flat[:, 1]
        curved = c - a * 1e-2 * x**2 - b * 1e-5 * x**4
        slope = 2e-2 * a * x + 4e-5 * b * x**3
        return np.asarray(trust * (y - curved) / np.sqrt(1.0 + slope**2))

    low = [-1.2, -25.0, -10.0, 0.2, 0.0]
    high = [1.2, 25.0, 60.0, 12.0, 60.0]
    fits = [
        least_squares(
            misfit,
            [yaw, 0.0, float(flat[:, 1].max()), 2.0, 4.0],
            bounds=(low, high),
            loss="cauchy",
            f_scale=1.5,
            x_scale=[0.1, 2.0, 2.0, 1.0, 5.0],
            xtol=1e-12,
            ftol=1e-12,
            gtol=1e-12,
        )
        for yaw in (-0.4, 0.0, 0.4)
    ]
    best = min(fits, key=lambda fit: float(fit.cost))
    yaw, x0 = float(best.x[0]), float(best.x[1])
    axis = np.sin(yaw) * side + np.cos(yaw) * front
    return axis / np.linalg.norm(axis), x0, float(np.abs(misfit(best.x)).mean())


def _frame(
    cloud: _Cloud,
    plane: _Plane,
    curve: Floats,
    axis: Floats,
    offset: float,
    evidence: tuple[float, float, bool],
) -> ArchFrame:
    mirror, gap, reversed_ = evidence
    z = plane.normal
    y = axis - (axis @ z) * z
    y /= np.linalg.norm(y)
    rotation = np.stack([np.cross(y, z), y, z])
    tips = cloud.mesh.vertices[plane.tops[plane.on_plane]]
    along = tips @ y
    origin = cloud.centre @ rotation.T
    origin = np.array(
        [origin[0] + offset, (along.min() + along.max()) / 2, plane.level], dtype=np.float64
    )
    rigid = Rigid(rotation, -origin)
    flat = rigid.apply(tips)
    width, depth = float(np.ptp(flat[:, 0])), float(np.ptp(flat[:, 1]))
    size = np.ptp(rigid.apply(cloud.mesh.vertices), axis=0)
    if size[2] > TALLEST * size[:2].max():
        raise _hopeless(f"it is {size[2]:.0f} mm high and {size[:2].max():.0f} mm long")
    if width < 18.0:
        raise _hopeless(f"its highest points span only {width:.0f} mm from side to side")
    return ArchFrame(
        rigid, reversed_, flat, rigid.apply(curve), plane.above, gap, mirror, depth, width
    )
