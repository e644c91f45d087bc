"""The printed report and the review page of a made-up case."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
from dataclasses import replace
from html.parser import HTMLParser

import numpy as np
import pypdf
import pytest

from claspwright.base import Finding
from claspwright.report import (
    CaseFacts,
    Measure,
    ReportContent,
    compose,
    write_report,
    write_review,
)
from claspwright.report.cautions import CAUTIONS

FACTS = CaseFacts(
    id="B-0142",
    jaw="mandible",
    kennedy="Kennedy class I",
    missing=(36, 37, 46, 47),
    not_replaced=(38, 48),
    prescription=("The functional depth is 9.5 mm.",),
    alloy="cocr-lpbf-stress-relieved",
    due="2026-12-04",
    version="0.1.0",
    input_hashes=(("lower.stl", "ab" * 32),),
    output_hashes=(("framework.stl", "ef" * 32),),
)


@pytest.fixture(scope="module")
def content(worked_case) -> ReportContent:  # type: ignore[no-untyped-def]
    mass = Measure("mass", 9.83, "g", "volume x density")
    return compose(
        FACTS, worked_case.arch, worked_case.survey, worked_case.framework, worked_case.findings,
        measures=(mass,), finish=1,
    )  # fmt: skip


@pytest.fixture(scope="module")
def page(content: ReportContent) -> str:
    return write_review(content)


def text_of(pdf: bytes) -> str:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    words = " ".join(p.extract_text() for p in reader.pages)
    return re.sub(r"\s+", " ", words.replace("\N{NO-BREAK SPACE}", " "))


def test_the_report_says_what_it_must(content: ReportContent) -> None:
    pdf = write_report(content)
    assert pdf == write_report(content)
    text = text_of(pdf)
    for caution in CAUTIONS:
        assert caution.heading in text
    for finding in content.findings:
        assert finding.text in text
        assert finding.rule in text
    for words in ("Kennedy class I", "36, 37, 46, 47", "0.84 mm", "9.83 g", "4.83 N", "ef" * 8,
                  "front of the cast lowered by 3.0"):  # fmt: skip
        assert words in text
    catalog = pypdf.PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]  # tagged, as PDF/UA asks
    assert catalog["/Lang"].startswith("en")
    assert b"pdfaid" in pdf  # to be kept, as PDF/A asks


def test_a_report_without_a_framework_is_still_a_report(worked_case) -> None:  # type: ignore[no-untyped-def]
    stop = Finding("scope.implant", "stop", "Implant retention is outside the scope.", "own rule")
    bare = compose(FACTS, None, None, None, (stop,))
    assert stop.text in text_of(write_report(bare))
    page = write_review(bare)
    assert stop.text in page
    some = compose(FACTS, worked_case.arch, None, None, (stop,), finish=1)
    assert "Arch plan" in write_review(some)


def test_the_same_case_composes_to_the_same_page(content: ReportContent, page: str) -> None:
    assert write_review(replace(content)) == page
    assert len(page) < 8_000_000


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []
        self.ids: set[str] = set()
        self.refers: list[str] = []
        self.styled = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        for name in ("src", "href"):
            value = given.get(name)
            if value is not None and not value.startswith(("data:", "#")):
                self.addresses.append(value)
        if "id" in given and given["id"]:
            assert given["id"] not in self.ids
            self.ids.add(given["id"])
        for name in ("aria-labelledby", "aria-describedby", "for"):
            self.refers += (given.get(name) or "").split()
        self.styled += "style" in given
        if tag == "img":
            assert given.get("alt")


def test_the_page_is_one_file_that_loads_nothing(page: str) -> None:
    reader = _Reader()
    reader.feed(page)
    assert reader.addresses == []
    assert set(reader.refers) <= reader.ids
    assert reader.styled == 0  # the policy would refuse style attributes
    # the SVG name space is the only address in the file, and it is a name, not a place
    assert set(re.findall(r"https?://[^\s\"'<]+", page)) <= {"http://www.w3.org/2000/svg"}


def test_the_policy_lets_only_the_pages_own_script_and_style_in(page: str) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', page)
    assert policy is not None and "default-src 'none'" in policy[1]
    for tag in ("script", "style"):
        body = re.search(rf"<{tag}>(.*?)</{tag}>", page, re.S)
        assert body is not None
        digest = base64.b64encode(hashlib.sha256(body[1].encode()).digest()).decode()
        assert f"{tag}-src 'sha256-{digest}'" in policy[1]


def test_everything_shown_is_also_text(page: str, content: ReportContent) -> None:
    for finding in content.findings:
        assert finding.text in page and finding.source in page
    buttons = len(content.places) + len(content.bodies) + len(content.rooms)
    assert page.count('data-at="[') == 1 + buttons  # one finding has a place
    case = re.search(r'id="case">(.*?)</script>', page, re.S)
    assert case is not None
    facts = json.loads(case[1])
    assert [p["key"] for p in facts["parts"]] == ["framework", "model", "blocked_out"]
    assert facts["stops"] == 1
    for part, shown in zip(facts["parts"], content.parts, strict=True):
        assert f'id="mesh-{part["key"]}"' in page
        assert np.allclose(part["low"], shown.mesh.bounds[0], atol=1.0)


def test_words_from_outside_cannot_become_markup(content: ReportContent) -> None:
    nasty = "</script><img src=x onerror=alert(1)>&\"'"
    finding = Finding("a.b", "look", nasty, nasty, nasty, nasty, "", (0.0, 0.0, 0.0), nasty)
    page = write_review(
        replace(content, facts=replace(FACTS, id=nasty, patient=nasty), findings=(finding,))
    )
    assert "<img src=x" not in page
    reader = _Reader()
    reader.feed(page)
    assert reader.addresses == []
    assert "onerror" in text_of(write_report(replace(content, findings=(finding,))))
