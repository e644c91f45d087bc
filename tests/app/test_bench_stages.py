"""The stages after the framework at the bench: asked for, kept, shown; figures judged elsewhere."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from fastapi.testclient import TestClient
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from claspwright.app.bench.jobs import Job
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.stage_views import layer_of, write_layers
from claspwright.app.bench.view_files import mesh_in
from claspwright.app.bench.worker import TASKS
from claspwright.app.survey_case import survey_case
from claspwright.base import InputError, silent
from claspwright.build import Slices
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh, Rigid
from claspwright.web import create_app

if TYPE_CHECKING:
    from tests.app.conftest import Done

TOKEN = "a-token-of-the-test"
BASE = "http://127.0.0.1:8000"
HEAD = {"authorization": f"Bearer {TOKEN}"}


class AtOnce:
    """Does each job where it is asked for; the processes are tried in the browser test."""

    def __init__(self, lab: Laboratory) -> None:
        self._lab = lab
        self._jobs: list[Job] = []

    def jobs(self) -> tuple[Job, ...]:
        return tuple(self._jobs)

    def ask(self, case: str, task: str, wish: Mapping[str, Any] | None = None) -> Job:
        if case:
            self._lab.folder_of(case)
        TASKS[task](self._lab, case, wish or {}, silent)
        self._jobs.append(Job(f"J-{len(self._jobs) + 1:05d}", case, task, wish or {}, "done", 1.0))
        return self._jobs[-1]


@pytest.fixture(scope="module")
def lab(done: Done, tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    """A laboratory with one case, its results as the command line wrote them."""
    root = tmp_path_factory.mktemp("lab")
    shutil.copytree(done.case, root / "cases" / "L-1")
    shutil.copytree(done.out, root / "results" / "L-1")
    shutil.copytree(done.stages, root / ".claspwright" / "stages", copy_function=os.link)
    return Laboratory(root)


@pytest.fixture(scope="module")
def client(lab: Laboratory) -> Iterator[TestClient]:
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as opened:
        yield opened


def stage(client: TestClient, name: str) -> dict[str, Any]:
    told = client.get("/api/cases/L-1/stages").json()["stages"]
    found: dict[str, Any] = next(one for one in told if one["stage"] == name)
    return found


def test_the_survey_is_written_as_by_the_command(client: TestClient, lab: Laboratory) -> None:
    assert not stage(client, "survey")["done"]
    assert client.post("/api/cases/L-1/survey").status_code == 202
    files = stage(client, "survey")["files"]
    assert {"survey.pdf", "survey.json", "findings.json"} <= set(files)
    told = client.get("/api/cases/L-1/stages/survey/files/survey.json").json()
    by_command = dict(survey_case(lab.folder_of("L-1")).told)
    assert told == json.loads(json.dumps(by_command))  # tuples as lists
    assert client.post("/api/cases/L-9/survey").status_code == 404


def test_another_scan_is_compared_with_the_master(client: TestClient, lab: Laboratory) -> None:
    sheet = lab.sheet_of("L-1")
    old = read_mesh(sheet.scans.master)
    edges = np.sort(old.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    once, count = np.unique(edges, axis=0, return_counts=True)
    border = old.vertices[np.unique(once[count == 1])]
    place = int(cKDTree(border).query(old.vertices)[0].argmax())  # furthest from any border
    a, b, c = (old.vertices[old.faces[:, k]] for k in range(3))
    outward = np.cross(b - a, c - a)[(old.faces == place).any(axis=1)].sum(axis=0)
    outward /= np.linalg.norm(outward)
    gap = np.linalg.norm(old.vertices - old.vertices[place], axis=1)
    bumped = old.vertices + 0.6 * np.exp(-((gap / 2.0) ** 2))[:, None] * outward
    turn = Rotation.from_rotvec([0.2, -0.4, 1.0]).as_matrix()
    pose = Rigid(turn, np.array([5.0, -20.0, 3.0]))
    file = lab.root / "new.stl"
    write_stl(Mesh(bumped, old.faces).moved(pose), file)
    files = {"scan": ("again.stl", file.read_bytes())}
    assert client.post("/api/cases/L-1/scans", files=files).status_code == 202
    row = stage(client, "scans")
    told = row["answers"]["scans"]
    assert row["done"] and not row["stale"] and told["scan"] == "again.stl"
    assert told["changes"][0]["greatest_mm"] == pytest.approx(0.6, abs=0.15)
    assert np.linalg.norm(np.array(told["changes"][0]["at_mm"]) - old.vertices[place]) < 1.5
    assert {one["rule"] for one in told["findings"]} >= {"scans.change"}
    assert all(one["source"] for one in told["findings"])
    view = client.get("/api/cases/L-1/stages/scans/view").json()
    (part,) = view["parts"]
    raw = client.get("/api/cases/L-1/stages/scans/view/compared.bin").content
    values = np.frombuffer(raw[-4 * part["vertices"] :], "<f4")
    assert np.nanmax(values) == pytest.approx(1000 * told["changes"][0]["greatest_mm"], abs=60)
    assert view["labels"]


@pytest.mark.parametrize(
    ("case", "file", "status"),
    [("L-1", "new.exe", 422), ("L-1", "", 422), ("L-9", "new.stl", 404)],
)
def test_a_scan_that_cannot_be_compared_is_refused(
    client: TestClient, case: str, file: str, status: int
) -> None:
    files = {"scan": (file, b"solid")} if file else {}
    assert client.post(f"/api/cases/{case}/scans", files=files).status_code == status


def furnace_log(soak_min: float) -> str:
    minutes = np.arange(0.0, 320.0)
    ends = np.cumsum([0, 30, 100, soak_min, 115, 40])
    platform = np.interp(minutes, ends, [20, 20, 800, 800, 150, 60])
    rows = "\n".join(f"{m},{t:.1f},8.0" for m, t in zip(minutes, platform, strict=True))
    return "time_min,platform_degC,argon_l_min\n" + rows


@pytest.mark.parametrize(("soak_min", "passed"), [(25, True), (5, False)])
def test_a_furnace_log_is_judged(client: TestClient, soak_min: float, passed: bool) -> None:
    files = {"log": ("C:\\logs\\run.csv", furnace_log(soak_min).encode())}
    form = {"wanted": "stress-relief-800"}
    assert client.post("/api/cases/L-1/furnace", data=form, files=files).status_code == 202
    run = stage(client, "furnace")["answers"]["run"]
    assert (run["passed"], run["log"]) == (passed, "run.csv")
    plot = client.get("/api/cases/L-1/stages/furnace/files/run.png")
    assert plot.content.startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("name", "content", "wanted", "status"),
    [
        ("run.exe", b"x", "stress-relief-800", 422),
        ("run.csv", b"", "stress-relief-800", 422),
        ("run.csv", b"x", "no such schedule", 422),
    ],
)
def test_a_log_that_cannot_be_used_is_refused(
    client: TestClient, name: str, content: bytes, wanted: str, status: int
) -> None:
    answer = client.post(
        "/api/cases/L-1/furnace", data={"wanted": wanted}, files={"log": (name, content)}
    )
    assert answer.status_code == status and answer.json()["remedy"]


def test_papers_follow_from_the_register(client: TestClient, lab: Laboratory) -> None:
    page = client.get("/api/cases/L-1/register").json()
    assert not page["entered"] and page["case_id"] == "TEST-1"
    by = {"by": "A. Technician"}
    assert client.post("/api/cases/L-1/dispatch", json=by).status_code == 404
    assert client.post("/api/cases/L-1/register", json=by).status_code == 201
    page = client.get("/api/cases/L-1/register").json()
    assert page["entered"] and any("No framework" in stop for stop in page["stops"])
    refused = client.post("/api/cases/L-1/dispatch", json=by)
    assert refused.status_code == 422 and "must not leave" in refused.json()["what"]
    fields: dict[str, Any] = {"alloy": "a", "mass_g": 5000}
    entry = {"kind": "lot", "id": "P-77", "fields": fields, **by}
    missing = client.post("/api/register/entries", json=entry)
    assert missing.status_code == 422 and "received" in missing.json()["what"]
    fields["received"] = "2026-11-02"
    assert client.post("/api/register/entries", json=entry).status_code == 201
    assert "lot" in client.get("/api/register/kinds").json()["kinds"]
    client.put("/api/laboratory", json={"name": "Invented Laboratory", "address": "1 Nowhere Lane"})
    assert client.get("/api/laboratory").json()["name"] == "Invented Laboratory"
    assert client.post("/api/cases/L-1/papers", json=by).status_code == 202
    files = stage(client, "papers")["files"]
    assert "statement.pdf" in files
    pdf = client.get("/api/cases/L-1/stages/papers/files/statement.pdf")
    assert pdf.content.startswith(b"%PDF")
    month = client.get("/api/month?first=2026-11-01&last=2026-11-30").json()
    assert month["figures"]["builds"] == 0


def test_a_furnace_run_is_entered_with_its_builds(client: TestClient) -> None:
    by = {"by": "A. Technician"}
    client.post("/api/cases/L-1/register", json=by)  # makes the register where there is none
    files = {"log": ("run-7.csv", furnace_log(25).encode())}
    form = {"wanted": "stress-relief-800", "builds": "P-0009"}
    unsigned = client.post("/api/cases/L-1/furnace", data=form, files=files)
    assert unsigned.status_code == 422 and unsigned.json()["place"] == "by"
    lot = {"alloy": "a", "mass_g": 5000, "received": "2026-11-02"}
    build = {"machine": "one", "feedstock": [{"id": "P-78"}]}
    for kind, id_, fields in (("lot", "P-78", lot), ("build", "P-0009", build)):
        entry = {"kind": kind, "id": id_, "fields": fields, **by}
        assert client.post("/api/register/entries", json=entry).status_code == 201
    done = client.post("/api/cases/L-1/furnace", data=form | by, files=files)
    assert done.status_code == 202
    none = client.post("/api/builds/P-0009/register", json={**by, "feedstock": ["P-78"]})
    assert none.status_code == 404  # there is no such folder


def test_the_proof_lies_on_the_model(client: TestClient, lab: Laboratory) -> None:
    assert client.post("/api/cases/L-1/proof", json={}).status_code == 202
    row = stage(client, "proof")
    told = row["answers"]["check"]
    assert row["done"] and not row["stale"] and told["arms"]
    view = client.get("/api/cases/L-1/stages/proof/view").json()
    lifting = next(part for part in view["parts"] if part["key"] == "lifting")
    raw = client.get("/api/cases/L-1/stages/proof/view/lifting.bin").content
    values = np.frombuffer(raw[-4 * lifting["vertices"] :], "<f4")
    assert values.max() <= lifting["high"] + 1e-3 and (values > 0).any()
    least = told["denture"][
        "least_lifting_n"
    ]  # at a point of a base; each vertex takes the nearest
    assert least - 0.01 <= values[values > 0].min() <= 1.5 * least
    assert len(mesh_in(lab.kept("proof", "L-1"), "stress").faces) > 100


def test_a_build_needs_a_framework_and_known_names(client: TestClient) -> None:
    for body in (
        {"cases": ["L-1"], "machine": "../../secret"},
        {"cases": ["L-1"], "process": "cocr-50um"},
        {"cases": ["none"]},
        {"cases": []},
    ):
        assert client.post("/api/builds", json=body).status_code in (404, 422)
    assert client.get("/api/builds").json() == []
    assert client.get("/api/builds/P-0001/view").status_code == 404
    assert client.get("/api/builds/..%2F..%2Fcases/view").status_code == 404


@pytest.mark.parametrize("file", ["../case.toml", "..%2F..%2Fcases", "view.json%00", "none"])
@pytest.mark.parametrize(
    "where", ["stages/proof/files", "stages/proof/view", "stages/nowhere/files"]
)
def test_no_name_leads_out_of_a_stage(client: TestClient, where: str, file: str) -> None:
    assert client.get(f"/api/cases/L-1/{where}/{file}").status_code in (404, 422)


def test_contours_of_a_layer_come_back_as_they_were(tmp_path: Path) -> None:
    square = np.array([[0, 0], [2, 0], [2, 2], [0, 2.0]])
    both = np.vstack([square, square + 5])
    slices = Slices(0.0, 0.025, both, np.array([0, 4, 8]), np.array([0, 1, 1, 2]))
    assert write_layers(tmp_path, 0, [("L-1", "part", slices), ("L-1", "support", None)]) == 3
    assert layer_of(tmp_path, 0, 1)[0]["contours_mm"] == []
    (line,) = layer_of(tmp_path, 0, 2)[0]["contours_mm"]
    np.testing.assert_allclose(line, square + 5)
    with pytest.raises(InputError, match="no layer 4"):
        layer_of(tmp_path, 0, 3)
    with pytest.raises(InputError, match="no platform 2"):
        layer_of(tmp_path, 1, 0)
