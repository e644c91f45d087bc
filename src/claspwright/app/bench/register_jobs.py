"""Jobs on the register as a whole: check, backup, export, trying a backup out; a certificate read.

They belong to no case. Each leaves what the command line leaves, in a folder of the laboratory.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import claspwright.records as records
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.powder_desk import READ, certificate_told
from claspwright.app.folder import whole_folder
from claspwright.app.judge_certificate import read_certificate
from claspwright.app.results import write_json
from claspwright.app.whole_file import write_whole
from claspwright.base import InputError, Progress

Wish = Mapping[str, Any]  # Any: a JSON object
CHECKED = ("register", "check.json")  # the last verdict, among what the bench keeps


def check(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Check the whole register; `head`: number and hash as noted elsewhere, or null; `on`."""
    head = wish.get("head")
    known = None if head is None else (int(head[0]), str(head[1]))
    with records.open_register(str(lab.register), files="") as register:
        verdict = records.verify(register, known_head=known, progress=progress)
    answer = {
        "entries": verdict.entries, "head": verdict.head, "faults": list(verdict.faults),
        "on": wish["on"], "against": "" if known is None else f"{known[0]}:{known[1]}",
    }  # fmt: skip
    place = lab.kept(*CHECKED)
    place.parent.mkdir(parents=True, exist_ok=True)
    write_whole(place, lambda path: write_json(path, answer))


def backup(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Write the whole register, health data too, to one file; `file`: its name."""
    with records.open_register(str(lab.register), files="") as register:
        place = _private(lab.backups) / str(wish["file"])
        write_whole(place, lambda path: records.backup(register, path, progress=progress))
    place.chmod(0o600)


def export(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Write what stands in the register as tables, without health data; `file`: its name."""
    with records.open_register(str(lab.register), files="") as register:
        place = _private(lab.exports) / str(wish["file"])
        write_whole(place, lambda path: records.export(register, path))
    progress(1.0, "written")


def restore(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Fill a new register from a backup and check it; `file`. The open register is left alone."""
    source = lab.backups / str(wish["file"])
    target = lab.restored / source.stem
    if target.exists():
        raise InputError("this backup was restored already", place=target.name)
    _private(lab.restored)
    with whole_folder(target) as folder, records.init_register(str(folder)) as register:
        records.restore(source, register, progress=progress)


def certificate(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """Read a certificate that was sent; `upload`, `called`."""
    read = read_certificate(lab.kept("uploads", str(wish["upload"])))
    place = lab.kept(READ, f"{wish['upload']}.json")
    place.parent.mkdir(parents=True, exist_ok=True)
    told = {"called": wish["called"], **certificate_told(read)}
    write_whole(place, lambda path: write_json(path, told))
    progress(1.0, "read")


def _private(folder: Path) -> Path:
    """A folder for its owner alone; made where there is none."""
    folder.mkdir(parents=True, exist_ok=True)
    if os.name == "posix":
        folder.chmod(0o700)
    return folder
