"""The laboratory's own pages: the month by its own prices; each figure is that of the command."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from tests.app.test_bench_stages import BASE, HEAD, TOKEN, AtOnce
from typer.testing import CliRunner

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.demo_month import demo_month
from claspwright.app.laboratory_file import read_laboratory
from claspwright.app.month import Casting, Rates
from claspwright.app.rates_file import changed, read_rates, write_rates
from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.web import create_app

DAYS = "first=2026-11-01&last=2026-12-31"
PRICES: dict[str, Any] = {
    "currency": "CHF", "powder_per_g": 0.5, "machine_per_build": 90.0, "furnace_per_hour": 6.0,
    "labour_per_framework": 80.0, "casting_per_framework": 0.0, "given": True,
    "casting": {"alloy_g": 25.0, "alloy_per_g": 0.4, "materials": 20.0, "labour": 170.0,
                "remake_share": 0.2},
}  # fmt: skip


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Laboratory:
    """A laboratory with an invented month in its register."""
    root = tmp_path_factory.mktemp("month")
    demo_month(root, 12, seed=4)
    return Laboratory(root)


@pytest.fixture(scope="module")
def client(lab: Laboratory) -> Iterator[TestClient]:
    with TestClient(create_app(lab, AtOnce(lab), TOKEN), base_url=BASE, headers=HEAD) as opened:
        yield opened


def of_command(*words: str) -> dict[str, Any]:
    result = CliRunner().invoke(app, [*words, "--json"])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_the_month_is_told_by_the_laboratorys_own_prices(
    client: TestClient, lab: Laboratory
) -> None:
    before = client.get("/api/rates").json()
    assert not before["given"] and before["casting"] is None
    example = client.get(f"/api/month?{DAYS}").json()["figures"]
    assert not example["rates_given"] and example["casting_by_share"] == {}
    client.put("/api/laboratory", json={"name": "Invented", "address": "1 Nowhere Lane"})
    assert client.put("/api/rates", json=PRICES).json() == PRICES
    figures = client.get(f"/api/month?{DAYS}").json()["figures"]
    command = of_command("month", "2026-11-01", "2026-12-31", "-r", str(lab.register),
                         "--laboratory", str(lab.particulars))  # fmt: skip
    assert figures == command
    assert figures["casting_per_framework"] == pytest.approx((25 * 0.4 + 20 + 170) / 0.8)
    assert figures["cost_by_share"]["powder"] == pytest.approx(
        2.0 * example["cost_by_share"]["powder"]
    )
    paper = client.get(f"/api/month/paper?{DAYS}")
    assert paper.content.startswith(b"%PDF") and b"pdfaid" in paper.content
    client.put("/api/laboratory", json={"name": "Another", "address": "1 Nowhere Lane"})
    assert client.get("/api/rates").json() == PRICES  # neither takes the other away
    assert read_laboratory(lab.particulars).name == "Another"
    assert client.get("/api/laboratory").json()["name"] == "Another"


def test_options_prevail_over_the_laboratorys_file(client: TestClient, lab: Laboratory) -> None:
    client.put("/api/rates", json=PRICES)
    words = ("month", "2026-11-01", "2026-12-31", "-r", str(lab.register), "--laboratory",
             str(lab.particulars), "--currency", "EUR", "--casting-labour", "70")  # fmt: skip
    told = of_command(*words)
    assert told["currency"] == "EUR"
    assert told["casting_per_framework"] == pytest.approx((25 * 0.4 + 20 + 70) / 0.8)


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"powder_per_g": -1.0}, "powder_per_g"),
        ({"powder_per_g": "dear"}, "powder_per_g"),
        ({"casting": {**PRICES["casting"], "remake_share": 1.0}}, "remake_share"),
        ({"currency": " "}, "currency"),
        ({"rent": 3.0}, "rent"),
    ],
)
def test_prices_that_are_none_are_refused(
    client: TestClient, change: dict[str, Any], place: str
) -> None:
    client.put("/api/rates", json=PRICES)
    refused = client.put("/api/rates", json={**PRICES, **change})
    assert refused.status_code == 422 and place in refused.json()["place"]
    assert client.get("/api/rates").json() == PRICES


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("rates = 3", "must be a table"),
        ("[rates]\nrent = 3", "no price 'rent'"),
        ("[rates]\npowder_per_g = -0.1", "below zero"),
        ("[rates]\npowder_per_g = nan", "no number"),
        ("[rates]\npowder_per_g = true", "no number"),
        ("[rates]\ncasting = 3", "must be a table"),
        ("[rates.casting]\nlabour = 1\nremake_share = 1.5", "share of remakes"),
        ("[rates", "cannot be read"),
    ],
)
def test_a_file_with_prices_that_are_none_is_refused(tmp_path: Path, text: str, said: str) -> None:
    file = tmp_path / "laboratory.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=said):
        read_rates(file)


def test_prices_are_put_beside_what_stands_in_the_file(tmp_path: Path) -> None:
    file = tmp_path / "laboratory.toml"
    assert read_rates(file) == Rates()
    file.write_text('# ours\nname = "Invented"\naddress = "1 Nowhere Lane"\n', encoding="utf-8")
    rates = changed(Rates(), {"powder_per_g": 0.3}, {"labour": 150.0})
    assert rates.given and rates.casting == Casting(0.0, 0.0, 0.0, 150.0)
    write_rates(file, rates)
    assert read_rates(file) == rates
    assert file.read_text(encoding="utf-8").startswith("# ours\nname")
    write_rates(file, changed(rates, {}, {"labour": 0.0}))
    assert "casting" not in tomllib.loads(file.read_text(encoding="utf-8"))["rates"]
    assert changed(Rates(), {}, {}) == Rates()
