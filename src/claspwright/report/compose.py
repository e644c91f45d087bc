"""From the values of a run to the content of its report."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import FIRST_COMPLETED, ThreadPoolExecutor, wait
from dataclasses import replace
from itertools import chain

import numpy as np

from claspwright.arch import Bite, DentalArch
from claspwright.base import Finding, Floats, Progress, part, silent
from claspwright.framework import Framework, Room
from claspwright.geometry import IDENTITY, volume
from claspwright.report.cone_maps import as_svg, cone_maps, panels_of
from claspwright.report.content import (
    CaseFacts,
    ComponentRow,
    Measure,
    Part,
    Picture,
    ReportContent,
    Track,
)
from claspwright.report.gather import degrees, with_signs
from claspwright.report.model_rows import body_parts, body_rows, room_rows
from claspwright.report.pictures import (
    UNDERCUT_LEVELS,
    clasp_pictures,
    framework_pictures,
    survey_pictures,
)
from claspwright.report.plan import arch_plan
from claspwright.report.plan_drawing import plan_svg
from claspwright.report.scene import ACRYLIC, ENAMEL, METAL, OPPOSING, STONE, WAX
from claspwright.report.survey_sheet import score_heads, score_table
from claspwright.report.words import component_words, design_words, has_unit, measure_of, path_words
from claspwright.survey import PathChoice, Survey

SIDE_BY_SIDE = 2  # pictures that are drawn at a time


def compose(
    facts: CaseFacts,
    arch: DentalArch | None,
    survey: Survey | None,
    framework: Framework | None,
    findings: tuple[Finding, ...],
    *,
    measures: tuple[Measure, ...] = (),
    choice: PathChoice | None = None,
    room: Room | None = None,
    bite: Bite | None = None,
    finish: int = 2,
    with_pictures: bool = True,
    progress: Progress = silent,
) -> ReportContent:
    """Gather what the report and the review page show; what is None is left out of them.

    Args:
        facts: what the case sheet and the run say.
        arch: teeth and scans, arch frame.
        survey: the arch surveyed along the path of placement.
        framework: the solid and its components.
        findings: all findings of the run, arch frame.
        measures: further quantities, such as the mass; the volumes are added here.
        choice: the path and what it was held against.
        room: artificial teeth as blocks, and the acrylic round them.
        bite: how the arches meet.
        finish: samples a pixel along each direction; 1 is quicker and rougher.
        with_pictures: False leaves the pictures out, as for a page that has its own 3D view.
        progress: told of each picture.
    """
    with ThreadPoolExecutor(SIDE_BY_SIDE) as pool:
        try:  # what takes long is begun before the pictures, and goes on beside them
            waxed = pool.submit(body_parts, arch, survey, framework)
            mapped = pool.submit(_cone_svg, choice)
            planned = pool.submit(_plan, arch, framework)
            pictures: tuple[Picture, ...] = ()
            if with_pictures:
                sources = _picture_sources(arch, survey, framework, finish)
                pictures = _drawn(pool, sources, part(progress, 0.0, 0.9))
            progress(0.9, "arch plan")
            plan_picture, plan_alt = planned.result()
            cone_svg, wax = mapped.result(), waxed.result()
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise
    return ReportContent(
        facts=replace(facts, alloy=degrees(facts.alloy)),
        path_words="" if survey is None else path_words(survey.path),
        design_words=() if framework is None else design_words(framework.design),
        measures=(*measures, *_volumes(framework)),
        components=_components(framework),
        findings=tuple(with_signs(finding) for finding in findings),
        pictures=pictures,
        parts=(*_parts(arch, survey, framework), *wax, *_carried(room)),
        tracks=_tracks(survey),
        plan_svg=plan_picture,
        plan_alt=plan_alt,
        places=_places(arch, framework),
        arch_to_scan=IDENTITY if arch is None else arch.scan.scan_to_arch.inverse(),
        path_reasons=() if choice is None else tuple(degrees(r) for r in choice.reasons),
        path_heads=() if choice is None else tuple(score_heads(choice)),
        path_scores=() if choice is None else tuple(tuple(row) for row in score_table(choice)),
        cone_svg=cone_svg,
        bodies=body_rows(framework),
        rooms=room_rows(arch, bite, framework),
        rooms_words="" if bite is None else _record_words(bite),
    )


def _record_words(bite: Bite) -> str:
    if bite.holds:
        return "Teeth behind the canines meet on both sides and hold the record."
    return (
        "Provisional: no teeth behind the canines meet on both sides. Take the record with rims, "
        "best on the finished framework."
    )


def _plan(arch: DentalArch | None, framework: Framework | None) -> tuple[str, str]:
    """The plan of the arch as SVG, and in words."""
    if arch is None:
        return "", ""
    plan = arch_plan(arch, framework)
    return plan_svg(plan), plan.alt


def _cone_svg(choice: PathChoice | None) -> bytes:
    """The map of all points, and of the three parts that change most."""
    if choice is None or choice.cone is None:
        return b""
    whole, *parts = (p for p in panels_of(choice.cone) if p.key not in ("tilt", "weakest"))
    parts.sort(key=lambda panel: -float(np.ptp(panel.values)))
    return as_svg(cone_maps(choice, (whole, *parts[:3])))


def _picture_sources(
    arch: DentalArch | None, survey: Survey | None, framework: Framework | None, finish: int
) -> list[Iterator[Picture]]:
    """The pictures of each kind, in the order of the report."""
    sources: list[Iterator[Picture]] = []
    if arch is not None and framework is not None:
        sources.append(framework_pictures(arch, framework, finish))
        if survey is not None:
            sources.append(clasp_pictures(arch, survey, framework, finish))
    if arch is not None and survey is not None:
        sources.append(survey_pictures(arch, survey, framework, finish))
    return sources


def _drawn(
    pool: ThreadPoolExecutor, sources: list[Iterator[Picture]], progress: Progress
) -> tuple[Picture, ...]:
    """All pictures, one of each kind at a time."""
    made: list[list[Picture]] = [[] for _ in sources]
    drawn = {pool.submit(next, source, None): n for n, source in enumerate(sources)}
    while drawn:
        for done in wait(drawn, return_when=FIRST_COMPLETED).done:
            n, picture = drawn.pop(done), done.result()
            if picture is None:
                continue
            made[n].append(picture)
            progress(min(sum(map(len, made)) / 20, 0.95), f"picture: {picture.key}")
            drawn[pool.submit(next, sources[n], None)] = n
    progress(1.0, "pictures")
    return tuple(chain.from_iterable(made))


def _volumes(framework: Framework | None) -> tuple[Measure, ...]:
    if framework is None:
        return ()
    blocked = framework.blocked_out
    return (
        Measure("volume of the framework", volume(framework.solid), "mm³", "divergence sum"),
        Measure("blockout", blocked.blockout_mm3, "mm³", "blocked-out model"),
        Measure("relief", blocked.relief_mm3, "mm³", "blocked-out model"),
    )


def _components(framework: Framework | None) -> tuple[ComponentRow, ...]:
    if framework is None:
        return ()
    return tuple(
        ComponentRow(
            c.id,
            component_words(c),
            tuple(measure_of(k, v) for k, v in sorted(c.figures.items()) if has_unit(k)),
        )
        for c in framework.components
        if c.kind not in ("lattice", "finish line")  # many pieces, of which no length matters
    )


def _parts(
    arch: DentalArch | None, survey: Survey | None, framework: Framework | None
) -> tuple[Part, ...]:
    parts: list[Part] = []
    if framework is not None:
        parts.append(Part("framework", "framework", framework.shown, METAL))
    if arch is not None:
        values = None if survey is None else survey.undercut
        parts.append(
            Part(
                "model",
                "model",
                arch.scan.surface,
                STONE,
                values=values,
                values_name="undercut",
                low=0.0,
                high=1.0,
                levels=UNDERCUT_LEVELS,
            )  # fmt: skip
        )
    if framework is not None:
        parts.append(
            Part("blocked_out", "blocked-out model", framework.blocked_out.model, WAX, shown=False)
        )
    if arch is not None and arch.opposing is not None:
        parts.append(Part("opposing", "opposing arch", arch.opposing, OPPOSING, shown=False))
    return tuple(parts)


def _carried(room: Room | None) -> tuple[Part, ...]:
    """What the framework carries, hidden at first."""
    parts = []
    if room is not None and (blocks := room.blocks) is not None:
        name = "artificial teeth, as blocks"
        parts.append(Part("artificial_teeth", name, blocks, ENAMEL, shown=False))
    if room is not None and (acrylic := room.acrylic) is not None:
        parts.append(Part("acrylic", "acrylic", acrylic, ACRYLIC, shown=False))
    return tuple(parts)


def _tracks(survey: Survey | None) -> tuple[Track, ...]:
    if survey is None:
        return ()
    return tuple(
        Track(f"survey line {code}", piece)
        for code, pieces in sorted(survey.survey_lines.items())
        for piece in pieces
        if len(piece) > 1
    )


def _places(
    arch: DentalArch | None, framework: Framework | None
) -> tuple[tuple[str, str, Floats], ...]:
    """Where the review page can look: each present tooth and each component."""
    teeth = () if arch is None else tuple(sorted(arch.teeth.items()))
    out: list[tuple[str, str, Floats]] = [
        (str(code), f"tooth {code}", tooth.centre) for code, tooth in teeth
    ]
    for component in () if framework is None else framework.components:
        middle = np.asarray(component.line[len(component.line) // 2], dtype=np.float64)
        out.append((component.id, component_words(component), middle))
    return tuple(out)
