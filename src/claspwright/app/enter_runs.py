"""What a furnace, a scan, a certificate or a packing showed, entered in the register."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from claspwright.app.calibration import instrument_fields
from claspwright.app.fit_scan import Fit
from claspwright.app.seat_scan import Seated
from claspwright.base import Finding, InputError
from claspwright.process import AcrylicAmount, FurnaceLog, FurnaceRun, linear_shrinkage
from claspwright.records import Proposed, Register, Signed, made_from


@dataclass(frozen=True, slots=True)
class FurnaceEntry:
    """Which run it was."""

    id: str
    builds: tuple[str, ...]
    instrument: str = ""  # the thermocouple


def enter_furnace_run(
    register: Register, asked: FurnaceEntry, file: Path, log: FurnaceLog, run: FurnaceRun,
    signed: Signed,
) -> tuple[int, ...]:  # fmt: skip
    """Enter a run with its log; one that failed is a stop on every framework of its builds.

    Returns:
        The numbers of the entries: the run, then a non-conformity for each framework it spoilt.
    """
    if not asked.builds:
        raise InputError("a furnace run needs its builds", remedy="Name each with --build.")
    body: dict[str, Any] = {
        "builds": list(asked.builds),
        "schedule": run.schedule.name,
        "passed": run.passed,
        "log": register.keep_file(file.name, file.read_bytes()),
        "gas": run.schedule.gas,
        "hours": round(float(log.time_s[-1] - log.time_s[0]) / 3600.0, 2),
        "soak_min": round(run.soak_min, 1),
        "highest_c": round(run.highest_c, 1),
        "cooling_c_per_h": round(run.cooling_c_per_h, 1),
        "findings": worded(run.findings),
        **instrument_fields(register, asked.instrument, signed.at),
    }
    rows = [Proposed("furnace_run", asked.id, body)]
    if not run.passed:
        cause = "stress relief failed: " + " ".join(
            one.text for one in run.findings if one.severity == "stop"
        )
        for build in asked.builds:
            for part, _ in made_from(register, f"build:{build}", "part"):
                about = {"about": f"part:{part}", "cause": cause, "open": True}
                rows.append(Proposed("nonconformity", f"{asked.id}/{part}", about))
    return tuple(register.enter(rows, signed))


@dataclass(frozen=True, slots=True)
class Inspected:
    """What was inspected with what; files as they were read."""

    part: str
    instrument: str
    design: Path
    scan: Path
    file: Path | None = None  # of deviations


def enter_fit(register: Register, asked: Inspected, fit: Fit, signed: Signed) -> int:
    """Enter how the surface of a framework lies on its design; returns the entry's number."""
    figures = fit.figures
    regions = {
        one.name: {"bias_um": round(one.figures.bias_um, 2), "sd_um": round(one.figures.sd_um, 2),
                   "p95_um": round(one.figures.p95_um, 2), "count": one.figures.count}
        for one in fit.regions if one.figures is not None
    }  # fmt: skip
    body = {
        "bias_um": round(figures.bias_um, 2),
        "sd_um": round(figures.sd_um, 2),
        "rms_um": round(figures.rms_um, 2),
        "p95_um": round(figures.p95_um, 2),
        "overlap_share": round(fit.alignment.overlap, 4),
        "scan_to_design": fit.alignment.rigid.matrix().tolist(),
        **({"regions": regions} if regions else {}),
    }
    return _enter(register, asked, "surface", body, fit.findings, signed)


def enter_seating(register: Register, asked: Inspected, seated: Seated, signed: Signed) -> int:
    """Enter how a framework seats on its model; returns the entry's number."""
    gaps = {gap.area.name: round(1000.0 * gap.mean_mm, 1) for gap in seated.rests}
    play = max((1000.0 * press.play_mm for press in seated.presses), default=0.0)
    body: dict[str, Any] = {"rocking_um": round(play, 1), "rests": gaps}
    if gaps:
        body["rest_gap_um"] = round(sum(gaps.values()) / len(gaps), 1)
    return _enter(register, asked, "seating", body, seated.findings, signed)


def _enter(
    register: Register, asked: Inspected, what: str, body: Mapping[str, Any],
    findings: Sequence[Finding], signed: Signed,
) -> int:  # fmt: skip
    """Enter one inspection; earlier ones of the same part stay beside it, for comparison."""
    earlier = made_from(register, f"part:{asked.part}", "inspection")
    number = 1 + sum(1 for _, before in earlier if before.get("what") == what)
    kept = {
        name: register.keep_file(file.name, file.read_bytes())
        for name, file in (("design", asked.design), ("scan", asked.scan), ("file", asked.file))
        if file is not None
    }
    whole = {
        "part": asked.part,
        "what": what,
        "passed": not any(one.severity == "stop" for one in findings),
        "findings": worded(findings),
        **body,
        **kept,
        **instrument_fields(register, asked.instrument, signed.at),
    }
    return register.add("inspection", f"{asked.part}/{what}/{number}", whole, signed)


def enter_certificate(
    register: Register, lot: str, file: Path, percent: Mapping[str, float],
    findings: Sequence[Finding], signed: Signed,
) -> int:  # fmt: skip
    """Enter the certificate of a lot that is in the register; returns the entry's number.

    Raises:
        InputError: the lot is not in the register.
    """
    now = register.current("lot", lot)
    if now is None:
        raise InputError(
            "the lot is not in the register", place=lot,
            remedy="Enter it first with `claspwright register add lot`.",
        )  # fmt: skip
    body = {
        **now[1],
        "certificate": dict(percent),
        "certificate_file": register.keep_file(file.name, file.read_bytes()),
        "certificate_passed": not any(one.severity == "stop" for one in findings),
        "findings": worded(findings),
    }
    return register.add("lot", lot, body, signed, supersedes=now[0])


@dataclass(frozen=True, slots=True)
class Packed:
    """Which acrylic went into a case and how it was cured."""

    case: str
    powder_lot: str
    liquid_lot: str
    cycle: str = ""
    tooth_lot: str = ""


def enter_acrylic(
    register: Register, packed: Packed, base_cm3: float, amount: AcrylicAmount, signed: Signed
) -> int:
    """Enter a packing; returns the entry's number."""
    number = 1 + len(made_from(register, f"case:{packed.case}", "acrylic"))
    body: dict[str, Any] = {
        "case": packed.case,
        "powder_lot": packed.powder_lot,
        "liquid_lot": packed.liquid_lot,
        "base_cm3": base_cm3,
        "powder_g": round(amount.powder_g, 1),
        "liquid_ml": round(amount.liquid_ml, 1),
        "shrinkage_percent": round(100.0 * linear_shrinkage(), 2),
    }
    body |= {k: v for k, v in (("cycle", packed.cycle), ("tooth_lot", packed.tooth_lot)) if v}
    return register.add("acrylic", f"{packed.case}/{number}", body, signed)


def worded(findings: Sequence[Finding]) -> list[str]:
    """Findings as an entry keeps them."""
    return [f"{one.severity} {one.rule}: {one.text}" for one in findings]
