"""A bench for other machines: accounts, roles, limits, TLS; served on loopback alone here."""

from __future__ import annotations

import json
import shutil
import ssl
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx2 as httpx
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench.accounts import account_with, accounts, drop_account, set_account
from claspwright.app.bench.laboratory import Laboratory
from claspwright.base import InputError
from claspwright.case import Answers, sheet_text
from claspwright.web import Network, create_app, serve
from claspwright.web.sessions import IDLE_S, WINDOW_S, AccountDoor

BASE = "https://bench.test"
WORDS = {"Ada": "a long enough word", "Lea": "another long word", "Dr. May": "one more long word"}


class NoJobs:
    """Stands in for the processes."""

    def jobs(self) -> tuple[object, ...]:
        return ()


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    """Two cases that were not worked out, and an account of each role."""
    lab = Laboratory(tmp_path_factory.mktemp("lab"))
    for name in ("L-1", "L-2"):
        folder = lab.root / "cases" / name
        (folder / "scans").mkdir(parents=True)
        (folder / "scans" / "master.stl").write_bytes(b"solid")
        answers = Answers(name, "mandible", "cocr-lpbf-stress-relieved", [36, 37])
        (folder / "case.toml").write_text(sheet_text(answers, master="scans/master.stl"), "utf-8")
    set_account(lab, "Ada", "technician", WORDS["Ada"])
    set_account(lab, "Lea", "lead", WORDS["Lea"])
    set_account(lab, "Dr. May", "dentist", WORDS["Dr. May"], ("L-1",))
    return lab


@pytest.fixture
def now() -> list[float]:
    return [0.0]


@pytest.fixture
def opened(lab: Laboratory, now: list[float]) -> Iterator[Callable[[str], TestClient]]:
    """Signs somebody in, or nobody."""
    door = AccountDoor(lab, frozenset(["bench.test"]), clock=lambda: now[0])
    app = create_app(lab, NoJobs(), door)  # type: ignore[arg-type] # no job is asked for

    def sign_in(name: str) -> TestClient:
        client = TestClient(app, base_url=BASE)
        if name:
            told = client.post("/api/session", json={"name": name, "password": WORDS[name]})
            assert told.status_code == 200 and told.json()["name"] == name
            client.headers["x-claspwright-session"] = told.json()["secret"]
        return client

    yield sign_in


def last_lines(lab: Laboratory, count: int) -> list[dict[str, object]]:
    lines = lab.kept("audit.jsonl").read_text(encoding="utf-8").splitlines()
    return [json.loads(line) for line in lines[-count:]]


def test_nobody_sees_the_page_alone(opened: Callable[[str], TestClient]) -> None:
    client = opened("")
    page = client.get("/")
    assert page.status_code == 200 and "Strict-Transport-Security" in page.headers
    assert client.get("/api/session").json() == {
        "accounts": True, "name": "", "role": "", "secret": "",
    }  # fmt: skip
    for path in ("/api/cases", "/api/cases/L-1", "/api/openapi.json", "/api/events", "/api/jobs"):
        assert client.get(path).status_code == 401, path
    assert client.post("/api/cases/L-1/undo").status_code == 401
    assert client.get("/api/cases?token=").status_code == 401


def test_the_cookie_is_for_this_host_tls_and_the_server_alone(
    opened: Callable[[str], TestClient],
) -> None:
    client = opened("")
    told = client.post("/api/session", json={"name": "Ada", "password": WORDS["Ada"]})
    parts = told.headers["set-cookie"].split("; ")
    assert parts[0].startswith("__Host-claspwright=")
    assert {"HttpOnly", "Secure", "SameSite=strict", "Path=/"} <= set(parts)
    assert not any(part.startswith("Domain") for part in parts)


def test_a_change_needs_the_second_secret_and_is_noted(
    opened: Callable[[str], TestClient], lab: Laboratory
) -> None:
    client = opened("Ada")
    tilts = {"anterior_tilt_deg": 2.0, "right_lateral_tilt_deg": 0.0}
    body = {"tilts": tilts, "author": "somebody else"}
    forged = client.put("/api/cases/L-1/path", json=body, headers={"x-claspwright-session": "no"})
    assert forged.status_code == 403
    done = client.put("/api/cases/L-1/path", json=body)
    assert done.status_code == 200
    assert done.json()["revisions"]["revisions"][-1]["author"] == "Ada"
    refused, made = last_lines(lab, 2)
    assert (refused["status"], made["status"]) == (403, 200)
    assert (made["who"], made["what"]) == ("Ada", "PUT /api/cases/L-1/path")


@pytest.mark.parametrize(
    ("who", "method", "path", "status"),
    [
        ("Ada", "GET", "/api/cases/L-2", 200),
        ("Ada", "POST", "/api/cases/L-1/dispatch", 403),
        ("Ada", "PUT", "/api/laboratory", 403),
        ("Ada", "GET", "/api/laboratory", 200),
        ("Ada", "GET", "/api/month?first=2026-11-01&last=2026-11-30", 403),
        ("Ada", "GET", "/api/month/paper?first=2026-11-01&last=2026-11-30", 403),
        ("Ada", "PUT", "/api/rates", 403),
        ("Lea", "GET", "/api/rates", 200),
        ("Ada", "GET", "/api/register", 200),
        ("Ada", "GET", "/api/powder", 200),
        ("Ada", "POST", "/api/register/check", 403),
        ("Ada", "POST", "/api/register/backups", 403),
        ("Ada", "GET", "/api/register/backups/register-1.zip", 403),
        ("Ada", "POST", "/api/register/exports", 403),
        ("Ada", "POST", "/api/register/restored", 403),
        ("Ada", "POST", "/api/register/persons/shown", 403),
        ("Ada", "PUT", "/api/register/persons", 403),
        ("Ada", "POST", "/api/register/erasures", 403),
        ("Lea", "GET", "/api/register/backups/register-1.zip", 404),
        ("Ada", "GET", "/api/coupon", 200),
        ("Ada", "GET", "/api/arm/alloys", 200),
        ("Dr. May", "GET", "/api/coupon", 403),
        ("Dr. May", "POST", "/api/coupon", 403),
        ("Dr. May", "POST", "/api/arm", 403),
        ("Dr. May", "POST", "/api/cases/L-1/survey", 403),
        ("Dr. May", "POST", "/api/cases/L-1/scans", 403),
        ("Dr. May", "GET", "/api/register", 403),
        ("Dr. May", "GET", "/api/powder", 403),
        ("Dr. May", "GET", "/api/register/recall?subject=lot:L-1", 403),
        ("Lea", "POST", "/api/cases/L-1/dispatch", 404),
        ("Lea", "GET", "/api/month?first=2026-11-01&last=2026-11-30", 404),
        ("Dr. May", "GET", "/api/cases/L-1", 200),
        ("Dr. May", "GET", "/api/cases/L-1/stages", 200),
        ("Dr. May", "GET", "/api/cases/L-2", 403),
        ("Dr. May", "GET", "/api/cases/L-2/results/report.pdf", 403),
        ("Dr. May", "GET", "/api/cases/L-1%2F..%2FL-2", 404),
        ("Dr. May", "GET", "/api/jobs", 403),
        ("Dr. May", "GET", "/api/events", 403),
        ("Dr. May", "GET", "/api/builds", 403),
        ("Dr. May", "POST", "/api/cases/L-1/undo", 403),
        ("Dr. May", "PUT", "/api/cases/L-1/sheet", 403),
    ],
)
def test_each_role_may_do_its_own(
    opened: Callable[[str], TestClient], who: str, method: str, path: str, status: int
) -> None:
    body = {"by": "x"} if method == "POST" else {} if method == "PUT" else None
    assert opened(who).request(method, path, json=body).status_code == status


def test_a_dentist_is_told_of_the_named_case_alone(opened: Callable[[str], TestClient]) -> None:
    assert [c["name"] for c in opened("Dr. May").get("/api/cases").json()["cases"]] == ["L-1"]
    assert len(opened("Lea").get("/api/cases").json()["cases"]) == 2


def test_wrong_passwords_close_the_door_for_a_while(
    opened: Callable[[str], TestClient], now: list[float], lab: Laboratory
) -> None:
    client = opened("")
    wrong = {"name": "Lea", "password": "not her password"}
    assert [client.post("/api/session", json=wrong).status_code for _ in range(5)] == [401] * 5
    shut = client.post("/api/session", json={"name": "Lea", "password": WORDS["Lea"]})
    assert shut.status_code == 429 and int(shut.headers["retry-after"]) == WINDOW_S
    assert last_lines(lab, 1)[0]["who"] == "Lea"
    now[0] += WINDOW_S + 1
    opened("Lea")


def test_an_idle_session_ends_and_so_does_a_dropped_account(
    opened: Callable[[str], TestClient], now: list[float], lab: Laboratory
) -> None:
    client = opened("Ada")
    now[0] += IDLE_S + 1
    assert client.get("/api/cases").status_code == 401
    set_account(lab, "Eve", "technician", "a long word for Eve")
    WORDS["Eve"] = "a long word for Eve"
    eve = opened("Eve")
    assert eve.get("/api/cases").status_code == 200
    drop_account(lab, "Eve")
    assert eve.get("/api/cases").status_code == 401
    ada = opened("Ada")
    assert ada.delete("/api/session").status_code == 204
    assert ada.get("/api/cases").status_code == 401


def test_foreign_names_and_sites_and_endless_bodies_are_refused(
    opened: Callable[[str], TestClient],
) -> None:
    client = opened("Ada")
    assert client.get("/api/cases", headers={"host": "other.test"}).status_code == 421
    away = client.post("/api/cases/L-1/undo", headers={"origin": "https://site.example"})
    assert away.status_code == 403
    endless = client.put("/api/cases/L-1/sheet", content=iter([b"{"] * 3))
    assert endless.status_code == 411
    long = client.put(
        "/api/cases/L-1/sheet", content=b"x", headers={"content-length": str(3_000_000)}
    )
    assert long.status_code == 413


@pytest.mark.parametrize(
    ("name", "role", "password", "cases", "place"),
    [
        ("x", "technician", "a long enough word", (), "name"),
        ("Ada", "owner", "a long enough word", (), "role"),
        ("Ada", "technician", "short", (), "password"),
        ("Doc", "dentist", "a long enough word", (), "cases"),
    ],
)
def test_an_account_must_be_sound(
    lab: Laboratory, name: str, role: str, password: str, cases: tuple[str, ...], place: str
) -> None:
    with pytest.raises(InputError) as error:
        set_account(lab, name, role, password, cases)
    assert error.value.place == place


def test_passwords_are_kept_as_argon2_and_by_the_owner_alone(lab: Laboratory) -> None:
    path = lab.kept("accounts.json")
    assert path.stat().st_mode & 0o077 == 0
    assert all(one.password_hash.startswith("$argon2id$") for one in accounts(lab).values())
    assert account_with(lab, "nobody", "whatever it may be") is None
    found = account_with(lab, "Ada", WORDS["Ada"])
    assert found is not None and found.role == "technician"


@pytest.fixture(scope="module")
def tls(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A certificate for loopback and its key, made for this run."""
    folder = tmp_path_factory.mktemp("tls")
    certificate, key = folder / "certificate.pem", folder / "key.pem"
    made = shutil.which("openssl")
    if made is None:
        pytest.skip("no openssl on this machine to make a certificate with")
    words = ["req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes",
             "-keyout", str(key), "-out", str(certificate), "-days", "1", "-subj", "/CN=localhost",
             "-addext", "subjectAltName=DNS:localhost,IP:127.0.0.1"]  # fmt: skip
    subprocess.run([made, *words], check=True, capture_output=True)
    key.chmod(0o600)
    return certificate, key


def test_a_network_asks_for_everything(
    lab: Laboratory, tls: tuple[Path, Path], tmp_path: Path
) -> None:
    certificate, key = tls
    loose = tmp_path / "loose.pem"
    shutil.copy(key, loose)
    loose.chmod(0o644)
    none = tmp_path / "empty"
    for root, network, place in (
        (none, Network("127.0.0.1", certificate, key), "--listen"),
        (lab.root, Network("127.0.0.1", None, key), "--certificate"),
        (lab.root, Network("127.0.0.1", certificate, None), "--key"),
        (lab.root, Network("127.0.0.1", certificate, loose), loose.as_posix()),
        (lab.root, Network("127.0.0.1", key, key), "--certificate"),
        (lab.root, Network("0.0.0.0", certificate, key), "--listen"),
    ):
        with pytest.raises(InputError) as error:
            serve(root, network=network, browser=False, say=print)
        assert error.value.place == place


def test_it_is_served_by_tls_alone(lab: Laboratory, tls: tuple[Path, Path]) -> None:
    certificate, key = tls
    command = [sys.executable, "-m", "claspwright.cli", "bench", str(lab.root), "--listen",
               "127.0.0.1", "--name", "localhost", "--certificate", str(certificate), "--key",
               str(key), "--no-browser"]  # fmt: skip
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            address = process.stdout.readline().split()[-1]
            assert address.startswith("https://localhost:")
            trusted = ssl.create_default_context(cafile=certificate)
            with httpx.Client(verify=trusted, base_url=address) as client:
                assert client.get("/api/cases").status_code == 401
                words = {"name": "Lea", "password": WORDS["Lea"]}
                assert client.post("/api/session", json=words).status_code == 200
                assert client.get("/api/cases").status_code == 200
            with pytest.raises(httpx.HTTPError), httpx.Client(timeout=5) as plain:
                plain.get(address.replace("https", "http"))
        finally:
            process.terminate()
            process.wait(60)
