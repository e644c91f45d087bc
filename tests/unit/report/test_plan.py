"""The arch plan: codes on their teeth, blocks that do not overlap, both forms of the file."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET

from PIL import Image

from claspwright.report import arch_plan, plan_png, plan_svg
from claspwright.report.plan import LINE_PX


def test_codes_lie_on_the_right_side_and_blocks_keep_apart(worked_case) -> None:  # type: ignore[no-untyped-def]
    plan = arch_plan(worked_case.arch, worked_case.framework)
    at = {text.text: (text.x, text.y) for text in plan.texts if text.anchor == "middle"}
    assert at["45"][0] < at["35"][0]  # the patient's right on the viewer's left
    assert at["41"][1] > at["45"][1]  # mandible: front teeth down
    assert at["(46)"][1] > at["(47)"][1]
    assert at["45"][0] < at["lingual bar"][0] < at["35"][0]
    for anchor in ("start", "end"):
        rows = sorted(t.y for t in plan.texts if t.anchor == anchor)
        gaps = [b - a for a, b in zip(rows[:-1], rows[1:], strict=True)]
        assert min(gaps) >= LINE_PX - 1e-6
        assert rows[-1] < plan.size[1]
    heads = {t.text for t in plan.texts if t.bold and t.anchor != "middle"}
    assert heads == {"45", "35", "33", "46, 47", "36, 37"}
    assert len(plan.leaders) == len(heads)


def test_a_plan_without_a_framework_shows_the_teeth(worked_case) -> None:  # type: ignore[no-untyped-def]
    plan = arch_plan(worked_case.arch)
    assert plan.leaders == ()
    assert {"35", "(36)"} <= {t.text for t in plan.texts}
    assert "Missing: 47, 46, 36, 37." in plan.alt


def test_both_files_hold_the_plan(worked_case) -> None:  # type: ignore[no-untyped-def]
    plan = arch_plan(worked_case.arch, worked_case.framework)
    root = ET.fromstring(plan_svg(plan))
    space = "{http://www.w3.org/2000/svg}"
    words = {node.text for node in root.iter(f"{space}text")}
    assert {t.text for t in plan.texts} <= words
    assert root.find(f"{space}title") is not None
    image = Image.open(io.BytesIO(plan_png(plan)))
    assert image.size == (plan.size[0] * 2, plan.size[1] * 2)
    assert plan_png(plan) == plan_png(plan)
