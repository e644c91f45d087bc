"""A case between laboratory and clinic, and runs that enter themselves, to dispatch."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from claspwright.app.case_papers import case_papers
from claspwright.app.clinic import ask_altered_cast
from claspwright.app.dispatch import open_stops
from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.formats import write_ply
from claspwright.geometry import Mesh, Rigid, ball, box, union, vertex_normals
from claspwright.records import Proposed, Signed, init_register, open_register, verify
from claspwright.report import Laboratory, write_paper

ME = Signed("A. Technician", "2026-11-25")
SIGN = ["--by", "A. Technician", "--on", "2026-11-25"]
LAB = Laboratory("Invented Dental Laboratory", "1 Nowhere Lane, Anytown")


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    with init_register(tmp_path / "lab") as opened:
        opened.enter(
            [
                Proposed("lot", "L-1", {"alloy": "a", "mass_g": 5000.0, "received": "2026-11-01"}),
                Proposed("build", "B-1", {"machine": "one", "feedstock": [{"id": "L-1"}]}),
                Proposed("case", "C-1", {
                    "arch": "mandible", "patient": "P-17", "prescriber": "Dr. Invented",
                    "kennedy_class": "Kennedy class I", "alloy": "cocr-lpbf-stress-relieved"}),
                Proposed("part", "F-1", {"case": "C-1", "build": "B-1"}),
                Proposed("part", "F-2", {"case": "C-1", "build": "B-1"}),
                Proposed("instrument", "TC-1", {"what": "thermocouple"}),
                Proposed("calibration", "TC-1/1", {"instrument": "TC-1", "done": "2026-01-01",
                                                   "due": "2027-01-01", "passed": True}),
            ],
            ME,
        )  # fmt: skip
        opened.set_person("P-17", {"name": "Jane Invented"})
    return tmp_path / "lab"


def run(*words: str, code: int = 0) -> str:
    result = CliRunner().invoke(app, list(words))
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    assert result.exit_code == code, result.output
    return result.stdout


def stops(lab: Path) -> set[str]:
    with open_register(lab) as opened:
        return {stop.rule for stop in open_stops(opened, "C-1", on="2026-11-25")}


def furnace_log(folder: Path, soak_min: float) -> Path:
    minutes = np.arange(0.0, 330.0)
    cool = 130.0 + soak_min
    platform = np.interp(minutes, [0, 30, 130, cool, cool + 115, cool + 155],
                         [20, 20, 800, 800, 150, 60])  # fmt: skip
    rows = "\n".join(f"{m},{t:.1f},8.0" for m, t in zip(minutes, platform, strict=True))
    path = folder / f"log{soak_min:.0f}.csv"
    path.write_text("time_min,platform_degC,argon_l_min\n" + rows)
    return path


def test_a_failed_furnace_run_stops_each_framework_until_it_is_closed(
    lab: Path, tmp_path: Path
) -> None:
    into = ["--schedule", "stress-relief-800", "--register", str(lab), "--build", "B-1",
            "--instrument", "TC-1", *SIGN]  # fmt: skip
    run("furnace", str(furnace_log(tmp_path, 3.0)), "--run", "R-1", *into, code=1)
    with open_register(lab) as opened:
        spoilt = opened.all_of("nonconformity")
        assert [(id_, body["about"]) for id_, body in spoilt] == [
            ("R-1/F-1", "part:F-1"), ("R-1/F-2", "part:F-2")]  # fmt: skip
        assert all("not at temperature" in body["cause"] and body["open"] for _, body in spoilt)
        body = (opened.current("furnace_run", "R-1") or (0, {}))[1]
        assert (body["passed"], body["calibrated"], body["calibrated_until"]) == (
            False, True, "2027-01-01")  # fmt: skip
        assert b"platform_degC" in opened.store.get(body["log"])
    assert {"dispatch.furnace", "dispatch.nonconformity"} <= stops(lab)
    run("furnace", str(furnace_log(tmp_path, 30.0)), "--run", "R-2", *into)
    assert "dispatch.furnace" not in stops(lab)
    assert "dispatch.nonconformity" in stops(lab)  # somebody must say that they are good again
    with open_register(lab) as opened:
        for id_, body in opened.all_of("nonconformity"):
            now = opened.current("nonconformity", id_)
            assert now is not None
            opened.add("nonconformity", id_, {**body, "open": False}, ME, supersedes=now[0])
    assert "dispatch.nonconformity" not in stops(lab)
    with pytest.raises(InputError, match="a name and a date"):
        run("furnace", str(furnace_log(tmp_path, 30.0)), *into[:-4])


def test_a_thermocouple_without_calibration_proves_nothing(lab: Path, tmp_path: Path) -> None:
    words = ["--schedule", "stress-relief-800", "--register", str(lab), "--build", "B-1"]
    with open_register(lab) as opened:
        opened.add("instrument", "TC-2", {"what": "thermocouple"}, ME)
    run("furnace", str(furnace_log(tmp_path, 30.0)), *words, "--instrument", "TC-2", *SIGN)
    assert "dispatch.calibration" in stops(lab)


def test_fits_are_entered_side_by_side_and_the_latest_counts(lab: Path, tmp_path: Path) -> None:
    part = union(ball(4.0, 0.5), box(np.array([0.0, -1.0, -1.0]), np.array([9.0, 1.5, 1.0])))
    write_ply(part, tmp_path / "design.ply")
    pose = Rigid(np.eye(3)[[1, 2, 0]], np.array([5.0, 0.0, 1.0]))
    for name, grown in (("high", 0.22), ("good", 0.0)):
        points = pose.apply(part.vertices + grown * vertex_normals(part))
        write_ply(Mesh(points, part.faces), tmp_path / f"{name}.ply")
    words = ["--register", str(lab), "--part", "F-1", "--instrument", "TC-1", *SIGN, "--out",
             str(tmp_path / "d.ply")]  # fmt: skip
    run("fit", str(tmp_path / "design.ply"), str(tmp_path / "high.ply"), *words, code=1)
    with open_register(lab) as opened:
        said = [s.text for s in open_stops(opened, "C-1", on="2026-11-25") if s.component == "F-1"]
    assert "Framework F-1 failed its inspection surface." in said
    run("fit", str(tmp_path / "design.ply"), str(tmp_path / "good.ply"), *words)
    with open_register(lab) as opened:
        rows = dict(opened.all_of("inspection"))
        assert list(rows) == ["F-1/surface/1", "F-1/surface/2"]
        assert abs(rows["F-1/surface/2"]["bias_um"]) < 1.0
        assert len(opened.store.get(rows["F-1/surface/2"]["scan"])) > 1000
        said = [s.text for s in open_stops(opened, "C-1", on="2026-11-25") if s.component == "F-1"]
    assert not any("inspection" in text for text in said)


def test_a_lot_that_fails_its_specification_blocks(lab: Path, tmp_path: Path) -> None:
    assert "dispatch.certificate" in stops(lab)
    good = {"Co": 63.0, "Cr": 28.5, "Mo": 6.0, "Mn": 0.5, "Si": 0.5, "Fe": 0.3, "Ni": 0.05,
            "C": 0.1, "N": 0.1, "W": 0.1, "Al": 0.02, "Ti": 0.02, "P": 0.01, "S": 0.005,
            "B": 0.001}  # fmt: skip
    for nickel, blocked in ((2.0, True), (0.05, False)):
        rows = "\n".join(f"{name} = {v}" for name, v in {**good, "Ni": nickel}.items())
        head = 'lot = "L-1"\nsize_um = [16, 44]\napparent_density_g_cm3 = 4.4\n'
        head += 'shown = ["flow", "moisture"]\n'
        (tmp_path / "c.toml").write_text(f"{head}[percent]\n{rows}\n")
        run("certificate", str(tmp_path / "c.toml"), "--register", str(lab), *SIGN,
            code=int(blocked))  # fmt: skip
        assert ("dispatch.certificate" in stops(lab)) == blocked


def test_the_clinic_in_between(lab: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CLASPWRIGHT_REGISTER", str(lab))
    (tmp_path / "framework.stl").write_bytes(b"solid")
    id_, digest = run("clinic", "revision", "C-1", str(tmp_path / "framework.stl"), *SIGN).split()
    assert id_ == "C-1/1"
    with pytest.raises(InputError, match="not the hash"):
        run("clinic", "approve", "C-1/1", "--hash", "0" * 16, *SIGN)
    run("clinic", "approve", "C-1/1", "--hash", digest[:16], *SIGN)
    assert "dispatch.approval" not in stops(lab)
    (tmp_path / "framework.stl").write_bytes(b"another")
    run("clinic", "revision", "C-1", str(tmp_path / "framework.stl"), *SIGN)
    assert "dispatch.approval" in stops(lab)
    with open_register(lab) as opened:
        assert ask_altered_cast(opened, "C-1")
    run("clinic", "altered-cast", "C-1", "--needed", *SIGN)
    assert "dispatch.altered_cast" in stops(lab)
    run("clinic", "altered-cast", "C-1", "--needed", "--done", "2026-11-24", *SIGN)
    assert "dispatch.altered_cast" not in stops(lab)
    run("clinic", "try-in", "F-1", "--place", "rest.35.mesial", "--amount-um", "80",
        "--minutes", "6", *SIGN)  # fmt: skip
    run("clinic", "try-in", "F-1", "--place", "plate.34.distal", "--amount-um", "40", *SIGN)
    run("clinic", "jaw-record", "C-1", "--part", "F-1", "--vertical-mm", "62", *SIGN)
    run("clinic", "teeth", "C-1", "--mould", "lower 7", "--shade", "A3 invented", *SIGN)
    run("clinic", "delivery", "C-1", "--minutes", "10", *SIGN)
    run("clinic", "follow-up", "C-1", "--sore", *SIGN)
    run("clinic", "take-back", "C-1", "C-9", "--work", "repair", "--reason", "clasp broke", *SIGN)
    with open_register(lab) as opened:
        assert [b["amount_um"] for _, b in opened.all_of("adjustment")] == [80.0, 40.0]
        assert opened.all_of("follow_up")[0][1]["sore"]
        repaired = (opened.current("case", "C-9") or (0, {}))[1]
        assert (repaired["parent_case"], repaired["work"]) == ("C-1", "repair")
        assert repaired["shade"] == "A3 invented"
        assert verify(opened).whole
    with pytest.raises(InputError, match="no such adjustment"):
        run("clinic", "try-in", "F-1", "--place", "x", "--how", "magic", *SIGN)


def test_a_signature_holds_the_hash_of_what_was_signed(lab: Path, tmp_path: Path) -> None:
    run("register", "sign", "lot:L-1", "--meaning", "released", "-r", str(lab), *SIGN)
    with open_register(lab) as opened:
        ((_, body),) = opened.all_of("signature")
        assert body["hash"] == opened.history("lot", "L-1")[0].hash
        assert verify(opened).whole
        false = {"about": "lot:L-1", "hash": "0" * 64, "meaning": "released"}
        seq = opened.add("signature", "forged", false, ME)
        assert verify(opened).faults == (f"the signature of entry {seq} fits no entry on lot:L-1",)
    with pytest.raises(InputError, match="not in the register"):
        run("register", "sign", "lot:L-9", "--meaning", "x", "-r", str(lab), *SIGN)


def test_acrylic_is_entered_and_papers_name_nobody(lab: Path) -> None:
    run("acrylic", "--base-cm3", "10", "--register", str(lab), "--case", "C-1", "--powder-lot",
        "AP-1", "--liquid-lot", "AL-1", "--cycle", "long", *SIGN)  # fmt: skip
    with open_register(lab) as opened:
        assert opened.all_of("acrylic")[0][1]["powder_g"] == pytest.approx(10.6)
        for paper in case_papers(opened, "C-1", LAB, date="2026-11-25"):
            assert "Jane" not in json.dumps(paper.blocks, default=str)
            if paper.key == "label-F-1":
                assert b"Jane" not in write_paper(paper)


def test_before_and_after_and_a_film_that_confirms(lab: Path) -> None:
    with open_register(lab) as opened:
        for n, gap in enumerate((420.0, 180.0)):
            seen = {"part": "F-1", "what": "seating", "passed": True, "rest_gap_um": gap,
                    "rests": {"rest.35": gap, "rest.45": gap - 20.0}}  # fmt: skip
            opened.add("inspection", f"F-1/seating/{n}", seen, ME)
    told = run("clinic", "compare", "F-1", "-r", str(lab))
    assert "seating rest_gap_um: 420.0 -> 180.0 (changed by -240.0)" in told
    assert "seating gap under rest.45: 400.0 -> 160.0 (changed by -240.0)" in told
    said = run("clinic", "film", "F-1", "--gap", "rest.35=205", "--gap", "rest.47=150",
               "-r", str(lab), *SIGN)  # fmt: skip
    assert "rest.35: film less the gap of seating +25 um" in said
    assert "rest.47:" not in said
    with open_register(lab) as opened:
        body = (opened.current("inspection", "F-1/film/1") or (0, {}))[1]
        assert (body["passed"], body["rest_gap_um"]) == (True, 177.5)
    run("clinic", "film", "F-1", "--gap", "rest.35=900", "-r", str(lab), *SIGN)
    with open_register(lab) as opened:
        said = " ".join(s.text for s in open_stops(opened, "C-1", on="2026-11-25"))
    assert "F-1 failed its inspection silicone film" in said
    with pytest.raises(InputError, match="AREA=UM"):
        run("clinic", "film", "F-1", "--gap", "rest.35", "-r", str(lab), *SIGN)
    with pytest.raises(InputError, match="no inspection"):
        run("clinic", "compare", "F-2", "-r", str(lab))
