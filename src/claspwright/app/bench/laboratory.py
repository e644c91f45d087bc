"""The laboratory's folder: cases, their results, and what the bench keeps beside them.

::

    LAB/                          or LAB/cases/
      B-0142/case.toml            a case: the folder that `claspwright new` makes
    LAB/results/B-0142/           what a run leaves
    LAB/proof/B-0142/             and so for each later stage of one case: see `CaseStage`
    LAB/builds/P-0001/            a build of one or several cases
    LAB/coupon/                   the coupon for distortion asked for last
    LAB/register/                 the laboratory's register
    LAB/backups/, exports/        what was written from it; restored/: backups that were tried out
    LAB/laboratory.toml           its particulars, as the documents print them, and its prices
    LAB/.claspwright/view/        meshes made ready for the screen, by case
    LAB/.claspwright/revisions/   every state of every sheet, with author and reason
    LAB/.claspwright/jobs/        work that was asked for
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from claspwright.base import InputError
from claspwright.case import SHEET_NAME, CaseSheet, read_sheet
from claspwright.records import DATABASE

CaseStage = Literal[
    "survey", "scans", "proof", "preparation", "furnace", "inspection", "papers"
]  # scans: another scan held against the master
CASE_STAGES: tuple[CaseStage, ...] = (
    "survey", "scans", "proof", "preparation", "furnace", "inspection", "papers",
)  # fmt: skip
_BUILD = re.compile(r"P-[0-9]{4,6}")
_TAKEN = frozenset(
    ("results", "builds", "coupon", "register", "backups", "exports", "restored", *CASE_STAGES)
)
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,63}")


@dataclass(frozen=True, slots=True)
class Laboratory:
    """A laboratory's folder; nothing is read before it is asked for."""

    root: Path

    def case_folders(self) -> dict[str, Path]:
        """Folder of each case by its name, in order of the names."""
        found: dict[str, Path] = {}
        for place in (self.root, self.root / "cases"):
            if place.is_dir():
                for folder in sorted(place.iterdir()):
                    if (folder / SHEET_NAME).is_file() and good_name(folder.name):
                        found.setdefault(folder.name, folder)
        return dict(sorted(found.items()))

    def folder_of(self, name: str) -> Path:
        """Folder of a case.

        Raises:
            InputError: there is no such case.
        """
        folder = self.case_folders().get(name)
        if folder is None:
            raise InputError(
                f"there is no case {name!r}",
                place="the laboratory's folder",
                remedy="Take a name from the list of cases.",
            )
        return folder

    def sheet_of(self, name: str) -> CaseSheet:
        """The case's sheet, read and checked."""
        return read_sheet(self.folder_of(name))

    def new_folder(self, name: str) -> Path:
        """Where a new case of this name belongs.

        Raises:
            InputError: the name is taken or cannot name a folder on every system.
        """
        if not good_name(name):
            raise InputError(
                f"{name!r} cannot name a case",
                place="name of the case",
                remedy="Use up to 64 letters, digits, spaces, dots and hyphens, a letter first.",
            )
        if name in self.case_folders():
            raise InputError(
                f"there is a case {name!r} already", place="name of the case",
                remedy="Choose another name.",
            )  # fmt: skip
        return self.root / "cases" / name

    def results_of(self, name: str) -> Path:
        """Folder of a case's results; it may not exist yet."""
        return self.root / "results" / name

    def made(self, stage: CaseStage, name: str) -> Path:
        """Folder of what a later stage left of a case; it may not exist yet."""
        return self.root / stage / name

    def builds(self) -> dict[str, Path]:
        """Folder of each build by its name, the newest first."""
        place = self.root / "builds"
        found = place.iterdir() if place.is_dir() else ()
        return {f.name: f for f in sorted(found, reverse=True) if _BUILD.fullmatch(f.name)}

    def build_of(self, name: str) -> Path:
        """Folder of a build.

        Raises:
            InputError: there is no such build.
        """
        folder = self.builds().get(name)
        if folder is None:
            raise InputError(
                f"there is no build {name!r}", remedy="Take a name from the list of builds."
            )
        return folder

    def new_build(self, taken: Collection[str] = ()) -> str:
        """Name of the next build, beyond those that are there or in `taken`."""
        numbers = [int(name[2:]) for name in (*self.builds(), *taken)]
        return f"P-{max(numbers, default=0) + 1:04d}"

    @property
    def coupon(self) -> Path:
        """Folder of the coupon for distortion asked for last; it may not exist yet."""
        return self.root / "coupon"

    @property
    def register(self) -> Path:
        """Folder of the register; it may not exist yet."""
        return self.root / "register"

    @property
    def has_register(self) -> bool:
        """Whether anything was entered in the register yet."""
        return (self.register / DATABASE).is_file()

    @property
    def backups(self) -> Path:
        """Folder of the register's backups, which hold health data; it may not exist yet."""
        return self.root / "backups"

    @property
    def exports(self) -> Path:
        """Folder of its tables without health data; it may not exist yet."""
        return self.root / "exports"

    @property
    def restored(self) -> Path:
        """Folder of registers that were filled from backups; it may not exist yet."""
        return self.root / "restored"

    @property
    def particulars(self) -> Path:
        """File with the laboratory's name and address; it may not exist yet."""
        return self.root / "laboratory.toml"

    def kept(self, *parts: str) -> Path:
        """A place among what the bench keeps for itself."""
        return self.root.joinpath(".claspwright", *parts)


def good_name(name: str) -> bool:
    """Whether a name can name a case's folder on every system."""
    return bool(_NAME.fullmatch(name)) and not name.endswith((".", " ")) and name not in _TAKEN


def read_json(path: Path) -> Any:  # Any: whatever the file holds
    """What a JSON file of the laboratory holds; None where there is no such file."""
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return None
