"""Documents that rest on files in the register's store, and those of a build or a lot."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.laboratory_file import read_laboratory
from claspwright.formats import read_furnace_log, read_mesh
from claspwright.geometry import DistanceTree, Mesh, Rigid
from claspwright.inspection import Deviation, deviation
from claspwright.process import judge_run, schedule
from claspwright.records import Recalled, Register
from claspwright.report import (
    Laboratory,
    Paper,
    PartRecord,
    build_sheet,
    furnace_certificate,
    recall_list,
    write_paper,
)

FACTS = (
    ("machine", "Machine", ""), ("started", "Started", ""), ("ended", "Ended", ""),
    ("recoater", "Recoater", ""), ("layers", "Layers", ""), ("layer_um", "Layer", "um"),
    ("loaded_g", "Powder loaded", "g"), ("parts_g", "Parts", "g"),
    ("supports_g", "Supports", "g"), ("sieved_out_g", "Sieved out", "g"),
    ("recovered_g", "Recovered", "g"),
)  # fmt: skip


def build_page(
    register: Register, build: str, lab: Laboratory, parts: Sequence[PartRecord], date: str
) -> Paper | None:
    """The sheet of a build with the parts that are asked for; None where it is unknown."""
    now = register.current("build", build)
    if now is None:
        return None
    facts = [
        (words, f"{now[1][key]} {unit}".strip()) for key, words, unit in FACTS if key in now[1]
    ]
    powder = ", ".join(_powder(one) for one in now[1]["feedstock"])
    return build_sheet(lab, build, [*facts, ("Powder", powder)], parts, date)


def _powder(one: Any) -> str:  # Any: an id, or a table with id and mass_g
    if not isinstance(one, dict):
        return str(one)
    return f"{one['id']} ({one['mass_g']:g} g)" if "mass_g" in one else str(one["id"])


def furnace_page(
    register: Register, run: str, body: dict[str, Any], lab: Laboratory, date: str
) -> Paper | None:
    """The certificate of a run, judged anew from the log in the store; None without a log."""
    if not body.get("log"):
        return None
    log = _from_store(register, body["log"], read_furnace_log)
    judged = judge_run(log, schedule(body["schedule"]))
    until = f", calibrated until {body['calibrated_until']}" if "calibrated_until" in body else ""
    instrument = f"{body['instrument']}{until}" if "instrument" in body else ""
    return furnace_certificate(lab, run, body["builds"], log, judged, instrument=instrument,
                               date=date)  # fmt: skip


def deviation_of(register: Register, body: dict[str, Any]) -> Deviation | None:
    """The deviation of an inspection of a surface, from its files; None without them."""
    if not {"design", "scan", "scan_to_design"} <= set(body):
        return None
    design: Mesh = _from_store(register, body["design"], read_mesh)
    scan: Mesh = _from_store(register, body["scan"], read_mesh)
    matrix = np.array(body["scan_to_design"], dtype=np.float64)
    return deviation(scan, DistanceTree(design), Rigid(matrix[:3, :3], matrix[:3, 3]))


def recall_page(
    subject: str, found: Sequence[Recalled], laboratory: Path | None, *, date: str
) -> bytes:
    """The recall list as PDF/A."""
    lab = Laboratory("", "") if laboratory is None else read_laboratory(laboratory)
    rows = [(one.part, one.case, one.patient, one.prescriber, one.build) for one in found]
    return write_paper(recall_list(lab, subject, rows, date))


def _from_store(register: Register, digest: str, read: Any) -> Any:  # Any: a reader and its value
    name = Path(register.file_name(digest) or digest).name
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / name
        place.write_bytes(register.store.get(digest))
        return read(place)
