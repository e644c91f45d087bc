"""Results of every later stage in a laboratory, for the tests that look at their pages."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from fastapi.testclient import TestClient
from scipy.spatial.transform import Rotation
from tests.app.test_bench_stages import BASE, HEAD, TOKEN, AtOnce, furnace_log

from claspwright.app.bench.laboratory import Laboratory
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh, Rigid
from claspwright.web import create_app

BY = {"by": "A. Technician"}
HERE = "/api/cases/L-1"
POSE = Rigid(Rotation.from_rotvec([0.2, -0.4, 1.0]).as_matrix(), np.array([5.0, -20.0, 3.0]))


def leave_results(root: Path) -> None:
    """Have every page of case L-1, which was worked out, and the register show something."""
    lab = Laboratory(root)
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as client:

        def post(path: str, **sent: Any) -> dict[str, Any]:  # Any: as the client takes and gives
            answer = client.post(path, **sent)
            assert answer.status_code < 300, (path, answer.text)
            told: dict[str, Any] = answer.json()
            return told

        _entered(post)
        _worked(post, lab)
        _in_the_register(post, lab)


def _entered(post: Callable[..., dict[str, Any]]) -> None:
    """The case and its powder."""
    post(f"{HERE}/register", json=BY)
    lot = {"alloy": "a", "mass_g": 5000, "received": "2026-11-02"}
    post("/api/register/entries", json={"kind": "lot", "id": "P-78", "fields": lot, **BY})


def _worked(post: Callable[..., dict[str, Any]], lab: Laboratory) -> None:
    """What the jobs leave."""
    design = read_mesh(lab.results_of("L-1") / "framework.stl")
    metal = design.vertices + 0.25 * np.sin(design.vertices / 7.0)  # fits badly, so that it is told
    old = read_mesh(lab.sheet_of("L-1").scans.master)
    gap = np.linalg.norm(old.vertices - old.vertices[len(old.vertices) // 2], axis=1)
    bump = 0.6 * np.exp(-((gap / 2.0) ** 2))[:, None] * [0.0, 0.0, 1.0]
    post(f"{HERE}/proof", json={})
    post(f"{HERE}/preparation")
    post("/api/builds", json={"cases": ["L-1"], "layer_files": False})
    post("/api/builds/P-0001/register", json={**BY, "feedstock": ["P-78"]})
    post("/api/coupon", json={"case": "L-1", "rise_mm": 0.6, "sizes": {"length_mm": 20, "legs": 4}})
    form = {"wanted": "stress-relief-800", "builds": "P-0001", **BY}
    log = {"log": ("run.csv", furnace_log(5).encode())}
    post(f"{HERE}/furnace", data=form, files=log)
    form = {"part": "TEST-1", "instrument": "", **BY}
    post(f"{HERE}/inspection", files={"scan": _stl(lab, Mesh(metal, design.faces))})
    post(f"{HERE}/scans", files={"scan": _stl(lab, Mesh(old.vertices + bump, old.faces))})


def _in_the_register(post: Callable[..., dict[str, Any]], lab: Laboratory) -> None:
    """Clinic, acrylic, papers, and the register as a whole."""
    post(f"{HERE}/clinic/revisions", json=BY)
    packed = {"powder_lot": "K-1", "liquid_lot": "M-1", "cycle": "74 °C 480 min", **BY}
    post(f"{HERE}/acrylic", json=packed)
    post("/api/register/check", json={"head": ""})
    post("/api/register/backups")
    post("/api/register/exports")


def _stl(lab: Laboratory, mesh: Mesh) -> tuple[str, bytes]:
    file = lab.root / "sent.stl"
    write_stl(mesh.moved(POSE), file)
    return ("sent.stl", file.read_bytes())
