"""A clasp arm as a beam in space: bending both ways, torsion, shear and stretch.

Clamped at its first station and free elsewhere, it is statically determinate: the moment that
a force at one station makes at another follows from equilibrium alone, and Castigliano's
theorem gives every displacement as an integral along the arm.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, Ints
from claspwright.mechanics.profiles import Profiles

SHEAR_SHARE = 0.77  # shear coefficient of a semicircle at Poisson's ratio 0.3 (Cowper 1966)


@dataclass(frozen=True, slots=True, eq=False)
class SpaceArm:
    """An arm on its tooth at S even stations, clamp first; arch frame, mm."""

    line: Floats  # (S, 3) on the tooth
    off: Floats  # (S, 3) unit directions off the tooth, across the line
    profiles: Profiles  # S sections

    def __post_init__(self) -> None:
        stations = len(self.line)
        if self.line.shape != (stations, 3) or self.off.shape != (stations, 3) or stations < 5:
            raise InputError(f"an arm needs (S, 3) stations, S >= 5; got {self.line.shape}")
        if len(self.profiles.area) != stations:
            raise InputError("an arm needs one section at each station")

    @property
    def axis(self) -> Floats:
        """(S, 3) line of the centroids [mm]."""
        u, w = self.profiles.centre.T
        return np.asarray(self.line + u[:, None] * self.across + w[:, None] * self.off)

    @property
    def across(self) -> Floats:
        """(S, 3) unit directions along the tooth across the arm: u of the sections."""
        return np.asarray(np.cross(self.off, _tangents(self.line)))


@dataclass(frozen=True, slots=True)
class Elastic:
    """Elastic constants, and whether shear and stretch count beside bending and torsion."""

    modulus: float  # MPa
    poisson: float = 0.3
    shear: bool = True

    @property
    def rigidity(self) -> float:
        """Shear modulus [MPa]."""
        return self.modulus / (2 * (1 + self.poisson))


@dataclass(frozen=True, slots=True, eq=False)
class Response:
    """What K unit forces on an arm do to it."""

    arc: Floats  # (S,) length along the axis [mm]
    compliance: Floats  # (K, K) displacement at each along its force, by each unit force [mm/N]
    moment: Floats  # (K, S, 3) moment about (u, w, tangent) at each station [N mm / N]
    pull: Floats  # (K, S) tension at each station [N / N]


def beam_arm(line: Floats, off: Floats, profiles: Profiles, *, stations: int = 121) -> SpaceArm:
    """An arm at even stations from one at any stations.

    Args:
        line: (N, 3) on the tooth, clamp first [mm].
        off: (N, 3) directions off the tooth, not yet square to the line.
        profiles: N sections.
        stations: number of even stations; odd.

    Raises:
        InputError: points coincide, or a direction runs along the line.
    """
    step = np.linalg.norm(np.diff(line, axis=0), axis=1)
    if len(line) < 2 or not step.min() > 0:
        raise InputError("centreline of an arm has points that coincide")
    at = np.concatenate([[0.0], np.cumsum(step)])
    place = np.interp(np.linspace(0.0, at[-1], stations), at, np.arange(len(line)))
    steps = np.arange(len(line))
    even = np.stack([np.interp(place, steps, line[:, k]) for k in range(3)], axis=1)
    turned = np.stack([np.interp(place, steps, off[:, k]) for k in range(3)], axis=1)
    along = _tangents(even)
    square = turned - np.einsum("sk,sk->s", turned, along)[:, None] * along
    size = np.linalg.norm(square, axis=1, keepdims=True)
    if not size.min() > 1e-9:
        raise InputError("a direction off the tooth runs along the arm")
    return SpaceArm(even, square / size, profiles.at(place))


def respond(arm: SpaceArm, at: Ints, force: Floats, elastic: Elastic) -> Response:
    """What unit forces at some stations do to an arm.

    Args:
        arm: the arm.
        at: (K,) stations at which forces act, on the axis.
        force: (K, 3) their directions.
        elastic: modulus, Poisson's ratio, with or without shear.

    Source:
        Castigliano's theorem on a space beam (Timoshenko, Strength of Materials): bending by
        the inverse of the tensor of second moments, T/(G J), V/(k G A), N/(E A).
    """
    axis, sections = arm.axis, arm.profiles
    arc = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(axis, axis=0), axis=1))])
    along = _tangents(axis)
    frame = np.stack([arm.across, arm.off, along], axis=1)  # (S, 3, 3) rows u, w, tangent
    lever = axis[at][:, None, :] - axis[None, :, :]
    inboard = np.arange(len(axis))[None, :] <= np.asarray(at)[:, None]
    moment = np.cross(lever, force[:, None, :]) * inboard[:, :, None]
    moment = np.einsum("ksc,sac->ksa", moment, frame)
    shear = np.einsum("kc,sac->ksa", force, frame) * inboard[:, :, None]
    mu, mw, mt = (moment[:, :, a] for a in range(3))
    det = sections.i_w * sections.i_u - sections.i_uw**2
    weights = _weights(arc)
    # curvature about u needs the integral of w^2, that about w the integral of u^2
    a, b, c = sections.i_u / det, sections.i_w / det, sections.i_uw / det
    compliance = np.einsum("s,ks,ls->kl", weights * a, mu, mu) / elastic.modulus
    compliance += np.einsum("s,ks,ls->kl", weights * b, mw, mw) / elastic.modulus
    mixed = np.einsum("s,ks,ls->kl", weights * c, mu, mw) / elastic.modulus
    compliance += mixed + mixed.T
    twist = weights / (elastic.rigidity * sections.torsion)
    compliance += np.einsum("s,ks,ls->kl", twist, mt, mt)
    if elastic.shear:
        for axis_no, stiffness in ((0, SHEAR_SHARE * elastic.rigidity),
                                   (1, SHEAR_SHARE * elastic.rigidity),
                                   (2, elastic.modulus)):  # fmt: skip
            part = shear[:, :, axis_no]
            compliance += np.einsum(
                "s,ks,ls->kl", weights / (stiffness * sections.area), part, part
            )
    return Response(arc, compliance, moment, shear[:, :, 2])


def stresses(arm: SpaceArm, response: Response, forces: Floats) -> tuple[Floats, Floats]:
    """Stress along an arm under forces in newtons.

    Args:
        arm: the arm.
        response: of its unit forces.
        forces: (K,) what acts at each [N].

    Returns:
        (S,) greatest normal stress in size and (S,) equivalent stress with the greatest
        shear of torsion taken at the same point, an upper bound [MPa].

    Source:
        Navier's bending formula for both axes; von Mises.
    """
    sections = arm.profiles
    moment = np.einsum("k,ksa->sa", forces, response.moment)
    tension = forces @ response.pull / sections.area
    det = sections.i_w * sections.i_u - sections.i_uw**2
    mu, mw, mt = moment.T
    # sigma = p u + q w; about u: integral of sigma w = mu, about w: integral of sigma u = -mw
    q = (mu * sections.i_u + mw * sections.i_uw) / det
    p = (-mw * sections.i_w - mu * sections.i_uw) / det
    u, w = sections.rim[:, :, 0], sections.rim[:, :, 1]
    normal = np.abs(p[:, None] * u + q[:, None] * w + tension[:, None]).max(axis=1)
    shear = np.abs(mt) * sections.twist
    return normal, np.sqrt(normal**2 + 3 * shear**2)


def _tangents(line: Floats) -> Floats:
    step = np.gradient(line, axis=0, edge_order=2)
    return np.asarray(step / np.linalg.norm(step, axis=1, keepdims=True))


def _weights(arc: Floats) -> Floats:
    """Simpson's weights over almost even stations; the trapezoid rule over an even number."""
    n = len(arc)
    if n % 2 == 0:
        return np.asarray(np.gradient(arc) * np.where(np.isin(np.arange(n), [0, n - 1]), 0.5, 1.0))
    weights = np.full(n, 2.0)
    weights[1::2] = 4.0
    weights[[0, -1]] = 1.0
    return np.asarray(weights * np.gradient(arc) / 3.0)
