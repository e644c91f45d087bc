"""What the bench's screen shows of a worked-out case: meshes as plain bytes and one list.

`view.json` lists everything; each mesh lies beside it as little-endian bytes: (V, 3) float32
vertices, (F, 3) uint32 faces, (V,) float32 values where it has any (not a number: no value) and,
for the model, (F,) uint8 tooth codes. Arch frame, mm; `scan_to_arch` leads back to the file.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.bench.bite_part import bite_parts
from claspwright.app.folder import whole_folder
from claspwright.app.results import write_json
from claspwright.app.to_scan import point_of
from claspwright.app.work import Work
from claspwright.arch import DentalArch
from claspwright.base import Floats, InputError
from claspwright.framework import Side, base_border, span_of_base
from claspwright.geometry import Mesh
from claspwright.report import (
    SIDES,
    Item,
    Part,
    ReportContent,
    Scene,
    camera_for,
    oblique,
    png,
    render,
    view,
)
from claspwright.survey import Survey

VIEW_NAME = "view.json"
_PLAN_PX = 900


def write_view(out: Path, work: Work, content: ReportContent, *, inputs: dict[str, str]) -> None:
    """Write the view of a case; it appears whole, in place of the one before.

    Args:
        out: the folder.
        work: the case as worked out.
        content: its report.
        inputs: hash of each input file, so that a reader can tell whether it is stale.
    """
    with whole_folder(out) as folder:
        labels = None if work.arch is None else work.arch.crown_of_face
        shown = (*content.parts, *bite_parts(work))
        parts = [
            write_part(folder, part, labels if part.key == "model" else None) for part in shown
        ]
        listed: dict[str, Any] = {
            "inputs": inputs,
            "arch": content.facts.jaw,
            "kennedy": content.facts.kennedy,
            "path_words": content.path_words,
            "design_words": list(content.design_words),
            "parts": parts,
            "tracks": [
                {"name": track.name, "closed": track.closed, "points": _points(track.points)}
                for track in content.tracks
            ],
            "teeth": _teeth(work.arch, work.surveyed),
            "spans": _spans(work.arch),
            "base_borders": _base_borders(work),
            "components": _components(work),
            "path": None if work.surveyed is None else point_of(work.surveyed.path.direction, 6),
            "findings": [
                None if f.at_mm is None else point_of(f.at_mm, 3) for f in content.findings
            ],
            "measures": [
                {"name": m.name, "value": m.value, "unit": m.unit, "source": m.source}
                for m in content.measures
            ],
            "scan_to_arch": None if work.scan is None else _rows(work.scan.scan_to_arch.matrix()),
            "looks": [
                {"name": v.name, "toward": point_of(v.toward, 6), "up": point_of(v.up, 6)}
                for v in (oblique(content.facts.jaw), *(view(s, content.facts.jaw) for s in SIDES))
            ],
            "plan": _write_plan(folder, work.arch),
            "cone": _cone(work),
            "pictures": _write_pictures(folder, content),
        }
        write_json(folder / VIEW_NAME, listed)


def write_part(folder: Path, part: Part, labels: Any = None) -> dict[str, Any]:
    """Write one mesh as bytes and tell what it holds; Any: tooth codes of the faces, or None."""
    pieces = [part.mesh.vertices.astype("<f4").tobytes(), part.mesh.faces.astype("<u4").tobytes()]
    if part.values is not None:
        pieces.append(part.values.astype("<f4").tobytes())
    if labels is not None:
        pieces.append(np.asarray(labels, dtype=np.uint8).tobytes())
    (folder / f"{part.key}.bin").write_bytes(b"".join(pieces))
    return {
        "key": part.key,
        "name": part.name,
        "colour": list(part.colour),
        "shown": part.shown,
        "vertices": len(part.mesh.vertices),
        "faces": len(part.mesh.faces),
        "with_values": part.values is not None,
        "with_teeth": labels is not None,
        "values_name": part.values_name,
        "values_unit": part.values_unit,
        "low": part.low,
        "high": part.high,
        "levels": list(part.levels),
    }


def _teeth(arch: DentalArch | None, surveyed: Survey | None) -> list[dict[str, Any]]:
    if arch is None:
        return []
    room = {} if surveyed is None else {c: _room(arch, surveyed, c) for c in arch.teeth}
    return [
        {
            "code": code,
            "centre": point_of(tooth.centre, 3),
            "mark": point_of(tooth.mark, 3),
            "margin": _points(tooth.margin),
            "buccal": point_of(tooth.buccal, 4),
            "mesial": point_of(tooth.mesial, 4),
            "mesiodistal_mm": round(tooth.mesiodistal_mm, 2),
            "buccolingual_mm": round(tooth.buccolingual_mm, 2),
            "height_mm": round(tooth.height_mm, 2),
            "deepest_undercut_mm": room.get(code),
        }
        for code, tooth in sorted(arch.teeth.items())
    ]


def _room(arch: DentalArch, surveyed: Survey, code: int) -> dict[str, float]:
    """The deepest reading on either side of a crown [mm]: what a clasp could use there."""
    tooth, surface = arch.teeth[code], arch.scan.surface
    corners = np.unique(surface.faces[tooth.faces])
    outwards = (surface.vertices[corners] - tooth.centre) @ tooth.buccal
    readings = surveyed.undercut[corners]
    across = 0.25 * tooth.buccolingual_mm
    sides = {"buccal": outwards > across, "lingual": outwards < -across}
    return {
        side: round(float(readings[there].max(initial=0.0)), 2) for side, there in sides.items()
    }


def _spans(arch: DentalArch | None) -> list[dict[str, Any]]:
    if arch is None:
        return []
    return [{"missing": list(s.missing), "crest": _points(s.crest)} for s in arch.spans]


def _base_borders(work: Work) -> list[dict[str, Any]]:
    """Where each base ends on either side of its ridge."""
    if work.arch is None or work.surveyed is None or work.framework is None:
        return []
    out = []
    for base in work.framework.design.bases:
        found = [s for s in work.arch.spans if set(base.teeth) & set(s.missing)]
        for span in found[:1]:
            asked = span_of_base(span, base)
            sides: tuple[Side, ...] = ("buccal", "lingual")
            row: dict[str, Any] = {"teeth": list(base.teeth), "crest": _points(span.crest)}
            for side in sides:
                row[side] = _points(base_border(work.surveyed.block_field, asked, side))
            out.append(row)
    return out


def _cone(work: Work) -> dict[str, Any] | None:
    """Points and least usable undercut of every tilt that was held against the path."""
    cone = None if work.choice is None else work.choice.cone
    if cone is None:
        return None
    least = cone.usable_mm.min(axis=0) if len(cone.usable_mm) else None
    return {
        "step_deg": cone.step_deg,
        "tilts_deg": np.round(cone.tilts_deg, 3).tolist(),
        "points": np.round(cone.totals, 3).tolist(),
        "least_undercut_mm": None if least is None else np.round(least, 3).tolist(),
    }


def _components(work: Work) -> list[dict[str, Any]]:
    if work.framework is None:
        return []
    return [
        {
            "id": c.id,
            "kind": c.kind,
            "tooth": c.tooth,
            "line": _points(c.line),
            "course": None if c.course is None else _points(c.course),
            "figures": {k: round(float(v), 4) for k, v in sorted(c.figures.items())},
        }
        for c in work.framework.components
    ]


def _write_plan(folder: Path, arch: DentalArch | None) -> dict[str, Any] | None:
    """The scan from occlusal as a picture, and where arch x and y lie on it in pixels."""
    if arch is None:
        return None
    scene, look = Scene((Item(arch.scan.surface),)), view("occlusal", arch.scan.jaw)
    span = np.ptp(scene.bounds(), axis=0)
    size = (_PLAN_PX, int(np.clip(_PLAN_PX * span[1] / span[0], 450, 1350)))
    picture = render(scene, look, size, finish=1, scale_bar=False)
    (folder / "plan.png").write_bytes(png(picture))
    corners = camera_for(scene, look, size).project(np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0.0]]))
    origin = corners[0, :2]
    return {
        "width_px": size[0],
        "height_px": size[1],
        "origin_px": np.round(origin, 4).tolist(),
        "x_px_per_mm": np.round(corners[1, :2] - origin, 6).tolist(),
        "y_px_per_mm": np.round(corners[2, :2] - origin, 6).tolist(),
    }


def _write_pictures(folder: Path, content: ReportContent) -> list[dict[str, str]]:
    out = []
    for number, picture in enumerate(content.pictures):
        name = f"picture-{number:02d}.png"
        (folder / name).write_bytes(picture.png)
        out.append(
            {"file": name, "group": picture.group, "caption": picture.caption, "alt": picture.alt}
        )
    return out


def _points(line: Floats) -> list[list[float]]:
    rounded: list[list[float]] = np.round(np.atleast_2d(line), 3).tolist()
    return rounded


def _rows(matrix: Floats) -> list[list[float]]:
    rounded: list[list[float]] = np.round(matrix, 9).tolist()
    return rounded


def stamp_of(folder: Path) -> str:
    """What changes with a view; empty where there is none."""
    view = folder / VIEW_NAME
    return str(view.stat().st_mtime_ns) if view.is_file() else ""


def mesh_in(folder: Path, key: str) -> Mesh:
    """A mesh that `write_view` wrote.

    Raises:
        InputError: there is no such mesh in the view.
    """
    listed = json.loads((folder / VIEW_NAME).read_text(encoding="utf-8"))
    for part in listed["parts"]:
        if part["key"] == key:
            raw = (folder / f"{key}.bin").read_bytes()
            corners = np.frombuffer(raw, "<f4", part["vertices"] * 3).reshape(-1, 3)
            faces = np.frombuffer(raw, "<u4", part["faces"] * 3, offset=corners.nbytes)
            return Mesh(corners.astype(np.float64), faces.reshape(-1, 3).astype(np.int32))
    raise InputError(f"the view holds no mesh {key!r}", remedy="Take a key from its list of parts.")
