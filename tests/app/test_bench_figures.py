"""Figures of no case at the bench: a single arm, the coupon for distortion."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fastapi.testclient import TestClient

from claspwright.app.bench.jobs import Job
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.worker import TASKS
from claspwright.base import silent
from claspwright.build import Coupon, strain_from_rise
from claspwright.formats import read_mesh, read_process
from claspwright.materials import material
from claspwright.mechanics import BareArm, bare_arm
from claspwright.web import create_app

TOKEN = "a-token-of-the-test"
ALLOY = "cocr-lpbf-stress-relieved"
ARM = {"length_mm": 12, "radius_mm": 0.8, "undercut_mm": 0.25, "tip_ratio": 0.5, "alloy": ALLOY}
SMALL = {"length_mm": 12, "width_mm": 2, "height_mm": 1, "legs": 3, "leg_mm": 1, "leg_height_mm": 1}


class AtOnce:
    """Does each job where it is asked for."""

    def __init__(self, lab: Laboratory) -> None:
        self._lab = lab

    def jobs(self) -> tuple[Job, ...]:
        return ()

    def ask(self, case: str, task: str, wish: Mapping[str, Any] | None = None) -> Job:
        TASKS[task](self._lab, case, wish or {}, silent)
        return Job("J-00001", case, task, wish or {}, "done", 1.0)


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    folder = tmp_path / "cases" / "L-1"
    folder.mkdir(parents=True)
    (folder / "case.toml").write_text("", encoding="utf-8")
    lab = Laboratory(tmp_path)
    head = {"authorization": f"Bearer {TOKEN}"}
    app = create_app(lab, AtOnce(lab), TOKEN)  # type: ignore[arg-type] # what is asked for alone
    with TestClient(app, base_url="http://127.0.0.1:8000", headers=head) as opened:
        yield opened


def test_an_arm_is_worked_out_with_the_alloys_modulus(client: TestClient) -> None:
    told = client.post("/api/arm", json={**ARM, "convergence_deg": 10, "friction": 0.15}).json()
    modulus = material(ALLOY).modulus
    found = bare_arm(
        BareArm(12, 0.8, 0.25, modulus.nominal, 0.5), convergence_deg=10, friction=0.15
    )
    assert told["force_n"] == found.force_n
    assert told["withdrawal_n"] == found.withdrawal_n
    assert told["modulus_source"] == modulus.cited and "Castigliano" in told["source"]
    assert client.post("/api/arm", json=ARM).json()["withdrawal_n"] is None
    names = {one["name"]: one["modulus_mpa"] for one in client.get("/api/arm/alloys").json()}
    assert names[ALLOY] == modulus.nominal


@pytest.mark.parametrize(
    "change",
    [
        {"length_mm": 0}, {"radius_mm": -1}, {"tip_ratio": 1.2}, {"arc_deg": 300},
        {"undercut_mm": 12}, {"alloy": "none"}, {"friction": 0.2}, {"more": 1},
        {"convergence_deg": 80, "friction": 0.3},
    ],
)  # fmt: skip
def test_what_is_no_arm_is_refused(client: TestClient, change: dict[str, object]) -> None:
    assert client.post("/api/arm", json={**ARM, **change}).status_code == 422


def test_a_coupon_leaves_its_solid_and_the_strain(client: TestClient, tmp_path: Path) -> None:
    assert client.get("/api/coupon").json() == {"told": None, "files": []}
    asked = {"case": "L-1", "sizes": SMALL, "rise_mm": 0.05}
    assert client.post("/api/coupon", json=asked).status_code == 202
    state = client.get("/api/coupon").json()
    assert state["files"] == ["coupon.json", "coupon.stl"]
    alloy = material(read_process("cocr-25um").alloy)
    strain = strain_from_rise(
        Coupon(12, 2, 1, 3, 1, 1), 0.05, modulus=alloy.modulus.nominal,
        poisson=alloy.poisson.nominal,
    )  # fmt: skip
    assert state["told"]["strain"] == pytest.approx(strain, rel=1e-4)
    sent = client.get("/api/coupon/files/coupon.stl")
    (tmp_path / "sent.stl").write_bytes(sent.content)
    size = np.ptp(read_mesh(tmp_path / "sent.stl").vertices, axis=0)
    np.testing.assert_allclose(size, [12, 2, 2], atol=1e-5)


@pytest.mark.parametrize(
    ("change", "status"),
    [
        ({"rise_mm": -0.1}, 422), ({"rise_mm": "much"}, 422), ({"process": "../none"}, 422),
        ({"case": "L-9"}, 404), ({"sizes": {**SMALL, "legs": 12}}, 422),
        ({"sizes": {**SMALL, "length_mm": 5000}}, 422),
    ],
)  # fmt: skip
def test_what_is_no_coupon_is_refused(
    client: TestClient, change: dict[str, object], status: int
) -> None:
    asked = {"case": "L-1", "sizes": SMALL, **change}
    assert client.post("/api/coupon", json=asked).status_code == status
    assert client.get("/api/coupon").json()["told"] is None
    assert client.get("/api/coupon/files/..%2F..%2Fcases").status_code in (404, 422)
