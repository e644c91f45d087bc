"""The month of an invented laboratory, as entries for a register. Nobody of it exists."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256
from typing import Any

import numpy as np

A_BUILD = 8  # frameworks a platform
FAILS_EVERY = 9  # builds, of which one is relieved twice
ALLOY = "cocr-lpbf-stress-relieved"
CAUSES = ("does not seat", "broken clasp", "short rest", "wrong design", "warped at removal")
DENTISTS = ("Dr. Alder Invented", "Dr. Birch Invented", "Dr. Cedar Invented")
CERTIFICATE = {"Co": 63.1, "Cr": 28.4, "Mo": 6.1, "Ni": 0.04, "C": 0.1}


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing to be entered, on its day."""

    kind: str
    id: str
    body: dict[str, Any]  # Any: a JSON object
    on: str
    supersedes: bool = False  # replaces what is known of the same thing


def invented_month(
    cases: int, *, seed: int = 1, start: date = date(2026, 11, 2)
) -> Iterator[tuple[Happening, ...]]:
    """What happens in a month, in bundles that belong together.

    Lots come in, powder is sieved and blended, frameworks are built eight at a time, relieved,
    inspected, tried in, cured and sent; some fail and are made again.
    """
    random = np.random.default_rng(seed)
    yield _equipment(start)
    waiting = [f"C-{n + 1:04d}" for n in range(cases)]
    made: dict[str, int] = {}
    build = 0
    while waiting:
        day = start + timedelta(days=int(build * 21 / max(1, cases / A_BUILD)))
        on_plate, waiting = waiting[:A_BUILD], waiting[A_BUILD:]
        new = [case for case in on_plate if case not in made]
        yield tuple(_case(case, day, random) for case in new)
        yield from _powder_and_build(build, day, len(on_plate))
        bundle: list[Happening] = []
        for place, case in enumerate(on_plate):
            made[case] = made.get(case, 0) + 1
            rows, good = _framework(case, made[case], build, place, day, random)
            bundle += rows
            if not good:
                waiting.append(case)
        yield tuple(bundle)
        build += 1


TEETH = {  # to be replaced, by Kennedy class
    "mandible": {"I": "36, 37, 46, 47", "II": "36, 37", "III": "35, 36"},
    "maxilla": {"I": "16, 17, 26, 27", "II": "26, 27", "III": "14, 15"},
}


def _equipment(start: date) -> tuple[Happening, ...]:
    on = str(start)
    due = str(start + timedelta(days=365))
    rows = [
        Happening("instrument", "TC-1", {"what": "thermocouple on the platform"}, on),
        Happening("instrument", "SC-1", {"what": "scanner of the inspection"}, on),
    ]
    for name in ("TC-1", "SC-1"):
        body: dict[str, Any] = {"instrument": name, "done": on, "due": due, "passed": True}
        rows.append(Happening("calibration", f"{name}/1", body, on))
    for lot in range(4):
        body = {"alloy": ALLOY, "mass_g": 10_000.0, "received": on, "certificate": CERTIFICATE}
        rows.append(Happening("lot", f"L-{lot + 1}", body, on))
    return tuple(rows)


def _case(case: str, day: date, random: np.random.Generator) -> Happening:
    number = int(case.split("-")[1])
    arch = "mandible" if random.random() < 0.6 else "maxilla"
    class_ = str(random.choice(["I", "II", "III"]))
    free_ends = class_ != "III"
    body = {
        "arch": arch,
        "patient": f"P-{number:05d}", "prescriber": DENTISTS[number % len(DENTISTS)],
        "kennedy_class": f"Kennedy class {class_}",
        "received": str(day - timedelta(days=2)), "due": str(day + timedelta(days=11)),
        "alloy": ALLOY, "price": 420.0, "currency": "EUR", "teeth": TEETH[arch][class_],
        "tooth_mould": "lower 7" if arch == "mandible" else "upper 7",
        "shade": "A3 invented", "gum_shade": "pink 2", "health_institution": "Invented Clinic",
        "altered_cast": bool(random.random() < 0.3) and free_ends,
    }  # fmt: skip
    return Happening("case", case, body, str(day - timedelta(days=2)))


def _powder_and_build(build: int, day: date, parts: int) -> Iterator[tuple[Happening, ...]]:
    on, batch, name = str(day), f"M-{build + 1:03d}", f"B-{build + 1:03d}"
    lot = f"L-{min(build // 8, 3) + 1}"
    powder: dict[str, Any] = {"operation": "blend", "sources": [{"id": lot, "mass_g": 900.0}],
                              "sieve_um": 63.0, "lost_g": 12.0}  # fmt: skip
    if build:
        powder["build"] = f"B-{build:03d}"
        powder["sources"].append({"id": f"batch:M-{build:03d}", "mass_g": 3_600.0})
    metal = 9.4 * parts
    body = {
        "machine": "LPBF-1", "feedstock": [{"id": batch, "mass_g": 4_500.0}], "layers": 1150.0,
        "layer_um": 30.0, "started": on, "loaded_g": 4_500.0, "parts_g": metal,
        "supports_g": 0.15 * metal, "sieved_out_g": 38.0,
        "recovered_g": 4_500.0 - 1.15 * metal - 38.0 - 31.0,
    }  # fmt: skip
    relief = {"builds": [name], "schedule": "stress-relief-800", "passed": True,
              "instrument": "TC-1", "gas": "argon", "hours": 4.4}  # fmt: skip
    run, later = f"R-{build + 1:03d}", str(day + timedelta(days=1))
    runs = [Happening("furnace_run", run, relief, later)]
    if build % FAILS_EVERY == FAILS_EVERY // 2:  # too short a soak; relieved again the same day
        spoilt = {**relief, "passed": False, "text": "the soak was too short"}
        runs = [Happening("furnace_run", run, spoilt, later),
                Happening("furnace_run", f"{run}-again", relief, later)]  # fmt: skip
    yield (Happening("batch", batch, powder, on), Happening("build", name, body, on), *runs)


def _framework(
    case: str, turn: int, build: int, place: int, day: date, random: np.random.Generator
) -> tuple[list[Happening], bool]:
    part = f"F-{case[2:]}-{turn}"
    measured, tried, sent = (str(day + timedelta(days=n)) for n in (2, 4, 8))
    x, y = 30.0 * (place % 4) - 45.0, 45.0 * (place // 4) - 22.0
    mass = round(float(random.normal(9.4, 0.8)), 2)
    bias, gap = float(random.normal(12.0, 18.0)), abs(float(random.normal(150.0, 60.0)))
    good = bool(random.random() > 0.06)
    rows = [
        Happening("revision", f"{case}/{turn}", {"case": case, "hash": _hash(case, turn),
                  "design": "connector, rests and clasps as the approved drawing shows"},
                  str(day)),
        Happening("approval", f"{case}/{turn}", {"revision": f"{case}/{turn}",
                  "hash": _hash(case, turn), "approved": True}, str(day)),
        Happening("part", part, {"case": case, "build": f"B-{build + 1:03d}", "x_mm": x,
                  "y_mm": y, "mass_g": mass, "revision": f"{case}/{turn}"}, str(day)),
        Happening("inspection", part, {"part": part, "passed": good, "bias_um": round(bias, 1),
                  "rms_um": round(abs(bias) + 40.0, 1), "p95_um": round(abs(bias) + 75.0, 1),
                  "rest_gap_um": round(gap, 1), "instrument": "SC-1"}, measured),
    ]  # fmt: skip
    if not good:
        cause = str(random.choice(CAUSES))
        rows.append(Happening("nonconformity", part, {"about": f"part:{part}", "cause": cause,
                    "open": True}, measured))  # fmt: skip
        return rows, False
    ground = random.random() < 0.4
    taken = round(float(random.uniform(20, 120)), 0) if ground else 0.0
    rows.append(Happening("adjustment", part, {"part": part, "place": "minor connector",
                "amount_um": taken, "how": "ground" if ground else "nothing", "seated": True},
                tried))  # fmt: skip
    cure = {"case": case, "powder_lot": "AP-1", "liquid_lot": "AL-1", "powder_g": 18.0,
            "liquid_ml": 7.6, "cycle": "long", "tooth_lot": "T-1"}  # fmt: skip
    rows.append(Happening("acrylic", f"{case}/{turn}", cure, tried))
    for earlier in range(1, turn):
        gone = f"F-{case[2:]}-{earlier}"
        rows.append(Happening("nonconformity", gone, {"about": f"part:{gone}",
                    "cause": "made again", "open": False, "remake": part}, sent,
                    supersedes=True))  # fmt: skip
    return rows, True


def _hash(case: str, turn: int) -> str:
    """A hash to stand for that of a design that was never made."""
    return sha256(f"{case}/{turn}".encode()).hexdigest()
