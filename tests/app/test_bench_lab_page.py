"""The laboratory's own pages in a real browser: what a person does there, and what bars nobody."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.app.test_bench_page import bench, no_serious_barrier
from tests.app.test_bench_page import page as page  # noqa: PLC0414 - a fixture
from tests.app.test_bench_register import GOOD

from claspwright.app.demo_month import demo_month
from claspwright.app.rates_file import read_rates
from claspwright.records import open_register

pytestmark = pytest.mark.slow
SIZES = ((1366, 768), (390, 844), (3840, 2160))
LEAVES = ("month", "quality", "feedstock", "register")


def certificate(page: Page, address: str, file: Path) -> None:
    """A certificate is sent, corrected where it does not hold, and entered with its lot."""
    page.goto(address + "#//feedstock")
    page.get_by_label("File of the certificate").set_input_files(file)
    page.get_by_role("button", name="Read the file").click()
    broken = page.locator('[data-item="Ni"] .stop')
    expect(broken).to_have_text("■ does not hold")
    expect(page.get_by_role("button", name="Enter it as not holding")).to_be_visible()
    no_serious_barrier(page)
    page.get_by_label("Ni", exact=True).fill("0.05")
    page.keyboard.press("Tab")
    expect(broken).to_have_count(0)
    expect(page.get_by_text("No findings.")).to_be_visible()
    page.get_by_label("Your name").fill("A. Technician")
    page.get_by_label("mass received").fill("5000")
    page.get_by_role("button", name="Enter the certificate").click()
    expect(page.get_by_text(re.compile("Entered, number"))).to_be_visible()
    expect(page.get_by_role("row", name="L-77")).to_contain_text("holds")


def register(page: Page, address: str) -> None:
    """The register is checked, backed up, tried out and asked; health data are kept and erased."""
    page.goto(address + "#//register")
    page.get_by_role("button", name="Check", exact=True).click()
    expect(page.locator('[data-whole="true"]')).to_be_visible()
    page.get_by_role("button", name="Back up", exact=True).click()
    page.get_by_role("button", name=re.compile("^Try it out")).click()
    expect(page.get_by_text("restored and whole")).to_be_visible()
    page.get_by_role("button", name="Write the tables").click()
    expect(page.locator("#exports ~ .scroll a")).to_be_visible()
    page.get_by_label("id", exact=True).fill("L-1")
    page.get_by_role("button", name="Who carries it").click()
    expect(page.get_by_role("link", name="Recall list as PDF")).to_be_visible()
    page.get_by_label("pseudonym", exact=True).fill("P-00001")
    page.get_by_role("button", name="Show", exact=True).last.click()
    page.get_by_label("One line each").fill("name: Invented Person")
    page.get_by_role("button", name="Keep this").click()
    page.get_by_label("pseudonym once more").fill("P-00002")
    page.get_by_role("button", name="Erase", exact=True).click()
    expect(page.get_by_text("nothing was erased")).to_be_visible()
    page.get_by_label("pseudonym once more").fill("P-00001")
    no_serious_barrier(page)
    page.get_by_role("button", name="Erase", exact=True).click()
    expect(page.get_by_text("Nothing is kept of them.")).to_be_visible()


def prices(page: Page, address: str) -> None:
    """The laboratory's own prices replace those of the example."""
    page.goto(address + "#//month")
    page.get_by_label("from").fill("2026-11-01")
    page.get_by_label("to", exact=True).fill("2026-12-31")
    expect(page.get_by_text("those of an example")).to_be_visible()
    page.get_by_label("powder, per gram").fill("0.5")
    page.get_by_label("alloy melted").fill("25")
    page.get_by_label("alloy, per gram").fill("0.4")
    page.get_by_label("labour", exact=True).fill("170")
    page.get_by_role("button", name="Keep these prices").click()
    expect(page.get_by_text("those of an example")).to_be_hidden()
    expect(page.get_by_role("row", name="together")).to_contain_text("180.00")


def test_the_laboratorys_own_pages(page: Page, tmp_path: Path) -> None:
    demo_month(tmp_path, 12, seed=4)
    rows = "\n".join(f"{name} = {value}" for name, value in {**GOOD, "Ni": 0.6}.items())
    head = 'lot = "L-77"\nsize_um = [16, 44]\napparent_density_g_cm3 = 4.4\n'
    (tmp_path / "c.toml").write_text(f'{head}shown = ["flow", "moisture"]\n[percent]\n{rows}\n')
    with bench(tmp_path) as (_, opened):
        page.goto(opened)
        address = opened.split("?")[0]
        certificate(page, address, tmp_path / "c.toml")
        register(page, address)
        prices(page, address)
        assert read_rates(tmp_path / "laboratory.toml").powder_per_g == 0.5
        with open_register(tmp_path / "register") as kept:
            lot = kept.current("lot", "L-77")
            assert lot is not None
            assert lot[1]["certificate_passed"]
            assert kept.person("P-00001") is None
        page.get_by_label("Language").select_option("de")
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            for width, height in SIZES:
                page.set_viewport_size({"width": width, "height": height})
                for leaf in LEAVES:
                    page.goto(f"{address}#//{leaf}")
                    expect(page.locator("nav a[aria-current]")).to_be_visible()
                    expect(page.locator("h2").first).to_be_visible()
                    no_serious_barrier(page)
                    wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
                    assert wide <= 0, (leaf, width)  # nothing lies beyond the edge
