"""Every page in the second language: nothing that the program itself says is left in English."""

from __future__ import annotations

import re
import shutil
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.app.test_bench_page import LONG_MS, bench
from tests.app.test_bench_page import page as page  # noqa: PLC0414 - a fixture

from claspwright.app.demo_month import demo_month

pytestmark = pytest.mark.slow
CASE = (
    "", "preparation", "proof", "build", "furnace", "inspection", "clinic", "acrylic", "papers",
)  # fmt: skip
LAB = ("month", "quality", "feedstock", "register")


def unsaid(page: Page) -> set[str]:
    """What the catalogue lacks of all that the page was told since it was asked last; no names."""
    found = page.evaluate("""() => {
        const all = [...window.claspwrightUnsaid];
        window.claspwrightUnsaid.clear();
        return all;
    }""")
    return {one for one in found if re.search(r"[a-z]{2,} [a-z]{2,}", one)}


def headings_in_order(page: Page) -> None:
    """No level of headings is passed over, and the page has its first."""
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8"))
    rules = ["heading-order", "page-has-heading-one", "empty-heading"]
    found = page.evaluate("(rules) => axe.run({runOnly: rules})", rules)["violations"]
    assert not [(one["id"], one["nodes"][0]["html"]) for one in found], page.url


def walk(page: Page, address: str) -> dict[str, set[str]]:
    """Open every page in the second language; what each leaves in English."""
    page.goto(address)
    page.get_by_role("combobox", name=re.compile("Language|Sprache")).select_option("de")
    expect(page.get_by_role("heading", name="Fälle")).to_be_visible()
    left = {"cases": unsaid(page)}
    for place in (*(f"L-1/{leaf}" for leaf in CASE), *(f"/{leaf}" for leaf in LAB)):
        page.goto(f"{address}#/{place.rstrip('/')}")
        expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=LONG_MS)
        page.wait_for_timeout(1500)
        for closed in page.locator("details:not([open]) > summary").all():
            if closed.is_visible():
                closed.click()
        headings_in_order(page)
        left[place] = unsaid(page)
    return left


def test_no_page_is_partly_in_english_or_passes_over_a_heading(
    page: Page, worked: Path, tmp_path: Path
) -> None:
    lab = tmp_path / "lab"
    shutil.copytree(worked, lab, ignore=shutil.ignore_patterns("stages"))
    demo_month(lab, cases=6)
    with bench(lab) as (_, address):
        page.goto(address)
        left = walk(page, address.split("?")[0])
    assert not {place: some for place, some in left.items() if some}
