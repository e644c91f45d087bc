"""The bench's server: access, cases, revisions, views; the geometry is judged elsewhere."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.view_files import mesh_in
from claspwright.formats import write_stl
from claspwright.geometry import Mesh
from claspwright.web import create_app

if TYPE_CHECKING:
    from tests.app.conftest import Done

TOKEN = "a-token-of-the-test"
BASE = "http://127.0.0.1:8000"


class NoJobs:
    """Stands in for the processes, which the browser test starts."""


@pytest.fixture
def lab(worked: Path, tmp_path: Path) -> Laboratory:
    """A copy that a test may change."""
    shutil.copytree(worked, tmp_path / "lab", ignore=shutil.ignore_patterns("stages"))
    return Laboratory(tmp_path / "lab")


@pytest.fixture
def client(lab: Laboratory) -> Iterator[TestClient]:
    with TestClient(create_app(lab, NoJobs(), TOKEN), base_url=BASE) as opened:
        opened.headers["authorization"] = f"Bearer {TOKEN}"
        yield opened


def test_without_the_token_nothing_is_told(lab: Laboratory) -> None:
    stranger = TestClient(create_app(lab, NoJobs(), TOKEN), base_url=BASE)
    for answer in (
        stranger.get("/api/cases"),
        stranger.get("/api/cases/L-1/results/report.pdf"),
        stranger.get("/"),
        stranger.get("/api/cases?token=another"),
        stranger.get("/api/cases", headers={"authorization": "Bearer another"}),
        stranger.post("/api/cases/L-1/undo"),
    ):
        assert answer.status_code == 401
        assert set(answer.json()) == {"what", "place", "remedy"}


def test_the_opened_address_leaves_a_cookie_that_scripts_cannot_read(lab: Laboratory) -> None:
    browser = TestClient(create_app(lab, NoJobs(), TOKEN), base_url=BASE)
    answer = browser.get(f"/?token={TOKEN}", follow_redirects=False)
    assert answer.status_code == 303 and answer.headers["location"] == "/"
    assert {"HttpOnly", "SameSite=strict"} <= set(answer.headers["set-cookie"].split("; "))
    page = browser.get("/")
    assert page.status_code == 200 and "Claspwright" in page.text
    assert "default-src 'self'" in page.headers["content-security-policy"]
    assert browser.get("/api/cases").status_code == 200


def test_other_hosts_and_other_sites_are_refused(client: TestClient) -> None:
    assert client.get("/api/cases", headers={"host": "bench.example"}).status_code == 421
    foreign = client.post("/api/cases/L-1/undo", headers={"origin": "https://site.example"})
    assert foreign.status_code == 403


def test_too_large_a_request_is_refused(client: TestClient) -> None:
    answer = client.post("/api/cases", headers={"content-length": str(10**10)}, content=b"x")
    assert answer.status_code == 413


def test_the_list_and_the_page_say_what_the_files_say(client: TestClient, done: Done) -> None:
    (line,) = client.get("/api/cases").json()["cases"]
    assert (line["name"], line["arch"], line["standing"]) == ("L-1", "mandible", "worked out")
    page = client.get("/api/cases/L-1").json()
    stops = [f for f in page["findings"] if f["severity"] == "stop"]
    assert line["stops"] == len(stops)
    assert len(page["findings"]) == len(done.result.findings)
    assert "framework.stl" in page["results"] or stops
    assert {r["tooth"] for r in page["retainers"]} >= {37}
    assert page["tilts"] is not None and not page["path_is_prescribed"]


def test_a_finding_lies_at_one_place_in_both_frames(client: TestClient) -> None:
    view = client.get("/api/cases/L-1/view").json()
    to_arch = np.array(view["scan_to_arch"])
    placed = [f for f in client.get("/api/cases/L-1").json()["findings"] if f["at_scan_mm"]]
    assert placed
    for finding in placed:
        expected = to_arch[:3, :3] @ finding["at_scan_mm"] + to_arch[:3, 3]
        np.testing.assert_allclose(finding["at_arch_mm"], expected, atol=2e-3)


def test_the_meshes_of_the_view_are_those_of_the_result(
    client: TestClient, lab: Laboratory
) -> None:
    listed = {part["key"]: part for part in client.get("/api/cases/L-1/view").json()["parts"]}
    raw = client.get("/api/cases/L-1/view/model.bin").content
    model = listed["model"]
    mesh = mesh_in(lab.kept("view", "L-1"), "model")
    assert len(raw) == model["vertices"] * 16 + model["faces"] * 13
    assert len(mesh.faces) == model["faces"] and mesh.faces.max() < model["vertices"]


def test_a_change_is_kept_undone_and_redone(client: TestClient, lab: Laboratory) -> None:
    before = lab.sheet_of("L-1").text
    page = client.get("/api/cases/L-1").json()
    retainer = next(r for r in page["retainers"] if r["clasp"])
    retainer["clasp"]["undercut_mm"] = 0.33
    body = {"retainer": retainer, "author": "Ada", "reason": "deeper", "onto": 1}
    changed = client.put("/api/cases/L-1/retainers", json=body).json()
    assert changed["line"]["standing"] == "stale"
    assert changed["revisions"]["revisions"][-1]["author"] == "Ada"
    assert "undercut_mm = 0.33" in lab.sheet_of("L-1").text
    undone = client.post("/api/cases/L-1/undo").json()
    assert undone["line"]["standing"] == "worked out"
    assert lab.sheet_of("L-1").text == before
    client.post("/api/cases/L-1/redo")
    assert "undercut_mm = 0.33" in lab.sheet_of("L-1").text
    lines = client.get("/api/cases/L-1/differences?older=1&newer=2").json()["lines"]
    assert any(line.startswith("+ ") and "0.33" in line for line in lines)


def test_a_change_made_on_an_old_revision_is_refused(client: TestClient) -> None:
    client.get("/api/cases/L-1")
    tilts = {"anterior_tilt_deg": 2.0, "right_lateral_tilt_deg": 0.0}
    assert client.put("/api/cases/L-1/path", json={"tilts": tilts, "onto": 1}).status_code == 200
    late = client.put("/api/cases/L-1/path", json={"tilts": None, "onto": 1})
    assert late.status_code == 409 and "Load the case again" in late.json()["remedy"]


def test_a_sheet_changed_by_hand_becomes_a_revision(client: TestClient, lab: Laboratory) -> None:
    client.get("/api/cases/L-1")
    sheet = lab.folder_of("L-1") / "case.toml"
    sheet.write_text(sheet.read_text(encoding="utf-8") + "# by hand\n", encoding="utf-8")
    reasons = [r["reason"] for r in client.get("/api/cases/L-1").json()["revisions"]["revisions"]]
    assert reasons == ["as it came", "the file was changed outside the bench"]


def test_an_unsound_sheet_changes_nothing(client: TestClient, lab: Laboratory) -> None:
    before = lab.sheet_of("L-1").text
    answer = client.put("/api/cases/L-1/sheet", json={"sheet": before.replace("alloy", "aloy")})
    assert answer.status_code == 422 and "alloy" in answer.json()["remedy"]
    assert lab.sheet_of("L-1").text == before


@pytest.mark.parametrize(
    "file", ["../case.toml", "..%2Fcase.toml", "%2e%2e/%2e%2e/cases/L-1/case.toml", "none.bin"]
)
def test_no_name_leads_out_of_a_folder(client: TestClient, file: str) -> None:
    for place in ("view", "results"):
        answer = client.get(f"/api/cases/L-1/{place}/{file}")
        assert answer.status_code == 404


def test_a_link_is_not_followed(client: TestClient, lab: Laboratory, tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("secret", encoding="utf-8")
    (lab.results_of("L-1") / "link.txt").symlink_to(secret)
    assert client.get("/api/cases/L-1/results/link.txt").status_code == 404


def test_a_way_over_the_model_is_no_shorter_than_the_straight_one(client: TestClient) -> None:
    teeth = client.get("/api/cases/L-1/view").json()["teeth"]
    wish = {"a_arch_mm": teeth[0]["mark"], "b_arch_mm": teeth[2]["mark"]}
    way = client.post("/api/cases/L-1/way", json=wish).json()
    straight = np.linalg.norm(np.subtract(teeth[0]["mark"], teeth[2]["mark"]))
    assert way["straight_mm"] == pytest.approx(straight)
    assert way["surface_mm"] >= way["straight_mm"] - 1e-6


def test_a_section_lies_in_its_plane(client: TestClient) -> None:
    tooth = client.get("/api/cases/L-1/view").json()["teeth"][1]
    wish = {"at_arch_mm": tooth["mark"], "normal_arch": tooth["mesial"]}
    cuts = client.post("/api/cases/L-1/section", json=wish).json()["cuts"]
    assert "model" in {cut["part"] for cut in cuts}
    for cut in cuts:
        for line in cut["lines_arch_mm"]:
            off = (np.array(line) - tooth["mark"]) @ tooth["mesial"]
            assert np.abs(off).max() < 1e-4
        if cut["part"] == "blocked_out":
            assert cut["area_mm2"] > 10
    nowhere = client.post("/api/cases/L-1/section", json=wish | {"normal_arch": [0, 0, 0]})
    assert nowhere.status_code == 422


def test_a_case_is_made_from_scans_and_answers(
    client: TestClient, lab: Laboratory, tmp_path: Path
) -> None:
    scan = tmp_path / "scan.stl"
    write_stl(Mesh(np.eye(3), np.array([[0, 1, 2]])), scan)
    fields = {"name": "L-2", "missing": "36, 37", "functional_depth_mm": "8.5"}
    files = {"master": ("C:\\scans\\..\\Lower.STL", scan.read_bytes())}
    made = client.post("/api/cases", data=fields, files=files)
    assert made.status_code == 201 and made.json()["standing"] == "not worked out"
    assert lab.sheet_of("L-2").prescription.functional_depth_mm == 8.5
    again = client.post("/api/cases", data=fields, files=files)
    assert again.status_code == 422 and "already" in again.json()["what"]


@pytest.mark.parametrize(
    ("fields", "name", "place"),
    [
        ({"missing": "36"}, "scan.exe", "master"),
        ({"missing": "99"}, "scan.stl", "missing"),
        ({"missing": "36", "name": "../up"}, "scan.stl", "name of the case"),
        ({"missing": "36", "functional_depth_mm": "-1"}, "scan.stl", "body.functional_depth_mm"),
    ],
)
def test_wrong_answers_are_told_by_their_field(
    client: TestClient, lab: Laboratory, fields: dict[str, str], name: str, place: str
) -> None:
    form = {"name": "L-3", **fields}
    answer = client.post("/api/cases", data=form, files={"master": (name, b"solid")})
    assert answer.status_code == 422 and answer.json()["place"] == place
    assert "L-3" not in lab.case_folders()
