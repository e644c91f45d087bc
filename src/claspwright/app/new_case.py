"""Make a case folder from scans and a few answers."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from claspwright.app.folder import whole_folder
from claspwright.base import InputError
from claspwright.case import SHEET_NAME, Answers, read_sheet, sheet_text


@dataclass(frozen=True, slots=True)
class NewScans:
    """The scan files, wherever they lie now."""

    master: Path
    opposing: Path | None = None
    bite: Path | None = None


def new_case(folder: Path, scans: NewScans, answers: Answers) -> Path:
    """Copy the scans into a new folder and write a sheet beside them; returns the sheet.

    Raises:
        InputError: a scan is missing, the folder is in use, or the answers make no sound sheet.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise InputError(
            "this place is in use", place=folder.as_posix(), remedy="Name a new or empty folder."
        )
    with whole_folder(folder) as fresh:
        copied = {
            name: _copied(file, name, fresh)
            for name in ("master", "opposing", "bite")
            if (file := getattr(scans, name)) is not None
        }
        sheet = fresh / SHEET_NAME
        sheet.write_bytes(sheet_text(answers, **copied).encode("utf-8"))
        read_sheet(sheet)
    return folder / SHEET_NAME


def _copied(file: Path, name: str, folder: Path) -> str:
    """Copy one scan under its own name, or under its part's name if that is taken."""
    if not file.is_file():
        raise InputError(
            "there is no such file",
            place=file.as_posix(),
            remedy=f"Name the scan file with --{name}.",
        )
    target = folder / "scans" / file.name
    if target.exists():
        target = target.with_stem(f"{name}-{file.stem}")
    target.parent.mkdir(exist_ok=True)
    shutil.copyfile(file, target)
    return target.relative_to(folder).as_posix()
