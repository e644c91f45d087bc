"""The register as a whole at the bench: how it stands, questions to it, signatures, health data."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import claspwright.records as records
from claspwright.app.bench.laboratory import Laboratory, read_json
from claspwright.app.bench.register_desk import opened
from claspwright.app.bench.register_jobs import CHECKED
from claspwright.app.register_papers import recall_page
from claspwright.base import InputError
from claspwright.records import KINDS, Recalled, Signed


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file that was written from the register."""

    file: str
    size_bytes: int
    head: str  # number and hash of its last entry; empty where it holds none
    restored: bool  # it was tried out


@dataclass(frozen=True, slots=True)
class RegisterStanding:
    """How the register stands."""

    there: bool
    up_to_date: bool
    entries: int
    head: str  # number and hash of the last entry, to note elsewhere
    counts: dict[str, int]  # things of each kind that stand in it
    checked: dict[str, Any] | None  # the last verdict; Any: a tree for JSON
    backups: tuple[KeptFile, ...]
    exports: tuple[KeptFile, ...]


def standing(lab: Laboratory) -> RegisterStanding:
    """How the register stands and what was written from it, the newest first."""
    written = (_files(lab, lab.backups), _files(lab, lab.exports))
    checked = read_json(lab.kept(*CHECKED))
    if not lab.has_register:
        return RegisterStanding(False, False, 0, "", {}, checked, *written)
    try:
        with opened(lab) as register:
            seq, digest = register.head()
            counts = {kind: len(register.all_of(kind)) for kind in KINDS}
    except InputError:
        return RegisterStanding(True, False, 0, "", {}, checked, *written)
    held = {kind: count for kind, count in counts.items() if count}
    return RegisterStanding(True, True, seq, f"{seq}:{digest}", held, checked, *written)


def make(lab: Laboratory) -> None:
    """Make a register, or bring an existing one up to this version; all data stay."""
    records.init_register(str(lab.register)).close()


def head_of(words: str) -> tuple[int, str] | None:
    """Number and hash as `verify` takes them; None where nothing was given.

    Raises:
        InputError: it is none.
    """
    number, _, digest = words.strip().partition(":")
    if not words.strip():
        return None
    if not (number.isascii() and number.isdigit() and len(number) < 16 and len(digest) == 64):
        raise InputError("not NUMBER:HASH", place="head", remedy="Copy it as it was noted.")
    return int(number), digest


def file_name(at: str) -> str:
    """Name of a file that is written at a time."""
    return f"register-{at.replace(':', '').replace('-', '')}.zip"


def kept_backup(lab: Laboratory, file: str) -> str:
    """The name of a backup that is there.

    Raises:
        InputError: there is no such backup.
    """
    if file not in {one.file for one in _files(lab, lab.backups)}:
        raise InputError(f"there is no backup {file!r}", remedy="Take one from the list.")
    return file


def shown(lab: Laboratory, subject: str) -> list[dict[str, Any]]:  # Any: trees for JSON
    """Every entry on one thing, or everything of a kind as it stands now."""
    kind, _, id_ = subject.partition(":")
    with opened(lab) as register:
        if id_:
            return [{**asdict(one), "body": json.loads(one.body)}
                    for one in register.history(kind, id_)]  # fmt: skip
        return [{"id": name, "body": body} for name, body in register.all_of(kind)]


def traced(lab: Laboratory, subject: str) -> dict[str, list[str]]:
    """Ids of everything that a thing came from, by kind."""
    with opened(lab) as register:
        found = records.trace(register, subject).found
    return {kind: list(ids) for kind, ids in found.items()}


def recalled(lab: Laboratory, subject: str) -> list[Recalled]:
    """Every framework that holds powder of a lot, or came from a batch or build."""
    with opened(lab) as register:
        return records.recall(register, subject)


def recall_paper(lab: Laboratory, subject: str, on: str) -> bytes:
    """The recall list as PDF/A."""
    there = lab.particulars if lab.particulars.is_file() else None
    return recall_page(subject, recalled(lab, subject), there, date=on)


def sign(lab: Laboratory, subject: str, meaning: str, role: str, signed: Signed) -> int:
    """Put a name under a thing as it stands now."""
    with opened(lab) as register:
        return records.sign(register, subject, meaning, signed, role=role)


def person(lab: Laboratory, pseudonym: str) -> dict[str, Any] | None:  # Any: a tree for JSON
    """Health data that are kept of a patient."""
    with opened(lab) as register:
        return register.person(pseudonym)


def keep_person(lab: Laboratory, pseudonym: str, fields: Mapping[str, Any]) -> None:
    """Keep health data of a patient apart from the entries."""
    with opened(lab) as register:
        register.set_person(pseudonym, fields)


def erase_person(lab: Laboratory, pseudonym: str, reason: str, signed: Signed) -> int:
    """Erase them; the entries stay whole. Returns the number of the entry that says so."""
    with opened(lab) as register:
        return register.erase_person(pseudonym, signed, reason=reason)


def _files(lab: Laboratory, folder: Path) -> tuple[KeptFile, ...]:
    found = sorted(folder.glob("register-*.zip"), reverse=True) if folder.is_dir() else []
    return tuple(
        KeptFile(f.name, f.stat().st_size, _head(f), (lab.restored / f.stem).is_dir())
        for f in found if not f.is_symlink()
    )  # fmt: skip


def _head(file: Path) -> str:
    try:
        with zipfile.ZipFile(file) as archive:
            manifest = json.loads(archive.read("manifest.json"))
        return f"{int(manifest['seq'])}:{manifest['hash']}"
    except (zipfile.BadZipFile, KeyError, ValueError, TypeError, OSError):
        return ""
