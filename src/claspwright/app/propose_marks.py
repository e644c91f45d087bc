"""Propose a mark for each tooth that the sheet has none for."""

from __future__ import annotations

from pathlib import Path

from claspwright.app.carry_out import take_in_master
from claspwright.app.to_scan import point_of
from claspwright.arch import MarkProposal, present_teeth, propose_marks
from claspwright.base import InputError, Progress, part, silent
from claspwright.case import Proposed, mark_lines, read_sheet, write_proposed


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
    scan = take_in_master(sheet, part(progress, 0.0, 0.8))
    back = scan.scan_to_arch.inverse()
    present = present_teeth(scan.jaw, sheet.prescription.missing)
    found = propose_marks(scan, present, progress=part(progress, 0.8, 1.0))
    marks = {tooth: point_of(back.apply(mark.point), 3) for tooth, mark in found.items()}
    reason = _reason(found)
    if out is not None:
        text = write_proposed(sheet, Proposed(marks=marks, mark_reason=reason))
        out.write_bytes(text.encode("utf-8"))
    return mark_lines(sheet, marks, reason)


def _reason(found: dict[int, MarkProposal]) -> str:
    unsure = [str(tooth) for tooth, mark in found.items() if mark.confidence < 0.5]
    doubt = f"; least sure of {', '.join(unsure)}" if unsure else ""
    return f"found on the scan; see that it lies on this tooth{doubt}"
