"""Documents of the bench: work ticket, finishing, furnace, inspection, build sheet, quantities."""

from __future__ import annotations

from collections.abc import Sequence

from claspwright.base import Finding
from claspwright.inspection import Deviation
from claspwright.process import FinishingSheet, FurnaceLog, FurnaceRun
from claspwright.report.case_record import CHECK_LAW, CaseRecord, Laboratory, PartRecord
from claspwright.report.deviation_picture import deviation_picture
from claspwright.report.furnace_plot import furnace_plot
from claspwright.report.paper import (
    Block,
    Boxes,
    Bullets,
    Drawing,
    Fields,
    Heading,
    Notice,
    Paper,
    Sign,
    Table,
    Text,
)

STAGES = (
    "scan and prescription checked, allergies asked for",
    "design approved by the prescriber (hash above)",
    "built; position on the platform entered",
    "stress relief proven, platform cold, then cut",
    "supports ground away, tissue side and rests untouched",
    "blasted, ground, polished",
    "scanned, aligned, seated on the model",
    "try-in: adjustments entered",
    "teeth set up, waxed",
    "acrylic packed and cured, trimmed, polished",
    "cleaned, checked against the prescription",
    "statement, label and leaflet enclosed",
)


def work_ticket(case: CaseRecord, lab: Laboratory) -> Paper:
    """What travels with the work."""
    blocks: list[Block] = [
        Fields((("Patient (code)", case.patient), ("Prescriber", case.prescriber),
                ("Received", case.received), ("Due", case.due),
                ("Arch", f"{case.arch}, {case.kennedy_class}"), ("Alloy", case.alloy),
                ("Revision", f"{case.revision} {case.revision_hash[:16]}"),
                ("Approved", case.approved), ("Remake of", case.parent_case or "no"))),
        Heading("Design"), Text(case.design or "see the approved revision"),
        Heading("Teeth and acrylic"),
        Fields((("Teeth", case.teeth), ("Mould", case.tooth_mould), ("Shade", case.shade),
                ("Gum shade", case.gum_shade),
                ("Altered cast", "yes: free ends" if case.altered_cast else "no"))),
        Heading("Steps"),
        Boxes(STAGES),
    ]  # fmt: skip
    open_ = [stop for stop in case.open_stops if stop.rule != "dispatch.statement"]  # made with it
    if open_:
        blocks.insert(0, Notice("Not to be dispatched yet:", " ".join(s.text for s in open_)))
    return _paper("work-ticket", "Work ticket", case, lab, blocks)


def build_sheet(lab: Laboratory, build: str, facts: Sequence[tuple[str, str]],
                parts: Sequence[PartRecord], date: str) -> Paper:  # fmt: skip
    """One build: machine, powder, what lies where."""
    rows = tuple((p.id, p.position, p.mass_g, ", ".join(p.lots)) for p in parts)
    blocks: list[Block] = [
        Fields(tuple(facts)),
        Heading("On the platform"),
        Table(("Part", "Place", "Mass, g", "Lots"), rows),
        Notice("Powder, gas, laser.", "Cobalt-chromium powder is a sensitiser and may cause "
                 "cancer; its dust burns. Extraction, breathing protection, no ignition source; "
                 "argon suffocates. The machine maker's instructions come first."),
        Boxes(("sieved before loading", "oxygen below the machine's limit", "weights entered")),
        Sign(("Built by, date", "Unpacked by, date")),
    ]  # fmt: skip
    return Paper("build-sheet", "Build sheet", build, lab.name, date, tuple(blocks), CHECK_LAW)


def furnace_certificate(
    lab: Laboratory, run_id: str, builds: Sequence[str], log: FurnaceLog, run: FurnaceRun,
    *, instrument: str, date: str,
) -> Paper:  # fmt: skip
    """That a furnace followed its schedule, or did not, with the plot."""
    wanted = run.schedule
    purge = "not logged" if run.purge_min is None else f"{run.purge_min:.0f} min"
    mean = "" if run.soak_mean_c is None else f", mean {run.soak_mean_c:.0f} °C"
    blocks: list[Block] = [
        Fields((("Run", run_id), ("Builds", ", ".join(builds)), ("Schedule", wanted.title),
                ("Thermocouple", instrument),
                ("Result", "PASSED" if run.passed else "FAILED: the frameworks must not go on"))),
        Table(("What", "Read", "Wanted"), (
            ("Purge with " + wanted.gas, purge, f"{wanted.purge_min:.0f} min or more"),
            ("Fastest rise", f"{run.ramp_c_per_h:.0f} K/h", f"{wanted.ramp_c_per_h:.0f} K/h"),
            ("Soak", f"{run.soak_min:.0f} min{mean}",
             f"{wanted.soak_min:.0f} min at {wanted.soak_c:.0f} ± {wanted.tolerance_c:.0f} °C"),
            ("Hottest", f"{run.highest_c:.0f} °C",
             f"{wanted.soak_c + wanted.tolerance_c:.0f} °C at most"),
            ("Fastest fall", f"{run.cooling_c_per_h:.0f} K/h",
             f"{wanted.cooling_c_per_h:.0f} K/h down to {wanted.slow_to_c:.0f} °C"),
            ("Unloaded at", f"{run.last_c:.0f} °C", f"{wanted.unload_c:.0f} °C or less"),
        )),
        Drawing(furnace_plot(log, run), "Temperature of the platform over the run, with the band "
                "of the soak and the gas.", "The platform's own thermocouple is the proof."),
        *_found(run.findings),
        Text(f"Source of the schedule: {wanted.source}. The alloy maker's instructions come "
             "first. Braces are cut only after relief."),
        Sign(("Read by, date", "Released by, date")),
    ]  # fmt: skip
    return Paper("furnace-certificate", "Furnace certificate", run_id, lab.name, date,
                 tuple(blocks), CHECK_LAW)  # fmt: skip


def inspection_report(
    case: CaseRecord, lab: Laboratory, part: PartRecord, facts: Sequence[tuple[str, str, str]],
    findings: Sequence[Finding], found: Deviation | None = None,
) -> Paper:  # fmt: skip
    """A finished framework against its design: figures with limits, findings, a picture."""
    blocks: list[Block] = [
        Fields((("Part", part.id), ("Build", part.build), ("Place", part.position),
                ("Result", "PASSED" if not _stops(findings) else "FAILED"))),
        Heading("Deviation and seating"),
        Table(("What", "Found", "Limit"), tuple(facts)),
        Text("Positive: the metal lies outside the design. Trueness is the mean deviation, "
             "precision its standard deviation (ISO 5725-1). Surface and gap are separate gates."),
        *_found(findings),
    ]  # fmt: skip
    if found is not None:
        blocks.append(
            Drawing(deviation_picture(found), "Signed deviation on the scanned framework, from "
                    "occlusal and from the tissue side, with contour lines.",
                    "Deviation from the design, um: blue where metal is missing, orange where "
                    "there is too much. Left: occlusal. Right: tissue side.")
        )  # fmt: skip
    blocks.append(Sign(("Measured by, date", "Released by, date")))
    return _paper(f"inspection-{part.id}", "Inspection report", case, lab, blocks)


def finishing_paper(
    case: CaseRecord, lab: Laboratory, part: PartRecord, sheet: FinishingSheet
) -> Paper:
    """What to take away and what to leave alone."""
    places = tuple((str(n + 1), f"{x:.1f}", f"{y:.1f}", f"{z:.1f}")
                   for n, (x, y, z) in enumerate(sheet.contacts))  # fmt: skip
    blocks: list[Block] = [
        Fields((("Part", part.id), ("Steps", ", ".join(sheet.steps)),
                ("Masked in the bath", ", ".join(sheet.masked) or "nothing"))),
        Notice("Not to be touched:", ", ".join(sheet.untouched)
                 or "tissue side, undersides of rests, inner sides of clasp arms."),
        Heading("Metal taken off, by surface"),
        Table(("Surface", "Allowance, um"),
              tuple((name, f"{um:.0f}") for name, um in sheet.allowance_um)),
        *_found(sheet.findings),
        *((Heading("Support contacts to grind away"),
           Table(("No.", "x, mm", "y, mm", "z, mm"), places),
           Text("Places in the frame of the framework's own file.")) if places else ()),
        Notice("Dust, acid, eyes.", "Grinding dust of cobalt-chromium: extraction and breathing "
                 "protection. The bath is corrosive: gloves, goggles, no mixing."),
        Sign(("Finished by, date",)),
    ]  # fmt: skip
    return _paper(f"finishing-{part.id}", "Finishing sheet", case, lab, blocks)


def invoice_quantities(case: CaseRecord, lab: Laboratory) -> Paper:
    """Quantities that an invoice is made from; it is none itself."""
    rows = [("Removable partial denture framework", str(len(case.parts)), "piece")]
    rows += [(f"Alloy of {part.id}", part.mass_g or "not weighed", "g") for part in case.parts]
    count = len(case.teeth.split(",")) if case.teeth else 0
    rows += [("Artificial teeth", str(count), "piece")] if count else []
    rows += [("Altered cast", "1", "piece")] if case.altered_cast else []
    blocks: list[Block] = [
        Table(("What", "Quantity", "Unit"), tuple(rows)),
        Fields((("Agreed price", case.price), ("Remake of", case.parent_case or "no"))),
        Text("Quantities for an invoice; taxes and terms are the laboratory's own."),
    ]
    return _paper("quantities", "Quantities for the invoice", case, lab, blocks)


def _found(findings: Sequence[Finding]) -> tuple[Block, ...]:
    if not findings:
        return ()
    return (
        Heading("Findings"),
        Bullets(tuple(f"{f.severity}: {f.text} (source: {f.source})" for f in findings)),
    )


def _stops(findings: Sequence[Finding]) -> bool:
    return any(finding.severity == "stop" for finding in findings)


def _paper(key: str, title: str, case: CaseRecord, lab: Laboratory, blocks: list[Block]) -> Paper:
    return Paper(key, title, f"Case {case.id}", lab.name, case.date, tuple(blocks), CHECK_LAW)
