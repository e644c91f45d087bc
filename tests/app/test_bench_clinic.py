"""Pages between laboratory and clinic, of acrylic and of quality: what they enter and refuse."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from fastapi.testclient import TestClient
from tests.app.test_bench_stages import BASE, HEAD, TOKEN, AtOnce

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.register_desk import enter
from claspwright.app.quality import quality_of, told
from claspwright.app.results import acrylic_of_run
from claspwright.process import acrylic_amount
from claspwright.records import Signed, open_register
from claspwright.web import create_app

if TYPE_CHECKING:
    from tests.app.conftest import Done

BY = {"by": "A. Technician"}
ME = Signed("A. Technician", "2026-11-20T08:00:00")
CLINIC = "/api/cases/L-1/clinic"
GAPS = (150.0, 180.0, 210.0, 190.0, 520.0, 160.0)


@pytest.fixture(scope="module")
def lab(done: Done, tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    """A worked-out case in the register, with frameworks of one build that were inspected."""
    root = tmp_path_factory.mktemp("clinic")
    shutil.copytree(done.case, root / "cases" / "L-1")
    shutil.copytree(done.out, root / "results" / "L-1")
    return Laboratory(root)


@pytest.fixture(scope="module")
def client(lab: Laboratory) -> Iterator[TestClient]:
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as opened:
        assert not opened.get(CLINIC).json()["entered"]
        early = opened.post(f"{CLINIC}/deliveries", json={"delivered": "2026-11-20", "fits": True,
                                                          **BY})  # fmt: skip
        assert early.status_code == 404  # nothing was entered yet
        assert opened.post("/api/cases/L-1/register", json=BY).status_code == 201
        lot = {"alloy": "a", "mass_g": 5000.0, "received": "2026-11-01"}
        enter(lab, "lot", "P-1", lot, ME)
        build = {"machine": "one", "feedstock": [{"id": "P-1"}], "started": "2026-11-10"}
        enter(lab, "build", "B-1", build, ME)
        for n, gap in enumerate(GAPS):
            enter(lab, "part", f"F-{n}", {"case": "TEST-1", "build": "B-1"}, ME)
            seen = {"part": f"F-{n}", "passed": gap < 300, "rest_gap_um": gap, "what": "seating",
                    "rests": {"rest.35.mesial-occlusal": gap}}  # fmt: skip
            enter(lab, "inspection", f"F-{n}/1", seen, ME)
        yield opened


def page(client: TestClient) -> dict[str, Any]:
    told_: dict[str, Any] = client.get(CLINIC).json()
    return told_


def test_an_approval_is_bound_to_what_was_seen(client: TestClient, lab: Laboratory) -> None:
    kept = client.post(f"{CLINIC}/revisions", json=BY).json()
    answer = {"revision": kept["id"], "seen_hash": "0" * 12, "approved": True, **BY}
    assert client.post(f"{CLINIC}/answers", json=answer).status_code == 422
    answer["seen_hash"] = kept["hash"][:12]
    assert client.post(f"{CLINIC}/answers", json=answer).status_code == 201
    answer["revision"] = "ANOTHER/1"
    assert client.post(f"{CLINIC}/answers", json=answer).status_code == 404
    assert page(client)["revisions"][-1]["answers"] == [{"approved": True, "text": ""}]
    assert (lab.results_of("L-1") / "framework.stl").is_file()


@pytest.mark.parametrize(
    ("said", "changed", "status"),
    [
        ("a change is asked for", "", 201),
        ("the design is approved for making", "", 201),
        ("the design is approved for making", "another file", 422),
        ("perhaps", "", 422),
    ],
)
def test_the_text_of_the_dentists_page_is_taken(
    client: TestClient, lab: Laboratory, said: str, changed: str, status: int
) -> None:
    client.post(f"{CLINIC}/revisions", json=BY)
    stl = (lab.results_of("L-1") / "framework.stl").read_bytes() + changed.encode()
    text = f"Case TEST-1: {said}.\nRefers to framework.stl, SHA-256 {sha256(stl).hexdigest()}."
    sent = client.post(f"{CLINIC}/answers/text", json={"text": text, **BY})
    assert sent.status_code == status
    if status == 201:
        assert sent.json()["approved"] is ("approved" in said)
        assert page(client)["revisions"][-1]["answers"][-1]["text"] == text


def test_a_design_that_has_changed_since_is_not_offered(
    client: TestClient, lab: Laboratory
) -> None:
    sheet = lab.folder_of("L-1") / "case.toml"
    text = sheet.read_text("utf-8")
    sheet.write_text(text + "\n[path]\nanterior_tilt_deg = 2.0\n", "utf-8")
    try:
        refused = client.post(f"{CLINIC}/revisions", json=BY)
        assert refused.status_code == 422 and "Work the case out" in refused.json()["remedy"]
        assert page(client)["stale"]
    finally:
        sheet.write_text(text, "utf-8")


def test_try_in_film_and_recall_are_entered(client: TestClient) -> None:
    tried = {"part": "F-0", "place": "rest.35.mesial", "amount_um": 60, "how": "ground",
             "minutes": 5, **BY}  # fmt: skip
    assert client.post(f"{CLINIC}/try-ins", json=tried).status_code == 201
    assert client.post(f"{CLINIC}/try-ins", json={**tried, "how": "wished"}).status_code == 422
    assert client.post(f"{CLINIC}/try-ins", json={**tried, "part": "F-99"}).status_code == 404
    film = {"part": "F-0", "gaps_um": {"rest.35.mesial-occlusal": 170}, **BY}
    assert client.post(f"{CLINIC}/films", json=film).status_code == 201
    jaw = {"made": "2026-11-21", "wax_rims": True, "vertical_mm": 62.5, "part": "F-0", **BY}
    assert client.post(f"{CLINIC}/jaw-records", json=jaw).status_code == 201
    fits = {"delivered": "2026-11-25", "fits": False, "minutes": 12, **BY}
    assert client.post(f"{CLINIC}/deliveries", json=fits).status_code == 201
    seen = {"seen": "2026-12-20", "worn": True, "sore": True, **BY}
    assert client.post(f"{CLINIC}/follow-ups", json=seen).status_code == 201
    now = page(client)
    assert now["entries"]["adjustment"][0]["amount_um"] == 60
    assert now["film_off_um"]["F-0"] == {"rest.35.mesial-occlusal": 20.0}
    assert now["entries"]["jaw_record"][0]["vertical_mm"] == 62.5
    assert now["entries"]["delivery"][0]["fits"] is False
    assert now["entries"]["follow_up"][0]["sore"] is True
    listed = client.get("/api/cases/L-1/register").json()["entries"]
    assert {"jaw_record", "delivery", "follow_up"} <= {one["kind"] for one in listed}


def test_teeth_and_shades_stay_when_the_case_is_entered_again(client: TestClient) -> None:
    chosen = {"shade": "light", "tooth_mould": "oval", "teeth": "36, 37", **BY}
    assert client.post(f"{CLINIC}/teeth", json=chosen).status_code == 201
    assert client.post(f"{CLINIC}/teeth", json=BY).status_code == 422
    client.post("/api/cases/L-1/register", json=BY)
    fields = page(client)["fields"]
    assert fields["shade"] == "light" and fields["kennedy_class"].startswith("Kennedy class")


def test_an_altered_cast_holds_the_case_back_until_it_is_done(client: TestClient) -> None:
    said = {"needed": True, **BY}
    assert client.post(f"{CLINIC}/altered-cast", json=said).status_code == 201
    stops = client.get("/api/cases/L-1/register").json()["stops"]
    assert any("altered cast" in one for one in stops)
    client.post(f"{CLINIC}/altered-cast", json={**said, "done": "2026-11-23"})
    stops = client.get("/api/cases/L-1/register").json()["stops"]
    assert not any("altered cast" in one for one in stops)


def test_a_remake_is_a_case_of_its_own(client: TestClient) -> None:
    back = {"id": "TEST-1-R", "work": "remake", "reason": "rocks", **BY}
    assert client.post(f"{CLINIC}/back", json=back).status_code == 201
    assert client.post(f"{CLINIC}/back", json=back).status_code == 422  # there already
    (child,) = page(client)["entries"]["case"]
    assert (child["id"], child["reason"]) == ("TEST-1-R", "rocks")


def test_acrylic_is_told_by_the_same_functions(client: TestClient, lab: Laboratory) -> None:
    cycles = client.get("/api/cases/L-1/acrylic").json()["cycles"]
    wish = {"steps": cycles["long"], "model": "stone", "bench_cool_min": 30, "water_cool_min": 15}
    plan = client.post("/api/cases/L-1/acrylic/plan", json=wish).json()
    volume = acrylic_of_run(lab.results_of("L-1"))
    assert plan["from_run_cm3"] == volume and not plan["findings"]
    assert plan["amount"]["powder_g"] == acrylic_amount(1000 * volume).powder_g
    boiled = [{"bath_c": 100, "minutes": 60, "rise_min": 0}]
    wrong = {**wish, "steps": boiled, "model": "printed resin", "bench_cool_min": 0}
    plan = client.post("/api/cases/L-1/acrylic/plan", json=wrong).json()
    rules = {one["rule"] for one in plan["findings"]}
    assert rules == {"acrylic.model", "acrylic.plunge", "acrylic.quench"}
    lots = {"powder_lot": "A-1", "liquid_lot": "A-2", "base_cm3": 8.0, **BY}
    assert client.post("/api/cases/L-1/acrylic", json=lots).status_code == 201
    listed = client.get("/api/cases/L-1/register").json()["entries"]
    (entry,) = [one["fields"] for one in listed if one["kind"] == "acrylic"]
    assert entry["powder_g"] == round(acrylic_amount(8000.0).powder_g, 1)


def test_quality_is_that_of_the_command(client: TestClient, lab: Laboratory) -> None:
    asked = "/api/quality?first=2026-11-01&last=2026-11-30"
    seen = client.get(asked).json()["told"]
    with open_register(lab.register) as register:
        assert seen == _plain(told(quality_of(register, "2026-11-01", "2026-11-30")))
    gaps = next(one for one in seen["measures"] if one["name"] == "rest_gap_um")
    assert len(gaps["chart"]["values"]) == len(GAPS)
    assert client.get("/api/quality?first=2026-12-01&last=2026-11-01").status_code == 422


def _plain(value: Any) -> Any:
    import json

    return json.loads(json.dumps(value))


def test_files_that_are_approved_are_those_of_the_run(lab: Laboratory) -> None:
    from claspwright.app.bench.clinic_desk import APPROVED_FILES

    made = {path.name for path in Path(lab.results_of("L-1")).iterdir()}
    assert set(APPROVED_FILES) <= made
