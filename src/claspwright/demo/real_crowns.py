"""Real crowns of one adult, set in the arch frame with roots that the gum can hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import gaussian_filter, map_coordinates

from claspwright.arch import Jaw
from claspwright.base import Floats, InputError, Singles
from claspwright.demo.arch_line import ArchLine, line_through
from claspwright.demo.fields import smooth_max, smooth_min, step
from claspwright.demo.placement import (
    GAP_RISE_MM,
    MARGIN_STEPS,
    PlacedTooth,
    neighbours_present,
    place_parametric,
)
from claspwright.demo.sizes import ToothSize, arch_codes, side_sign
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Mesh,
    Rigid,
    check_solid,
    distance_field,
)

_SPACING = 0.15
_SMOOTH_MM = 0.17  # hides the facets of the crown meshes, wears a sharp edge by hundredths
# the crowns end where the gum of a young adult did; who lacks teeth has receded gum, so that the
# neck of the root shows below the crown (arch-sizes, section 4) [mm]
_RECESSION_MM, _RECESSION_SPREAD_MM = 1.05, 0.15
_RIM_ANGLE = np.radians(32.0)


@dataclass(frozen=True, slots=True, eq=False)
class ScannedShape:
    """A crown mesh as a distance field in its own (u, b, z), with a root below its rim."""

    field: Field
    mirror: float
    rim_height: Floats  # (72,) by angle from +m
    rim_radius: Floats  # (72,)

    def values(self, m: Singles, b: Singles, z: Singles) -> Singles:
        """See Shape."""
        grid = self.field.grid
        u = np.float32(self.mirror) * m
        nodes = [
            (c - np.float32(o)) / np.float32(grid.spacing)
            for c, o in zip((u, b, z), grid.origin, strict=True)
        ]
        shape = np.broadcast_shapes(m.shape, b.shape, z.shape)
        nodes = [np.broadcast_to(n, shape) for n in nodes]
        crown = map_coordinates(self.field.values, nodes, order=1, mode="nearest")
        rho = np.hypot(m, b)
        angle = np.arctan2(b, m) * (MARGIN_STEPS / (2 * np.pi))
        height, radius = (_by_angle(t, angle) for t in (self.rim_height, self.rim_radius))
        below = np.maximum(height - z, 0.0)
        root = smooth_max(
            rho - radius + 0.30 * step(below / 1.3) + 0.08 * below, z - height - 0.25, 0.8
        )
        return smooth_min(crown, root, 0.5).astype(np.float32)


def _by_angle(table: Floats, angle: Floats | Singles) -> Singles:
    low = np.floor(angle).astype(np.int32)
    part = np.asarray(angle - low, dtype=np.float32)
    t = table.astype(np.float32)
    out: Singles = t[low % MARGIN_STEPS] * (1 - part) + t[(low + 1) % MARGIN_STEPS] * part
    return out


def _fourier(values: Floats, harmonics: int) -> Floats:
    """A closed curve with only its first harmonics."""
    spectrum = np.fft.rfft(values)
    spectrum[harmonics + 1 :] = 0.0
    return np.asarray(np.fft.irfft(spectrum, len(values)), dtype=np.float64)


def _rim(local: Floats) -> tuple[Floats, Floats]:
    """Height and radius of a crown's lower rim by angle, from its vertices in (m, b, z).

    The rim is the corner of each half-plane section: the farthest point outwards and down.
    """
    angle = np.arctan2(local[:, 1], local[:, 0])
    rho = np.hypot(local[:, 0], local[:, 1])
    reach = np.cos(_RIM_ANGLE) * rho - np.sin(_RIM_ANGLE) * local[:, 2]
    height, radius = np.empty(MARGIN_STEPS), np.empty(MARGIN_STEPS)
    for k in range(MARGIN_STEPS):
        at = 2 * np.pi * k / MARGIN_STEPS
        away = np.abs((angle - at + np.pi) % (2 * np.pi) - np.pi)
        near = np.flatnonzero(away < np.radians(7.0))
        best = near[np.argsort(reach[near])[-3:]]
        height[k], radius[k] = local[best, 2].mean(), rho[best].mean()
    return _fourier(height, 4), _fourier(radius, 6)


def arch_motion(jaw: Jaw, crowns: Mapping[int, Mesh]) -> Rigid:
    """From the adult's frame to the arch frame, found from the tooth codes and the cusps."""
    row = [c for c in arch_codes(jaw) if c in crowns]
    centre = {c: crowns[c].vertices.mean(axis=0) for c in row}
    plus = [c for c in row if side_sign(c) > 0 and _mirrored(c) in centre]
    if len(row) < 6 or not plus:
        raise InputError(
            f"real crowns of the {jaw} need at least six teeth on both sides, got {sorted(row)}"
        )
    x = sum(centre[c] - centre[_mirrored(c)] for c in plus)
    front = np.mean([centre[c] for c in row if c % 10 <= 3], axis=0)
    back = np.mean([centre[c] for c in row if c % 10 >= 5], axis=0)
    motion = _frame(np.asarray(x), front - back, np.cross(x, front - back))
    for _ in range(3):
        tops = []
        for c in row:
            points = motion.apply(crowns[c].vertices)
            tops.append(points[np.argmax(points[:, 2])])
        top = np.array(tops)
        plane, *_ = np.linalg.lstsq(np.c_[top[:, :2], np.ones(len(top))], top[:, 2], rcond=None)
        up = motion.rotation.T @ np.array([-plane[0], -plane[1], 1.0])
        motion = _frame(motion.rotation[0], motion.rotation[1], up)
    at = {c: motion.apply(centre[c]) for c in row}
    middle = np.mean([0.5 * (at[c] + at[_mirrored(c)])[0] for c in plus])
    ahead = max(p[1] for p in at.values())
    level = np.mean([motion.apply(crowns[c].vertices)[:, 2].max() for c in row])
    return Rigid(motion.rotation, -np.array([middle, ahead, level]))


def _mirrored(code: int) -> int:
    return {1: 20, 2: 10, 3: 40, 4: 30}[code // 10] + code % 10


def _frame(x: Floats, y: Floats, z: Floats) -> Rigid:
    z = z / np.linalg.norm(z)
    x = x - z * (x @ z)
    x = x / np.linalg.norm(x)
    return Rigid(np.stack([x, np.cross(z, x), z]), np.zeros(3))


def _scanned_tooth(
    code: int, mesh: Mesh, line: ArchLine, missing: tuple[int, ...], rng: np.random.Generator
) -> PlacedTooth:
    """One crown in the arch frame with its size, rim and field."""
    if not check_solid(mesh).sound:
        raise InputError(f"the real crown of tooth {code} is not a closed solid")
    centre = mesh.vertices.mean(axis=0)
    arc, _ = line.coordinates(centre[None, :2])
    _, outwards = line.at(float(arc[0]))
    b = np.array([outwards[0], outwards[1], 0.0])
    rows = np.stack([np.cross(b, [0.0, 0.0, 1.0]), b, [0.0, 0.0, 1.0]])
    mirror = -side_sign(code)
    flip = np.array([mirror, 1.0, 1.0])
    height, radius = _rim(((mesh.vertices - centre) @ rows.T) * flip)
    origin = centre + np.array([0.0, 0.0, float(height.mean())])
    height = height - height.mean()
    frame = Rigid(rows, -rows @ origin)
    own = mesh.moved(frame)
    low, high = own.bounds
    angle = 2 * np.pi * np.arange(MARGIN_STEPS) / MARGIN_STEPS
    size = ToothSize(
        float(high[2]), float(high[0] - low[0]), 2 * float(np.abs(radius * np.cos(angle)).max()),
        float(high[1] - low[1]), 2 * float(np.abs(radius * np.sin(angle)).max()),
    )  # fmt: skip
    grid = Grid.around(own.vertices, IDENTITY, _SPACING, 2.2)
    dist = distance_field(DistanceTree(own), grid, 2.5)
    soft = Field(grid, gaussian_filter(dist.values, _SMOOTH_MM / _SPACING).astype(np.float32))
    shape = ScannedShape(soft, mirror, height, radius - 0.06)
    quarter = MARGIN_STEPS // 4
    neck = (float(radius[quarter]) - 0.3, float(radius[3 * quarter]) - 0.3)
    lost = _RECESSION_MM + _RECESSION_SPREAD_MM * float(rng.standard_normal())
    gum = height - lost * (0.6 + 0.4 * np.sin(angle) ** 2)  # papillae recede less
    margin = _without_papilla(gum, neighbours_present(code, missing))
    return PlacedTooth(code, size, shape, frame, margin, neck)


def _without_papilla(margin: Floats, stands: tuple[bool, bool]) -> Floats:
    """Lower the margin on the sides where the neighbour is missing: its papilla is lost."""
    angle = 2 * np.pi * np.arange(MARGIN_STEPS) / MARGIN_STEPS
    c = np.cos(angle)
    quarter = MARGIN_STEPS // 4
    middle = 0.5 * (margin[quarter] + margin[3 * quarter])
    out = margin.copy()
    for side, there, peak in ((1.0, stands[0], margin[0]), (-1.0, stands[1], margin[2 * quarter])):
        if not there:
            drop = max(float(peak - middle) - GAP_RISE_MM, 0.0)
            out -= drop * np.where(side * c > 0, np.abs(c) ** 2.2, 0.0)
    return out


def place_real(
    jaw: Jaw, crowns: Mapping[int, Mesh], missing: tuple[int, ...], seed: int
) -> tuple[ArchLine, dict[int, PlacedTooth]]:
    """Real crowns in the arch frame in their own arrangement, third molars from the tables.

    Args:
        jaw: the jaw.
        crowns: closed meshes by ISO 3950 code, all teeth of the jaw but the third molars.

        missing: absent teeth; their neighbours lose the papilla on that side.
        seed: for the recession of the gum, and for the third molars.

    Raises:
        InputError: too few crowns, a crown that is not closed, or a tooth without a crown.
    """
    lacking = [c for c in arch_codes(jaw) if c % 10 < 8 and c not in crowns]
    if lacking:
        raise InputError(
            f"no real crown for {lacking}",
            remedy="Give all of 1 to 7 on both sides, or use parametric.",
        )
    motion = arch_motion(jaw, crowns)
    row = [c for c in arch_codes(jaw) if c in crowns]
    meshes = {c: crowns[c].moved(motion) for c in row}
    points = np.array([meshes[c].vertices.mean(axis=0)[:2] for c in row])
    line = line_through(points, 6.0)
    rng = np.random.default_rng([seed, 5 if jaw == "maxilla" else 6])
    teeth = {c: _scanned_tooth(c, meshes[c], line, missing, rng) for c in row}
    _, spare = place_parametric(jaw, missing, seed)
    for code in arch_codes(jaw):
        if code not in teeth:
            teeth[code] = _behind(spare[code], teeth[code - 1], line)
    return line, teeth


def _behind(tooth: PlacedTooth, second: PlacedTooth, line: ArchLine) -> PlacedTooth:
    """A parametric third molar moved behind the real second molar."""
    at = second.to_arch(np.zeros((1, 3)))[0]
    arc, _ = line.coordinates(at[None, :2])
    reach = 0.5 * (second.size.mesiodistal + tooth.size.mesiodistal)
    point, outwards = line.at(float(arc[0]) + side_sign(tooth.code) * reach)
    b = np.array([outwards[0], outwards[1], 0.0])
    rows = np.stack([np.cross(b, [0.0, 0.0, 1.0]), b, [0.0, 0.0, 1.0]])
    origin = np.array([point[0], point[1], at[2]])
    return replace(tooth, frame=Rigid(rows, -rows @ origin))
