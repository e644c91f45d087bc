"""The page for the dentist: what is missing is asked for, what is there is not."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

from pypdf import PdfReader

from claspwright.app.demo_arch import write_case
from claspwright.app.preparation import preparation
from claspwright.case import Answers
from claspwright.demo import options_for, scenario


def test_a_seat_that_was_not_cut_is_asked_for_on_the_page(tmp_path: Path) -> None:
    case = scenario("mandible_class_1")
    bare = replace(case, seats={c: s for c, s in case.seats.items() if c != 45}, planes={})
    answers = Answers("P-1", "mandible", "cocr-lpbf-stress-relieved", case.missing,
                      not_replaced=case.not_replaced, functional_depth_mm=9.5)  # fmt: skip
    write_case(options_for(bare, edge_mm=0.5), answers, tmp_path / "case")
    before = {f: f.read_bytes() for f in (tmp_path / "case").rglob("*") if f.is_file()}
    found = preparation(tmp_path / "case", tmp_path / "out", date="2026-12-01")
    assert all(file.read_bytes() == data for file, data in before.items())
    told = json.loads((tmp_path / "out" / "preparation.json").read_text(encoding="utf-8"))
    assert told == json.loads(json.dumps(dict(found.told)))
    seats = {(seat["tooth"], seat["where"]): seat for seat in told["seats"]}
    assert not seats[45, "mesial"]["prepared"]
    assert seats[45, "mesial"]["reduce_mm"] > 0.5
    assert seats[35, "mesial"]["prepared"]
    planes = {(plane["tooth"], plane["where"]): plane for plane in told["guiding_planes"]}
    assert planes[35, "distal"]["width_mm"] > 0
    text = PdfReader(tmp_path / "out" / "dentist.pdf").pages[0].extract_text()
    assert "tooth 45, mesial rest seat: prepare one" in " ".join(text.split())
    assert "Mouth preparation for case P-1" in text
