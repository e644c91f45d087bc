"""What can be built: a case still to be worked out, a result folder, or a bare solid."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from scipy.spatial import cKDTree

from claspwright.app.as_built import TO_BUILD, as_built, carried_over
from claspwright.app.build_places import fit_places, tips, told_places
from claspwright.app.carry_out import carry_out
from claspwright.app.hashes import sha256_of
from claspwright.app.watch import Watch
from claspwright.base import Bools, Floats, InputError, Progress, silent
from claspwright.build import Blank, signs
from claspwright.case import read_sheet
from claspwright.formats import read_mesh
from claspwright.framework import Framework
from claspwright.geometry import DistanceTree, Mesh, closest_points, volume
from claspwright.process import FinishingPlan

INTAGLIO_MM = 0.03  # a face of the framework this near to the blocked-out model is its inner side
OPEN_KINDS = ("lattice",)  # its inner side lies over relief and is covered by acrylic
TAG_SIGNS = 8  # a longer tag finds no room under a framework


@dataclass(frozen=True, slots=True, eq=False)
class Source:
    """One solid to be built and where it came from."""

    blank: Blank
    file: str
    sha256: str
    alloy: str | None  # None where the source does not say
    finishing: FinishingPlan = FinishingPlan()  # that the solid was built thicker for


def read_source(path: Path, *, progress: Progress = silent) -> Source:
    """A case folder or sheet, a result folder of a run, or a mesh file in mm.

    Raises:
        InputError: nothing of the kind lies there, or no framework could be made of the case.
    """
    if path.is_dir() and (path / "summary.json").is_file():
        return _from_results(path)
    if path.name == "case.toml" or (path.is_dir() and (path / "case.toml").is_file()):
        return _from_case(path, progress)
    if path.is_dir():
        raise InputError(
            "the folder holds neither a case sheet nor results",
            place=path.as_posix(),
            remedy="Give a case folder, a result folder of `claspwright run`, or a solid.",
        )
    mesh = read_mesh(path)
    _check_volume(mesh, path)
    return Source(Blank(path.stem, mesh, np.zeros(len(mesh.faces), bool)), path.name,
                  sha256_of(path), None)  # fmt: skip


def named_apart(sources: Sequence[Source]) -> list[Source]:
    """The sources with a number behind each name that occurs more than once, and a tag each.

    The tag is the name where it is short, else its end; where two tags would be equal, or would
    read equal, the number of the part stands before it.
    """
    names = [source.blank.name for source in sources]
    out = []
    for n, source in enumerate(sources):
        name = names[n]
        if names.count(name) > 1:
            name = f"{name}-{names[: n + 1].count(name)}"
        out.append(replace(source, blank=replace(source.blank, name=name)))
    tags = [signs(one.blank.name[-TAG_SIGNS:].lstrip("-_ .") or "part") for one in out]
    for n, tag in enumerate(tags):
        if tags.count(tag) > 1:
            tag = f"{n + 1}-{tag}"[:TAG_SIGNS]
        out[n] = replace(out[n], blank=replace(out[n].blank, label=tag))
    return out


def _check_volume(mesh: Mesh, path: Path) -> None:
    if not volume(mesh) > 0:
        raise InputError(
            "the solid is inside out or open", place=path.name, remedy="Turn its faces over."
        )


def _from_results(folder: Path) -> Source:
    grown = folder / TO_BUILD
    file = grown if grown.is_file() else folder / "framework.stl"
    if not file.is_file():
        raise InputError(
            "the results hold no framework", place=folder.as_posix(), remedy="Work the case out."
        )
    summary = json.loads((folder / "summary.json").read_text(encoding="utf-8"))
    solid = read_mesh(file)
    inner = np.zeros(len(solid.faces), bool)
    if (folder / "blocked_out.ply").is_file():
        designed = read_mesh(folder / "framework.stl") if file == grown else solid
        inner = _intaglio(designed, read_mesh(folder / "blocked_out.ply"))
        inner = carried_over(inner, designed, solid)
    path = summary.get("path")
    blank = Blank(
        str(summary.get("case_id") or folder.name),
        solid,
        inner,
        tips(told_places(summary)),
        None if path is None else _unit(path),
        _due(folder / "case.proposed.toml"),
        places=told_places(summary),
    )
    plan = _plan(folder / "case.proposed.toml") if file == grown else FinishingPlan()
    return Source(blank, file.name, sha256_of(file), summary.get("alloy"), plan)


def _from_case(path: Path, progress: Progress) -> Source:
    sheet = read_sheet(path)
    work = carry_out(sheet, Watch(), progress)
    if work.framework is None:
        stops = [f.text for f in work.findings if f.severity == "stop"]
        raise InputError(
            f"no framework could be made: {stops[0] if stops else 'no reason was found'}",
            place=path.as_posix(),
            remedy="See `claspwright run` for all findings.",
        )
    framework = work.framework
    asked = sheet.prescription
    places = fit_places(framework.components)
    solid = as_built(framework, sheet.finishing)
    blank = Blank(
        asked.case_id,
        solid,
        carried_over(_protected(framework), framework.solid, solid),
        tips(places),
        None if work.path is None else work.path.direction,
        asked.due.isoformat() if asked.due else "",
        places=places,
    )
    return Source(blank, sheet.path.name, sha256_of(sheet.path), asked.alloy, sheet.finishing)


def _protected(framework: Framework) -> Bools:
    """(F,) faces of the inner side: rests, clasps, guiding faces, tissue; not of the lattice."""
    inner = _intaglio(framework.solid, framework.blocked_out.model)
    lines = [(c.line, c.kind in OPEN_KINDS) for c in framework.components if len(c.line)]
    if not lines or not any(open_ for _, open_ in lines):
        return inner
    points = np.concatenate([line for line, _ in lines])
    belongs = np.concatenate([np.full(len(line), open_) for line, open_ in lines])
    centres = framework.solid.middles
    _, nearest = cKDTree(points).query(centres)
    return np.asarray(inner & ~belongs[nearest])


def _intaglio(solid: Mesh, model: Mesh) -> Bools:
    """(F,) faces that lie on the blocked-out model."""
    centres = solid.middles
    found = closest_points(DistanceTree(model), centres, 10 * INTAGLIO_MM)
    return np.asarray(np.abs(found.distance) < INTAGLIO_MM)


def _unit(values: Any) -> Floats:
    vector = np.array(values, dtype=np.float64)
    return np.asarray(vector / np.linalg.norm(vector))


def _plan(sheet: Path) -> FinishingPlan:
    """Finishing that a sheet names."""
    asked = _told(sheet).get("finishing", {})
    return FinishingPlan(tuple(asked.get("steps", ())), tuple(asked.get("masked", ())))


def _told(sheet: Path) -> dict[str, Any]:  # Any: a TOML table
    return tomllib.loads(sheet.read_text(encoding="utf-8")) if sheet.is_file() else {}


def _due(sheet: Path) -> str:
    """Due date of a sheet, empty where it has none."""
    due = _told(sheet).get("case", {}).get("due")
    return "" if due is None else str(due)
