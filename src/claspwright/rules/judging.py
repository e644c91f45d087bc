"""Turning a measured figure into a finding."""

from __future__ import annotations

from claspwright.base import Finding, Floats, Point, Severity
from claspwright.limits import limit


def point(at: Floats) -> Point:
    """A (3,) array as the point of a finding."""
    x, y, z = (float(v) for v in at)
    return (x, y, z)


def judged(
    rule: str,
    key: str,
    measured: float,
    text: str,
    *,
    remedy: str,
    at: Floats | None = None,
    component: str = "",
) -> Finding:
    """Hold a figure against a dimension rule.

    Args:
        rule: id of the rule that asks.
        key: the dimension rule.
        measured: the figure, in the dimension rule's unit.
        text: what was measured, a sentence without its full stop.
        remedy: what to do where the figure does not hold, a sentence.
        at: (3,) place in the arch frame.
        component: id of the component.

    Returns:
        A `stop`, `look` or `note` with the threshold that it breaks; a note with the default
        as its limit where it holds.
    """
    dimension = limit(key)
    verdict = dimension.judge(measured)
    severity: Severity = verdict[0] if verdict else "note"
    threshold = verdict[1] if verdict else _nearest(key, measured)
    advice = f" {remedy}" if verdict else ""
    return Finding(
        rule,
        severity,
        f"{text}.{advice}",
        dimension.cited,
        measured=round(measured, 4),
        limit=threshold,
        unit=dimension.unit if dimension.unit != "1" else "",
        at_mm=point(at) if at is not None else None,
        component=component,
    )


def _nearest(key: str, measured: float) -> float:
    """The threshold that a figure which holds comes nearest to; the default without one."""
    d = limit(key)
    steps = [d.stop_below, d.look_below, d.stop_above, d.look_above]
    given = [step for step in steps if step is not None]
    return min(given, key=lambda step: abs(step - measured)) if given else d.value
