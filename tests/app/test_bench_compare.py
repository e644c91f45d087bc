"""Two revisions held against each other: solids of a closed form, findings and numbers."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench import worked as kept
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.revisions import change, history
from claspwright.app.bench.view_files import mesh_in, write_part
from claspwright.app.bench.worked import (
    MOST_STATES,
    changed_findings,
    changed_measures,
    compare,
    compared,
    state_key,
)
from claspwright.app.hashes import input_hashes
from claspwright.base import Floats, InputError, silent
from claspwright.case import with_table
from claspwright.geometry import IDENTITY, Rigid, box
from claspwright.report import Part
from claspwright.web import create_app

TOKEN = "a-token-of-the-test"
TURNED = Rigid(np.array([[0.0, -1, 0], [1, 0, 0], [0, 0, 1]]), np.array([3.0, 4, 5]))


class Jobs:
    """Notes what is asked for."""

    def __init__(self) -> None:
        self.asked: list[tuple[str, dict[str, Any]]] = []

    def ask(self, case: str, task: str, wish: dict[str, Any]) -> Any:
        self.asked.append((task, wish))
        return type(
            "Job", (), {"id": "J-00001", "case": case, "task": task, "state": "waiting",
                        "fraction": 0.0, "phase": "", "error": ""},
        )()  # fmt: skip


@pytest.fixture
def lab(worked: Path, tmp_path: Path) -> Laboratory:
    root = tmp_path / "lab"
    shutil.copytree(worked, root, ignore=shutil.ignore_patterns("stages"))
    return Laboratory(root)


@pytest.fixture
def client(lab: Laboratory) -> Iterator[TestClient]:
    app = create_app(lab, Jobs(), TOKEN)  # type: ignore[arg-type]
    with TestClient(app, base_url="http://127.0.0.1:8000") as opened:
        opened.headers["authorization"] = f"Bearer {TOKEN}"
        yield opened


def finding(rule: str, component: str, measured: float | None, severity: str = "note") -> Any:
    return {"rule": rule, "component": component, "measured": measured, "severity": severity,
            "text": f"{rule}.", "unit": "mm", "at_arch_mm": [0, 0, 0]}  # fmt: skip


def put_state(
    lab: Laboratory, high: float, mass: float, to_arch: Rigid = IDENTITY, found: Any = ()
) -> None:
    """A worked-out state of L-1 as its sheet stands: a box of 10 x 10 mm, seen from a frame."""
    inputs = input_hashes(lab.sheet_of("L-1"))
    folder = lab.kept("worked", "L-1", state_key(inputs))
    folder.mkdir(parents=True, exist_ok=True)
    solid = box(np.zeros(3), np.array([10.0, 10.0, high])).moved(to_arch)
    told = {
        "inputs": inputs,
        "parts": [write_part(folder, Part("framework", "framework", solid))],
        "scan_to_arch": to_arch.matrix().tolist(),
        "findings": list(found),
        "measures": [{"name": "mass of the framework", "value": mass, "unit": "g"}],
    }
    (folder / "view.json").write_text(json.dumps(told), encoding="utf-8")


def two_revisions(lab: Laboratory, to_arch: Rigid = IDENTITY) -> tuple[int, int]:
    """One with a box of 4 mm, the next one with a box of 4.5 mm in another frame."""
    older = history(lab, "L-1").at
    put_state(lab, 4.0, 8.0, found=[finding("a", "x", 1.0), finding("b", "x", 2.0)])
    tilts = {"anterior_tilt_deg": 2.0, "right_lateral_tilt_deg": 0.0}
    text = with_table(lab.sheet_of("L-1").text, "path", tilts)
    change(lab, "L-1", text, author="Ada", reason="tilted")
    put_state(lab, 4.5, 8.4, to_arch, found=[finding("b", "x", 2.5), finding("c", "x", None)])
    return older, history(lab, "L-1").at


def wish(pair: tuple[int, int]) -> dict[str, int]:
    return {"older": pair[0], "newer": pair[1]}


@pytest.mark.parametrize("to_arch", [IDENTITY, TURNED], ids=["same frame", "another frame"])
def test_a_face_moved_by_half_a_millimetre_reads_so(lab: Laboratory, to_arch: Rigid) -> None:
    """By hand: the top of the newer box stands 0.5 mm out; nothing of the older one does."""
    pair = two_revisions(lab, to_arch)
    assert compared(lab, "L-1", *pair).told is None
    compare(lab, "L-1", wish(pair), silent)
    known = compared(lab, "L-1", *pair)
    assert known.worked == (True, True) and known.told is not None
    greatest = known.told["greatest"]
    assert greatest["gain"]["mm"] == pytest.approx(0.5, abs=1e-3) and greatest["loss"] is None
    on_top: Floats = to_arch.inverse().apply(np.array(greatest["gain"]["at_arch_mm"]))
    assert on_top[2] == pytest.approx(4.5, abs=1e-3)
    folder = lab.kept("compared", "L-1", known.key)
    older, newer = mesh_in(folder, "older"), mesh_in(folder, "newer")
    for mesh, high in ((older, 4.0), (newer, 4.5)):  # both in the frame of the newer one
        assert np.ptp(to_arch.inverse().apply(mesh.vertices)[:, 2]) == pytest.approx(high, abs=1e-4)
    parts = {part["key"]: part for part in known.told["parts"]}
    assert parts["gained"]["with_values"] and parts["gained"]["high"] == 0.5
    raw = (folder / "gained.bin").read_bytes()
    values = np.frombuffer(raw, "<f4")[-parts["gained"]["vertices"] :]
    assert set(np.round(values, 3)) == {0.0, 0.5}


def test_findings_and_numbers_that_differ_are_named(lab: Laboratory) -> None:
    pair = two_revisions(lab)
    compare(lab, "L-1", wish(pair), silent)
    told = compared(lab, "L-1", *pair).told
    assert told is not None
    assert [(f["rule"], f["change"]) for f in told["findings"]] == [
        ("a", "went"), ("b", "changed"), ("c", "came"),
    ]  # fmt: skip
    assert (told["findings"][1]["before"], told["findings"][1]["after"]) == (2.0, 2.5)
    assert told["measures"] == [
        {"name": "mass of the framework", "unit": "g", "before": 8.0, "after": 8.4}
    ]


def test_what_stays_is_not_named() -> None:
    same = [finding("a", "x", 1.0), finding("a", "x", 2.0), finding("b", "", None)]
    assert changed_findings(same, same) == []
    assert changed_findings(same, [{**same[0], "measured": 1.0 + 1e-6}, *same[1:]]) == []
    graver = [{**same[0], "severity": "stop"}, *same[1:]]
    assert [f["change"] for f in changed_findings(same, graver)] == ["changed"]
    assert changed_measures([{"name": "m", "value": 1.0, "unit": "g"}] * 1,
                            [{"name": "m", "value": 1.0, "unit": "g"}]) == []  # fmt: skip


def test_a_case_keeps_the_state_that_was_worked_out(lab: Laboratory) -> None:
    """What *Work out* left of the invented case is the solid of its revision."""
    number = history(lab, "L-1").at
    known = compared(lab, "L-1", number, number)
    assert known.worked == (True, True)
    folder = lab.kept("worked", "L-1", known.key.split("-")[0])
    on_screen = mesh_in(lab.kept("view", "L-1"), "framework")
    np.testing.assert_array_equal(mesh_in(folder, "framework").vertices, on_screen.vertices)
    compare(lab, "L-1", {"older": number, "newer": number}, silent)
    told = compared(lab, "L-1", number, number).told
    assert told is not None and told["findings"] == told["measures"] == []
    assert told["greatest"] == {"gain": None, "loss": None}


def test_only_the_newest_states_stay(lab: Laboratory, tmp_path: Path) -> None:
    folder = tmp_path / "states"
    for n in range(MOST_STATES + 3):
        (folder / f"{n:02d}").mkdir(parents=True)
    kept._prune(folder, MOST_STATES)
    assert sorted(f.name for f in folder.iterdir())[0] == "03"


def test_the_page_is_told_and_a_job_is_asked_for(client: TestClient, lab: Laboratory) -> None:
    pair = wish(two_revisions(lab))
    told = client.get("/api/cases/L-1/comparison", params=pair).json()
    assert told["key"] and not told["made"]
    job = client.post("/api/cases/L-1/comparison", json=pair)
    assert job.status_code == 202 and job.json()["task"] == "compare"
    compare(lab, "L-1", pair, silent)
    told = client.get("/api/cases/L-1/comparison", params=pair).json()
    assert told["made"] and told["gain"]["mm"] == pytest.approx(0.5, abs=1e-3)
    listed = client.get(f"/api/cases/L-1/comparison/{told['key']}/view").json()
    assert [p["key"] for p in listed["parts"]] == ["older", "newer", "gained", "lost"]
    raw = client.get(f"/api/cases/L-1/comparison/{told['key']}/view/older.bin")
    assert len(raw.content) == 12 * (listed["parts"][0]["vertices"] + listed["parts"][0]["faces"])
    assert client.get("/api/cases/L-1/comparison/..%2F..%2Fjobs/view").status_code in (404, 422)


def test_a_revision_without_a_state_is_said(client: TestClient, lab: Laboratory) -> None:
    pair = wish(two_revisions(lab))
    shutil.rmtree(lab.kept("worked", "L-1"))
    told = client.get("/api/cases/L-1/comparison", params=pair).json()
    assert (told["older_worked"], told["newer_worked"], told["key"]) == (False, False, "")
    asked = client.post("/api/cases/L-1/comparison", json=pair)
    assert (
        asked.status_code == 422
        and f"revision {pair['older']} was not worked out" in asked.json()["what"]
    )
    with pytest.raises(InputError, match="not worked out"):
        compare(lab, "L-1", pair, silent)
    assert client.get("/api/cases/L-1/comparison?older=1&newer=77").status_code == 404
