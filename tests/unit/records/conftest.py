"""A register of each kind: SQLite in a folder, and PostgreSQL from a server of the test's own."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from claspwright.records import Register, Signed, init_register, open_engine

REQUIRED = os.environ.get("CLASPWRIGHT_SCANS_REQUIRED", "") not in ("", "0")
PLACES = ("/usr/local/bin", "/usr/lib/postgresql/17/bin", "/usr/lib/postgresql/16/bin",
          "/usr/lib/postgresql/15/bin")  # fmt: skip


def program(name: str) -> str | None:
    return shutil.which(name, path=os.pathsep.join([os.environ.get("PATH", ""), *PLACES]))


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """URL of a PostgreSQL server on loopback, in a temporary folder, gone afterwards."""
    initdb, postgres = program("initdb"), program("postgres")
    if initdb is None or postgres is None:
        say = "no PostgreSQL server is installed"
        if REQUIRED:
            pytest.fail(f"{say}, but it is required here")
        pytest.skip(say)
    folder = Path(tempfile.mkdtemp(prefix="claspwright-postgresql-"))
    as_other: dict[str, Any] = {}
    if hasattr(os, "geteuid") and os.geteuid() == 0:  # the server refuses to run as root
        import pwd

        nobody = pwd.getpwnam("nobody")
        os.chown(folder, nobody.pw_uid, nobody.pw_gid)
        as_other = {"user": nobody.pw_uid, "group": nobody.pw_gid, "extra_groups": []}
    cluster = folder / "cluster"
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    make = [initdb, "-D", str(cluster), "-U", "lab", "--auth=trust", "-E", "UTF8", "-N"]
    subprocess.run(make, check=True, capture_output=True, cwd=folder, **as_other)
    words = [postgres, "-D", str(cluster), "-p", str(port), "-k", str(folder), "-h", "127.0.0.1"]
    running = subprocess.Popen(
        [*words, "-c", "fsync=off"], cwd=folder,
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **as_other,
    )  # fmt: skip
    url = f"postgresql://lab@127.0.0.1:{port}/postgres"
    try:
        wait_for(url)
        yield url
    finally:
        running.send_signal(signal.SIGQUIT)  # at once: nothing of it is kept
        running.wait(30)
        shutil.rmtree(folder, ignore_errors=True)


def wait_for(url: str) -> None:
    engine = open_engine(url)
    for attempt in range(100):
        try:
            with engine.connect():
                break
        except Exception:  # noqa: BLE001 - whatever a server says that is not up yet
            if attempt == 99:
                raise
            time.sleep(0.1)
    engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[str, str]:
    """Where a new register goes: address of the database, folder of the files."""
    if request.param == "sqlite":
        return str(tmp_path / "lab"), str(tmp_path / "lab" / "files")
    return new_laboratory(request.getfixturevalue("server")), str(tmp_path / "files")


def new_laboratory(url: str) -> str:
    """Address of a laboratory of its own in the server's one database."""
    return f"{url}?laboratory=lab{time.monotonic_ns()}"


@pytest.fixture
def another_laboratory(server: str) -> Callable[[], str]:
    """Makes addresses of laboratories in the server's database, a new one at each call."""
    return lambda: new_laboratory(server)


@pytest.fixture
def register(place: tuple[str, str]) -> Iterator[Register]:
    with init_register(place[0], files=place[1]) as opened:
        yield opened


@pytest.fixture
def me() -> Signed:
    return Signed("A. Technician", "2026-11-25T09:00:00")
