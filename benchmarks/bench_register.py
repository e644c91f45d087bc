"""Trace and recall over 100,000 frameworks on SQLite."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import insert

from claspwright.records import KINDS, Proposed, Register, init_register, recall, trace
from claspwright.records.kinds import parents_of
from claspwright.records.tables import Current, Link

FRAMEWORKS = 100_000
A_BUILD = 10


@pytest.fixture(scope="module")
def register(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Register]:
    """Ten years of an invented laboratory: a lot for 50 builds, powder recovered between.

    Only what follows from the entries is written, in bulk; the queries read nothing else.
    """
    with init_register(tmp_path_factory.mktemp("lab")) as opened:
        with opened.writing() as connection:
            seq = 0
            for build in range(FRAMEWORKS // A_BUILD):
                things, links = [], []
                for entry in one_build(build):
                    seq += 1
                    subject = f"{entry.kind}:{entry.id}"
                    body = json.dumps(dict(entry.body))
                    things.append(
                        {"subject": subject, "kind": entry.kind, "seq": seq, "body": body}
                    )
                    for relation, name, mass in parents_of(entry.kind, entry.body):
                        kind = KINDS[entry.kind].parents[relation]
                        parent = name if ":" in name else f"{kind[0]}:{name}"
                        links.append({"child": subject, "relation": relation, "parent": parent,
                                      "mass_g": mass})  # fmt: skip
                connection.execute(insert(Current), things)
                connection.execute(insert(Link), links)
        yield opened


def one_build(build: int) -> Iterator[Proposed]:
    lot, first = build // 50, build % 50 == 0
    if first:
        body = {"alloy": "a", "mass_g": 10_000.0, "received": "2026-11-01"}
        yield Proposed("lot", f"L-{lot}", body)
    powder: dict[str, Any] = {"operation": "sieve", "sources": [{"id": f"L-{lot}"}]}
    if not first:
        powder["build"] = f"B-{build - 1}"
    yield Proposed("batch", f"M-{build}", powder)
    yield Proposed(
        "build", f"B-{build}", {"machine": "one", "feedstock": [{"id": f"batch:M-{build}"}]}
    )
    for n in range(A_BUILD):
        name = f"{build}-{n}"
        case = {"arch": "maxilla", "patient": f"P-{name}", "prescriber": "Dr. Invented"}
        yield Proposed("case", f"C-{name}", case)
        yield Proposed("part", f"F-{name}", {"case": f"C-{name}", "build": f"B-{build}"})


def test_trace_one_of_100000_frameworks(benchmark: Any, register: Register) -> None:
    found = benchmark(trace, register, "part:F-9999-3")
    assert found.ids("lot") == ("L-199",)


def test_recall_a_lot_of_500_frameworks(benchmark: Any, register: Register) -> None:
    assert len(benchmark(recall, register, "lot:L-100")) == 500


def test_size(register: Register) -> None:
    name = register.engine.url.database
    assert name is not None
    assert Path(name).stat().st_size > 10_000_000
