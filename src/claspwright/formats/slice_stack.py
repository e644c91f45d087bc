"""3MF with the slice extension: solids, and the layers that a machine would expose.

Source:
    3MF Core Specification; 3MF Slice Extension (check-values J30 to J43).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal
from xml.sax.saxutils import quoteattr

import numpy as np

from claspwright.base import Floats
from claspwright.build import Slices
from claspwright.formats.number_text import rows
from claspwright.formats.package import mesh_xml, model_xml, write_package
from claspwright.geometry import Mesh

SLICE_NAMESPACE = "http://schemas.microsoft.com/3dmanufacturing/slice/2015/07"
_DIGITS = 4  # of a coordinate of a slice: a tenth of a micrometre


@dataclass(frozen=True, slots=True, eq=False)
class BuildObject:
    """One object of a build."""

    name: str
    mesh: Mesh
    slices: Slices | None = None
    kind: Literal["model", "solidsupport"] = "model"


def write_build_3mf(objects: Sequence[BuildObject], path: Path | str) -> None:
    """Write solids, each with its slices where it has them, in millimetres and in place.

    Contours keep their sense: outer ones counter-clockwise, holes clockwise, each closed.
    """
    resources: list[bytes] = []
    items = []
    number = 0
    for one in objects:
        stack = ""
        if one.slices is not None:
            number += 1
            resources.append(_stack(one.slices, number))
            stack = f' s:slicestackid="{number}"'
        number += 1
        kind = f'type="{one.kind}" name={quoteattr(one.name)}'
        resources.append(f'<object id="{number}" {kind}{stack}>\n'.encode())
        resources += [*mesh_xml(one.mesh), b"</object>\n"]
        items.append(f'<item objectid="{number}"/>\n')
    namespaces = f' xmlns:s="{SLICE_NAMESPACE}"'
    write_package(model_xml(resources, "".join(items), namespaces=namespaces), path, effort=1)


def _stack(slices: Slices, number: int) -> bytes:
    points, start = _distinct(slices)
    vertices, ends = rows(points, _DIGITS, ['<s:vertex x="', '" y="', '"/>'])
    place = ends.tolist()
    most = int(np.diff(np.array(start)[slices.layer_start]).max(initial=0)) + 1
    steps, ends = rows(np.arange(most + 1.0)[:, None], 0, ['<s:segment v2="', '"/>'])
    step = ends.tolist()
    lines = [f'<s:slicestack id="{number}" zbottom="{_number(slices.bottom_mm)}">\n'.encode()]
    for layer, top in enumerate(slices.tops_mm().tolist()):
        bounds = start[slices.layer_start[layer] : slices.layer_start[layer + 1] + 1]
        rings = [(a, b) for a, b in zip(bounds, bounds[1:], strict=False) if b - a >= 3]
        if not rings:
            lines.append(f'<s:slice ztop="{_number(top)}"/>\n'.encode())
            continue
        lines.append(f'<s:slice ztop="{_number(top)}">\n<s:vertices>\n'.encode())
        for a, b in rings:
            lines += [vertices[place[a] : place[b]], b"\n"]
        lines.append(b"</s:vertices>\n")
        begin = 0
        for a, b in rings:
            end = begin + b - a
            lines += [
                b'<s:polygon startv="%d">' % begin, steps[step[begin + 1] : step[end]],
                steps[step[begin] : step[begin + 1]], b"</s:polygon>\n",
            ]  # fmt: skip
            begin = end
        lines.append(b"</s:slice>\n")
    lines.append(b"</s:slicestack>\n")
    return b"".join(lines)


def _distinct(slices: Slices) -> tuple[Floats, list[int]]:
    """Points as they are written, none equal to the one before in its ring; starts of the rings."""
    rounded = np.round(slices.points, _DIGITS)
    before = np.arange(len(rounded)) - 1
    first = slices.contour_start[:-1]
    before[first] = slices.contour_start[1:] - 1
    moved = (rounded[:, 0] != rounded[before, 0]) | (rounded[:, 1] != rounded[before, 1])
    kept = np.concatenate([[0], np.cumsum(moved)])
    return np.asarray(rounded[moved]), kept[slices.contour_start].tolist()


def _number(value: float) -> str:
    return f"{round(value, 6) + 0.0:.10g}"
