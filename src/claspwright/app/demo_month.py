"""The month of an invented laboratory put through a register: a demo and a load test."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from time import perf_counter
from typing import Any

from claspwright.app.case_papers import write_case_papers
from claspwright.app.dispatch import dispatch, open_stops
from claspwright.app.month import Month, Rates, month_of
from claspwright.base import Progress, silent
from claspwright.demo import invented_month
from claspwright.records import Proposed, Register, Signed, init_register, verify
from claspwright.report import Laboratory

LAB = Laboratory(
    name="Invented Dental Laboratory",
    address="1 Nowhere Lane, 00000 Anytown",
    sites=("2 Nowhere Lane, 00000 Anytown",),
    responsible="A. Technician",
    country="Nowhere",
)
STATEMENT = "Statement for a custom-made device"


def demo_month(
    out: Path, cases: int, *, seed: int = 1, where: str = "", progress: Progress = silent
) -> tuple[Month, dict[str, Any]]:  # Any: numbers of the run
    """Fill a register with an invented month and send what is ready.

    Args:
        out: folder for the register (where none is named) and one case's documents.
        cases: number of cases.
        seed: the same seed gives the same month.
        where: database URL, else a folder under `out`.
        progress: told of each build.

    Returns:
        The month's figures, and how long the writing took.
    """
    out.mkdir(parents=True, exist_ok=True)
    begun = perf_counter()
    place = where or str(out / "register")
    with init_register(place, files=str(out / "files") if where else "") as register:
        entries = _fill(register, cases, seed, progress)
        sent = _send(register, seed, progress)
        seconds = perf_counter() - begun
        shown = next((id_ for id_, _ in register.all_of("dispatch")), "")
        if shown:
            signed = Signed("A. Technician", "2026-12-31")
            write_case_papers(register, shown, LAB, out / f"documents-{shown}", signed)
        verdict = verify(register)
        figures = month_of(register, "2026-11-01", "2026-12-31", Rates())
    return figures, {
        "entries": entries, "sent": sent, "seconds": round(seconds, 2), "whole": verdict.whole,
        "documents_of": shown,
    }  # fmt: skip


def _fill(register: Register, cases: int, seed: int, progress: Progress) -> int:
    count = 0
    for bundle in invented_month(cases, seed=seed, start=date(2026, 11, 2)):
        for on in sorted({row.on for row in bundle}):
            rows = [row for row in bundle if row.on == on]
            proposed = []
            for row in rows:
                now = register.current(row.kind, row.id) if row.supersedes else None
                proposed.append(
                    Proposed(row.kind, row.id, row.body, None if now is None else now[0])
                )
            register.enter(proposed, Signed("A. Technician", on))
            count += len(rows)
        progress(min(0.8, count / (8.0 * cases + 40)), "entering the month")
    return count


def _send(register: Register, seed: int, progress: Progress) -> int:
    """Make the statement of every case that lacks nothing else, and send it."""
    sent = 0
    cases = [id_ for id_, _ in register.all_of("case")]
    tried = {body["case"]: body for _, body in register.all_of("part")}
    for n, case in enumerate(cases):
        started = register.current("build", tried[case]["build"]) if case in tried else None
        on = _later(started[1]["started"], 8 + (n * 7 + seed) % 5) if started else "2026-12-01"
        signed = Signed("A. Technician", on)
        body = {"case": case, "title": STATEMENT, "file": ""}
        register.add("document", f"{case}/statement", body, signed)
        if not open_stops(register, case, on=on):
            dispatch(register, case, signed)
            fits = {"case": case, "delivered": _later(on, 2), "fits": True, "minutes": 10.0}
            register.add("delivery", f"{case}/1", fits, Signed(signed.by, _later(on, 2)))
            sent += 1
        progress(0.8 + 0.2 * n / len(cases), "sending")
    return sent


def _later(day: str, days: int) -> str:
    return str(date.fromordinal(date.fromisoformat(day[:10]).toordinal() + days))
