"""Changes shown before the case is worked out: of rests, connector and bases, as pieces alone."""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench.edits import By, design_in_force, set_base, set_connector
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.live import LiveHand
from claspwright.framework import DentureBase
from claspwright.web import create_app

TOKEN = "a-token-of-the-test"
ADA = By("Ada", "")


class NoJobs:
    """Stands in for the processes."""


@pytest.fixture(scope="module")
def lab(worked: Path, tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    root = tmp_path_factory.mktemp("live") / "lab"
    shutil.copytree(worked, root)
    return Laboratory(root)


@pytest.fixture(scope="module")
def client(lab: Laboratory) -> Iterator[TestClient]:
    app = create_app(lab, NoJobs(), TOKEN)  # type: ignore[arg-type]
    with TestClient(app, base_url="http://127.0.0.1:8000") as opened:
        opened.headers["authorization"] = f"Bearer {TOKEN}"
        assert opened.post("/api/cases/L-1/live/ready").json() == {"ready": True}
        yield opened
        app.state.bench.live.close()


def shown(client: TestClient) -> dict[str, Any]:
    """What a change looks like; its mesh holds what the list says."""
    answer = client.post("/api/cases/L-1/live/laid")
    assert answer.status_code == 200, answer.json()
    told: dict[str, Any] = answer.json()
    raw = client.get(f"/api/cases/L-1/live/{told['part']['key']}.bin").content
    assert len(raw) == 12 * (told["part"]["vertices"] + told["part"]["faces"]) > 0
    corners = np.frombuffer(raw, "<f4", 3 * told["part"]["vertices"]).reshape(-1, 3)
    for one in told["components"]:  # the body lies round the lines of its parts
        line = np.array(one["line"])
        away = np.linalg.norm(line[:, None] - corners[None, ::7], axis=2).min(axis=1)
        assert np.median(away) < 3.5, one["id"]
    return told


def test_of_cases_opened_one_after_another_the_last_is_taken_up(
    lab: Laboratory, monkeypatch: pytest.MonkeyPatch
) -> None:
    hand, taken, go_on = LiveHand(lab), list[str](), threading.Event()

    def take(_: object, __: Path, case: str) -> bool:
        taken.append(case)
        return go_on.wait(20)

    monkeypatch.setattr(hand, "_do", take)
    with ThreadPoolExecutor(3) as threads:
        first = threads.submit(hand.warm, "A")
        while not taken:
            time.sleep(0.01)
        second = threads.submit(hand.warm, "B")
        while hand._wanted != "B":
            time.sleep(0.01)
        third = threads.submit(hand.warm, "C")
        while hand._wanted != "C":
            time.sleep(0.01)
        go_on.set()
        assert [one.result(20) for one in (first, second, third)] == [True, False, True]
    assert taken == ["A", "C"]


def ids(told: dict[str, Any]) -> set[str]:
    return {one["id"] for one in told["components"]}


def only_pieces(client: TestClient, told: dict[str, Any]) -> None:
    assert told["cuts"] is False
    refused = client.post("/api/cases/L-1/live/cut")
    assert refused.status_code == 422 and "connector" in refused.json()["what"]


def test_a_changed_connector_is_shown(client: TestClient, lab: Laboratory) -> None:
    connector = design_in_force(lab, "L-1")[1]
    assert connector is not None
    higher = replace(connector, height_mm=connector.height_mm + 1.0)
    set_connector(lab, "L-1", ADA, higher)
    told = shown(client)
    assert "major_connector" in ids(told) and not any(i.startswith("rest.") for i in ids(told))
    only_pieces(client, told)
    client.post("/api/cases/L-1/undo")
    nothing = client.post("/api/cases/L-1/live/laid")
    assert nothing.status_code == 422 and "nothing differs" in nothing.json()["what"]


def test_a_changed_base_is_shown_with_its_borders(client: TestClient, lab: Laboratory) -> None:
    """The border asked for lies its reach away from the crest, over the surface at least as far."""
    set_base(lab, "L-1", ADA, DentureBase((35, 36), buccal_reach_mm=6.0))
    told = shown(client)
    assert ids(told) and all(one.startswith("base.35-36") for one in ids(told))
    only_pieces(client, told)
    rows = client.get("/api/cases/L-1/view").json()["base_borders"]
    crest = np.array(next(row for row in rows if row["teeth"] == [35, 36])["crest"])
    assert len(told["borders"]) == 2
    away = [
        np.linalg.norm(np.array(line)[:, None] - crest[None], axis=2).min(axis=1)
        for line in told["borders"]
    ]
    assert min(a.max() for a in away) <= 6.05 and all(a.min() > 1.0 for a in away)
    client.post("/api/cases/L-1/undo")


def test_a_rest_at_the_other_end_and_one_on_another_tooth_are_shown(
    client: TestClient, lab: Laboratory
) -> None:
    first = next(r for r in design_in_force(lab, "L-1")[0] if r.rests == ("mesial occlusal",))
    body: dict[str, Any] = {"retainer": {"tooth": first.tooth, "rests": ["distal occlusal"]}}
    assert client.put("/api/cases/L-1/retainers", json=body).status_code == 200
    told = shown(client)
    assert f"rest.{first.tooth}.distal-occlusal" in ids(told)
    only_pieces(client, told)
    client.post("/api/cases/L-1/undo")
    carried = {r.tooth for r in design_in_force(lab, "L-1")[0]}
    bare = next(code for code in (44, 33, 43) if code not in carried)
    rest = "distal occlusal" if bare == 44 else "cingulum"
    body = {"retainer": {"tooth": bare, "rests": [rest]}}
    assert client.put("/api/cases/L-1/retainers", json=body).status_code == 200
    assert any(one.startswith(f"rest.{bare}") for one in ids(shown(client)))
    client.post("/api/cases/L-1/undo")


def test_a_moved_tip_is_still_cut(client: TestClient, lab: Laboratory) -> None:
    clasped = next(r for r in client.get("/api/cases/L-1").json()["retainers"]
                   if r["clasp"] and r["clasp"]["form"] == "circumferential")  # fmt: skip
    clasped["clasp"]["undercut_mm"] -= 0.03
    assert client.put("/api/cases/L-1/retainers", json={"retainer": clasped}).status_code == 200
    told = shown(client)
    assert told["cuts"] is True and told["borders"] == []
    assert client.post("/api/cases/L-1/live/cut").json()["part"]["key"] == "framework"
    client.post("/api/cases/L-1/undo")
