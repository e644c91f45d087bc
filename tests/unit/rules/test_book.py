"""The rule book as a whole, and its page."""

from __future__ import annotations

import runpy
from pathlib import Path

from claspwright.limits import MARKS
from claspwright.rules import FINISHED_RULES, PRESCRIPTION_RULES

ROOT = Path(__file__).resolve().parents[3]


def test_the_book_has_more_than_twenty_rules_each_with_a_source_and_its_mark() -> None:
    book = [*PRESCRIPTION_RULES, *FINISHED_RULES]
    assert len(book) > 20
    assert len({rule.id for rule in book}) == len(book)
    for rule in book:
        assert rule.title and rule.check.__doc__
        assert any(f"[{mark}]" in rule.source for mark in MARKS), rule.id


def test_the_page_is_what_the_code_says() -> None:
    tool = runpy.run_path(str(ROOT / "tools" / "rule_book.py"))
    assert (ROOT / "docs" / "rules.md").read_text(encoding="utf-8") == tool["page"](), (
        "make it again: python tools/rule_book.py"
    )
