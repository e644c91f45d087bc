"""The main job: a case folder in, a result folder out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from claspwright.app.carry_out import carry_out
from claspwright.app.folder import check_target, whole_folder
from claspwright.app.hashes import input_hashes
from claspwright.app.memory import Memory
from claspwright.app.results import (
    facts_of,
    hashes_in,
    summary_of,
    write_documents,
    write_findings,
    write_geometry,
    write_json,
    write_proposed_sheet,
)
from claspwright.app.to_scan import findings_in_scan
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import Finding, Progress, part, silent
from claspwright.case import read_sheet
from claspwright.report import ReportContent


@dataclass(frozen=True, slots=True)
class RunResult:
    """Where the results lie and what was found; places of findings in the scan frame."""

    folder: Path
    findings: tuple[Finding, ...]
    made: bool  # a framework lies there

    @property
    def stopped(self) -> bool:
        """Whether any finding says that the case must not go on."""
        return any(finding.severity == "stop" for finding in self.findings)


Also = Callable[[Work, ReportContent], None]


def run_case(
    case: Path,
    out: Path,
    *,
    date: str = "",
    memory: Memory | None = None,
    also: Also | None = None,
    progress: Progress = silent,
) -> RunResult:
    """Work a case out and write its results.

    The case folder is never changed. The result folder appears whole or not at all; an earlier
    result there is replaced. The same input gives the same bytes, `timings.json` apart.

    Args:
        case: a folder with `case.toml`, or that file.
        out: folder for the results.
        date: date of the work as it shall print; no clock is asked.
        memory: asked for what was worked out before.
        also: called with the work and its report before the folder appears.
        progress: told of each stage.

    Raises:
        InputError: the sheet, a scan or the place for the results cannot be used.
        Cancelled: `progress` stopped the work; nothing is left behind.
    """
    sheet = read_sheet(case)
    check_target(out, sheet.path.parent)
    watch = Watch()
    hashes = input_hashes(sheet)
    work = carry_out(sheet, watch, part(progress, 0.0, 0.75), memory=memory)
    findings = findings_in_scan(work.findings, work.scan.scan_to_arch if work.scan else None)
    with whole_folder(out) as folder:
        with watch.stage("files"):
            write_geometry(folder, work)
            write_proposed_sheet(folder, work)
            write_findings(folder, findings)
        with watch.stage("report"):
            facts = facts_of(work, date, hashes, hashes_in(folder))
            told = part(progress, 0.75, 1.0)
            content = write_documents(folder, work, facts, work.findings, told)
        if also is not None:
            also(work, content)
        write_json(folder / "summary.json", summary_of(work, date, hashes, folder))
        write_json(folder / "timings.json", watch.report())
    return RunResult(out, tuple(findings), made=work.framework is not None)
