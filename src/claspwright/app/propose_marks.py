"""Propose a mark for each tooth that the sheet has none for."""

from __future__ import annotations

from pathlib import Path

from claspwright.app.carry_out import marks_of, present_of, take_in_master
from claspwright.app.to_scan import point_of
from claspwright.base import InputError, Progress, part, silent
from claspwright.case import Proposed, mark_lines, read_sheet, write_proposed

REASON = "found on the scan; see that it lies on this tooth"


def marked_sheet(case: Path, out: Path | None, *, progress: Progress = silent) -> str:
    """The lines of the proposed marks, for the end of the sheet.

    Args:
        case: a case folder or its sheet; never changed.
        out: where to write the whole sheet with the marks; None: nowhere.
        progress: told of the intake.

    Raises:
        InputError: the sheet or the scan cannot be used, or `out` is the sheet itself.
    """
    sheet = read_sheet(case)
    if out is not None and out.resolve() == sheet.path.resolve():
        raise InputError(
            "the sheet itself is never changed",
            place=out.as_posix(),
            remedy="Give another file, look at it, then put it in place of the sheet.",
        )
    scan = take_in_master(sheet, part(progress, 0.0, 0.9))
    back = scan.scan_to_arch.inverse()
    found = marks_of(sheet, scan, present_of(sheet))
    marks = {tooth: point_of(back.apply(at), 3) for tooth, at in sorted(found.items())}
    progress(1.0, "marks")
    if out is not None:
        text = write_proposed(sheet, Proposed(marks=marks, mark_reason=REASON))
        out.write_bytes(text.encode("utf-8"))
    return mark_lines(sheet, marks, REASON)
