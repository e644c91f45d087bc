"""What a build tells of the distortion that the model expects."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from claspwright.build import Distortion, ReadyPart
from claspwright.report import SheetDistortion, distortion_png


def distortions_shown(parts: Sequence[ReadyPart]) -> dict[str, SheetDistortion]:
    """Words, table and picture for the sheet of each part that was predicted."""
    return {
        one.name: SheetDistortion(
            one.name, _words(one.distortion), _rows(one.distortion),
            distortion_png(
                one.solid, one.distortion.at(one.solid.vertices), one.distortion.plan.most_mm
            ),
        )
        for one in parts
        if one.distortion is not None
    }  # fmt: skip


def distortion_told(found: Distortion) -> dict[str, Any]:
    """The prediction for build.json; Any: a tree for JSON."""
    plan = found.plan
    return {
        "strain": plan.strain,
        "coupon": plan.coupon or None,
        "stress_left": plan.stress_left,
        "lumps": found.lumps,
        "before_relief_mm": {"median": round(found.before_mm[0], 4),
                             "p99": round(found.before_mm[1], 4)},
        "after_relief_mm": {"median": round(found.after_mm[0], 4),
                            "p99": round(found.after_mm[1], 4)},
        "places": [
            {
                "name": p.place.name,
                "kind": p.place.kind,
                "before_relief_mm": round(p.before_mm, 4),
                "after_relief_mm": round(p.after_mm, 4),
                "vector_mm": [round(v, 4) for v in p.vector_mm],
            }
            for p in found.places
        ],
        "compensated": None if found.left_mm is None else {
            "rms_before_mm": round(found.left_mm[0], 4),
            "rms_expected_mm": round(found.left_mm[1], 4),
        },
    }  # fmt: skip


def _words(found: Distortion) -> str:
    plan = found.plan
    origin = f"coupon {plan.coupon}" if plan.coupon else "a start value, not a coupon"
    said = (
        f"strain {plan.strain:g} from {origin}; {100 * plan.stress_left:.0f} % of the stress left "
        f"by relief; half of the part within {found.after_mm[0]:.2f} mm, 99 % within "
        f"{found.after_mm[1]:.2f} mm after relief."
    )
    if found.left_mm is not None:
        said += (
            f" The shape was drawn changed; {found.left_mm[1]:.3f} mm (root mean square) are "
            f"expected in place of {found.left_mm[0]:.3f} mm. The picture shows what is corrected."
        )
    return said


def _rows(found: Distortion) -> tuple[tuple[str, str, str, str], ...]:
    return tuple(
        (p.place.name, p.place.kind, f"{p.before_mm:.3f}", f"{p.after_mm:.3f}")
        for p in found.places
    )
