"""The output of a build, entered in the register: the build, its parts, contacts to remove."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.base import InputError
from claspwright.records import Proposed, Register, Signed

FEEDSTOCK = ("lot", "batch")


def enter_build(
    register: Register, folder: Path, id_: str, feedstock: Sequence[str], signed: Signed,
    *, cases: Mapping[str, str] | None = None,
) -> tuple[str, ...]:  # fmt: skip
    """Enter a folder that `claspwright build` wrote; a platform becomes a build.

    Args:
        register: the open register.
        folder: with build.json.
        id_: id of the build; further platforms get a number behind it.
        feedstock: lots or batches that were loaded.
        signed: who and when.
        cases: case of each part, where the part is not named like it.

    Returns:
        Ids of the parts.

    Raises:
        InputError: the folder is none, a case is not in the register, or no powder is named.
    """
    told = _told(folder)
    if not feedstock:
        raise InputError("a build needs its powder", remedy="Name it with --feedstock.")
    kept = register.keep_file(f"{id_}-build.json", (folder / "build.json").read_bytes())
    plans = {str(one["part"]): one.get("finishing") or {} for one in told.get("sources", ())}
    rows: list[Proposed] = []
    parts: list[str] = []
    for n, platform in enumerate(told["platforms"]):
        build = id_ if n == 0 else f"{id_}-{n + 1}"
        rows.append(Proposed("build", build, {
            "machine": str(told["machine"].get("name", "not named")),
            "feedstock": [{"id": one} for one in feedstock],
            "started": signed.at,
            "parts_g": round(1000.0 * float(platform["estimate"]["powder_melted_kg"]), 1),
            "file": kept,
        }))  # fmt: skip
        for row in platform["parts"]:
            name = str(row["part"])
            part = _fresh(register, f"F-{name}", parts)
            parts.append(part)
            case = (cases or {}).get(name, name)
            body = {"case": case, "build": build, **_place(row), **_finishing(plans.get(name, {}))}
            rows.append(Proposed("part", part, body))
    register.enter(rows, signed)
    return tuple(parts)


def _told(folder: Path) -> dict[str, Any]:  # Any: a JSON object
    try:
        found = json.loads((folder / "build.json").read_text(encoding="utf-8"))
        return dict(found) if found["platforms"] else {}
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise InputError(
            f"the build cannot be read: {error}", place=folder.as_posix(),
            remedy="Give a folder that `claspwright build` wrote.",
        ) from error  # fmt: skip


def _fresh(register: Register, name: str, taken: Sequence[str]) -> str:
    """The name, with a number where a framework of that name was built before."""
    out, n = name, 1
    while out in taken or register.current("part", out) is not None:
        n += 1
        out = f"{name}-{n}"
    return out


def _finishing(plan: Mapping[str, Any]) -> dict[str, Any]:  # Any: a JSON object
    """Steps that the part was built thicker for, and what is masked; nothing without any."""
    if not plan.get("steps"):
        return {}
    return {"finishing": list(plan["steps"]), "masked": list(plan.get("masked", ()))}


def _place(row: Mapping[str, Any]) -> dict[str, Any]:  # Any: a JSON object
    """Where a part lies, and its support contacts in the frame of the framework itself."""
    matrix = np.array(row["solid_to_plate"], dtype=np.float64)
    back = np.linalg.inv(matrix)
    contacts = [
        {"at_mm": np.round(back[:3, :3] @ np.array(one["at_mm"]) + back[:3, 3], 2).tolist(),
         "protected": bool(one["on_protected_face"])}
        for one in row.get("contacts", ())
    ]  # fmt: skip
    return {
        "x_mm": float(row["x_mm"]),
        "y_mm": float(row["y_mm"]),
        "turn_deg": float(row["turn_deg"]),
        "contacts": contacts,
    }
