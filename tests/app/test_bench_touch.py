"""The model by touch: turned, pinched, a tooth picked, a clasp tip dragged."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import CDPSession, Page, expect
from tests.app.test_bench_page import LONG_MS, bench, opened_page, wait_for_model

pytestmark = pytest.mark.slow
Spot = tuple[float, float]


@pytest.fixture
def page() -> Iterator[Page]:
    """A tablet's browser."""
    size = {"width": 1180, "height": 820}
    with opened_page(viewport=size, has_touch=True, is_mobile=True) as opened:
        yield opened


def touch(cdp: CDPSession, *steps: tuple[Spot, ...]) -> None:
    """Fingers set down at the first places, led over the others, lifted."""
    for n, spots in enumerate(steps):
        points = [{"x": x, "y": y, "id": k} for k, (x, y) in enumerate(spots)]
        kind = "touchMove" if n else "touchStart"
        cdp.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    cdp.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def middle_of(page: Page) -> Spot:
    box = page.locator(".model canvas").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def toward(page: Page) -> list[float]:
    return list(page.evaluate("claspwrightViewer.eye.toward()"))


def height(page: Page) -> float:
    return float(page.evaluate("claspwrightViewer.eye.mmHigh"))


def test_by_touch(page: Page, worked: Path, tmp_path: Path) -> None:
    lab = tmp_path / "lab"
    shutil.copytree(worked, lab, ignore=shutil.ignore_patterns("stages"))
    with bench(lab) as (_, address):
        page.goto(address)
        page.get_by_role("link", name="L-1").tap()
        wait_for_model(page)
        page.locator(".model canvas").scroll_into_view_if_needed()
        cdp = page.context.new_cdp_session(page)
        turned_and_pinched(page, cdp)
        a_tooth_is_picked(page)
        a_tip_is_dragged(page, cdp)


def turned_and_pinched(page: Page, cdp: CDPSession) -> None:
    x, y = middle_of(page)
    before, high = toward(page), height(page)
    touch(cdp, *[((x + 12 * k, y),) for k in range(8)])
    assert sum(abs(a - b) for a, b in zip(toward(page), before, strict=True)) > 0.1
    assert height(page) == pytest.approx(high)
    before = toward(page)
    touch(cdp, *[((x - 40 - 8 * k, y), (x + 40 + 8 * k, y)) for k in range(8)])
    assert height(page) == pytest.approx(high * 80 / 192, rel=0.05)  # as far as the fingers part
    assert toward(page) == pytest.approx(before)  # two fingers do not turn it
    touch(cdp, *[((x - 96 + 8 * k, y), (x + 96 - 8 * k, y)) for k in range(8)])
    assert height(page) == pytest.approx(high, rel=0.1)


def a_tooth_is_picked(page: Page) -> None:
    page.get_by_role("button", name="occlusal", exact=True).tap()
    page.wait_for_timeout(800)
    page.locator(".model canvas").scroll_into_view_if_needed()
    code = page.locator(".over .code:not(.behind)").first
    box = code.bounding_box()
    assert box is not None
    words = code.text_content() or ""
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(page.locator(f'section[data-tooth="{words}"]')).to_be_attached()


def a_tip_is_dragged(page: Page, cdp: CDPSession) -> None:
    """A finger takes a ring it does not quite meet; the sheet takes where the ring is let go."""
    page.get_by_role("radio", name="Clasp tip").tap()
    for look in ("from the right", "from the left", "from behind"):
        page.get_by_role("button", name=look, exact=True).tap()
        page.locator(".model canvas").scroll_into_view_if_needed()
        page.wait_for_timeout(1500)
        for ring in page.locator(".over .ring:not(.behind)").all():
            box = ring.bounding_box()
            assert box is not None
            x, y = box["x"] + box["width"] / 2 + 12, box["y"] + box["height"] / 2 + 12
            for dx, dy in ((0, -3), (0, 3), (4, 0), (-4, 0)):
                touch(cdp, *[((x + dx * k / 3, y + dy * k / 3),) for k in range(4)])
                page.wait_for_timeout(1200)
                if page.locator(".trail").get_by_text("clasp tip moved to").count():
                    return
    expect(page.locator(".trail")).to_contain_text("clasp tip moved to", timeout=LONG_MS)
