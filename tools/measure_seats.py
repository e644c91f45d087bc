"""Measure the seat finder: seats that the builder of the invented arches cut, and places it left.

Eight arches, each with modelled crowns and with the real crowns of two persons; the stages see
nothing of what the builder knows but one mark a tooth.

    python tools/measure_seats.py [CASE ...]
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import numpy as np

from claspwright.app.demo_arch import read_crowns
from claspwright.arch import MasterScan, find_rest_seat, find_teeth, kind_of
from claspwright.base import Ints
from claspwright.demo import EIGHT, DemoArch, Scenario, SeatForm, build_arch, options_for
from claspwright.geometry import IDENTITY, Mesh

CROWNS = Path(__file__).resolve().parents[2] / "shared" / "scans" / "crowns"
EDGE_MM = 0.25
NEAR_MM = 1.5  # of the deepest place that was cut
BESIDE_MM = 1.0  # of the middle of its channel


def built(case: Scenario, person: str) -> DemoArch:
    """An arch with the crowns of a person, or with modelled ones."""
    crowns: dict[int, Mesh] = {}
    if person != "modelled":
        for jaw in ("mandible", "maxilla"):
            crowns |= read_crowns(CROWNS, person, jaw)
    options = options_for(case, crowns=crowns or "parametric", edge_mm=EDGE_MM)
    return build_arch(replace(options, with_opposing=False))


def measure(case: Scenario, person: str) -> Ints:
    """(5,) seats cut, found, found further out in their channel; other places, seats invented."""
    made = built(case, person)
    scan = MasterScan(made.jaw, made.master, made.master, IDENTITY, EDGE_MM)
    arch = find_teeth(scan, made.truth.marks, case.missing)
    cut = {(seat.tooth, seat.form): seat for seat in made.truth.seats}
    count = np.zeros(5, np.int32)
    for code, tooth in arch.teeth.items():
        back = kind_of(code) in ("premolar", "molar")
        places: tuple[SeatForm, ...] = ("mesial", "distal") if back else ("cingulum",)
        for where in places:
            found = find_rest_seat(arch, code, where)
            seat = cut.get((code, where))
            if seat is None:
                count += np.array([0, 0, 0, 1, found.prepared])
                continue
            off = found.point - seat.centre
            out = {"mesial": tooth.mesial, "distal": tooth.distal}.get(where, tooth.lingual)
            near = found.prepared and bool(np.linalg.norm(off) < NEAR_MM)
            beside = bool(abs(off @ np.cross([0.0, 0.0, 1.0], out)) < BESIDE_MM)
            channel = found.prepared and not near and beside
            count += np.array([1, near, channel, 0, 0])
            if not near:
                words = "further out in its channel" if channel else "not found"
                print(f"{case.name} {person} {code} {where}: {words}", flush=True)
    return count


def main(names: list[str]) -> None:
    """Measure some cases, or all of them."""
    for crowns, persons in (("real", ("a", "b")), ("modelled", ("modelled",))):
        total = np.zeros(5, np.int32)
        for case in EIGHT:
            if not names or case.name in names:
                total += sum(measure(case, person) for person in persons)
        cut, found, channel, places, invented = total.tolist()
        print(f"{crowns} crowns: {found} of {cut} seats found, {channel} more further out in their "
              f"channel; {invented} invented at {places} other places")  # fmt: skip


if __name__ == "__main__":
    main(sys.argv[1:])
