"""A case proved on the command line: what is written, and what it holds."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader

from claspwright.app.check_case import RESULTS, check_case
from claspwright.base import InputError
from claspwright.cli import main

if TYPE_CHECKING:
    from tests.app.conftest import Done


@pytest.mark.slow
def test_a_case_is_proved(
    done: Done, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "proof"
    words = [
        "claspwright",
        "check",
        str(done.case),
        "--out",
        str(out),
        "--step-mm",
        "0.6",
        "--json",
    ]
    monkeypatch.setattr(sys, "argv", words)
    with pytest.raises(SystemExit) as end:
        main()
    answer = json.loads(capsys.readouterr().out)
    assert end.value.code in (0, 1)
    assert {file.name for file in out.iterdir()} == RESULTS
    assert json.loads((out / "check.json").read_text(encoding="utf-8")) == answer
    assert answer["framework"] and answer["arms"] and answer["denture"] and answer["solid"]
    for arm in answer["arms"]:
        assert 0 < arm["withdrawal_low_n"] <= arm["withdrawal_n"] <= arm["withdrawal_high_n"]
        assert arm["peak_stress_mpa"] <= arm["peak_stress_rigid_tooth_mpa"]
        assert arm["withdrawal_n"] <= arm["withdrawal_unfinished_n"]
        assert abs(arm["large_displacement_change"]) < 0.15
        assert len(arm["sensitivity"]) == 5
    loads = [row["lifting_n"] for row in answer["denture"]["map"]]
    assert min(loads) == answer["denture"]["least_lifting_n"]
    assert all(case["yields_at"] > 0 for case in answer["solid"]["cases"])
    assert all(f["source"] for f in answer["findings"])
    page = (out / "review.html").read_text(encoding="utf-8")
    assert "stress under any bite" in page and "force that lifts" in page
    assert {f["rule"] for f in answer["findings"]} >= {"proof.choice", "solid.yield", "solid.mesh"}
    pages = PdfReader(io.BytesIO((out / "proof.pdf").read_bytes())).pages
    assert len(pages) == 1
    assert "not a clinical guarantee" in " ".join(pages[0].extract_text().split())


def test_elements_too_coarse_or_a_folder_in_use_are_refused(done: Done, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="edge") as refused:
        check_case(done.case, step_mm=2.0)
    assert refused.value.place == "--step-mm"
    (tmp_path / "mine.txt").write_text("keep", encoding="utf-8")
    with pytest.raises(InputError, match="other files"):
        check_case(done.case, tmp_path)
