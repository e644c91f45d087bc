"""Pieces that do not hang together with the framework, told in words of the trade."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Finding
from claspwright.framework.model import Component
from claspwright.geometry import Mesh, volume

CRUMB = 0.2  # mm3 of metal that is dropped without a word
LOOSE_RULES = ("clasp.cut_off", "framework.loose_piece")
NEAR = 1.0  # mm from the line of a component within which a piece belongs to it


def loose_findings(loose: Sequence[Mesh], components: Sequence[Component]) -> list[Finding]:
    """A stop for every piece that was left out, with the part of the framework it was.

    Args:
        loose: the pieces that do not hang together with the framework, arch frame.
        components: everything that was laid.
    """
    findings = []
    for piece in loose:
        size = abs(volume(piece))
        if size < CRUMB:
            continue
        tree = cKDTree(piece.vertices)
        share = [float(np.mean(tree.query(part.line)[0] < NEAR)) for part in components]
        part = components[int(np.argmax(share))]
        x, y, z = (float(v) for v in piece.vertices.mean(axis=0))
        arm = part.kind in ("retentive arm", "reciprocal arm")
        findings.append(
            Finding(
                rule=LOOSE_RULES[0 if arm else 1],
                severity="stop",
                text=_told(part, size),
                component=part.id,
                source="one body [common practice]",
                measured=round(size, 2),
                limit=CRUMB,
                unit="mm3",
                at_mm=(x, y, z),
            )
        )
    return findings


def _told(part: Component, size: float) -> str:
    side = part.id.rsplit(".", 1)[-1]
    if part.kind == "retentive arm":
        return (
            f"The clasp of {part.tooth} is gone: its {side} arm ({size:.1f} mm3) is cut off where "
            "it leaves the retainer, for want of room under the opposing teeth, and is left out; "
            "nothing holds on that tooth. Ask the dentist for room there, or clasp another tooth."
        )
    if part.kind == "reciprocal arm":
        return (
            f"The reciprocal arm on the {side} side of {part.tooth} ({size:.1f} mm3) is cut off "
            "for want of room under the opposing teeth and is left out; nothing stands against "
            "the retentive arm. Ask the dentist for room there, or clasp another tooth."
        )
    return (
        f"A piece of {size:.1f} mm3 about {part.id} does not hang together with the "
        "framework and is left out. Look for room to the opposing teeth there, or "
        "change the design."
    )
