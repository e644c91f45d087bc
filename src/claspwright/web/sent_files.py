"""Files that lie in a folder, and files that are sent: names that cannot lead elsewhere."""

from __future__ import annotations

import mimetypes
from collections.abc import Collection
from pathlib import Path, PurePath

from fastapi import UploadFile
from fastapi.responses import FileResponse

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.stages import keep_upload
from claspwright.base import InputError

SCANS = (".stl", ".ply", ".obj", ".3mf", ".dcm")
LOGS = (".csv", ".txt")
MOST_SCAN_BYTES = 300_000_000
MOST_LOG_BYTES = 20_000_000


class _LargePieces(FileResponse):
    """Sent in few pieces: each passes through every layer of the server."""

    chunk_size = 8_000_000


def file_in(folder: Path, name: str) -> FileResponse:
    """A file that lies in the folder itself; no other name is followed."""
    known = {entry.name for entry in folder.iterdir()} if folder.is_dir() else set()
    if name not in known or not (folder / name).is_file() or (folder / name).is_symlink():
        raise InputError(f"there is no file {name!r} here", remedy="Work the case out first.")
    kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
    return _LargePieces(folder / name, media_type=kind)


def kept(
    lab: Laboratory, sent: UploadFile, place: str, endings: Collection[str], most_bytes: int
) -> dict[str, str]:
    """Keep what was sent for a job: its name here and as it was called there."""
    called = PurePath((sent.filename or "").replace("\\", "/")).name[:100]
    ending = PurePath(called).suffix.lower()
    if ending not in endings:
        raise InputError(
            f"the file cannot end in {ending or 'nothing'!r}", place=place,
            remedy=f"Send one of {', '.join(endings)}.",
        )  # fmt: skip
    return {"upload": keep_upload(lab, sent.file, ending, most_bytes), "called": called}
