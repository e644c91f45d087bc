"""Worked-out states of a case: the solid and the findings of each revision, and two compared.

A state is kept under the hash of its inputs, sheet and scans, so that the same inputs are kept
once. The newest `MOST_STATES` of a case stay, and as many comparisons.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.bench.laboratory import Laboratory, read_json
from claspwright.app.bench.revisions import history
from claspwright.app.bench.view_files import VIEW_NAME, mesh_in, write_part
from claspwright.app.folder import whole_folder
from claspwright.app.results import write_json
from claspwright.app.to_scan import point_of
from claspwright.app.work import Work
from claspwright.base import Floats, InputError, Progress
from claspwright.geometry import DistanceTree, Mesh, Rigid, closest_points
from claspwright.report import Part, ReportContent

MOST_STATES = 12  # of a case: some 40 MB
MOST_COMPARISONS = 12
OLDER, NEWER = (230, 159, 0), (0, 114, 178)  # orange and blue: told apart by all eyes
NOISE_MM = 0.005  # less is what simplifying moves
LEAST_SCALE_MM, MOST_SCALE_MM = 0.1, 2.0
SIGNIFICANT = 1e-3  # share by which a measure must differ to count as changed
TOLD = 5e-3  # the same of a finding, whose value is read to three digits

Json = dict[str, Any]  # Any: a JSON object


@dataclass(frozen=True, slots=True)
class Compared:
    """Two revisions of a case and what is known of their worked-out states."""

    older: int
    newer: int
    worked: tuple[bool, bool]  # whether a state of each is kept
    key: str  # under which the comparison lies; empty unless both are
    told: Json | None  # the comparison; None: not made yet


def keep_state(
    lab: Laboratory, case: str, work: Work, content: ReportContent, inputs: Mapping[str, str]
) -> None:
    """Keep the solid, the findings and the measures of a case as just worked out."""
    if work.framework is None or work.scan is None:
        return
    folder = lab.kept("worked", case, state_key(inputs))
    with whole_folder(folder) as fresh:
        part = write_part(fresh, Part("framework", "framework", work.framework.shown))
        told = {
            "inputs": dict(inputs),
            "parts": [part],
            "scan_to_arch": work.scan.scan_to_arch.matrix().tolist(),
            "findings": [
                {
                    "rule": f.rule, "severity": f.severity, "text": f.text, "unit": f.unit,
                    "measured": f.measured, "component": f.component,
                    "at_arch_mm": None if f.at_mm is None else point_of(f.at_mm, 3),
                }
                for f in content.findings
            ],
            "measures": [
                {"name": m.name, "value": m.value, "unit": m.unit} for m in content.measures
            ],
        }  # fmt: skip
        write_json(fresh / VIEW_NAME, told)
    os.utime(folder)
    _prune(folder.parent, MOST_STATES)


def state_key(inputs: Mapping[str, str]) -> str:
    """The name under which a state of these inputs lies."""
    text = json.dumps(dict(inputs), sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:32]


def compared(lab: Laboratory, case: str, older: int, newer: int) -> Compared:
    """What is known of two revisions.

    Raises:
        InputError: there is no such revision.
    """
    folders = [_state_of(lab, case, number) for number in (older, newer)]
    worked = (folders[0] is not None, folders[1] is not None)
    if folders[0] is None or folders[1] is None:
        return Compared(older, newer, worked, "", None)
    key = f"{folders[0].name}-{folders[1].name}"
    return Compared(
        older, newer, worked, key, read_json(lab.kept("compared", case, key, VIEW_NAME))
    )


def both_kept(lab: Laboratory, case: str, older: int, newer: int) -> Compared:
    """As `compared`, of two revisions that were both worked out.

    Raises:
        InputError: one of them is not there, was not worked out, or its state is no longer kept.
    """
    known = compared(lab, case, older, newer)
    if not known.key:
        number = newer if known.worked[0] else older
        raise InputError(
            f"revision {number} was not worked out, or is no longer kept", place=case,
            remedy="Go back to it and work it out.",
        )  # fmt: skip
    return known


def compare(lab: Laboratory, case: str, wish: Mapping[str, Any], progress: Progress) -> None:
    """Hold the solid of one revision against that of another; `older`, `newer`.

    Raises:
        InputError: as `both_kept`.
    """
    known = both_kept(lab, case, wish["older"], wish["newer"])
    states = [lab.kept("worked", case, name) for name in known.key.split("-")]
    told = [read_json(state / VIEW_NAME) for state in states]
    meshes = [mesh_in(state, "framework") for state in states]
    older = meshes[0].moved(_between(told[0], told[1]))
    progress(0.1, "solid of the older revision")
    tree = DistanceTree(older)
    progress(0.3, "distances of the newer one")
    gained = closest_points(tree, meshes[1].vertices).distance
    progress(0.6, "solid of the newer revision")
    tree = DistanceTree(meshes[1])
    progress(0.75, "distances of the older one")
    lost = closest_points(tree, older.vertices).distance
    progress(0.95, "writing")
    folder = lab.kept("compared", case, known.key)
    with whole_folder(folder) as fresh:
        scale = _scale(gained, lost)
        parts = _parts(older, meshes[1], gained, lost, scale)
        answer = {
            "parts": [write_part(fresh, part) for part in parts],
            "labels": [],
            "lines": [],
            "scan_to_arch": told[1]["scan_to_arch"],
            "greatest": {
                "gain": _greatest(gained, meshes[1]), "loss": _greatest(lost, older),
            },
            "findings": changed_findings(told[0]["findings"], told[1]["findings"]),
            "measures": changed_measures(told[0]["measures"], told[1]["measures"]),
        }  # fmt: skip
        write_json(fresh / VIEW_NAME, answer)
    os.utime(folder)
    _prune(folder.parent, MOST_COMPARISONS)
    progress(1.0, "compared")


def changed_findings(older: Sequence[Json], newer: Sequence[Json]) -> list[Json]:
    """Findings that came, went, or say another value or severity; by rule and component."""
    before, after = _by_place(older), _by_place(newer)
    rows = []
    for key in [*before, *(k for k in after if k not in before)]:
        was, now = before.get(key), after.get(key)
        if was is not None and now is not None:
            same = was["severity"] == now["severity"] and _same(
                was["measured"], now["measured"], TOLD
            )
            if same:
                continue
        one = now or was
        assert one is not None
        rows.append(
            {
                "change": "changed" if was and now else "came" if now else "went",
                "rule": one["rule"], "component": one["component"], "unit": one["unit"],
                "text": one["text"], "at_arch_mm": one["at_arch_mm"] if now else None,
                "severity_before": was["severity"] if was else None,
                "severity_after": now["severity"] if now else None,
                "before": was["measured"] if was else None,
                "after": now["measured"] if now else None,
            }
        )  # fmt: skip
    return rows


def changed_measures(older: Sequence[Json], newer: Sequence[Json]) -> list[Json]:
    """Measures of the whole, such as volume and mass, that differ."""
    before = {row["name"]: row for row in older}
    after = {row["name"]: row for row in newer}
    rows = []
    for name in [*before, *(n for n in after if n not in before)]:
        was, now = before.get(name), after.get(name)
        if was and now and _same(was["value"], now["value"], SIGNIFICANT):
            continue
        one = now or was
        assert one is not None
        rows.append(
            {"name": name, "unit": one["unit"], "before": was["value"] if was else None,
             "after": now["value"] if now else None}
        )  # fmt: skip
    return rows


def _state_of(lab: Laboratory, case: str, number: int) -> Path | None:
    """Where the state of a revision is kept, the one worked out last; None where there is none."""
    found = [r for r in history(lab, case).revisions if r.number == number]
    if not found:
        raise InputError(f"there is no revision {number}", place=case,
                         remedy="Take one from the list.")  # fmt: skip
    folder = lab.kept("worked", case)
    states = sorted(folder.iterdir(), key=_age) if folder.is_dir() else []
    for state in reversed(states):
        told = read_json(state / VIEW_NAME)
        if told is not None and found[0].sha256 in told["inputs"].values():
            return state
    return None


def _prune(folder: Path, most: int) -> None:
    """Keep the newest folders alone."""
    kept = sorted((f for f in folder.iterdir() if not f.name.startswith(".")), key=_age)
    for old in kept[:-most]:
        shutil.rmtree(old, ignore_errors=True)


def _age(folder: Path) -> tuple[int, str]:
    return folder.stat().st_mtime_ns, folder.name


def _between(older: Json, newer: Json) -> Rigid:
    """From the arch frame of one run to that of the other, over the frame of the scan file."""
    frames = [np.array(told["scan_to_arch"]) for told in (older, newer)]
    motions = [Rigid(frame[:3, :3], frame[:3, 3]) for frame in frames]
    return motions[1].after(motions[0].inverse())


def _parts(
    older: Mesh, newer: Mesh, gained: Floats, lost: Floats, scale: float
) -> tuple[Part, ...]:
    ends: dict[str, Any] = {
        "low": -scale, "high": scale, "levels": (-scale / 2, scale / 2), "shown": False,
    }  # fmt: skip
    return (
        Part("older", "older revision", older, OLDER),
        Part("newer", "newer revision", newer, NEWER),
        Part("gained", "newer against older", newer, NEWER, values=gained,
             values_name="outside the older one", **ends),
        Part("lost", "older against newer", older, OLDER, values=-lost,
             values_name="outside the newer one, with a minus", **ends),
    )  # fmt: skip


def _scale(gained: Floats, lost: Floats) -> float:
    """A round end for the legend that nearly all of what differs stays within [mm]."""
    most = max(float(np.percentile(np.abs(d), 99.5)) for d in (gained, lost))
    return float(np.clip(np.ceil(most * 10) / 10, LEAST_SCALE_MM, MOST_SCALE_MM))


def _greatest(distance: Floats, mesh: Mesh) -> Json | None:
    """How far a solid stands out of the other one at most, and where; None where nowhere."""
    n = int(np.argmax(distance))
    if distance[n] < NOISE_MM:
        return None
    return {"mm": round(float(distance[n]), 3), "at_arch_mm": point_of(mesh.vertices[n], 3)}


def _by_place(findings: Sequence[Json]) -> dict[tuple[str, str, int], Json]:
    """Findings by rule, component and how many of the kind stood before."""
    seen: Counter[tuple[str, str]] = Counter()
    out = {}
    for one in findings:
        key = one["rule"], one["component"]
        out[*key, seen[key]] = one
        seen[key] += 1
    return out


def _same(a: Any, b: Any, share: float) -> bool:  # Any: a number, a word or None
    if isinstance(a, int | float) and isinstance(b, int | float):
        return abs(a - b) <= share * max(abs(a), abs(b), 1e-9)
    return bool(a == b)
