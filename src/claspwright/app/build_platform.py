"""From frameworks to platforms ready to run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from claspwright.app.build_files import Drawn, Ready, write_build
from claspwright.app.build_places import ring_pairs
from claspwright.app.build_sources import Source, named_apart, read_source
from claspwright.app.cluster import cluster_crew
from claspwright.app.folder import side_folder, whole_folder
from claspwright.app.parcel import Parcel, laid_aside
from claspwright.app.side_by_side import Crew, crew_of, side_by_side
from claspwright.base import Finding, InputError, Progress, part, silent
from claspwright.build import (
    Foresight,
    Machine,
    Placement,
    Process,
    ReadyPart,
    check_compensation,
    check_platform,
    expose,
    layer_count,
    layer_times,
    nest,
    placed_slices,
    platform_estimate,
    ready_part,
    shares,
)
from claspwright.build.book import finding
from claspwright.formats import read_machine, read_process
from claspwright.materials import material


@dataclass(frozen=True, slots=True)
class BuildWishes:
    """What `claspwright build` was asked for."""

    machine: str
    process: str = "cocr-25um"
    seed: int = 1
    processes: int = 0  # 0: as many as there are cores
    orientation: int = 0  # which of the best orientations, 0 the best
    layer_files: bool = True
    distortion: bool = False  # predict it
    compensate: bool = False  # and draw the shape changed in advance
    rings: bool = False  # close clasps to rings by bars between their tips
    scheduler: str = ""  # address of a Dask scheduler; else processes of this machine

    @property
    def foresight(self) -> Foresight:
        """What is asked of the prediction of distortion."""
        if self.compensate:
            return "compensate"
        return "predict" if self.distortion else "none"


@dataclass(frozen=True, slots=True)
class BuildResult:
    """Where the build lies and what was found."""

    folder: Path
    platforms: int
    findings: tuple[tuple[str, Finding], ...]  # name of the part, and what was found

    @property
    def stopped(self) -> bool:
        """Whether any finding says that the build must not go on."""
        return any(finding.severity == "stop" for _, finding in self.findings)


def build_platforms(
    paths: Sequence[Path],
    out: Path,
    wishes: BuildWishes,
    *,
    also: Callable[[Sequence[Ready], Machine], None] | None = None,
    progress: Progress = silent,
) -> BuildResult:
    """Stand parts up, support, label, nest, slice and expose them; write platform by platform.

    The folder appears whole or not at all; an earlier build there is replaced. The same input
    gives the same bytes, whatever the number of processes.

    Args:
        paths: case folders, result folders of a run, or solids.
        out: folder for the build.
        wishes: machine, process, seed.
        also: called with the platforms and the machine before the folder appears.
        progress: told of the parts; may cancel.

    Raises:
        InputError: a source, a record or the place cannot be used.
        InfeasibleError: a part does not fit the platform.
    """
    if not paths:
        raise InputError("nothing was given to build", remedy="Name a case, results or a solid.")
    machine, process = read_machine(wishes.machine), read_process(wishes.process)
    process.check_fits(machine)
    density = material(process.alloy).density.nominal
    _check_place(out)
    if wishes.compensate:
        check_compensation(process.distortion)
    with side_folder(out) as beside, _crew(wishes, paths, out) as crew:
        hold = None if crew is None else beside  # what several processes go on with
        read = side_by_side(
            read_source_task, [(path, hold) for path in paths], crew=crew,
            progress=part(progress, 0.0, 0.25), phase="reading the parts",
        )  # fmt: skip
        sources = named_apart([one.value for one in read])
        _check_alloys(sources, process)
        tasks = [
            ReadyTask(
                source, own.blank.name, own.blank.label, machine, process, len(sources),
                wishes.orientation, wishes.foresight, wishes.rings, hold,
            )
            for source, own in zip(read, sources, strict=True)
        ]  # fmt: skip
        made = side_by_side(
            ready_task, tasks, crew=crew, progress=part(progress, 0.25, 0.6),
            phase="orientation and supports",
        )  # fmt: skip
        parts = [one.value for one in made]
        platforms = nest(
            [one.outline for one in parts], machine, process.spacing_mm, seed=wishes.seed,
            progress=part(progress, 0.6, 0.68),
        )  # fmt: skip
        jobs = [
            DrawTask(
                made[place.part], place, _layers(parts, platform, process), machine, process, hold
            )
            for platform in platforms
            for place in platform
        ]
        drawn = side_by_side(
            draw_task, jobs, crew=crew, progress=part(progress, 0.68, 0.82), phase="exposure"
        )
        ready = _platforms(made, platforms, drawn, machine, process, density)
        findings = [(one.name, f) for one in parts for f in one.findings]
        findings += [(one.title, f) for one in ready for f in _gaps(one, machine, process)]
        with whole_folder(out) as folder:
            write_build(
                folder, ready, sources, machine, process, wishes.seed, findings,
                layer_files=wishes.layer_files, crew=crew, progress=part(progress, 0.82, 1.0),
            )  # fmt: skip
            if also is not None:
                also(ready, machine)
    progress(1.0, "written")
    return BuildResult(out, len(ready), tuple(findings))


def _crew(wishes: BuildWishes, paths: Sequence[Path], out: Path) -> AbstractContextManager[Crew]:
    """Who does the work; the build folder itself appears only in the end, so its place is seen."""
    if wishes.scheduler:
        return cluster_crew(wishes.scheduler, [*paths, out.resolve().parent])
    return crew_of(wishes.processes, len(paths))


def read_source_task(task: tuple[Path, Path | None], progress: Progress) -> Parcel[Source]:
    """Read one source; for another process."""
    path, hold = task
    return laid_aside(read_source(path, progress=progress), hold)


@dataclass(frozen=True, slots=True, eq=False)
class ReadyTask:
    """One part to be made ready."""

    source: Parcel[Source]
    name: str
    label: str
    machine: Machine
    process: Process
    parts: int
    rank: int
    foresight: Foresight
    rings: bool
    hold: Path | None


def ready_task(task: ReadyTask, progress: Progress) -> Parcel[ReadyPart]:
    """Make one part ready; for another process."""
    blank = replace(task.source.value.blank, name=task.name, label=task.label)
    if task.rings:
        blank = replace(blank, rings=ring_pairs(blank.places))
    made = ready_part(
        blank, task.machine, task.process, parts=task.parts, rank=task.rank,
        foresight=task.foresight, progress=progress,
    )  # fmt: skip
    return laid_aside(made, task.hold)


@dataclass(frozen=True, slots=True, eq=False)
class DrawTask:
    """One part to be drawn where it stands."""

    part: Parcel[ReadyPart]
    place: Placement
    layers: int
    machine: Machine
    process: Process
    hold: Path | None


def draw_task(task: DrawTask, progress: Progress) -> Drawn:
    """Vectors and times of one part where it stands; for another process."""
    one, motion = task.part.value, task.place.motion()
    turn, shift = motion.rotation[:2, :2], motion.translation[:2]
    own = placed_slices(one.slices, turn, shift, task.layers)
    below = placed_slices(one.support_slices, turn, shift, task.layers)
    exposed = expose(
        own, below if below.contours else None, task.machine, task.process,
        progress=part(progress, 0.0, 0.8),
    )  # fmt: skip
    return Drawn(laid_aside(exposed, task.hold), layer_times(exposed, task.machine, task.process))


def _layers(parts: Sequence[ReadyPart], platform: Sequence[Placement], process: Process) -> int:
    tallest = max(parts[place.part].slices.layers for place in platform)
    return max(tallest, layer_count(0.0, process.layer_mm), 1)


def _platforms(
    made: Sequence[Parcel[ReadyPart]],
    platforms: Sequence[Sequence[Placement]],
    drawn: Sequence[Drawn],
    machine: Machine,
    process: Process,
    density: float,
) -> list[Ready]:
    parts = [one.value for one in made]
    out = []
    at = 0
    for n, places in enumerate(platforms):
        # downwind first: the gas carries fumes away from what is drawn next
        flow = np.radians(machine.gas_flow_deg)
        wind = [p.x_mm * np.cos(flow) + p.y_mm * np.sin(flow) for p in places]
        order = sorted(range(len(places)), key=lambda i: (-round(wind[i], 6), i))
        mine = drawn[at : at + len(places)]
        at += len(places)
        times = [mine[i].times for i in order]
        chosen = [parts[places[i].part] for i in order]
        height = process.layer_mm * mine[0].exposed.value.outline.layers
        metal = sum(one.volume_mm3 for one in chosen)
        estimate = platform_estimate(times, metal, height, density, machine, process)
        split = shares(
            times,
            [one.volume_mm3 * density / 1000.0 for one in chosen],
            [len(one.columns) for one in chosen],
            estimate,
            machine,
            process.costs,
        )
        check = check_platform([one.outline for one in parts], places, machine.platform)
        out.append(
            Ready(
                f"platform {n + 1}",
                tuple(made[places[i].part] for i in order),
                tuple(places[i] for i in order),
                tuple(mine[i] for i in order),
                estimate,
                split,
                check,
            )  # fmt: skip
        )
    return out


def _gaps(one: Ready, machine: Machine, process: Process) -> list[Finding]:
    """Stops where parts stand too near to each other or to the edge."""
    wanted = (
        ("part to part", one.check.least_distance_mm, process.spacing_mm),
        ("edge", one.check.least_edge_mm, machine.platform.edge_margin_mm),
        ("keep-out", one.check.least_keep_out_mm, 0.0),
    )
    return [
        finding(
            "build.spacing",
            f"The distance {name} is {found:.2f} mm, {limit:g} mm are asked for.",
            measured=round(found, 3),
            limit=limit,
            unit="mm",
        )
        for name, found, limit in wanted
        if found < limit
    ]


def _check_alloys(sources: Sequence[Source], process: Process) -> None:
    for source in sources:
        if source.alloy is not None and source.alloy != process.alloy:
            raise InputError(
                f"the case asks for {source.alloy}, the process is for {process.alloy}",
                place=source.blank.name,
                remedy="Choose the process of this alloy with --process.",
            )


def _check_place(out: Path) -> None:
    if out.exists() and not out.is_dir():
        raise InputError(
            "this is a file, not a folder", place=out.as_posix(), remedy="Give a folder with --out."
        )
    if out.exists() and any(out.iterdir()) and not (out / "build.json").is_file():
        raise InputError(
            "the folder holds other files, which a build must not remove",
            place=out.as_posix(),
            remedy="Give a new or empty folder with --out, or one of an earlier build.",
        )
