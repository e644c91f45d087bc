"""Pages of the register and of the powder: they answer what the commands answer, and refuse."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import text
from tests.app.test_bench_laboratory import of_command
from tests.app.test_bench_stages import BASE, HEAD, TOKEN, AtOnce
from typer.testing import CliRunner

from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.demo_month import demo_month
from claspwright.app.judge_certificate import certificate_text, read_certificate
from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.process import Certificate
from claspwright.records import Register, Signed, init_register, open_register, recall, trace
from claspwright.web import create_app

BY = {"by": "A. Technician"}
ME = Signed("A. Technician", "2026-11-20T08:00:00")
GOOD = {"Co": 63.0, "Cr": 28.5, "Mo": 6.0, "Mn": 0.5, "Si": 0.5, "Fe": 0.3, "Ni": 0.05, "C": 0.1,
        "N": 0.1, "W": 0.1, "Al": 0.02, "Ti": 0.02, "P": 0.01, "S": 0.005, "B": 0.001}  # fmt: skip
CERTIFICATE: dict[str, Any] = {
    "lot": "L-77", "percent": GOOD, "size_um": [16.0, 44.0], "apparent_density_g_cm3": 4.4,
    "shown": ["flow", "moisture"],
}  # fmt: skip
NEW = {"mass_g": 5000.0, "received": "2026-11-19", "maker_lot": "M-9"}


@pytest.fixture
def lab(tmp_path: Path) -> Laboratory:
    """A laboratory with a small register: two lots in one build of two frameworks."""
    with init_register(tmp_path / "register") as register:
        fill(register)
    return Laboratory(tmp_path)


def fill(register: Register) -> None:
    for lot in ("L-1", "L-2"):
        body = {"alloy": "a", "mass_g": 900.0, "received": "2026-11-01"}
        register.add("lot", lot, body, ME)
    build = {"machine": "m", "feedstock": [{"id": "L-1"}], "started": "2026-11-03"}
    register.add("build", "P-1", build, ME)
    for n in (1, 2):
        case = {"arch": "maxilla", "patient": f"P-{n}00", "prescriber": "Dr. May"}
        register.add("case", f"C-{n}", case, ME)
        register.add("part", f"F-{n}", {"case": f"C-{n}", "build": "P-1"}, ME)
    register.set_person("P-100", {"name": "Invented Person"})


@pytest.fixture
def client(lab: Laboratory) -> Iterator[TestClient]:
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as opened:
        yield opened


def state(client: TestClient) -> dict[str, Any]:
    found: dict[str, Any] = client.get("/api/register").json()
    return found


def test_a_register_is_made_and_told(tmp_path: Path) -> None:
    lab = Laboratory(tmp_path)
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as client:
        assert not state(client)["there"]
        assert client.post("/api/register/check", json={}).status_code == 404
        assert client.get("/api/register/things?subject=lot").status_code == 404
        made = client.post("/api/register")
        assert made.status_code == 201 and made.json()["up_to_date"]
        assert made.json()["entries"] == 0


def test_the_check_finds_what_was_changed(client: TestClient, lab: Laboratory) -> None:
    head = state(client)["head"]
    assert client.post("/api/register/check", json={"head": head}).status_code == 202
    found = state(client)["checked"]
    told = of_command("register", "verify", "-r", str(lab.register), "--head", head)
    assert found["faults"] == told["faults"] == []
    assert (found["entries"], found["head"]) == (told["entries"], told["head"])
    assert found["against"] == head
    for wrong in ("7", "x:" + 64 * "0", "7:" + 63 * "0", "²:" + 64 * "0"):
        refused = client.post("/api/register/check", json={"head": wrong})
        assert refused.status_code == 422 and refused.json()["place"] == "head"
    with open_register(lab.register) as register, register.writing() as connection:
        connection.execute(text("UPDATE entry SET made_by = 'Somebody' WHERE seq = 3"))
    client.post("/api/register/check", json={})
    assert "entry 3 (build:P-1) has been changed" in state(client)["checked"]["faults"]


def test_a_backup_can_be_tried_out(client: TestClient, lab: Laboratory) -> None:
    assert client.post("/api/register/backups").status_code == 202
    (kept,) = state(client)["backups"]
    assert kept["head"] == state(client)["head"] and not kept["restored"]
    sent = client.get(f"/api/register/backups/{kept['file']}").content
    assert "Invented Person" in zipfile.ZipFile(io.BytesIO(sent)).read("persons.jsonl").decode()
    assert (lab.backups / kept["file"]).stat().st_mode & 0o077 == 0
    asked = {"file": kept["file"]}
    assert client.post("/api/register/restored", json=asked).status_code == 202
    (again,) = state(client)["backups"]
    assert again["restored"]
    with open_register(lab.restored / Path(kept["file"]).stem) as register:
        seq, digest = register.head()
        assert f"{seq}:{digest}" == kept["head"]
        assert register.person("P-100") == {"name": "Invented Person"}
    twice = client.post("/api/register/restored", json=asked)
    assert twice.status_code == 422 and "restored already" in twice.json()["what"]
    for name in ("none.zip", "../register/register.sqlite", ""):
        assert client.post("/api/register/restored", json={"file": name}).status_code in (404, 422)
    assert client.get("/api/register/backups/register.sqlite").status_code == 404


def test_a_damaged_backup_is_not_restored(client: TestClient, lab: Laboratory) -> None:
    client.post("/api/register/backups")
    (kept,) = state(client)["backups"]
    file = lab.backups / kept["file"]
    with zipfile.ZipFile(file) as archive:
        held = {name: archive.read(name) for name in archive.namelist()}
    held["entries.jsonl"] = held["entries.jsonl"].replace(b"Dr. May", b"Dr. Jun")
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in held.items():
            archive.writestr(name, content)
    refused = client.post("/api/register/restored", json={"file": kept["file"]})
    assert refused.status_code == 422 and "has been changed" in refused.json()["what"]
    assert not (lab.restored / file.stem).exists()


def test_tables_hold_no_health_data(client: TestClient) -> None:
    assert client.post("/api/register/exports").status_code == 202
    (kept,) = state(client)["exports"]
    archive = zipfile.ZipFile(
        io.BytesIO(client.get(f"/api/register/exports/{kept['file']}").content)
    )
    assert "part.csv" in archive.namelist()
    assert not any(b"Invented Person" in archive.read(name) for name in archive.namelist())


def test_questions_are_answered_as_by_the_commands(client: TestClient, lab: Laboratory) -> None:
    asked = {"subject": "part:F-1"}
    traced = client.get("/api/register/trace", params=asked).json()
    recalled = client.get("/api/register/recall", params={"subject": "lot:L-1"}).json()
    with open_register(lab.register) as register:
        assert traced["came_from"] == {
            k: list(v) for k, v in trace(register, "part:F-1").found.items()
        }
        assert [row["part"] for row in recalled["frameworks"]] == [
            one.part for one in recall(register, "lot:L-1")]  # fmt: skip
    assert {row["patient"] for row in recalled["frameworks"]} == {"P-100", "P-200"}
    assert of_command("register", "recall", "lot:L-1", "-r", str(lab.register)) == recalled
    assert client.get("/api/register/recall", params={"subject": "lot:L-2"}).json()[
        "frameworks"] == []  # fmt: skip
    paper = client.get("/api/register/recall/paper", params={"subject": "lot:L-1"})
    assert paper.content.startswith(b"%PDF")
    (entry,) = client.get("/api/register/things", params=asked).json()["rows"]
    assert entry["body"] == {"case": "C-1", "build": "P-1"} and entry["made_by"] == ME.by
    lots = client.get("/api/register/things", params={"subject": "lot"}).json()["rows"]
    assert [row["id"] for row in lots] == ["L-1", "L-2"]
    for way in ("trace", "recall"):
        unknown = client.get(f"/api/register/{way}", params={"subject": "lot:L-9"})
        assert unknown.status_code == 422 and "not in the register" in unknown.json()["what"]
        assert client.get(f"/api/register/{way}").status_code == 422


def test_a_signature_stands_under_what_was_seen(client: TestClient) -> None:
    wish = {"subject": "part:F-1", "meaning": "released", "role": "production lead", **BY}
    assert client.post("/api/register/signatures", json=wish).status_code == 201
    (row,) = client.get("/api/register/things?subject=signature").json()["rows"]
    (seen,) = client.get("/api/register/things?subject=part:F-1").json()["rows"]
    assert row["body"]["hash"] == seen["hash"] and row["body"]["role"] == "production lead"
    client.post("/api/register/check", json={})
    assert state(client)["checked"]["faults"] == []
    unknown = client.post("/api/register/signatures", json={**wish, "subject": "part:F-9"})
    assert unknown.status_code == 422
    assert client.post("/api/register/signatures", json={**wish, "by": " "}).status_code == 422


def test_health_data_are_kept_apart_and_erased_by_right(
    client: TestClient, lab: Laboratory
) -> None:
    asked = {"pseudonym": "P-100"}
    shown = client.post("/api/register/persons/shown", json=asked).json()
    assert shown["kept"] == {"name": "Invented Person"}
    more = {**asked, "fields": {"name": "Invented Person", "born": "1950"}}
    assert client.put("/api/register/persons", json=more).json()["kept"]["born"] == "1950"
    assert (
        client.put("/api/register/persons", json={**more, "pseudonym": "../x"}).status_code == 422
    )
    wish = {**asked, "reason": "asked for it", **BY}
    assert client.post("/api/register/erasures", json={**asked, "by": ""}).status_code == 422
    assert client.post("/api/register/erasures", json=wish).status_code == 201
    assert client.post("/api/register/persons/shown", json=asked).json()["kept"] is None
    twice = client.post("/api/register/erasures", json=wish)
    assert twice.status_code == 422 and "no health data" in twice.json()["what"]
    client.post("/api/register/check", json={})
    assert state(client)["checked"]["faults"] == []
    lines = lab.kept("audit.jsonl").read_text(encoding="utf-8")
    assert "POST /api/register/persons/shown" in lines  # who looked is known too


def test_each_value_stands_against_its_limit(client: TestClient, tmp_path: Path) -> None:
    page = client.get("/api/powder").json()
    limits = {row["item"]: row for row in page["limits"] if row["rule"] != "certificate.declare"}
    assert (limits["Cr"]["low"], limits["Cr"]["high"]) == (27.0, 30.0)  # UNS R30075
    assert (limits["Be"]["high"], limits["Be"]["source"][:9]) == (0.02, "ISO 22674")
    assert [row["id"] for row in page["lots"]] == ["L-2", "L-1"]
    assert client.get("/api/powder?alloy=gold").status_code == 422
    good = client.post("/api/powder/judged", json=CERTIFICATE).json()
    assert good["passed"] and not good["findings"]
    assert not any(row["severity"] for row in good["rows"])
    poor = {**CERTIFICATE, "percent": {**GOOD, "Ni": 0.6, "Cd": 0.03, "Zr": 0.2}, "shown": []}
    del poor["percent"]["Mo"]
    told = client.post("/api/powder/judged", json=poor).json()
    broken = {(row["item"], row["severity"]) for row in told["rows"] if row["severity"]}
    assert broken == {("Ni", "stop"), ("Ni", "look"), ("Cd", "stop"), ("Mo", "stop"),
                      ("flow", "look"), ("moisture", "look")}  # fmt: skip
    unlimited = next(row for row in told["rows"] if row["item"] == "Zr")
    assert (unlimited["low"], unlimited["high"], unlimited["severity"]) == (None, None, None)
    file = tmp_path / "c.toml"
    file.write_text(certificate_text(_as_read(poor)), encoding="utf-8")
    result = CliRunner().invoke(app, ["certificate", str(file), "--json"])
    assert result.exit_code == 1 and json.loads(result.stdout) == told


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"percent": {"Cr": 101.0}}, "percent"),
        ({"percent": {"Cr": -1.0}}, "percent"),
        ({"percent": {"<b>": 1.0}}, "percent"),
        ({"size_um": [10.0]}, "size_um"),
        ({"apparent_density_g_cm3": 0.0}, "density"),
        ({"lot": ""}, "lot"),
        ({"colour": "grey"}, "colour"),
    ],
)
def test_a_certificate_that_is_none_is_refused(
    client: TestClient, change: dict[str, Any], place: str
) -> None:
    refused = client.post("/api/powder/judged", json={**CERTIFICATE, **change})
    assert refused.status_code == 422 and place in refused.json()["place"]


def test_a_typed_certificate_is_entered_with_its_lot(client: TestClient, lab: Laboratory) -> None:
    alone = client.post("/api/powder/certificates", json={**CERTIFICATE, **BY})
    assert alone.status_code == 422 and "not in the register" in alone.json()["what"]
    entered = client.post("/api/powder/certificates", json={**CERTIFICATE, **BY, "new": NEW})
    assert entered.status_code == 201
    row = client.get("/api/powder").json()["lots"][0]
    assert (row["id"], row["certificate_passed"], row["maker_lot"]) == ("L-77", True, "M-9")
    with open_register(lab.register) as register:
        now = register.current("lot", "L-77")
        assert now is not None and now[0] == entered.json()["number"]
        body = now[1]
        kept = register.store.get(body["certificate_file"])
    assert body["certificate"] == GOOD and body["received"] == "2026-11-19"
    (lab.root / "kept.toml").write_bytes(kept)
    assert read_certificate(lab.root / "kept.toml") == _as_read(CERTIFICATE)
    nickel = {**CERTIFICATE, "percent": {**GOOD, "Ni": 2.0}, **BY}
    assert client.post("/api/powder/certificates", json=nickel).status_code == 201
    row = next(r for r in client.get("/api/powder").json()["lots"] if r["id"] == "L-77")
    assert row["certificate_passed"] is False


def test_a_sent_certificate_is_read_and_kept_as_it_was(client: TestClient, lab: Laboratory) -> None:
    content = ("# of the maker\n" + certificate_text(_as_read(CERTIFICATE))).encode()
    sent = client.post("/api/powder/files", files={"certificate": ("c.toml", content)})
    assert sent.status_code == 202
    read = client.get(f"/api/powder/files/{sent.json()['upload']}").json()
    assert {key: read[key] for key in CERTIFICATE} == CERTIFICATE and read["called"] == "c.toml"
    entry = {**CERTIFICATE, **BY, "new": NEW, "upload": sent.json()["upload"]}
    assert client.post("/api/powder/certificates", json=entry).status_code == 201
    changed = {**entry, "apparent_density_g_cm3": 4.5}
    assert client.post("/api/powder/certificates", json=changed).status_code == 201
    with open_register(lab.register) as register:
        first, second = [json.loads(one.body) for one in register.history("lot", "L-77")][1:]
        assert register.store.get(first["certificate_file"]) == content
        assert b"of the maker" not in register.store.get(second["certificate_file"])
    assert client.get("/api/powder/files/none.toml").status_code == 404
    wrong = client.post("/api/powder/files", files={"certificate": ("c.exe", content)})
    assert wrong.status_code == 422
    large = client.post("/api/powder/files", files={"certificate": ("c.toml", b"#" * 200_001)})
    assert large.status_code == 422
    short = client.post("/api/powder/files", files={"certificate": ("c.toml", b'lot = "x"')})
    assert short.status_code == 422 and "cannot be read" in short.json()["what"]


def test_work_on_the_register_belongs_to_no_case(lab: Laboratory) -> None:
    book = JobBook(lab)
    try:
        with pytest.raises(InputError, match="no case"):
            book.ask("", "prove")
        with pytest.raises(InputError, match="no task"):
            book.ask("", "paint")
        assert book.ask("", "export", {"file": "register-1.zip"}).case == ""
    finally:
        book.close()


def test_the_check_of_a_month_tells_how_far_it_is(tmp_path: Path) -> None:
    demo_month(tmp_path, 40, seed=3)
    told: list[float] = []
    with open_register(tmp_path / "register") as register:
        from claspwright.records import verify

        assert verify(register, progress=lambda at, _: told.append(at)).whole
    assert told == sorted(told) and told[-1] == 1.0
    assert len([at for at in told if 0.0 < at < 0.5]) > 0  # within the chain too


def _as_read(of: dict[str, Any]) -> Certificate:
    size = of["size_um"]
    return Certificate(of["lot"], of["percent"], (size[0], size[1]), of["apparent_density_g_cm3"],
                       frozenset(of["shown"]))  # fmt: skip
