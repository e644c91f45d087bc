"""A case from register to documents and dispatch; the PDF text is read back."""

from __future__ import annotations

import importlib
import io
import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import numpy as np
import pypdf
import pytest
from typer.testing import CliRunner

from claspwright.app.case_papers import case_papers, read_laboratory, write_case_papers
from claspwright.app.demo_month import demo_month
from claspwright.app.dispatch import dispatch, open_stops
from claspwright.app.enter_build import enter_build
from claspwright.base import InfeasibleError, InputError
from claspwright.cli.commands import app
from claspwright.demo import invented_month
from claspwright.records import Proposed, Register, Signed, init_register, verify
from claspwright.report import Laboratory, Paper, recall_list, write_paper

ME = Signed("A. Technician", "2026-11-25")
LAB = Laboratory(
    "Invented Dental Laboratory", "1 Nowhere Lane, Anytown", ("2 Nowhere Lane, Anytown",),
    "Represented Ltd, Brussels", "A. Technician", "Nowhere", "REG-0",
)  # fmt: skip
HASH = "ab" * 32


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with init_register(tmp_path / "lab") as opened:
        opened.enter(
            [
                Proposed("lot", "L-1", {"alloy": "a", "mass_g": 5000.0, "received": "2026-11-01",
                                        "certificate": {"Co": 63.0}}),
                Proposed("build", "B-1", {"machine": "one", "feedstock": [{"id": "L-1"}]}),
                Proposed("case", "C-1", {
                    "arch": "mandible", "patient": "P-17", "prescriber": "Dr. Invented",
                    "kennedy_class": "Kennedy class II", "received": "2026-11-02",
                    "due": "2026-12-01", "teeth": "36, 37", "shade": "A3", "price": 420.0,
                    "currency": "EUR", "alloy": "cocr-lpbf-stress-relieved",
                    "health_institution": "Invented Clinic"}),
                Proposed("revision", "C-1/1", {"case": "C-1", "hash": HASH,
                                               "design": "lingual bar, two clasps"}),
                Proposed("part", "F-1", {"case": "C-1", "build": "B-1", "mass_g": 9.24,
                                         "x_mm": 10.0, "y_mm": -20.0, "untouched": ["rest.35"],
                                         "contacts": [{"at_mm": [11.5, 2.0, 3.0],
                                                       "protected": False}]}),
                Proposed("instrument", "TC-1", {"what": "thermocouple"}),
            ],
            ME,
        )  # fmt: skip
        yield opened


def finish(register: Register) -> None:
    """Everything that the case still lacks, the statement apart."""
    register.enter(
        [
            Proposed("approval", "C-1/1", {"revision": "C-1/1", "hash": HASH, "approved": True}),
            Proposed("calibration", "TC-1/1", {"instrument": "TC-1", "done": "2026-01-01",
                                               "due": "2027-01-01", "passed": True}),
            Proposed("furnace_run", "R-1", {"builds": ["B-1"], "schedule": "stress-relief-800",
                                            "passed": True, "instrument": "TC-1",
                                            "calibrated": True, "calibrated_until": "2027-01-01",
                                            "log": register.keep_file("log.csv", good_log())}),
            Proposed("inspection", "I-1", {"part": "F-1", "passed": True, "bias_um": 12.0,
                                           "rest_gap_um": 140.0,
                                           "regions": {"rests": {"bias_um": 9.5, "sd_um": 21.0}},
                                           "rests": {"rest.35": 140.0}}),
        ],
        ME,
    )  # fmt: skip


def good_log() -> bytes:
    minutes = np.arange(0.0, 330.0)
    platform = np.interp(minutes, [0, 30, 130, 160, 275, 315], [20, 20, 800, 800, 150, 60])
    rows = "\n".join(f"{m},{t:.1f},8.0" for m, t in zip(minutes, platform, strict=True))
    return f"time_min,platform_degC,argon_l_min\n{rows}".encode()


def text_of(paper: Paper) -> str:
    pages = pypdf.PdfReader(io.BytesIO(write_paper(paper))).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def papers(register: Register) -> dict[str, Paper]:
    return {p.key: p for p in case_papers(register, "C-1", LAB, date="2026-11-25")}


@pytest.mark.reference(
    "Regulation (EU) 2017/745, Annex XIII section 1, points a to h; check-values I02, I04, I06, I11"
)
def test_the_statement_holds_every_point(register: Register) -> None:
    finish(register)
    said = text_of(papers(register)["statement"])
    for needed in (
        "Annex XIII, section 1",
        "Invented Dental Laboratory", "1 Nowhere Lane", "2 Nowhere Lane",  # a
        "Represented Ltd",  # b
        "Case C-1", "F-1", "L-1", "Kennedy class II",  # c
        "exclusive use by one particular patient", "P-17",  # d
        "Dr. Invented", "Invented Clinic", "national law",  # e
        "Specific characteristics indicated by the prescription", "lingual bar, two clasps",  # f
        "general safety and performance requirements of Annex I", "not fully met",  # g
        "no medicinal substance", "human blood or plasma", "no tissues or cells",  # h
        "cobalt above 0.1 %", "1B", "no CE mark", "10 years", HASH,
        "checked by the user against local law",
    ):  # fmt: skip
        assert needed in said, needed


@pytest.mark.parametrize(
    ("key", "needed"),
    [
        ("work-ticket", ["P-17", "Dr. Invented", "2026-12-01", "stress relief proven"]),
        ("work-authorisation", ["Licence number", "Signature of the dentist", "cobalt", "nickel",
                                "Country of manufacture", "L-1"]),
        ("leaflet", ["Take it out for sleep", "magnetic resonance", "breathed in",
                     "molybdenum, with traces of nickel"]),
        ("vigilance", ["Serious incidents", "fracture", "L-1", "authority"]),
        ("quantities", ["9.24", "420.00 EUR", "Artificial teeth"]),
        ("label-F-1", ["P-17", "L-1", "Contains cobalt, CAS 7440-48-4", "exclusive use"]),
        ("finishing-F-1", ["Not to be touched", "Allowance", "corrosive",
                           "Support contacts to grind away", "11.5", "rest.35"]),
        ("cobalt", ["7440-48-4", "1B", "Justification", "10.4.2", "alternative", "pregnant"]),
        ("build-sheet-B-1", ["Build sheet", "one", "L-1", "F-1", "9.24", "argon suffocates"]),
        ("furnace-certificate-R-1", ["PASSED", "TC-1", "calibrated until 2027-01-01", "Soak",
                                     "Unloaded at", "Braces are cut only after relief", "B-1"]),
        ("inspection-F-1", ["12.0", "140.0", "ISO 5725-1", "look above 300, stop above 600",
                            "rests: trueness, precision", "9.5, 21.0", "gap under rest.35"]),
    ],
)  # fmt: skip
def test_each_document_says_what_it_must(register: Register, key: str, needed: list[str]) -> None:
    finish(register)
    paper = papers(register)[key]
    said = text_of(paper)
    for words in needed:
        assert words in said, words
    content = write_paper(paper)
    assert len(pypdf.PdfReader(io.BytesIO(content)).pages) == 1
    assert b"pdfaid" in content  # PDF/A says in the open what it is


def test_no_document_goes_against_pdf_a(
    register: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What can be read off: metadata, output intent, fonts, actions, tags; see tools/pdf_a.py."""
    monkeypatch.syspath_prepend(str(Path(__file__).resolve().parents[2] / "tools"))
    faults = importlib.import_module("pdf_a").faults
    finish(register)
    told = papers(register)
    assert len(told) >= 11
    for key, paper in told.items():
        content = write_paper(paper)
        assert faults(content) == [], key


def test_a_report_of_a_failed_inspection_says_so(register: Register) -> None:
    finish(register)
    assert "PASSED" in text_of(papers(register)["inspection-F-1"])
    seen = {"part": "F-1", "passed": False, "what": "seating", "rest_gap_um": 700.0,
            "findings": ["stop fit.rest_gap: The mean gap is 0.700 mm."]}  # fmt: skip
    register.add("inspection", "I-2", seen, ME)
    said = text_of(papers(register)["inspection-F-1"])
    assert "FAILED" in said
    assert "PASSED" not in said
    assert "stop: The mean gap is 0.700 mm." in said


def test_the_recall_list_names_whom_to_call() -> None:
    said = text_of(recall_list(LAB, "lot:L-1", [("F-1", "C-1", "P-17", "Dr. I", "B-1")], "2026"))
    assert "1 in number" in said
    assert "P-17" in said


def test_the_recall_list_comes_from_the_command_line(register: Register, tmp_path: Path) -> None:
    (tmp_path / "lab.toml").write_text('name = "Invented Dental Laboratory"\naddress = "A"\n')
    out = tmp_path / "recall.pdf"
    words = ["register", "recall", "lot:L-1", "-r", str(tmp_path / "lab"), "--pdf", str(out),
             "--laboratory", str(tmp_path / "lab.toml"), "--on", "2026-11-25"]  # fmt: skip
    result = CliRunner().invoke(app, words)
    assert result.exit_code == 0, result.output
    said = pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages[0].extract_text()
    for needed in ("Recall list", "lot:L-1", "F-1", "P-17", "Dr. Invented"):
        assert needed in said


def test_a_build_is_entered_with_its_contacts(register: Register, tmp_path: Path) -> None:
    turned = [[0.0, -1.0, 0.0, 10.0], [1.0, 0.0, 0.0, 0.0], [0.0, 0.0, 1.0, 5.0], [0, 0, 0, 1]]
    part = {"part": "C-1", "x_mm": 10.0, "y_mm": 0.0, "turn_deg": 90.0, "solid_to_plate": turned,
            "contacts": [{"at_mm": [8.0, 1.0, 6.0], "on_protected_face": True}]}  # fmt: skip
    plan = {"steps": ["blasting"], "masked": []}
    told = {"machine": {"name": "two"}, "sources": [{"part": "C-1", "finishing": plan}],
            "platforms": [
        {"estimate": {"powder_melted_kg": 0.0102}, "parts": [part]}]}  # fmt: skip
    (tmp_path / "build.json").write_text(json.dumps(told))
    words = ["register", "build", str(tmp_path), "B-9", "--feedstock", "L-1", "-r",
             str(tmp_path / "lab"), "--by", "A. Technician", "--on", "2026-11-25"]  # fmt: skip
    result = CliRunner().invoke(app, words)
    assert result.exit_code == 0, result.output
    assert result.stdout.split() == ["F-C-1"]
    body = (register.current("part", "F-C-1") or (0, {}))[1]
    assert body["finishing"] == ["blasting"]
    assert body["contacts"] == [{"at_mm": [1.0, 2.0, 1.0], "protected": True}]
    assert (register.current("build", "B-9") or (0, {}))[1]["parts_g"] == 10.2
    sheet = {p.key: p for p in case_papers(register, "C-1", LAB, date="2026-11-25")}
    assert "Support contacts to grind away" in text_of(sheet["finishing-F-C-1"])
    with pytest.raises(InputError, match="cannot be read"):
        enter_build(register, tmp_path / "nowhere", "B-10", ["L-1"], ME)


def test_a_case_leaves_only_when_every_stop_is_closed(register: Register, tmp_path: Path) -> None:
    found = {stop.rule for stop in open_stops(register, "C-1", on="2026-11-25")}
    assert found == {"dispatch.approval", "dispatch.furnace", "dispatch.inspection",
                     "dispatch.statement"}  # fmt: skip
    assert "Not to be dispatched yet" in text_of(papers(register)["work-ticket"])
    finish(register)
    with pytest.raises(InfeasibleError, match="statement"):
        dispatch(register, "C-1", ME)
    write_case_papers(register, "C-1", LAB, tmp_path / "papers", ME)
    assert open_stops(register, "C-1", on="2026-11-25") == ()
    assert {stop.rule for stop in open_stops(register, "C-1", on="2027-02-01")} == {
        "dispatch.calibration"
    }
    body = {"about": "part:F-1", "cause": "rocks", "open": True}
    seq = register.add("nonconformity", "N-1", body, ME)
    with pytest.raises(InfeasibleError, match="rocks"):
        dispatch(register, "C-1", ME)
    register.add("nonconformity", "N-1", {**body, "open": False}, ME, supersedes=seq)
    changed = register.current("revision", "C-1/1")
    assert changed is not None
    assert dispatch(register, "C-1", ME) > seq
    assert verify(register).whole


def test_a_statement_of_another_revision_does_not_let_a_case_go(
    register: Register, tmp_path: Path
) -> None:
    finish(register)
    write_case_papers(register, "C-1", LAB, tmp_path / "papers", ME)
    assert open_stops(register, "C-1", on="2026-11-25") == ()
    register.add("revision", "C-1/2", {"case": "C-1", "hash": "cd" * 32}, ME)
    given = {"revision": "C-1/2", "hash": "cd" * 32, "approved": True}
    register.add("approval", "C-1/2", given, ME)
    (stop,) = open_stops(register, "C-1", on="2026-11-25")
    assert stop.rule == "dispatch.statement"
    assert "another revision" in stop.text
    write_case_papers(register, "C-1", LAB, tmp_path / "papers", ME)
    assert open_stops(register, "C-1", on="2026-11-25") == ()


def test_a_film_alone_is_no_inspection(register: Register) -> None:
    film = {"part": "F-1", "passed": True, "what": "silicone film", "rest_gap_um": 180.0}
    register.add("inspection", "F-1/film/1", film, ME)
    stops = open_stops(register, "C-1", on="2026-11-25")
    assert any(stop.text == "Framework F-1 was not inspected." for stop in stops)


def test_the_finishing_sheet_says_what_the_metal_was_built_for(register: Register) -> None:
    said = text_of(papers(register)["finishing-F-1"])
    assert "No allowance was built on" in said
    seq, body = register.current("part", "F-1") or (0, {})
    told = {**body, "finishing": ["blasting", "electropolishing"], "masked": ["rest"]}
    register.add("part", "F-1", told, ME, supersedes=seq)
    said = text_of(papers(register)["finishing-F-1"])
    assert "No allowance" not in said
    assert "grinding" not in said
    assert "tissue 40" in said  # the bath reaches it: 10 + 30
    assert "rest 5" in said
    assert "not masked: tissue, arm" in said


def test_the_statement_names_the_lots_of_the_base(register: Register) -> None:
    cured = {"case": "C-1", "powder_lot": "P-9", "liquid_lot": "Q-9", "tooth_lot": "T-9"}
    register.add("acrylic", "A-1", cured, ME)
    said = text_of(papers(register)["statement"])
    for lot in ("P-9", "Q-9", "T-9"):
        assert lot in said


def test_an_approval_of_another_hash_counts_for_nothing(register: Register) -> None:
    finish(register)
    now = register.current("revision", "C-1/1")
    assert now is not None
    register.add("revision", "C-1/1", {**now[1], "hash": "cd" * 32}, ME, supersedes=now[0])
    assert "dispatch.approval" in {s.rule for s in open_stops(register, "C-1", on="2026-11-25")}


def test_documents_are_kept_once_and_change_nothing_else(
    register: Register, tmp_path: Path
) -> None:
    finish(register)
    write_case_papers(register, "C-1", LAB, tmp_path / "a", ME)
    write_case_papers(register, "C-1", LAB, tmp_path / "a", ME)
    seq = register.head()[0]
    write_case_papers(register, "C-1", LAB, tmp_path / "a", ME)
    assert register.head()[0] == seq
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "mine.txt").write_text("x")
    with pytest.raises(InputError, match="other files"):
        write_case_papers(register, "C-1", LAB, tmp_path / "b", ME)


def test_the_invented_month_runs_through(tmp_path: Path) -> None:
    month, run = demo_month(tmp_path, 24, seed=2)
    assert run["whole"]
    assert month.cases == 24
    assert month.frameworks == 24 + sum(month.remakes.values())
    assert month.sent == run["sent"] == 24
    assert month.powder_melted_g > 0
    assert month.powder_lost_g == pytest.approx(31.0 * month.builds)
    words = ["month", "2026-11-01", "2026-12-31", "-r", str(tmp_path / "register"), "--json"]
    result = CliRunner().invoke(app, words)
    assert result.exit_code == 0, result.output
    assert '"turnaround_days"' in result.stdout


def test_cases_of_the_invented_month_agree_with_themselves() -> None:
    rows = [row for bundle in invented_month(30, seed=2, start=date(2026, 11, 2)) for row in bundle]
    cases = [row.body for row in rows if row.kind == "case"]
    assert len(cases) == 30
    for body in cases:
        lower = {tooth.strip()[0] in "34" for tooth in body["teeth"].split(",")}
        assert lower == {body["arch"] == "mandible"}
        assert not (body["altered_cast"] and body["kennedy_class"].endswith("III"))


def test_particulars_of_the_laboratory(tmp_path: Path) -> None:
    (tmp_path / "lab.toml").write_text('name = "N"\naddress = "A"\nsites = ["S"]\n')
    assert read_laboratory(tmp_path / "lab.toml").sites == ("S",)
    (tmp_path / "bad.toml").write_text('name = "N"\ncolour = "red"\n')
    with pytest.raises(InputError, match="particulars"):
        read_laboratory(tmp_path / "bad.toml")
