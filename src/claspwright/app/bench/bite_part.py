"""The bite record beside the arches it was taken between."""

from __future__ import annotations

from claspwright.app.carry_out import scaled
from claspwright.app.work import Work
from claspwright.arch import bite_in_place
from claspwright.formats import read_mesh
from claspwright.report import Part

RECORD = (196, 164, 132)


def bite_parts(work: Work) -> tuple[Part, ...]:
    """The bite record, hidden at first; none where none was sent or the arches do not meet."""
    scans, scan = work.sheet.scans, work.scan
    if scans.bite is None or scans.opposing is None or scan is None:
        return ()
    bite, opposing = (scaled(read_mesh(f), scans.unit) for f in (scans.bite, scans.opposing))
    laid = any(finding.rule == "bite.moved" for finding in work.findings)
    placed = bite_in_place(bite, opposing, scan, laid=laid)
    return (Part("bite", "bite record", placed, RECORD, shown=False),)
