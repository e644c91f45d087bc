"""Every page in the second language: nothing that the program itself says is left in English."""

from __future__ import annotations

import os
import re
import shutil
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.app.bench_results import leave_results
from tests.app.test_bench_page import LONG_MS, bench
from tests.app.test_bench_page import page as page  # noqa: PLC0414 - a fixture
from tests.unit.rules.test_solid_findings import ALLOY
from tests.unit.rules.test_solid_findings import proof as proof  # noqa: PLC0414 - a fixture

from claspwright.app.demo_month import demo_month
from claspwright.mechanics import FrameworkFe
from claspwright.rules import solid_findings

pytestmark = pytest.mark.slow
CASE = (
    "", "preparation", "proof", "build", "furnace", "inspection", "clinic", "acrylic", "papers",
)  # fmt: skip
LAB = ("month", "quality", "feedstock", "register")
ENGLISH = re.compile(r"(?:^| )(?:the|of|and|with|from|under|this|is|are|at|by|to|for|not) ")
CITED = re.compile(r"\((?:[^()]|\([^()]*\))*\[[^]]+\]\)")  # in brackets, with its mark at the end
TEXTS = """() => {
    const all = new Set();
    for (const of of document.body.querySelectorAll("*")) {
        if (of.closest("script, style, code, [lang=en]")) continue;
        for (const key of ["aria-label", "title", "alt", "placeholder"])
            if (of.getAttribute(key)) all.add(of.getAttribute(key));
        for (const node of of.childNodes) if (node.nodeType === 3) all.add(node.textContent.trim());
    }
    return [...all];
}"""


def unsaid(page: Page) -> set[str]:
    """What the catalogue lacks of all that the page was told since it was asked last; no names."""
    found = page.evaluate("""() => {
        const all = [...window.claspwrightUnsaid];
        window.claspwrightUnsaid.clear();
        return all;
    }""")
    return {one for one in found if re.search(r"[a-z]{2,} [a-z]{2,}", one)}


def english(page: Page) -> set[str]:
    """Texts on the page that are English; what is marked so, a citation, does not count."""
    return {one for one in page.evaluate(TEXTS) if ENGLISH.search(CITED.sub("", one))}


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
        left[place] = unsaid(page) | english(page)
    return left


def test_no_page_is_partly_in_english_or_passes_over_a_heading(
    page: Page, worked: Path, tmp_path: Path, proof: FrameworkFe
) -> None:
    lab = tmp_path / "lab"
    moving = replace(proof, peak_moved=(0.2, -0.3, 0.1), stiffness_moved=(0.01, 0.02, 0.3))
    shutil.copytree(worked, lab, ignore=shutil.ignore_patterns("stages"))
    kept = Path(".claspwright") / "stages"
    shutil.copytree(worked / kept, lab / kept, copy_function=os.link)
    demo_month(lab, cases=6)
    leave_results(lab)
    with bench(lab) as (_, address):
        page.goto(address)
        left = walk(page, address.split("?")[0])
        solid = [one.text for one in solid_findings(moving, ALLOY)]
        whole = page.evaluate("(all) => all.map((one) => claspwrightSaid(one, 'de').whole)", solid)
    assert not {place: some for place, some in left.items() if some}
    assert len(solid) == 4
    assert all(whole)
