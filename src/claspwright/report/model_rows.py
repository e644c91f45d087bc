"""What the report says of the model and of the bite: bodies of blockout and relief, and room."""

from __future__ import annotations

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import BASE_ROOM_MM, CONTACT_MM, SHOULDER_MM, Bite, DentalArch
from claspwright.base import Floats, Point
from claspwright.framework import Framework
from claspwright.geometry import kept_faces
from claspwright.report.content import BodyRow, Part, RoomRow
from claspwright.report.scene import Colour
from claspwright.report.words import component_words
from claspwright.survey import Survey, faces_by_body

KINDS: dict[str, tuple[str, Colour]] = {
    "blockout": ("blockout", (196, 120, 96)),
    "fill": ("filled hollows", (214, 170, 80)),
    "relief": ("relief", (96, 150, 140)),
    "ledge": ("ledges", (150, 110, 170)),
    "bead": ("bead line", (110, 120, 170)),
}
_PLACES = {
    "tissue": "tissue",
    "connector": "under the connector",
    "base": "under the base",
    "crossing": "gingival crossing at",
}
FLOOR_MM = 0.6  # about the middle of a rest, where its room is read


def body_rows(framework: Framework | None) -> tuple[BodyRow, ...]:
    """Every named body of the blocked-out model, the largest of each kind first."""
    if framework is None:
        return ()
    order = list(KINDS)
    bodies = sorted(
        framework.blocked_out.bodies, key=lambda b: (order.index(b.kind), -abs(b.volume_mm3))
    )
    return tuple(
        BodyRow(body.name, KINDS[body.kind][0], _words(body.name), body.volume_mm3, body.at_mm)
        for body in bodies
    )


def _words(name: str) -> str:
    """Such as "tooth 36", "under the base 35-36", "gingival crossing at 47"."""
    rest = name.split(".")[1:]
    if not rest:
        return name
    if rest[0].isdigit() and name.startswith(("blockout", "ledge")):
        return " ".join(["tooth", *rest])
    return " ".join(_PLACES.get(word, word) for word in rest)


def body_parts(
    arch: DentalArch | None, survey: Survey | None, framework: Framework | None
) -> tuple[Part, ...]:
    """The surface of what was added to the model, a part for each kind, hidden at first."""
    if arch is None or survey is None or framework is None:
        return ()
    if not framework.blocked_out.bodies:
        return ()
    blocked = framework.blocked_out
    owner = faces_by_body(blocked, survey.tree_over(arch.scan.solid))
    kinds = np.array([body.kind for body in blocked.bodies])
    parts = []
    for kind, (name, colour) in KINDS.items():
        mine = (owner >= 0) & (kinds[np.maximum(owner, 0)] == kind)
        if mine.any():
            parts.append(Part(f"wax_{kind}", name, kept_faces(blocked.model, mine), colour, False))
    return tuple(parts)


def room_rows(
    arch: DentalArch | None, bite: Bite | None, framework: Framework | None
) -> tuple[RoomRow, ...]:
    """Room to the opposing arch: over rests, over bases, then over each crown."""
    if arch is None or bite is None:
        return ()
    surface = arch.scan.surface
    out: list[RoomRow] = []
    tree = KDTree(surface.vertices)
    for part in () if framework is None else framework.components:
        if part.kind != "rest":
            continue
        floor = np.asarray(part.line, np.float64).mean(axis=0)
        near = [int(n) for n in tree.query_ball_point(floor, FLOOR_MM)]
        near = sorted(near) or [int(tree.query(floor)[1])]
        out.append(_row(component_words(part), near, arch, bite, SHOULDER_MM))
    for span, room in zip(arch.spans, bite.span_room_mm, strict=True):
        words = f"artificial teeth {', '.join(map(str, span.missing))}"
        if np.isfinite(room):
            at = _point(span.crest[len(span.crest) // 2])
            out.append(RoomRow(words, room, None, BASE_ROOM_MM, at))
    for code, tooth in arch.teeth.items():
        near = np.unique(surface.faces[tooth.faces]).tolist()
        out.append(_row(f"tooth {code}", near, arch, bite, None))
    return tuple(out)


def _row(
    words: str, near: list[int], arch: DentalArch, bite: Bite, wanted: float | None
) -> RoomRow:
    closing, path = bite.closing_mm[near], bite.path_mm[near]
    lowest = near[int(np.argmin(closing))]
    contact = wanted is None and float(closing.min()) < CONTACT_MM
    return RoomRow(
        words + (", touches" if contact else ""),
        float(closing.min()),
        float(path.min()),
        wanted,
        _point(arch.scan.surface.vertices[lowest]),
    )


def _point(at: Floats) -> Point:
    x, y, z = (round(float(v), 3) for v in at)
    return (x, y, z)
