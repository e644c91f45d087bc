"""Borders, seats and arms that are dragged: what they mean in the sheet."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench.handles import Handle, handles_of, pull
from claspwright.app.bench.laboratory import Laboratory
from claspwright.base import InputError
from claspwright.web import create_app

TOKEN = "a-token-of-the-test"


class NoJobs:
    """Stands in for the processes."""


@pytest.fixture(scope="module")
def lab(worked: Path, tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    root = tmp_path_factory.mktemp("handles") / "lab"
    shutil.copytree(worked, root, ignore=shutil.ignore_patterns("stages"))
    return Laboratory(root)


@pytest.fixture(scope="module")
def client(lab: Laboratory) -> Iterator[TestClient]:
    app = create_app(lab, NoJobs(), TOKEN)  # type: ignore[arg-type]
    with TestClient(app, base_url="http://127.0.0.1:8000") as opened:
        opened.headers["authorization"] = f"Bearer {TOKEN}"
        yield opened


def handle(lab: Laboratory, id_: str) -> Handle:
    return next(one for one in handles_of(lab, "L-1") if one.id == id_)


def tooth_of(client: TestClient, code: int) -> dict[str, Any]:
    teeth = client.get("/api/cases/L-1/view").json()["teeth"]
    return next(one for one in teeth if one["code"] == code)


def test_a_border_raised_or_lowered_changes_its_number_by_as_much(lab: Laboratory) -> None:
    """By hand: 0.8 mm off the other border is 0.8 mm of height; the limit is the table's."""
    lower = handle(lab, "border.lower.2")
    assert lower.across is not None and lower.other is not None
    assert abs(np.linalg.norm(lower.at - lower.other) - 4.0) < 1e-6
    deeper = pull(lab, "L-1", lower.id, lower.at + 0.8 * lower.across)
    assert (deeper.words, deeper.before, deeper.after, deeper.severity) == ("height", 4.0, 4.8, "")
    thin = pull(lab, "L-1", lower.id, lower.at - 1.5 * lower.across)
    assert (thin.after, thin.limit, thin.severity) == (2.5, 3.0, "stop") and thin.source
    assert np.allclose(thin.line[-1], lower.at - 1.5 * lower.across)
    upper = handle(lab, "border.upper.2")
    assert upper.across is not None
    nearer = pull(lab, "L-1", upper.id, upper.at + 0.7 * upper.across)
    farther = pull(lab, "L-1", upper.id, upper.at - 0.7 * upper.across)
    assert float(nearer.after) < float(nearer.before) < float(farther.after)
    assert nearer.severity == "look"


def test_a_rest_goes_to_the_end_of_its_tooth_where_it_is_let_go(
    client: TestClient, lab: Laboratory
) -> None:
    rests = [one for one in handles_of(lab, "L-1") if one.id.endswith("occlusal")]
    for rest in rests:
        tooth = tooth_of(client, rest.tooth or 0)
        along = 0.3 * tooth["mesiodistal_mm"] * np.array(tooth["mesial"])
        top = np.array([*tooth["centre"][:2], rest.at[2]])
        for end, at in (("mesial", top + along), ("distal", top - along)):
            assert str(pull(lab, "L-1", rest.id, at).after).startswith(end)
        with pytest.raises(InputError, match="beside this tooth"):
            pull(lab, "L-1", rest.id, top + 4 * along)
    assert rests


def test_what_is_let_go_becomes_a_revision_and_can_be_undone(
    client: TestClient, lab: Laboratory
) -> None:
    listed = {h["id"]: h for h in client.get("/api/cases/L-1/handles").json()["handles"]}
    lower = handle(lab, "border.lower.2")
    assert lower.across is not None
    np.testing.assert_allclose(listed[lower.id]["at_arch_mm"], lower.at)
    to = (lower.at + 0.5 * lower.across).tolist()
    where = dict(zip(("x_mm", "y_mm", "z_mm"), to, strict=True))
    told = client.get(f"/api/cases/L-1/handles/{lower.id}", params=where).json()
    assert (told["after"], told["unit"]) == (4.5, "mm")
    body = {"handle": lower.id, "at_arch_mm": to, "author": "Ada"}
    page = client.put("/api/cases/L-1/handles", json=body).json()
    assert page["connector"]["height_mm"] == 4.5
    assert page["revisions"]["revisions"][-1]["reason"] == "height: 4.0 to 4.5 mm"
    assert client.put("/api/cases/L-1/handles", json=body).status_code == 422  # nothing differs
    assert client.post("/api/cases/L-1/undo").json()["connector"]["height_mm"] == 4.0


def test_a_base_reaches_as_far_as_its_border_is_dragged(
    client: TestClient, lab: Laboratory
) -> None:
    """Its number is the way over the surface from the crest; it becomes part of the sheet."""
    one = next(h for h in handles_of(lab, "L-1") if h.id.startswith("base.35-36.buccal"))
    assert one.other is not None
    nearer = one.at + 0.25 * (one.other - one.at)
    told = pull(lab, "L-1", one.id, nearer)
    assert told.words == "reach of the base, buccal"
    assert 3.0 <= float(told.after) < float(told.before)
    body = {"handle": one.id, "at_arch_mm": nearer.tolist()}
    page = client.put("/api/cases/L-1/handles", json=body).json()
    assert f"buccal_reach_mm = {told.after}" in page["sheet"]
    assert page["line"]["standing"] == "stale"
    assert pull(lab, "L-1", one.id, nearer).before == told.after
    assert "buccal_reach_mm" not in client.post("/api/cases/L-1/undo").json()["sheet"]


def test_an_arm_begins_at_the_end_and_side_where_it_is_let_go(
    client: TestClient, lab: Laboratory
) -> None:
    arm = next(one for one in handles_of(lab, "L-1") if one.id.startswith("arm."))
    tooth = tooth_of(client, arm.tooth or 0)
    out = 0.3 * tooth["buccolingual_mm"] * np.array(tooth["buccal"])
    off = 0.3 * tooth["mesiodistal_mm"] * np.array(tooth["mesial"])
    top = np.array([*tooth["centre"][:2], arm.at[2]])
    assert pull(lab, "L-1", arm.id, top + out - off).after == "distal, buccal"
    assert pull(lab, "L-1", arm.id, top - out + off).after == "mesial, lingual"


def test_the_course_of_an_arm_is_dragged_and_undone(client: TestClient, lab: Laboratory) -> None:
    """By hand: 0.4 mm up along the path is 0.4 mm more over the survey line."""
    mid = next(h for h in handles_of(lab, "L-1") if h.id.startswith("course.") and "s50" in h.id)
    view = client.get("/api/cases/L-1/view").json()
    up = 0.4 * np.array(view["path"])
    told = pull(lab, "L-1", mid.id, mid.at + up)
    assert told.words == "height of the arm over the survey line"
    assert float(told.after) - float(told.before) == pytest.approx(0.4, abs=0.06)
    arm = next(c for c in view["components"] if c["id"] == mid.component)
    assert len(told.line) == len(arm["line"])
    np.testing.assert_allclose(told.line[[0, -1]], np.array(arm["line"])[[0, -1]], atol=0.3)
    body = {"handle": mid.id, "at_arch_mm": (mid.at + up).tolist()}
    page = client.put("/api/cases/L-1/handles", json=body).json()
    clasp = next(r for r in page["retainers"] if r["tooth"] == mid.tooth)["clasp"]
    assert clasp["course"] == [{"at_share": 0.5, "above_line_mm": told.after}]
    assert f"above_line_mm = {told.after}" in page["sheet"]
    ids = {h.id: h for h in handles_of(lab, "L-1") if h.id.startswith(f"course.{mid.tooth}")}
    assert set(ids) == {f"course.{mid.tooth}.{key}" for key in ("p1", "s25", "s75")}
    moved = ids[f"course.{mid.tooth}.p1"]
    assert pull(lab, "L-1", moved.id, moved.at - up).after == pytest.approx(told.before, abs=0.15)
    retainer = next(r for r in page["retainers"] if r["tooth"] == mid.tooth)
    retainer["clasp"]["side"] = "lingual" if clasp["side"] == "buccal" else "buccal"
    across = client.put("/api/cases/L-1/retainers", json={"retainer": retainer}).json()
    assert "above_line_mm" not in across["sheet"]  # the course was that of the other face
    assert "above_line_mm" in client.post("/api/cases/L-1/undo").json()["sheet"]
    assert "above_line_mm" not in client.post("/api/cases/L-1/undo").json()["sheet"]


def test_thickness_and_clearance_are_told_at_a_place(client: TestClient, lab: Laboratory) -> None:
    """In the middle of a bar of 2 mm the metal is as thick; a rest is thinner, near the bite."""
    bar = handle(lab, "border.upper.2")
    assert bar.other is not None
    where = {"part": "framework", "at_arch_mm": (0.5 * (bar.at + bar.other)).tolist()}
    thick = client.post("/api/cases/L-1/place", json=where).json()
    assert thick["thickness_mm"] > 1.4
    rest = next(one for one in handles_of(lab, "L-1") if one.id.startswith("rest."))
    where["at_arch_mm"] = rest.at.tolist()
    told = client.post("/api/cases/L-1/place", json=where).json()
    assert 0.3 < told["thickness_mm"] <= 2.0
    assert 0.0 <= told["clearance_mm"] < thick["clearance_mm"]
    on_model = client.post("/api/cases/L-1/place", json={**where, "part": "model"}).json()
    assert on_model["thickness_mm"] is None and on_model["clearance_mm"] == told["clearance_mm"]
    assert client.post("/api/cases/L-1/place", json={**where, "part": "no"}).status_code == 404


def test_the_view_becomes_the_tilts_of_the_path(client: TestClient) -> None:
    """By hand: a path that leans by tan 10 degrees to the rear has the front lowered by 10."""
    across = np.tan(np.radians(10.0))
    leaning = np.array([0.0, -across, 1.0]) / np.hypot(1.0, across)
    asked = dict(zip("xyz", leaning.tolist(), strict=True))
    told = client.get("/api/cases/L-1/tilts", params=asked).json()
    assert told == {"anterior_tilt_deg": 10.0, "right_lateral_tilt_deg": 0.0}
    flat = client.get("/api/cases/L-1/tilts", params={"x": 1, "y": 0, "z": 0})
    assert flat.status_code == 422 and "occlusal" in flat.json()["remedy"]


@pytest.mark.parametrize(
    ("handle_id", "query", "status"),
    [
        ("border.upper.9", "x_mm=0&y_mm=0&z_mm=0", 404),
        ("border.upper.2", "x_mm=0&y_mm=0", 422),
        ("border.upper.2", "x_mm=nan&y_mm=0&z_mm=0", 422),
        ("..%2Fcase", "x_mm=0&y_mm=0&z_mm=0", 404),
    ],
)
def test_what_is_not_a_point_of_the_framework_is_refused(
    client: TestClient, handle_id: str, query: str, status: int
) -> None:
    assert client.get(f"/api/cases/L-1/handles/{handle_id}?{query}").status_code == status
