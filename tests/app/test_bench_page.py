"""The bench in a real browser: the tutorial, a server killed amid it, and what bars nobody."""

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
from hashlib import sha256
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image
from playwright.sync_api import Page, TimeoutError, expect, sync_playwright
from tests.app.test_bench_compare import two_revisions

from claspwright.app.bench.laboratory import Laboratory

if TYPE_CHECKING:
    from tests.app.conftest import Done

REQUIRED = os.environ.get("CLASPWRIGHT_SCANS_REQUIRED", "") not in ("", "0")
CHROMIUM = shutil.which("chromium") or shutil.which("google-chrome")
pytestmark = pytest.mark.slow
LONG_MS = 400_000  # machines are shared
PICTURES = os.environ.get("CLASPWRIGHT_PICTURES", "")  # docs/images/bench makes them anew
GRAVE = ("serious", "critical")
expect.set_options(timeout=60_000)  # the same


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


@contextmanager
def opened_page(**context: Any) -> Iterator[Page]:
    """A page of a browser of its own, without an error on it; Any: options of the context."""
    if CHROMIUM is None:
        if REQUIRED:
            pytest.fail("a browser is required here: install chromium")
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as player:
        flags = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
        browser = player.chromium.launch(executable_path=CHROMIUM, args=flags)
        opened = browser.new_context(**context).new_page()
        opened.set_default_timeout(90_000)  # ms; machines are shared
        errors: list[str] = []
        opened.on("pageerror", lambda error: errors.append(str(error)))
        yield opened
        browser.close()
    assert not errors


@pytest.fixture
def page() -> Iterator[Page]:
    with opened_page(viewport={"width": 1366, "height": 900}) as opened:
        yield opened


def wait_for_model(page: Page) -> None:
    page.wait_for_selector(".model canvas", timeout=LONG_MS)
    page.wait_for_selector(".waiting", state="detached", timeout=LONG_MS)
    page.wait_for_selector('.model canvas[aria-busy="false"]', timeout=LONG_MS)


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


def shoot(page: Page, name: str) -> None:
    """Keep a picture for docs/tutorial.md where its folder is named."""
    if not PICTURES:
        return
    page.evaluate("window.scrollTo(0, 0)")
    page.mouse.move(5, 5)
    page.wait_for_timeout(1500)
    picture = Image.open(BytesIO(page.screenshot())).convert("RGB")
    small = picture.resize((960, round(960 * picture.height / picture.width)))
    small.quantize(96).save(Path(PICTURES) / f"{name}.png", optimize=True)


def no_serious_barrier(page: Page) -> None:
    """axe-core finds nothing serious or critical on the page as it is."""
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8"))
    found = page.evaluate("axe.run({resultTypes: ['violations']})")["violations"]
    grave = [(v["id"], v["nodes"][0]["html"]) for v in found if v["impact"] in GRAVE]
    assert not grave


def on_clasps(page: Page) -> list[str]:
    """What the findings on clasps say, told apart and in order."""
    return sorted(page.locator('.findings li[data-rule^="clasp."] > p').all_text_contents())


def wait_for_job(page: Page) -> None:
    """Until what was asked for has begun and ended."""
    page.wait_for_selector(".job progress", timeout=LONG_MS)
    page.wait_for_selector(".job progress", state="detached", timeout=LONG_MS)
    assert not page.locator(".trouble").all_text_contents()


def fill_in(page: Page, done: Done) -> None:
    """A new case from two scans and a few answers."""
    teeth = tomllib.loads((done.case / "case.toml").read_text("utf-8"))["teeth"]
    page.get_by_role("button", name="New case", exact=True).click()
    page.get_by_label("Case", exact=True).fill("B-0142")
    page.get_by_label("Master scan").set_input_files(done.case / "scans" / "master.stl")
    page.get_by_label("Opposing scan").set_input_files(done.case / "scans" / "opposing.stl")
    page.get_by_label("Bite record").set_input_files(done.case / "scans" / "bite.stl")
    page.get_by_label("Missing teeth").fill(", ".join(map(str, teeth["missing"])))
    page.get_by_label("Of these not replaced").fill(
        ", ".join(map(str, teeth.get("not_replaced", [])))
    )
    page.get_by_label("Functional lingual depth").fill("9.5")
    shoot(page, "new-case")
    no_serious_barrier(page)
    page.get_by_role("button", name="Make the case", exact=True).click()
    expect(page.get_by_role("heading", name="B-0142")).to_be_visible()


def test_the_tutorial(page: Page, done: Done, tmp_path: Path) -> None:
    """From an empty laboratory to the files of a build, as docs/tutorial.md tells it.

    What the stages make of these very scans was kept by the run that the other tests look at;
    the memory recalls it here, as it would at a technician's second look at a case.
    """
    lab = tmp_path / "lab"
    shutil.copytree(done.stages, lab / ".claspwright" / "stages", copy_function=os.link)
    with bench(lab) as (process, address):
        page.goto(address)
        fill_in(page, done)
        page.get_by_role("button", name="Work out", exact=True).click()
        page.wait_for_selector(".job progress", timeout=LONG_MS)
        os.killpg(process.pid, signal.SIGKILL)  # in the middle of the work
        process.wait(60)
    assert not (lab / "results" / "B-0142").exists()
    with bench(lab) as (_, address):
        page.goto(address)
        page.get_by_role("link", name="B-0142").click()
        wait_for_model(page)  # the work was taken up again
        assert not [p for p in (lab / "results").iterdir() if p.name.startswith(".")]
        summary = json.loads((lab / "results" / "B-0142" / "summary.json").read_text("utf-8"))
        assert page.locator(".findings li").count() >= summary["stops"] + 1
        shoot(page, "design")
        no_serious_barrier(page)
        change_a_clasp(page, lab / "cases" / "B-0142" / "case.toml")
        prove_and_build(page, lab)


BROKEN_OFF = """() => {
    const whole = window.fetch;
    const headers = { "Content-Type": "application/json" };
    window.fetch = async (asked) => {
        if (new URL(asked.url ?? asked, location.href).pathname !== "/api/cases")
            return whole(asked);
        const body = new ReadableStream({ pull: (c) => c.error(new TypeError("Failed to fetch")) });
        return new Response(body, { headers });
    };
}"""


def test_an_answer_that_breaks_off_is_told(page: Page, tmp_path: Path) -> None:
    """The server may go away in the middle of an answer; the page says so as of any silence."""
    with bench(tmp_path / "lab") as (_, address):
        page.goto(address)
        expect(page.get_by_text("The bench does not answer")).to_be_hidden()
        page.evaluate(BROKEN_OFF)
        page.goto(address.split("?")[0] + "#//quality")
        page.goto(address.split("?")[0] + "#/")
        expect(page.get_by_text("The bench does not answer")).to_be_visible()


def change_a_clasp(page: Page, sheet: Path) -> None:
    """A tip is dragged, its finding changes; undone, everything is as it was."""
    before = on_clasps(page)
    assert before
    assert drag_tip(page), page.locator(".trouble").all_text_contents()
    expect(page.get_by_text("The sheet or a scan has changed")).to_be_visible()
    page.wait_for_selector('canvas[data-live="framework"]', timeout=LONG_MS)
    expect(page.get_by_text("Findings on the clasps are shown as they would be")).to_be_visible()
    assert on_clasps(page) != before
    assert len(tomllib.loads(sheet.read_text("utf-8"))["retainer"]) == 1
    shoot(page, "clasp-moved")
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.get_by_text("The sheet or a scan has changed")).to_be_hidden()
    expect(page.get_by_text("Findings on the clasps are shown as they would be")).to_be_hidden()
    assert on_clasps(page) == before
    assert "retainer" not in tomllib.loads(sheet.read_text("utf-8"))


def prove_and_build(page: Page, lab: Path) -> None:
    """The proof on the model, then a platform with supports and layers."""
    page.get_by_role("link", name=re.compile("^Proof")).click()
    page.get_by_role("button", name="Prove", exact=True).click()
    wait_for_job(page)
    wait_for_model(page)
    check = json.loads((lab / "proof" / "B-0142" / "check.json").read_text("utf-8"))
    assert page.locator(".rows tbody tr").count() == len(check["arms"]) > 0
    shoot(page, "proof")
    no_serious_barrier(page)
    page.get_by_role("link", name=re.compile("^Build")).click()
    page.get_by_role("button", name="Prepare the build", exact=True).click()
    wait_for_job(page)
    wait_for_model(page)
    slider = page.get_by_role("slider", name="Layer")
    expect(slider).to_be_visible()
    first = page.locator("svg.layer").get_attribute("aria-label")
    slider.focus()
    page.keyboard.press("PageUp")
    expect(page.locator("svg.layer")).not_to_have_attribute("aria-label", first or "")
    shoot(page, "build")
    no_serious_barrier(page)
    made = {f.name for f in (lab / "builds" / "P-0001" / "platform-1").iterdir()}
    assert {"platform.3mf", "platform.stl", "layers-binary.cli", "build-sheet.pdf"} <= made
    with page.expect_popup() as opened:
        page.get_by_role("link", name="platform-map.svg").click()
    opened.value.close()


def move_a_mark_by_keys(page: Page, address: str) -> None:
    """No pointer is needed: a mark is taken, moved and let go; then undone."""
    page.goto(address)
    wait_for_model(page)
    page.get_by_role("radio", name="Tooth mark").focus()
    page.keyboard.press("Enter")
    page.locator(".over .ring").first.wait_for(state="attached", timeout=60_000)
    page.locator(".model canvas").focus()
    for key in ("]", "Alt+ArrowUp", "Alt+ArrowLeft", "Enter"):
        page.keyboard.press(key)
    expect(page.get_by_text("mark moved")).to_be_visible(timeout=60_000)
    page.get_by_role("button", name="Undo", exact=True).focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Redo", exact=True)).to_be_enabled()


def move_a_border_by_keys(page: Page) -> None:
    """A border of the connector tells its number while it is moved; let go, it is in the sheet."""
    page.get_by_role("radio", name="Border, base, seat, arm").focus()
    page.keyboard.press("Enter")
    rings = page.locator('.over .ring:not([data-key^="tip.mark"])')  # those of the marks go
    rings.first.wait_for(state="attached", timeout=60_000)
    page.get_by_role("button", name="from behind", exact=True).click()
    page.locator(".model canvas").focus()
    for key in ("]", "]", "Alt+ArrowDown", "Alt+ArrowDown", "Alt+ArrowDown"):
        page.keyboard.press(key)
    expect(page.locator("[data-pulled]")).to_contain_text("height", timeout=60_000)
    page.keyboard.press("Enter")
    expect(page.get_by_text(re.compile(r"height: 4\.0 to \d"))).to_be_visible(timeout=60_000)
    page.get_by_role("button", name="Undo", exact=True).click()


def lead_an_arm_by_keys(page: Page) -> None:
    """A place of an arm's course tells its height over the survey line, and goes into the sheet."""
    expect(page.get_by_role("button", name="Redo", exact=True)).to_be_enabled()
    listed = page.evaluate("fetch('/api/cases/L-1/handles').then((r) => r.json())")["handles"]
    steps = next(n for n, one in enumerate(listed, 1) if re.match(r"course\..*\.s50", one["id"]))
    page.get_by_role("radio", name="Border, base, seat, arm").click()
    page.locator('.over .ring[data-key^="tip.course"]').first.wait_for(state="attached")
    words = "height of the arm over the survey line"
    for look, taken in (("from the right", ["]"] * steps), ("from the left", ["[", "]"])):
        page.get_by_role("button", name=look, exact=True).click()
        page.wait_for_timeout(800)
        page.locator(".model canvas").focus()
        for key in [*taken, "Alt+ArrowUp", "Alt+ArrowUp"]:
            page.keyboard.press(key)
        with suppress(AssertionError):
            expect(page.locator("[data-pulled]")).to_contain_text(words, timeout=8000)
            break
    page.keyboard.press("Enter")
    expect(page.locator(".trail")).to_contain_text(words)
    expect(page.locator('.over .ring[data-key$=".p1"]')).to_be_attached()
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator('.over .ring[data-key$=".p1"]')).not_to_be_attached()


def compare_two_revisions(page: Page, address: str, lab: Path) -> None:
    """By hand: the newer box is 0.5 mm higher; one, the other or both are shown, with a legend."""
    two_revisions(Laboratory(lab))
    page.goto(address + "#/")
    page.goto(address + "#/L-1")
    wait_for_model(page)
    page.get_by_role("button", name="What changed").first.click()
    expect(page.locator("[data-greatest=gain]")).to_contain_text("0.5 mm", timeout=LONG_MS)
    expect(page.locator("[data-greatest=loss]")).to_contain_text("nothing differs")
    wait_for_model(page)
    assert page.locator("[data-change]").count() == 3
    older = page.get_by_role("checkbox", name="older revision")
    newer = page.get_by_role("checkbox", name="newer revision")
    for way, ticks in (("Both", (True, True)), ("Older", (True, False)), ("Newer", (False, True))):
        page.get_by_role("radio", name=way, exact=True).click()
        expect(older).to_be_checked(checked=ticks[0])
        expect(newer).to_be_checked(checked=ticks[1])
    page.get_by_role("radio", name="Gained", exact=True).click()
    expect(page.locator("svg.legend")).to_contain_text("outside the older one [mm]")
    no_serious_barrier(page)
    page.get_by_role("button", name="End the comparison").click()
    wait_for_model(page)
    expect(page.get_by_role("checkbox", name="model", exact=True)).to_be_attached()
    page.get_by_role("button", name="Undo", exact=True).click()


def offer_and_approve(page: Page, address: str, lab: Path) -> None:
    """The design is offered, and the answer of the dentist's page is bound to its files."""
    page.goto(address + "#/L-1/clinic")
    page.get_by_label("Your name").fill("A. Technician")
    page.get_by_role("button", name="Enter the case", exact=True).click()
    page.get_by_role("button", name="Offer this design for approval").click()
    expect(page.get_by_text("no answer yet")).to_be_visible(timeout=60_000)
    stl = (lab / "results" / "L-1" / "framework.stl").read_bytes()
    said = "Case TEST-1: the design is approved for making.\nRefers to framework.stl, SHA-256 "
    page.get_by_label("Text from the dentist's page").fill(said + sha256(stl).hexdigest() + ".")
    page.get_by_role("button", name="Take the answer", exact=True).click()
    expect(page.get_by_text("● approved")).to_be_visible(timeout=60_000)
    no_serious_barrier(page)


def many_pages_share_one_stream(page: Page, address: str) -> None:
    """A browser keeps six connections to one server; ten pages still get all answers."""
    others = [page.context.new_page() for _ in range(9)]
    for one in others:
        one.goto(address)
        expect(one.get_by_role("link", name="L-1")).to_be_visible(timeout=60_000)
    for one in others:
        one.close()


def test_the_other_pages_open_and_bar_nobody(page: Page, worked: Path, tmp_path: Path) -> None:
    """Pages without results, both languages, both schemes, a phone and a large screen."""
    lab = tmp_path / "lab"
    shutil.copytree(worked, lab, ignore=shutil.ignore_patterns("stages"))
    with bench(lab) as (_, address):
        page.goto(address)
        many_pages_share_one_stream(page, address.split("?")[0])
        for leaf in ("preparation", "furnace", "inspection", "clinic", "acrylic", "papers"):
            page.goto(address.split("?")[0] + f"#/L-1/{leaf}")
            expect(page.locator("nav a[aria-current]")).to_be_visible()
            no_serious_barrier(page)
        offer_and_approve(page, address.split("?")[0], lab)
        page.goto(address.split("?")[0] + "#//quality")
        expect(page.get_by_text("Too few readings")).to_be_visible(timeout=60_000)
        no_serious_barrier(page)
        move_a_mark_by_keys(page, address.split("?")[0] + "#/L-1")
        move_a_border_by_keys(page)
        lead_an_arm_by_keys(page)
        compare_two_revisions(page, address.split("?")[0], lab)
        page.emulate_media(color_scheme="dark")
        page.get_by_label("Language").select_option("de")
        expect(page.get_by_role("link", name="Prüfung")).to_be_visible()
        no_serious_barrier(page)
        for width, height in ((390, 844), (3840, 2160)):
            page.set_viewport_size({"width": width, "height": height})
            page.goto(address.split("?")[0] + "#/L-1")
            expect(page.get_by_role("heading", name="Befunde")).to_be_visible()
            assert not page.locator('.findings p:first-child [lang="en"]').all_text_contents()
            wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            assert wide <= 0  # nothing lies beyond the edge
