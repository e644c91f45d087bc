"""Whatever is sent to a route of the described API, the server never fails on it."""

from __future__ import annotations

import shutil
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, given, seed, settings

from claspwright.app.bench.jobs import Job
from claspwright.app.bench.laboratory import Laboratory
from claspwright.base import InputError
from claspwright.web import create_app

BASE = "http://127.0.0.1:8000"
EXAMPLES = 6  # of each route; sixty a route were sent once without a failure
LEFT_OUT = ("/api/events", "/live/")  # a stream without end; a process of its own
PARTS = ("method", "url", "headers", "params", "json", "data", "files", "content")


class NotedJobs:
    """Notes what was asked for."""

    def __init__(self) -> None:
        self._jobs: list[Job] = []

    def jobs(self) -> tuple[Job, ...]:
        return tuple(self._jobs)

    def ask(self, case: str, task: str, wish: Mapping[str, Any] | None = None) -> Job:
        self._jobs.append(Job(f"J-{len(self._jobs) + 1:05d}", case, task, wish or {}))
        return self._jobs[-1]

    def cancel(self, number: str) -> Job:
        raise InputError(f"there is no job {number!r}")


@pytest.fixture(scope="module")
def client(worked: Path, tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    root = tmp_path_factory.mktemp("fuzz") / "lab"
    shutil.copytree(worked, root, ignore=shutil.ignore_patterns("stages"))
    app = create_app(Laboratory(root), NotedJobs(), "token")  # type: ignore[arg-type] # stands in
    head = {"authorization": "Bearer token"}
    return TestClient(app, base_url=BASE, raise_server_exceptions=False, headers=head)


def test_no_request_makes_the_server_fail(client: TestClient) -> None:
    described = schemathesis.openapi.from_dict(client.get("/api/openapi.json").json())
    sent = {
        f"{route.method.upper()} {route.path}": _answers(client, route)
        for route in (found.ok() for found in described.get_all_operations())
        if not any(part in route.path for part in LEFT_OUT)
    }
    failed = {name: codes for name, codes in sent.items() if max(codes, default=0) >= 500}
    assert not failed
    assert len(sent) > 40
    assert sum(bool(codes & {200, 201, 202}) for codes in sent.values()) > 15


def _answers(client: TestClient, route: Any) -> set[int]:  # Any: the library has no narrower type
    """Status of every answer to what is made up for a route."""
    codes: set[int] = set()

    @seed(zlib.crc32(route.path.encode()))
    @settings(
        max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck), database=None
    )
    @given(case=route.as_strategy())
    def tried(case: Any) -> None:
        places = dict(case.path_parameters or {})
        if "name" in places and zlib.crc32(repr(places).encode()) % 3:
            places["name"] = "L-1"  # else nearly all would ask for a case that is not there
        case.path_parameters = places
        words = case.as_transport_kwargs(base_url=BASE)
        kept = {key: value for key, value in words.items() if key in PARTS}
        kept["headers"] = {**(kept.get("headers") or {}), "authorization": "Bearer token"}
        try:
            codes.add(client.request(**kept).status_code)
        except UnicodeEncodeError:  # no client can put such a sign into a header or a form
            return

    tried()
    return codes
