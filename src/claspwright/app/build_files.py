"""The files of a build: solids, layers, pictures, sheet and build.json."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Literal

import numpy as np

from claspwright import __version__
from claspwright.app.build_distortion import distortion_told, distortions_shown
from claspwright.app.build_sources import Source
from claspwright.app.hashes import sha256_of
from claspwright.app.parcel import Parcel
from claspwright.app.results import write_json, write_text
from claspwright.app.side_by_side import Crew, side_by_side
from claspwright.base import Finding, Progress, silent
from claspwright.build import (
    CORE,
    DOWNSKIN,
    UPSKIN,
    Exposed,
    LayerTimes,
    Machine,
    Placement,
    PlatformCheck,
    PlatformEstimate,
    Process,
    ReadyPart,
    Share,
    Slices,
    layer_seconds,
    of_kind,
)
from claspwright.formats import (
    BuildObject,
    LayeredPart,
    LayerFile,
    write_build_3mf,
    write_layer_file,
    write_stl,
)
from claspwright.geometry import Mesh, merged
from claspwright.report import (
    SheetContent,
    SheetPart,
    film_strip_png,
    landscape_svg,
    layer_svg,
    platform_map_svg,
    times_svg,
    write_build_sheet,
)

REMARK = "Claspwright. This file has not been validated on any machine"
Kind = Literal["solids", "ascii", "binary", "pictures"]
CLASSES = (("core", CORE), ("upskin", UPSKIN), ("downskin", DOWNSKIN))
FRAMES = 12  # of the film strip
SHOWN = (0.15, 0.5, 0.85)  # layers drawn with all their vectors, as shares of the height


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """One part where it stands on its platform."""

    exposed: Parcel[Exposed]
    times: LayerTimes


@dataclass(frozen=True, slots=True, eq=False)
class Ready:
    """One platform, its parts in the order of exposure."""

    title: str
    made: tuple[Parcel[ReadyPart], ...]
    places: tuple[Placement, ...]
    drawn: tuple[Drawn, ...]
    estimate: PlatformEstimate
    shares: tuple[Share, ...]
    check: PlatformCheck

    @property
    def parts(self) -> tuple[ReadyPart, ...]:
        """The parts themselves."""
        return tuple(one.value for one in self.made)

    @property
    def exposures(self) -> tuple[Exposed, ...]:
        """What is drawn of each part."""
        return tuple(one.exposed.value for one in self.drawn)


def write_build(
    folder: Path,
    platforms: Sequence[Ready],
    sources: Sequence[Source],
    machine: Machine,
    process: Process,
    seed: int,
    findings: Sequence[tuple[str, Finding]],
    *,
    layer_files: bool = True,
    crew: Crew = None,
    progress: Progress = silent,
) -> None:
    """All files of a build, a folder for each platform; kinds of files side by side."""
    kinds: tuple[Kind, ...] = ("solids", "ascii", "pictures", "binary") if layer_files else (
        "solids", "pictures")  # fmt: skip
    tasks = []
    for one in platforms:
        names = {part.name for part in one.parts} | {one.title}
        here = tuple(pair for pair in findings if pair[0] in names)
        inner = folder / one.title.replace(" ", "-")
        inner.mkdir()
        tasks += [PlatformFiles(inner, one, machine, process, here, kind) for kind in kinds]
    # what takes longest first, so that no process has much left to do when the others are done
    tasks.sort(key=lambda task: (kinds.index(task.kind), -len(task.platform.made)))
    side_by_side(write_platform, tasks, crew=crew, progress=progress, phase="writing")
    write_json(
        folder / "build.json", _told(folder, platforms, sources, machine, process, seed, findings)
    )
    progress(1.0, "written")


@dataclass(frozen=True, slots=True, eq=False)
class PlatformFiles:
    """What the files of one kind of one platform are made of."""

    folder: Path  # there already
    platform: Ready
    machine: Machine
    process: Process
    findings: tuple[tuple[str, Finding], ...]
    kind: Kind


def write_platform(task: PlatformFiles, progress: Progress) -> None:
    """The files of one kind of one platform; for another process."""
    progress(0.0, task.kind)
    if task.kind == "solids":
        _write_solids(task.folder, task.platform)
    elif task.kind in ("ascii", "binary"):
        _write_layers(task.folder, task.platform, task.kind)
    else:
        _write_pictures(task.folder, task.platform, task.machine, task.process, task.findings)


def _write_solids(folder: Path, one: Ready) -> None:
    """Solids with supports, first as the parts of one 3MF with their slices, then as STL."""
    objects: list[BuildObject] = []
    whole: list[Mesh] = []
    for part, place, drawn in zip(one.parts, one.places, one.drawn, strict=True):
        motion, exposed = place.motion(), drawn.exposed.value
        both = part.whole.moved(motion)
        objects.append(BuildObject(part.name, part.solid.moved(motion), exposed.outline))
        if len(part.supports.faces):
            below = part.supports.moved(motion)
            # closed contours: a machine may fill them, which the type "support" would forbid
            objects.append(
                BuildObject(f"{part.name} supports", below, exposed.support_outline, "solidsupport")
            )
        write_stl(both, folder / f"{_safe(part.name)}.stl")
        whole.append(both)
    write_build_3mf(objects, folder / "platform.3mf")
    write_stl(merged(*whole), folder / "platform.stl")


def _write_layers(folder: Path, one: Ready, mode: Literal["ascii", "binary"]) -> None:
    """Common Layer Interface, one label for each part and class of vectors."""
    parts: list[LayeredPart] = []
    for part, exposed in zip(one.parts, one.exposures, strict=True):
        parts.append(LayeredPart(f"{part.name} contour", exposed.contours or (exposed.outline,)))
        for words, kind in CLASSES:
            parts.append(LayeredPart(f"{part.name} {words}", (), of_kind(exposed.hatches, kind)))
        if exposed.support_contours is not None:
            track = exposed.support_contours
            parts.append(LayeredPart(f"{part.name} support", (track,), exposed.support_hatches))
    how = LayerFile(mode, unit_mm=0.001, remark=REMARK)
    write_layer_file(parts, folder / f"layers-{mode}.cli", how)


def _write_pictures(
    folder: Path,
    one: Ready,
    machine: Machine,
    process: Process,
    findings: Sequence[tuple[str, Finding]],
) -> None:
    layers = one.estimate.layers
    shapes = [p.placed(part.outline) for part, p in zip(one.parts, one.places, strict=True)]
    plan = platform_map_svg(machine, shapes, [part.label or part.name for part in one.parts])
    write_text(folder / "platform-map.svg", plan)
    for share in SHOWN:
        layer = int(share * layers)
        picture = layer_svg(one.exposures, layer, machine)
        write_text(folder / f"layer-{layer + 1:05d}.svg", picture)
    full = max(int(np.flatnonzero(np.diff(e.outline.layer_start)).max()) for e in one.exposures)
    frames = np.unique(np.linspace(0, full, FRAMES).astype(int)).tolist()
    film = film_strip_png(one.exposures, machine, frames)
    (folder / "film-strip.png").write_bytes(film)
    seconds = layer_seconds([d.times for d in one.drawn], machine, layers)
    times = times_svg(seconds, machine.recoat_s, process.layer_mm)
    write_text(folder / "layer-times.svg", times)
    landscapes = {part.name: landscape_svg(part.study) for part in one.parts}
    for name, svg in landscapes.items():
        write_text(folder / f"orientation-{_safe(name)}.svg", svg)
    shown = distortions_shown(one.parts)
    for name, told in shown.items():
        (folder / f"distortion-{_safe(name)}.png").write_bytes(told.png)
    content = SheetContent(
        title=f"Build sheet, {one.title}",
        machine=machine.title,
        process=process.title,
        facts=_facts(one),
        columns=("metal g", "contacts", "hours", "cost"),
        parts=tuple(_line(n, one, process) for n in range(len(one.parts))),
        findings=tuple(findings),
        map_svg=plan,
        times_svg=times,
        film_png=film,
        landscapes=landscapes,
        distortions=tuple(shown.values()),
        version=__version__,
    )
    (folder / "build-sheet.pdf").write_bytes(write_build_sheet(content))


def _facts(one: Ready) -> tuple[tuple[str, str], ...]:
    e = one.estimate
    gap = one.check.least_distance_mm
    return (
        ("parts", str(len(one.parts))),
        ("height", f"{e.height_mm:.2f} mm, {e.layers} layers"),
        ("time", f"{e.total_h:.2f} h"),
        ("of it recoating", f"{e.recoat_h:.2f} h"),
        ("exposure", f"{e.contour_h + e.hatch_h + e.support_h:.2f} h"),
        ("jumps and settling", f"{e.jump_h:.2f} h"),
        ("begin and end", f"{e.begin_end_h:.2f} h"),
        ("powder on the platform", f"{e.powder_laid_kg:.2f} kg"),
        ("melted", f"{1000 * e.powder_melted_kg:.1f} g"),
        ("electricity", f"{e.electricity_kwh:.1f} kWh"),
        ("gas", f"{e.gas_m3:.2f} m3"),
        ("least distance", "one part" if np.isinf(gap) else f"{gap:.2f} mm"),
    )


def _line(n: int, one: Ready, process: Process) -> SheetPart:
    part, share, chosen = one.parts[n], one.shares[n], one.parts[n].chosen
    density = 1000.0 * one.estimate.powder_melted_kg / sum(p.volume_mm3 for p in one.parts)
    price = "-" if share.cost is None else f"{share.cost:.2f} {process.costs.currency}".strip()
    tilt = "" if part.tilt_deg is None else f"path {part.tilt_deg:.0f} deg from the vertical; "
    return SheetPart(
        n + 1,
        part.name,
        part.due or "-",
        (
            f"{part.volume_mm3 * density:.2f}",
            str(len(part.columns)),
            f"{share.machine_h:.2f}",
            price,
        ),
        f"tag {part.label or 'none'}; {tilt}{chosen.height_mm:.1f} mm tall, "
        f"{chosen.downskin_mm2:.0f} mm2 of downskin flatter than the self-supporting angle; "
        f"{chosen.reason}.",
    )


def _told(
    folder: Path,
    platforms: Sequence[Ready],
    sources: Sequence[Source],
    machine: Machine,
    process: Process,
    seed: int,
    findings: Sequence[tuple[str, Finding]],
) -> dict[str, Any]:
    """What build.json holds; Any: a tree for JSON."""
    files = sorted(f for f in folder.rglob("*") if f.is_file())
    with ThreadPoolExecutor() as pool:
        hashes = list(pool.map(sha256_of, files))
    return {
        "version": __version__,
        "seed": seed,
        "not_validated_on_any_machine": True,
        "machine": asdict(machine),
        "process": asdict(process),
        "angle_convention": "angles of surfaces in degrees from the plate; from the vertical = "
        "90 - from the plate",
        "frame": "plate: origin in the middle of the platform, +z up, mm",
        "sources": [
            {
                "part": s.blank.name,
                "file": s.file,
                "sha256": s.sha256,
                "alloy": s.alloy,
                "finishing": asdict(s.finishing),
            }
            for s in sources
        ],
        "platforms": [_platform_told(one) for one in platforms],
        "findings": [{"part": name, **asdict(finding)} for name, finding in findings],
        "files": dict(zip((f.relative_to(folder).as_posix() for f in files), hashes, strict=True)),
    }


def _platform_told(one: Ready) -> dict[str, Any]:
    return {
        "title": one.title,
        "estimate": {**_rounded(asdict(one.estimate)), "total_h": round(one.estimate.total_h, 5)},
        "least_distance_mm": _finite(one.check.least_distance_mm),
        "least_edge_mm": _finite(one.check.least_edge_mm),
        "least_keep_out_mm": _finite(one.check.least_keep_out_mm),
        "parts": [_part_told(n, one) for n in range(len(one.parts))],
    }


def _part_told(n: int, one: Ready) -> dict[str, Any]:
    part, place, share = one.parts[n], one.places[n], one.shares[n]
    motion = place.motion().after(part.motion)
    return {
        "part": part.name,
        "due": part.due or None,
        "tag": part.label or None,
        "turn_deg": place.turn_deg,
        "x_mm": round(place.x_mm, 4),
        "y_mm": round(place.y_mm, 4),
        "solid_to_plate": [[round(float(v), 9) + 0.0 for v in row] for row in motion.matrix()],
        "reference_from_vertical_deg": None if part.tilt_deg is None else round(part.tilt_deg, 3),
        "volume_mm3": round(part.volume_mm3, 3),
        "slice_volume_mm3": round(_volume(part.slices) + _volume(part.support_slices), 3),
        "orientation": _rounded(asdict(part.chosen)),
        "other_orientations": [_rounded(asdict(c)) for c in part.study.best[:5]],
        "share": _rounded(asdict(share)),
        "distortion": None if part.distortion is None else distortion_told(part.distortion),
        "rings": part.rings,
        "contacts": [
            {
                "at_mm": [round(v, 3) for v in _on_plate(c.contact.at_mm, place)],
                "kind": c.contact.kind,
                "on_protected_face": c.contact.protected,
                "stands_on": c.base,
                "foot_on_protected_face": c.on_protected,
            }
            for c in part.columns
        ],
    }


def _on_plate(at: Sequence[float], place: Placement) -> list[float]:
    return [float(v) for v in place.motion().apply(np.array(at))]


def _volume(slices: Slices) -> float:
    return slices.volume()


def _rounded(values: dict[str, Any]) -> dict[str, Any]:
    return {k: round(v, 5) if isinstance(v, float) else v for k, v in values.items()}


def _finite(value: float) -> float | None:
    return round(value, 4) if np.isfinite(value) else None


def _safe(name: str) -> str:
    return "".join(c if c.isalnum() or c in "-_." else "-" for c in name)
