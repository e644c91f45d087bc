"""What the screen shows of the stages after the framework: forces, stress, platforms, deviation.

`view.json` lists meshes as `view_files` writes them, with labels and lines; the frame is that of
the arch, of a platform `plate`. Contours of a platform lie in `layers-N.bin`, little-endian, and
`layers-N.json` says where each layer begins.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.bench.view_files import VIEW_NAME, write_part
from claspwright.app.build_files import Ready
from claspwright.app.check_case import Checked
from claspwright.app.fit_scan import Fit
from claspwright.app.folder import whole_folder
from claspwright.app.results import write_json
from claspwright.app.seat_scan import Seated
from claspwright.app.to_scan import point_of
from claspwright.arch import Comparison
from claspwright.base import Floats, InputError
from claspwright.build import Machine, Slices
from claspwright.geometry import Rigid
from claspwright.report import (
    DEVIATION_LEVELS,
    DEVIATION_UM,
    METAL,
    SIGN_WORDS,
    STONE,
    Part,
    fulcrum_drawn,
    lifting_values,
    stress_values,
)

SUPPORT = (222, 143, 5)
SCANNED = (196, 190, 178)
OFFSET_UM = 400.0  # ends of the scale where two scans differ
OFFSET_LEVELS = (-200.0, -100.0, 0.0, 100.0, 200.0)
OFFSET_WORDS = ("gone in the other scan", "stands out in it")  # at the ends of the scale
MOST_LABELS = 12  # the largest places
POINT_MM = 0.001  # unit of the contours kept for the screen

Labels = list[dict[str, Any]]  # Any: a place and its words


def write_proof_view(folder: Path, checked: Checked, *, inputs: Mapping[str, str]) -> None:
    """Lifting force on the model, stress on the framework, the arms with their forces."""
    work = checked.work
    parts: list[Part] = []
    labels: Labels = []
    lines: list[dict[str, Any]] = []
    if work.arch is not None and work.framework is not None and work.surveyed is not None:
        if checked.denture is not None:
            proof, path = checked.denture, work.surveyed.path.direction
            values, top = lifting_values(work.arch.scan.surface, proof)
            parts.append(_shaded("lifting", "force that lifts", work.arch.scan.surface, values, top,
                                 "N", STONE))  # fmt: skip
            labels.append(_label(proof.weakest_at, f"{proof.least_n:.1f} N", "flag"))
            if proof.weakest.line is not None:
                ends = fulcrum_drawn(proof.weakest.line, path, work.arch)
                lines.append(_line("lifts about", ends))
            if proof.sink_line is not None:
                lines.append(_line("sinks about", fulcrum_drawn(proof.sink_line, path, work.arch)))
        if checked.solid is not None:
            values, top = stress_values(work.framework.solid, checked.solid)
            parts.append(_shaded("stress", "stress under the worst bite", work.framework.solid,
                                 values, top, "MPa", METAL))  # fmt: skip
        else:
            parts.append(Part("stress", "framework", work.framework.solid, METAL))
        labels += [
            _label(one.arm.line[-1], f"{one.arm.tooth}: {one.ride.withdrawal_n:.1f} N", "flag")
            for one in checked.arms
        ]
    _write(folder, parts, labels, lines, {"inputs": dict(inputs)})


def write_inspection_view(
    folder: Path, fit: Fit, seated: Seated, scan_to_arch: Rigid, *, inputs: Mapping[str, str]
) -> None:
    """The scanned metal where it lies on the design, coloured by its signed deviation."""
    scan = fit.deviation.scan.moved(scan_to_arch)
    part = Part(
        "scanned", "scan of the metal", scan, SCANNED, values=1000.0 * fit.deviation.distance_mm,
        values_name="deviation", values_unit="um", low=-DEVIATION_UM, high=DEVIATION_UM,
        levels=DEVIATION_LEVELS,
    )  # fmt: skip
    labels = [
        _label(
            scan_to_arch.apply(np.asarray(gap.area.at_mm)),
            f"{gap.area.name}: {1000.0 * gap.mean_mm:.0f} µm",
            "flag",
        )
        for gap in seated.rests
    ]
    with whole_folder(folder) as fresh:
        listed = {**write_part(fresh, part), "ends": list(SIGN_WORDS)}
        view = {"inputs": dict(inputs), "parts": [listed], "labels": labels, "lines": []}
        write_json(fresh / VIEW_NAME, view)


def write_scans_view(
    folder: Path, found: Comparison, scan_to_arch: Rigid, *, inputs: Mapping[str, str]
) -> None:
    """The master coloured by how far another scan stands off it, with the places that differ."""
    part = Part(
        "compared", "other scan over the master", found.old.moved(scan_to_arch), STONE,
        values=1000.0 * found.offset_mm, values_name="offset of the other scan", values_unit="um",
        low=-OFFSET_UM, high=OFFSET_UM, levels=OFFSET_LEVELS,
    )  # fmt: skip
    labels = [
        _label(
            scan_to_arch.apply(change.at),
            f"{f'{change.tooth}: ' if change.tooth else ''}{change.greatest_mm:+.2f} mm",
            "flag",
        )
        for change in found.changes[:MOST_LABELS]
    ]
    with whole_folder(folder) as fresh:
        listed = {**write_part(fresh, part), "ends": list(OFFSET_WORDS)}
        view = {"inputs": dict(inputs), "parts": [listed], "labels": labels, "lines": []}
        write_json(fresh / VIEW_NAME, view)


def write_build_view(
    folder: Path,
    platforms: Sequence[Ready],
    machine: Machine,
    *,
    inputs: Mapping[str, Mapping[str, str]],
) -> None:
    """Each platform with its parts and supports, and the contours of every layer."""
    with whole_folder(folder) as fresh:
        listed = []
        for n, one in enumerate(platforms):
            parts = []
            for k, (part, place) in enumerate(zip(one.parts, one.places, strict=True)):
                motion = place.motion()
                solid = Part(f"part-{n}-{k}", part.name, part.solid.moved(motion), METAL)
                parts.append(write_part(fresh, solid))
                if len(part.supports.faces):
                    below = Part(f"supports-{n}-{k}", f"{part.name}: supports",
                                 part.supports.moved(motion), SUPPORT)  # fmt: skip
                    parts.append(write_part(fresh, below))
            outlines = [
                (part.name, kind, slices)
                for part, exposed in zip(one.parts, one.exposures, strict=True)
                for kind, slices in (
                    ("part", exposed.outline),
                    ("support", exposed.support_outline),
                )
            ]
            layers = write_layers(fresh, n, outlines)
            listed.append(
                {
                    "title": one.title,
                    "folder": one.title.replace(" ", "-"),
                    "parts": parts,
                    "layers": layers,
                    "layer_mm": one.exposures[0].outline.layer_mm,
                    "shape": machine.platform.shape,
                    "width_mm": machine.platform.width_mm,
                    "depth_mm": machine.platform.depth_mm,
                    "lines": [_line("platform", _edge(machine))],
                }
            )
        view = {
            "cases": sorted(inputs),
            "inputs": {name: dict(hashes) for name, hashes in inputs.items()},
            "platforms": listed,
        }
        write_json(fresh / VIEW_NAME, view)


def layer_of(folder: Path, platform: int, layer: int) -> list[dict[str, Any]]:
    """Contours of one layer, each part's and its supports'; Any: a tree for JSON.

    Args:
        folder: of a view of a build.
        platform: 0 for the first.
        layer: 0 for the lowest.

    Raises:
        InputError: there is no such platform or layer.
    """
    index = folder / f"layers-{platform}.json"
    if not index.is_file():
        raise InputError(f"there is no platform {platform + 1}", remedy="Take one that is listed.")
    told: dict[str, Any] = json.loads(index.read_text(encoding="utf-8"))
    if not 0 <= layer < told["layers"]:
        raise InputError(f"there is no layer {layer + 1}", remedy=f"There are {told['layers']}.")
    out = []
    with (folder / f"layers-{platform}.bin").open("rb") as file:
        for part in told["parts"]:
            lines = []
            for first, count in part["contours"][layer] if layer < len(part["contours"]) else ():
                file.seek(8 * first)
                points = np.frombuffer(file.read(8 * count), "<i4").reshape(-1, 2)
                lines.append((points * POINT_MM).round(3).tolist())
            out.append({"name": part["name"], "kind": part["kind"], "contours_mm": lines})
    return out


def write_layers(folder: Path, n: int, outlines: Sequence[tuple[str, str, Slices | None]]) -> int:
    """All contours of a platform in one file; returns the number of layers.

    Args:
        folder: where `layers-N.bin` and `layers-N.json` shall lie.
        n: number of the platform, from 0.
        outlines: name, "part" or "support", contours or None.
    """
    parts, at, most = [], 0, 0
    with (folder / f"layers-{n}.bin").open("wb") as file:
        for name, kind, slices in outlines:
            if slices is None:
                continue
            contours = _contours(slices, at)
            points = np.round(slices.points / POINT_MM).astype("<i4")
            file.write(points.tobytes())
            at += len(points)
            most = max(most, len(contours))
            parts.append({"name": name, "kind": kind, "contours": contours})
    write_json(folder / f"layers-{n}.json", {"layers": most, "parts": parts})
    return most


def _contours(slices: Slices, at: int) -> list[list[list[int]]]:
    """Of each layer the first point and the number of points of each contour."""
    starts = slices.contour_start
    return [
        [[at + int(starts[c]), int(starts[c + 1] - starts[c])] for c in range(first, last)]
        for first, last in zip(slices.layer_start[:-1], slices.layer_start[1:], strict=True)
    ]


def _edge(machine: Machine) -> Floats:
    """The outline of a platform at the height of its plate."""
    half = np.array([machine.platform.width_mm, machine.platform.depth_mm, 0.0]) / 2.0
    if machine.platform.shape == "round":
        turn = np.linspace(0.0, 2.0 * np.pi, 97)
        return np.column_stack([np.cos(turn), np.sin(turn), np.zeros(97)]) * half
    corners = np.array([[-1.0, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0], [-1, -1, 0]])
    return np.asarray(corners * half)


def _shaded(
    key: str, name: str, mesh: Any, values: Floats, top: float, unit: str, colour: Any
) -> Part:
    """A part coloured from nothing to `top`; Any: a mesh and a colour."""
    return Part(
        key, name, mesh, colour, values=values, values_name=name, values_unit=unit,
        low=0.0, high=top, levels=(top / 4, top / 2, 3 * top / 4),
    )  # fmt: skip


def _label(at: Floats, text: str, kind: str) -> dict[str, Any]:
    return {"at": point_of(at, 3), "text": text, "kind": kind}


def _line(name: str, points: Floats) -> dict[str, Any]:
    return {"name": name, "points": np.round(points, 3).tolist()}


def _write(
    folder: Path, parts: list[Part], labels: Labels, lines: list[dict[str, Any]], more: Any
) -> None:
    """One view, whole; Any: further entries of the list."""
    with whole_folder(folder) as fresh:
        listed = [write_part(fresh, part) for part in parts]
        write_json(fresh / VIEW_NAME, {**more, "parts": listed, "labels": labels, "lines": lines})
