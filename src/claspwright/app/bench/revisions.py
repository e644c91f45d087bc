"""Every state of a case sheet, with author and reason; undo and redo walk along them.

A revision is a file that is written once. `at` in `index.json` says which one stands in the
case now; what lies above it can be redone until a new change takes its place.
"""

from __future__ import annotations

import difflib
import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.whole_file import write_whole_text
from claspwright.base import InputError, StaleRecordError
from claspwright.case import SHEET_NAME, parse_sheet


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of a sheet."""

    number: int
    sha256: str
    author: str
    reason: str
    written_at: str  # ISO 8601, UTC


@dataclass(frozen=True, slots=True)
class History:
    """All revisions that can be reached, the oldest first, and the one that stands now."""

    revisions: tuple[Revision, ...]
    at: int  # number of the one in the case now

    @property
    def can_undo(self) -> bool:
        """Whether an older one lies below."""
        return bool(self.revisions) and self.revisions[0].number < self.at

    @property
    def can_redo(self) -> bool:
        """Whether a newer one lies above."""
        return bool(self.revisions) and self.revisions[-1].number > self.at


def history(lab: Laboratory, name: str) -> History:
    """The revisions of a case; a sheet changed by hand since is taken as a revision of its own."""
    sheet = lab.folder_of(name) / SHEET_NAME
    text = sheet.read_text(encoding="utf-8")
    known = _read(lab, name)
    if not known.revisions:
        return _append(lab, name, known, text, "", "as it came")
    current = next(r for r in known.revisions if r.number == known.at)
    if current.sha256 != _sha256(text):
        return _append(lab, name, known, text, "", "the file was changed outside the bench")
    return known


def change(
    lab: Laboratory, name: str, text: str, *, author: str, reason: str, onto: int | None = None
) -> History:
    """Put a new text in place of the sheet, as a revision.

    Args:
        lab: the laboratory.
        name: the case.
        text: the whole sheet; it must be sound.
        author: who changes it.
        reason: why.
        onto: number of the revision that the author saw; None: whichever stands now.

    Raises:
        InputError: the text is no sound sheet; the case keeps the old one.
        StaleRecordError: somebody changed the case in the meantime.
    """
    folder = lab.folder_of(name)
    parse_sheet(text, folder / SHEET_NAME)
    known = history(lab, name)
    if onto is not None and onto != known.at:
        raise StaleRecordError(
            f"the case stands at revision {known.at}, the change was made on {onto}",
            place=name,
            remedy="Load the case again and repeat the change.",
        )
    if _sha256(text) == next(r.sha256 for r in known.revisions if r.number == known.at):
        return known
    after = _append(lab, name, known, text, author, reason)
    write_whole_text(folder / SHEET_NAME, text)
    return after


def undo(lab: Laboratory, name: str) -> History:
    """Go back to the revision below the one that stands now."""
    return _step(lab, name, -1, "undone")


def redo(lab: Laboratory, name: str) -> History:
    """Go on to the revision above the one that stands now."""
    return _step(lab, name, 1, "redone")


def text_of(lab: Laboratory, name: str, number: int) -> str:
    """The sheet at one revision."""
    path = _folder(lab, name) / f"{number:04d}.toml"
    if not path.is_file():
        raise InputError(
            f"there is no revision {number}", place=name, remedy="Take one from the list."
        )
    return path.read_text(encoding="utf-8")


def differences(lab: Laboratory, name: str, older: int, newer: int) -> tuple[str, ...]:
    """Lines that differ between two revisions: `- ` only in the older, `+ ` only in the newer."""
    before, after = (text_of(lab, name, n).splitlines() for n in (older, newer))
    return tuple(line for line in difflib.ndiff(before, after) if line[:2] in ("- ", "+ "))


def _step(lab: Laboratory, name: str, step: int, word: str) -> History:
    known = history(lab, name)
    numbers = [r.number for r in known.revisions]
    place = numbers.index(known.at) + step
    if not 0 <= place < len(numbers):
        raise InputError(
            f"there is nothing to be {word}", place=name, remedy="Make a change first."
        )
    moved = History(known.revisions, numbers[place])
    write_whole_text(lab.folder_of(name) / SHEET_NAME, text_of(lab, name, moved.at))
    _keep(lab, name, moved)
    return moved


def _append(
    lab: Laboratory, name: str, known: History, text: str, author: str, reason: str
) -> History:
    """A new revision above the one that stands now; what could have been redone is left behind."""
    folder = _folder(lab, name)
    folder.mkdir(parents=True, exist_ok=True)
    taken = [int(file.stem) for file in folder.glob("[0-9]*.toml")]
    number = max(taken, default=0) + 1
    now = datetime.now(UTC).isoformat(timespec="seconds")
    new = Revision(number, _sha256(text), author, reason, now)
    write_whole_text(folder / f"{number:04d}.toml", text)
    after = History((*(r for r in known.revisions if r.number <= known.at), new), number)
    _keep(lab, name, after)
    return after


def _read(lab: Laboratory, name: str) -> History:
    path = _folder(lab, name) / "index.json"
    if not path.is_file():
        return History((), 0)
    stored: Mapping[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return History(tuple(Revision(**entry) for entry in stored["revisions"]), stored["at"])


def _keep(lab: Laboratory, name: str, state: History) -> None:
    stored = {"at": state.at, "revisions": [asdict(r) for r in state.revisions]}
    write_whole_text(
        _folder(lab, name) / "index.json", json.dumps(stored, indent=1, ensure_ascii=False)
    )


def _folder(lab: Laboratory, name: str) -> Path:
    return lab.kept("revisions", name)


def _sha256(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
