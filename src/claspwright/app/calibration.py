"""Whether an instrument was within its calibration on a day."""

from __future__ import annotations

from typing import Any

from claspwright.records import Register, made_from


def calibrated(register: Register, instrument: str, on: str) -> tuple[bool, str]:
    """Whether the last calibration holds on a day, YYYY-MM-DD, and until when it does."""
    done = made_from(register, f"instrument:{instrument}", "calibration")
    if not done:
        return False, ""
    last = done[-1][1]
    return bool(last["passed"]) and last["done"] <= on[:10] <= last["due"], str(last["due"])


def instrument_fields(register: Register, instrument: str, on: str) -> dict[str, Any]:
    """What an entry says of the instrument that was used; empty where none was named."""
    if not instrument:
        return {}
    good, until = calibrated(register, instrument, on)
    told: dict[str, Any] = {"instrument": instrument, "calibrated": good}
    return {**told, "calibrated_until": until} if until else told
