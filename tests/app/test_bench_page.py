"""The bench in a real browser: from scans to a framework, a clasp tip dragged, a server killed."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import Page, TimeoutError, expect, sync_playwright

if TYPE_CHECKING:
    from tests.app.conftest import Done

REQUIRED = os.environ.get("CLASPWRIGHT_SCANS_REQUIRED", "") not in ("", "0")
CHROMIUM = shutil.which("chromium") or shutil.which("google-chrome")
pytestmark = pytest.mark.slow
LONG_MS = 400_000  # machines are shared


@contextmanager
def bench(lab: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The bench as a person starts it."""
    command = [sys.executable, "-m", "claspwright.cli", "bench", str(lab), "--no-browser"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, start_new_session=True
    ) as process:
        assert process.stdout is not None
        found = re.search(r"http://\S+", process.stdout.readline())
        assert found
        try:
            yield process, found.group(0)
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGINT)
                process.wait(60)


@pytest.fixture
def page() -> Iterator[Page]:
    if CHROMIUM is None:
        if REQUIRED:
            pytest.fail("a browser is required here: install chromium")
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as player:
        flags = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
        browser = player.chromium.launch(executable_path=CHROMIUM, args=flags)
        opened = browser.new_context(viewport={"width": 1366, "height": 900}).new_page()
        errors: list[str] = []
        opened.on("pageerror", lambda error: errors.append(str(error)))
        yield opened
        browser.close()
    assert not errors


def wait_for_model(page: Page) -> None:
    page.wait_for_selector(".model canvas", timeout=LONG_MS)
    page.wait_for_selector(".waiting", state="detached", timeout=LONG_MS)


def drag_tip(page: Page) -> bool:
    """Drag a visible clasp tip until the sheet takes it; the tooth decides where it may lie."""
    page.get_by_role("radio", name="Clasp tip").click()
    for look in ("from the right", "from the left", "from behind"):
        page.get_by_role("button", name=look, exact=True).click()
        page.wait_for_timeout(500)
        rings = page.locator(".over .ring:not(.behind)")
        with suppress(TimeoutError):
            rings.first.wait_for(state="attached", timeout=8000)
        page.wait_for_timeout(1500)  # the frame after the turn is drawn
        for ring in rings.all():
            box = ring.bounding_box()
            assert box is not None
            x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
            for dx, dy in ((0, -3), (0, 3), (4, 0), (-4, 0)):
                page.mouse.move(x, y)
                page.mouse.down()
                page.mouse.move(x + dx, y + dy, steps=4)
                page.mouse.up()
                page.wait_for_timeout(1200)
                if page.get_by_text(re.compile("clasp tip moved to")).count():
                    return True
    return False


def test_from_scans_to_a_framework_and_back(page: Page, done: Done, tmp_path: Path) -> None:
    lab = tmp_path / "lab"
    teeth = tomllib.loads((done.case / "case.toml").read_text("utf-8"))["teeth"]
    with bench(lab) as (_, address):
        page.goto(address)
        page.get_by_role("button", name="New case").click()
        page.get_by_label("Case", exact=True).fill("B-7")
        page.get_by_label("Master scan").set_input_files(done.case / "scans" / "master.stl")
        page.get_by_label("Opposing scan").set_input_files(done.case / "scans" / "opposing.stl")
        page.get_by_label("Missing teeth").fill(", ".join(map(str, teeth["missing"])))
        page.get_by_label("Of these not replaced").fill(
            ", ".join(map(str, teeth.get("not_replaced", [])))
        )
        page.get_by_label("Functional lingual depth").fill("9")
        page.get_by_role("button", name="Make the case").click()
        expect(page.get_by_role("heading", name="B-7")).to_be_visible()
        page.get_by_role("button", name="Work out").click()
        wait_for_model(page)
        expect(page.locator(".findings").first).to_be_visible()
        rules = page.locator(".findings li").count()
        summary = json.loads((lab / "results" / "B-7" / "summary.json").read_text("utf-8"))
        assert rules >= summary["stops"] > -1 and rules > 0
        assert drag_tip(page), page.locator(".trouble").all_text_contents()
        expect(page.get_by_text("The sheet or a scan has changed")).to_be_visible()
        sheet = lab / "cases" / "B-7" / "case.toml"
        assert len(tomllib.loads(sheet.read_text("utf-8"))["retainer"]) == 1
        page.get_by_role("button", name="Undo").click()
        expect(page.get_by_text("The sheet or a scan has changed")).to_be_hidden()
        assert "retainer" not in tomllib.loads(sheet.read_text("utf-8"))


def test_a_killed_server_takes_its_work_up_again(page: Page, done: Done, tmp_path: Path) -> None:
    lab = tmp_path / "lab"
    shutil.copytree(done.case, lab / "cases" / "B-8")
    with bench(lab) as (process, address):
        page.goto(address + "#/B-8")
        page.get_by_role("link", name="B-8").click() if page.locator("table").count() else None
        page.get_by_role("button", name="Work out").click()
        page.wait_for_selector(".job progress", timeout=LONG_MS)
        os.killpg(process.pid, signal.SIGKILL)
        process.wait(60)
    assert not (lab / "results" / "B-8").exists()
    with bench(lab) as (_, address):
        page.goto(address)
        page.get_by_role("link", name="B-8").click()
        wait_for_model(page)
    assert (lab / "results" / "B-8" / "summary.json").exists()
    assert not [p for p in (lab / "results").iterdir() if p.name.startswith(".")]
