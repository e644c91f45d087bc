"""How the later stages of a case stand: what lies there, whether it is stale, what it says."""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from typing import IO, Any

from claspwright.app.bench.laboratory import CaseStage, Laboratory, read_json
from claspwright.app.bench.view_files import VIEW_NAME, stamp_of
from claspwright.app.hashes import input_hashes, known_sha256
from claspwright.base import InputError

ANSWERS: dict[CaseStage, tuple[str, ...]] = {
    "survey": (),
    "scans": ("scans.json",),
    "proof": ("check.json",),
    "preparation": ("preparation.json",),
    "furnace": ("run.json",),
    "inspection": ("fit.json", "seat.json"),
    "papers": (),
}


@dataclass(frozen=True, slots=True)
class StageState:
    """One later stage of a case."""

    stage: CaseStage
    done: bool
    stale: bool  # the sheet or a scan has changed since; False where nothing tells
    files: tuple[str, ...]
    answers: dict[str, Any]  # Any: trees for JSON, by the name of the file
    view_stamp: str  # changes with the view; empty where there is none


@dataclass(frozen=True, slots=True)
class BuildState:
    """One build."""

    name: str
    cases: tuple[str, ...]
    stale: tuple[str, ...]  # cases that have changed since
    told: dict[str, Any]  # build.json; Any: a tree for JSON
    files: dict[str, tuple[str, ...]]  # by the folder of the platform
    view_stamp: str


def stage_state(lab: Laboratory, name: str, stage: CaseStage) -> StageState:
    """How one later stage of a case stands."""
    folder = lab.made(stage, name)
    files = tuple(sorted(f.name for f in folder.glob("*") if f.is_file()))
    view = read_json(lab.kept(stage, name, VIEW_NAME))
    answers = {
        file.removesuffix(".json"): read_json(folder / file)
        for file in ANSWERS[stage]
        if file in files
    }
    stale = view is not None and view["inputs"] != _inputs(lab, name)
    return StageState(stage, bool(files), stale, files, answers, stamp_of(lab.kept(stage, name)))


def build_states(lab: Laboratory, case: str | None = None) -> tuple[BuildState, ...]:
    """All builds, or those that hold a case, the newest first."""
    out = []
    for name, folder in lab.builds().items():
        view = read_json(lab.kept("builds", name, VIEW_NAME))
        told = read_json(folder / "build.json")
        if told is None or (case is not None and case not in (view or {}).get("cases", ())):
            continue
        inputs = (view or {}).get("inputs", {})
        stale = tuple(c for c, hashes in inputs.items() if hashes != _inputs(lab, c))
        files = {
            place.name: tuple(sorted(f.name for f in place.iterdir() if f.is_file()))
            for place in sorted(folder.iterdir())
            if place.is_dir()
        }
        cases = tuple((view or {}).get("cases", ()))
        short = {key: told[key] for key in ("platforms", "findings", "machine", "process")}
        out.append(BuildState(name, cases, stale, short, files, stamp_of(lab.kept("builds", name))))
    return tuple(out)


def keep_upload(lab: Laboratory, sent: IO[bytes], ending: str, most_bytes: int) -> str:
    """Keep a file that was sent, under the hash of what it holds; returns that name.

    Raises:
        InputError: it is empty or too large.
    """
    folder = lab.kept("uploads")
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    total, size = hashlib.sha256(), 0
    fresh = folder / f".{os.getpid()}-{id(sent)}"
    try:
        with fresh.open("wb") as file:
            while piece := sent.read(1 << 20):
                size += len(piece)
                if size > most_bytes:
                    raise InputError(
                        f"the file is larger than {most_bytes} bytes", remedy="Send a smaller one."
                    )
                total.update(piece)
                file.write(piece)
        if not size:
            raise InputError("the file is empty", remedy="Send it again.")
        name = f"{total.hexdigest()[:32]}{ending}"
        fresh.replace(folder / name)
    finally:
        fresh.unlink(missing_ok=True)
    return name


def _inputs(lab: Laboratory, name: str) -> dict[str, str] | None:
    """Hashes of a case's inputs as they are now; None where it cannot be read."""
    try:
        return input_hashes(lab.sheet_of(name), hash_of=known_sha256)
    except InputError:
        return None
