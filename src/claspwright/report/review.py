"""The review page: one HTML file with the 3D in it, for the prescriber to read and answer."""

from __future__ import annotations

import base64
import hashlib
import json
from importlib.resources import files
from string import Template
from typing import Any

import numpy as np

from claspwright.report.colours import VIRIDIS
from claspwright.report.content import SEVERITIES, Part, ReportContent
from claspwright.report.lighten import lightened
from claspwright.report.packing import Packed, packed
from claspwright.report.review_words import sections
from claspwright.report.views import SIDES, oblique, view

MODULES = ("maths", "unpack", "scene", "page", "answer")
MOST_FACES = {"framework": 160_000, "model": 360_000, "blocked_out": 160_000, "opposing": 90_000}


def write_review(content: ReportContent) -> str:
    """One self-contained page; the same content gives the same text.

    It loads nothing and sends nothing: its content security policy allows no network at all,
    and no script or style but its own. Meshes are lightened to MOST_FACES for showing.
    """
    meshes, parts = [], []
    for shown in content.parts:
        light, values = lightened(shown.mesh, MOST_FACES.get(shown.key, 70_000), shown.values)
        made = packed(light, values, low=shown.low, high=shown.high)
        parts.append(_part(shown, made))
        meshes.append(
            f'<script type="application/octet-stream" id="mesh-{shown.key}">{made.text}</script>'
        )
    script, style = _script(), _template("review.css")
    return Template(_template("review.html")).substitute(
        **sections(content),
        style=style,
        style_hash=_hash(style),
        script=script,
        script_hash=_hash(script),
        case=_as_json(_facts(content, parts)),
        meshes="\n".join(meshes),
        plan=content.plan_svg,
    )


def _template(name: str) -> str:
    text = files("claspwright.report").joinpath("templates", name).read_text(encoding="utf-8")
    return text.replace("\r\n", "\n")


def _script() -> str:
    modules = "\n".join(_template(f"review_{name}.js") for name in MODULES)
    return f'"use strict";\n(() => {{\n{modules}}})();\n'


def _hash(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")


def _as_json(value: Any) -> str:
    """JSON that cannot close the script element it stands in."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


def _part(part: Part, made: Packed) -> dict[str, Any]:
    return {
        "key": part.key,
        "name": part.name,
        "colour": list(part.colour),
        "shown": part.shown,
        "vertices": made.vertices,
        "faces": made.faces,
        "low": list(made.low),
        "high": list(made.high),
        "values": made.with_values,
        "values_name": part.values_name,
        "values_unit": part.values_unit,
        "value_low": part.low,
        "value_high": part.high,
        "levels": list(part.levels),
    }


def _facts(content: ReportContent, parts: list[dict[str, Any]]) -> dict[str, Any]:
    jaw = content.facts.jaw
    looks = [oblique(jaw), *(view(side, jaw) for side in SIDES)]
    counts = ", ".join(f"{len(content.of(s))} {s}" for s in SEVERITIES)
    return {
        "id": content.facts.id,
        "counts": counts,
        "stops": len(content.of("stop")),
        "looks_left": len(content.of("look")),
        "framework": [p for p in content.facts.output_hashes if p[0].startswith("framework")],
        "parts": parts,
        "tracks": [np.round(t.points, 3).tolist() for t in content.tracks],
        "codes": [
            {"code": key, "at": np.round(at, 2).tolist()}
            for key, _, at in content.places
            if key.isdigit()
        ],
        "places": [
            {"words": words, "at": np.round(at, 2).tolist()} for _, words, at in content.places
        ],
        "looks": [
            {
                "name": v.name,
                "up": np.round(v.up, 6).tolist(),
                "toward": np.round(v.toward, 6).tolist(),
            }
            for v in looks
        ],
        "head": oblique(jaw).up.tolist(),
        "to_scan": np.round(content.arch_to_scan.matrix()[:3], 9).tolist(),
        "ramp": VIRIDIS.tolist(),
        "whole": _whole(content),
    }


def _whole(content: ReportContent) -> dict[str, Any]:
    """Where the whole lies: framework and model, whatever else is shown."""
    boxes = [p.mesh.bounds for p in content.parts if p.key in ("framework", "model")]
    if not boxes:
        return {"centre": [0, 0, 0], "size": 80, "reach": 200}
    low = np.min([b[0] for b in boxes], axis=0)
    high = np.max([b[1] for b in boxes], axis=0)
    reach = float(np.linalg.norm(high - low))
    return {
        "centre": np.round((low + high) / 2, 3).tolist(),
        "size": round(1.28 * float(max(high[:2] - low[:2])), 2),
        "reach": round(max(reach, 50.0) * 2, 1),
    }
