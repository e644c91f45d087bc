"""Changes shown at once on the framework that was worked out last.

A change of retainers alone is shown as its pieces, then cut; any other one as its pieces alone.

A process of its own holds one case's stages ready; what it shows is laid and cut by the same code
as the final framework, but the results, the report and all files come from the main job alone.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from concurrent.futures import CancelledError, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, ParamSpec, TypeVar

import numpy as np

from claspwright.app.bench.cases import view_of
from claspwright.app.bench.edits import design_in_force
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.view_files import VIEW_NAME, write_part
from claspwright.app.carry_out import kennedy_of
from claspwright.app.folder import whole_folder
from claspwright.app.judge import facts_for_rules
from claspwright.app.memory import FolderMemory, program_hash, unpickled
from claspwright.app.processes import end, hushed, pool_of
from claspwright.app.results import write_json
from claspwright.app.to_scan import point_of
from claspwright.app.work import Work
from claspwright.arch import DentalArch
from claspwright.base import Finding, InputError, Point
from claspwright.framework import Amended, Design, Framework, Retainer, Workpiece, taken_up
from claspwright.report import METAL, Part
from claspwright.rules import FINISHED_RULES, Finished
from claspwright.survey import Survey

STAGES = ("teeth", "survey", "framework")
RULES = ("clasp.",)  # rules that a moved arm can change, by the beginning of their ids
GHOST = (176, 48, 96)

P = ParamSpec("P")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Shown:
    """What a change looks like: a mesh beside the view, and what the rules say of it."""

    part: dict[str, Any]  # as in a view; Any: a JSON object
    stamp: str
    teeth: tuple[int, ...]  # that carry something new
    components: tuple[dict[str, Any], ...]  # those laid anew
    findings: tuple[dict[str, Any], ...] | None  # of the clasps; None: not asked yet
    cuts: bool = True  # whether the whole framework can be shown with them
    borders: tuple[tuple[Point, ...], ...] = ()  # of bases that differ, arch frame [mm]


class LiveHand:
    """The process that shows changes; made when it is first asked, ended by `close`."""

    def __init__(self, lab: Laboratory) -> None:
        self._root = lab.root
        self._pool: ProcessPoolExecutor | None = None
        self._lock = threading.Lock()
        self._closed = False
        self._turn = threading.Lock()  # of those that wait to be taken up
        self._wanted = ""  # the case that was asked for last

    def warm(self, case: str) -> bool:
        """Take a case up; returns whether changes of it can be shown.

        Of several that were opened one after another the last is taken up; those that still
        wait their turn when another is asked for are passed over, so that no queue forms.
        """
        self._wanted = case
        with self._turn:
            return self._wanted == case and self._do(_warm, self._root, case)

    def lay(self, case: str) -> Shown:
        """The pieces that the sheet asks for and the last framework has not; not cut.

        Raises:
            InputError: the case was not worked out by this version, or nothing differs.
            InfeasibleError: a part has no place.
        """
        return self._do(_lay, self._root, case)

    def cut(self, case: str) -> Shown:
        """The whole framework with them, and what the rules on clasps say.

        Raises:
            InfeasibleError: more differs than retainers.
        """
        return self._do(_cut, self._root, case)

    def close(self) -> None:
        """End the process for good; who waits for it is told so."""
        self._closed = True
        self._end()

    def _end(self) -> None:
        with self._lock:
            if self._pool is not None:
                end(self._pool, patience_s=0.5)  # what it shows can be shown again
                self._pool = None

    def _do(self, what: Callable[P, T], *args: P.args, **kwargs: P.kwargs) -> T:
        for again in (True, False):
            with self._lock:
                if self._closed:
                    raise InputError("the bench is being closed", remedy="Start it again.")
                if self._pool is None:
                    self._pool = pool_of(1)
                with hushed():
                    future = self._pool.submit(what, *args, **kwargs)
            try:
                return future.result()
            except (BrokenProcessPool, CancelledError):
                if not again:
                    raise
                self._end()
        raise AssertionError("one of the two has returned")


def note_stages(lab: Laboratory, case: str, memory: FolderMemory) -> None:
    """Note which kept stages belong to the framework that a case has now."""
    used = {stage: path.name for stage, path in memory.used.items() if stage in STAGES}
    folder = lab.kept("live")
    folder.mkdir(parents=True, exist_ok=True)
    write_json(folder / f"{case}.json", {"program": program_hash(), "stages": used})


@dataclass(slots=True, eq=False)
class _Held:
    """One case taken up."""

    stamp: tuple[str, int]
    piece: Workpiece
    arch: DentalArch
    survey: Survey
    asked: Design | None = None  # what `laid` was laid for
    laid: Amended | None = None
    cuts: bool = True


_held: _Held | None = None  # of this process


def _warm(root: Path, case: str) -> bool:
    try:
        _take_up(Laboratory(root), case)
    except InputError:
        return False
    return True


def _lay(root: Path, case: str) -> Shown:
    lab = Laboratory(root)
    held, laid = _laid(lab, case)
    mesh = held.piece.uncut(laid)
    part = Part("preview", "as it would be", mesh, GHOST)
    return _shown(lab, case, held, laid, part, None)


def _cut(root: Path, case: str) -> Shown:
    lab = Laboratory(root)
    held, laid = _laid(lab, case)
    if not held.cuts:
        held.piece.lay(laid.design)  # says what cannot be cut
    framework = held.piece.cut(laid).framework
    part = Part("framework", "framework", framework.solid, METAL)
    return _shown(lab, case, held, laid, part, _findings(lab, case, held, framework))


def _take_up(lab: Laboratory, case: str) -> _Held:
    """The case as it was worked out last, from the kept stages."""
    global _held
    note = lab.kept("live", f"{case}.json")
    if not note.is_file() or view_of(lab, case) is None:
        raise _again(case)
    stamp = (case, note.stat().st_mtime_ns)
    if _held is not None and _held.stamp == stamp:
        return _held
    _held = None  # its memory goes before the next is read
    told = json.loads(note.read_text(encoding="utf-8"))
    found = [unpickled(lab.kept("stages", told["stages"].get(stage, ""))) for stage in STAGES]
    if told["program"] != program_hash() or any(one is None for one in found):
        raise _again(case)
    arch, survey, framework = (one[0] for one in found if one is not None)
    _held = _Held(stamp, Workpiece(taken_up(arch, survey, framework)), arch, survey)
    _rehearse(_held.piece)
    return _held


def _rehearse(piece: Workpiece) -> None:
    """Lay some clasp a little deeper, to no end but that the machine code is at hand."""
    design = piece.kept.framework.design
    for n, one in enumerate(design.retainers):
        if one.clasp is not None:
            deeper = replace(one.clasp, undercut_mm=one.clasp.undercut_mm + 0.01)
            fresh = (*design.retainers[:n], replace(one, clasp=deeper), *design.retainers[n + 1 :])
            laid = piece.lay(replace(design, retainers=fresh))
            if laid.changed:
                piece.uncut(laid)
            return


def _laid(lab: Laboratory, case: str) -> tuple[_Held, Amended]:
    held = _take_up(lab, case)
    wanted = _wanted(lab, case, held.piece.kept.framework.design)
    if held.laid is None or held.asked != wanted:
        held.cuts = held.piece.can_amend(wanted)
        lay = held.piece.lay if held.cuts else held.piece.sketch
        held.laid, held.asked = lay(wanted), wanted
    if not held.laid.changed:
        raise InputError("nothing differs from the framework", place=case,
                         remedy="Change something first.")  # fmt: skip
    return held, held.laid


def _wanted(lab: Laboratory, case: str, design: Design) -> Design:
    """The design of the last framework with what the sheet says now."""
    said = {one.tooth: one for one in design_in_force(lab, case)[0]}
    asked = lab.sheet_of(case).wishes
    old = {one.tooth for one in design.retainers}
    bases = {base.teeth: base for base in asked.bases}
    more = (one for one in asked.retainers if one.tooth not in old and _carries(one))
    return replace(
        design,
        retainers=(*(said.get(one.tooth, one) for one in design.retainers), *more),
        connector=asked.connector or design.connector,
        bases=tuple(bases.get(base.teeth, base) for base in design.bases),
    )


def _carries(retainer: Retainer) -> bool:
    return bool(retainer.rests or retainer.proximal_plates or retainer.clasp)


def _findings(lab: Laboratory, case: str, held: _Held, framework: Framework) -> tuple[Finding, ...]:
    sheet = lab.sheet_of(case)
    facts = facts_for_rules(Work(sheet, kennedy_of(sheet)))
    finished = Finished(facts, held.arch, held.survey, framework)
    laid = (finding for finding in framework.findings if finding.rule.startswith(RULES))
    return (
        *laid,
        *(
            finding
            for rule in FINISHED_RULES
            if rule.id.startswith(RULES)
            for finding in rule.check(finished)
        ),
    )


def _shown(
    lab: Laboratory, case: str, held: _Held, laid: Amended, part: Part,
    findings: tuple[Finding, ...] | None,
) -> Shown:  # fmt: skip
    """Write the mesh where the screen finds it, and tell of it."""
    folder = lab.kept("live", case)
    with whole_folder(folder) as fresh:
        listed = write_part(fresh, part)
        write_json(fresh / VIEW_NAME, listed)
    changed = [piece.component for piece in laid.changed]
    back = held.arch.scan.scan_to_arch.inverse()
    told = None
    if findings is not None:
        told = tuple(
            {
                **{k: v for k, v in asdict(one).items() if k != "at_mm"},
                "at_arch_mm": None if one.at_mm is None else point_of(one.at_mm, 3),
                "at_scan_mm": None
                if one.at_mm is None
                else point_of(back.apply(np.array(one.at_mm))),
            }
            for one in findings
        )
    return Shown(
        listed,
        str((folder / VIEW_NAME).stat().st_mtime_ns),
        tuple(sorted({c.tooth for c in changed if c.tooth is not None})),
        tuple(
            {"id": c.id, "kind": c.kind, "tooth": c.tooth,
             "line": [point_of(at, 3) for at in c.line],
             "course": None if c.course is None else np.round(c.course, 3).tolist(),
             "figures": {k: round(float(v), 4) for k, v in sorted(c.figures.items())}}
            for c in changed
        ),
        told,
        held.cuts,
        tuple(tuple(point_of(at, 3) for at in line) for line in held.piece.borders(laid.design)),
    )  # fmt: skip


def _again(case: str) -> InputError:
    return InputError("no framework of this version is at hand", place=case,
                      remedy="Work the case out.")  # fmt: skip
