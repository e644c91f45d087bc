"""Charts, groups, drivers and costs out of a register whose truth is known."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import numpy as np
import pypdf
import pytest
from typer.testing import CliRunner

from claspwright.app.month import Casting, Rates, month_of
from claspwright.app.quality import Measure, Quality, quality_of
from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.records import Proposed, Signed, init_register

ME = Signed("A. Technician", "2026-11-25")
SLOPE = 12.0  # um of gap a centimetre to the right
WORSE = 40.0  # um that the second machine adds


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Sixty frameworks on two machines, ten builds: gap = 100 + SLOPE x + WORSE machine + noise."""
    folder = tmp_path_factory.mktemp("quality") / "lab"
    random = np.random.default_rng(3)
    lot = {"alloy": "a", "mass_g": 9000.0, "received": "2026-11-01"}
    rows = [Proposed("lot", "L-1", lot)]
    for build in range(10):
        machine = f"M{build % 2 + 1}"
        on = f"2026-11-{build + 2:02d}"
        body = {"machine": machine, "feedstock": [{"id": "L-1"}], "started": on, "parts_g": 60.0}
        rows.append(Proposed("build", f"B-{build}", body))
        for n in range(6):
            part, x = f"F-{build}-{n}", float(random.uniform(-60, 60))
            gap = 100.0 + SLOPE * x / 10.0 + WORSE * (build % 2) + float(random.normal(0, 10))
            case = {"arch": "mandible", "patient": "P", "prescriber": "Dr. Invented"}
            rows += [
                Proposed("case", f"C-{build}-{n}", case),
                Proposed("part", part, {"case": f"C-{build}-{n}", "build": f"B-{build}",
                                        "x_mm": x, "y_mm": float(random.uniform(-60, 60))}),
                Proposed("inspection", part, {"part": part, "passed": True, "rest_gap_um": gap,
                                              "bias_um": float(random.normal(0, 15))}),
            ]  # fmt: skip
    rows += [
        Proposed("adjustment", "A-1", {"part": "F-0-0", "place": "rest", "amount_um": 50.0}),
        Proposed("adjustment", "A-2", {"part": "F-0-0", "place": "plate", "amount_um": 30.0}),
        Proposed("adjustment", "A-3", {"part": "F-0-1", "place": "none", "amount_um": 0.0}),
        Proposed("adjustment", "A-4", {"part": "F-0-2", "place": "rest", "amount_um": 10.0}),
    ]  # fmt: skip
    with init_register(folder) as opened:
        opened.enter(rows, ME)
    return folder


@pytest.fixture(scope="module")
def found(place: Path) -> Quality:
    with init_register(place) as opened:
        return quality_of(opened, "2026-11-01", "2026-11-30")


def test_the_causes_that_were_put_in_are_found_again(found: Quality) -> None:
    gap = next(one for one in found.measures if one.name == "rest_gap_um")
    drivers = {one.name: one for one in gap.drivers}
    assert drivers["x_cm"].low < SLOPE < drivers["x_cm"].high
    assert drivers["machine M2"].low < WORSE < drivers["machine M2"].high
    assert drivers["x_cm"].clear
    assert drivers["machine M2"].clear
    assert abs(drivers["y_cm"].estimate) < 0.2 * SLOPE
    assert {"x_cm", "y_cm", "off_centre_cm", "machine M2", "intercept"} == set(drivers)


def test_groups_and_precision_tell_the_machines_apart(found: Quality) -> None:
    gap = next(one for one in found.measures if one.name == "rest_gap_um")
    one, two = gap.groups["machine"]
    assert (one.name, one.count, two.count) == ("M1", 30, 30)
    assert two.mean - one.mean == pytest.approx(WORSE, abs=20.0)
    assert gap.precision["machine"].between_sd > 10.0
    assert len(gap.groups["build"]) == 10
    assert {group.name for group in gap.groups["place"]} == {
        "front left", "front right", "back left", "back right"}  # fmt: skip
    assert gap.capability is not None
    assert gap.capability.cpk_low < gap.capability.cpk < gap.capability.cpk_high


def test_the_try_in_is_told_as_the_truth(found: Quality) -> None:
    adjusted = next(one for one in found.measures if one.name == "adjusted_um")
    assert adjusted.chart.values == (80.0, 0.0, 10.0)
    assert found.seated_share == pytest.approx(1 / 3)
    assert adjusted.drivers == ()  # three values tell nothing


def test_too_little_gives_no_chart(tmp_path: Path) -> None:
    with init_register(tmp_path / "lab") as opened:
        assert quality_of(opened, "2026-01-01", "2026-12-31").measures == ()
        with pytest.raises(InputError, match="lies after"):
            quality_of(opened, "2026-12-31", "2026-01-01")


def test_quality_and_month_from_the_command_line(place: Path, tmp_path: Path) -> None:
    words = ["2026-11-01", "2026-11-30", "-r", str(place), "--json"]
    result = CliRunner().invoke(app, ["quality", *words, "--charts", str(tmp_path / "charts")])
    assert result.exit_code == 0, result.output
    assert json.loads(result.stdout)["frameworks"] == 60
    assert (tmp_path / "charts" / "rest_gap_um.png").read_bytes().startswith(b"\x89PNG")
    page = tmp_path / "month.pdf"
    cast = ["--casting-alloy-g", "25", "--casting-alloy-per-g", "0.4", "--casting-materials", "20",
            "--casting-labour", "170", "--casting-remake-share", "0.2"]  # fmt: skip
    result = CliRunner().invoke(app, ["month", *words, *cast, "--pdf", str(page)])
    assert result.exit_code == 0, result.output
    assert json.loads(result.stdout)["casting_per_framework"] == pytest.approx(250.0)
    reader = pypdf.PdfReader(io.BytesIO(page.read_bytes()))
    said = re.sub(r"\s+", " ", " ".join(one.extract_text() for one in reader.pages))
    for needed in ("Turnaround", "Remakes by cause", "Lost-wax casting", "250.00", "Furnace",
                   "Powder melted", "Gap under the rests"):  # fmt: skip
        assert needed in said, needed
    assert b"pdfaid" in page.read_bytes()  # PDF/A


def quality_of_month(place: Path) -> tuple[Measure, ...]:
    with init_register(place) as opened:
        return quality_of(opened, "2026-11-01", "2026-11-30").measures


def test_powder_lost_and_sieved_out_is_paid_for(tmp_path: Path) -> None:
    weighed = {"loaded_g": 500.0, "recovered_g": 430.0, "parts_g": 40.0, "supports_g": 10.0,
               "sieved_out_g": 12.0, "machine": "m", "feedstock": [{"id": "L"}],
               "started": "2026-11-03"}  # fmt: skip
    with init_register(tmp_path / "lab") as opened:
        rows = [
            Proposed("lot", "L", {"alloy": "a", "mass_g": 900.0, "received": "2026-11-01"}),
            Proposed("case", "C", {"arch": "maxilla", "patient": "P", "prescriber": "D"}),
            Proposed("build", "B", weighed),
            Proposed("part", "F", {"case": "C", "build": "B"}),
            Proposed("inspection", "I", {"part": "F", "passed": True}),
        ]
        opened.enter(rows, Signed("T", "2026-11-04"))
        found = month_of(opened, "2026-11-01", "2026-11-30", Rates(powder_per_g=1.0))
    assert found.powder_melted_g == 50.0
    assert found.powder_lost_g == 8.0
    assert found.cost_by_share["powder"] == 70.0


def test_costs_add_up_share_by_share(place: Path) -> None:
    rates = Rates(powder_per_g=1.0, machine_per_build=60.0, furnace_per_hour=9.0,
                  labour_per_framework=100.0, casting=Casting(20.0, 0.5, 30.0, 160.0))  # fmt: skip
    with init_register(place) as opened:
        month = month_of(opened, "2026-11-01", "2026-11-30", rates)
    assert month.cost_by_share == {
        "powder": 10.0, "machine": 10.0, "furnace": 0.0, "labour": 100.0}  # fmt: skip
    assert month.cost_per_framework == 120.0
    assert month.casting_per_framework == 200.0
    assert month.adjusted_um == pytest.approx(30.0)
    quality = next(one for one in quality_of_month(place) if one.name == "rest_gap_um")
    assert month.gap_capability == quality.capability  # one limit for both
    with pytest.raises(InputError, match="share of remakes"):
        Casting(1.0, 1.0, 1.0, 1.0, 1.5)
