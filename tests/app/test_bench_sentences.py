"""The page's second language: what the rules say stands in its catalogue, with every value."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from claspwright.survey.scores import score_parts

if TYPE_CHECKING:
    from tests.app.conftest import Done

ROOT = Path(__file__).resolve().parents[2]
CATALOGUE = ROOT / "frontend" / "src" / "lib" / "words" / "sentences.de.json"
RULES = ROOT / "src" / "claspwright" / "rules"
PLACE = re.compile(r"\{\w\}")
VALUE = r"((?:[^()]|\((?:[^()]|\([^()]*\))*\))+?)"  # no bracket is open at its end
SAMPLE = "clasp.35.buccal"  # stands for a value


@cache
def pairs() -> tuple[tuple[str, str], ...]:
    told = json.loads(CATALOGUE.read_text("utf-8"))["sentences"]
    return tuple((said, gives) for said, gives in told)


@cache
def patterns() -> tuple[re.Pattern[str], ...]:
    out = []
    for said, _ in pairs():
        escaped = re.escape(said).replace(r"\{", "{").replace(r"\}", "}")
        source = PLACE.sub(lambda _: VALUE, escaped)
        more = "(?: (?P<rest>.+))?" if said.endswith(".") else "(?P<rest>(?!))?"
        out.append(re.compile(f"^{source}{more}$", re.DOTALL))
    return tuple(out)


def known(said: str) -> bool:
    """Whether the catalogue has every sentence of a text."""
    for one in patterns():
        found = one.match(said)
        if found and (found["rest"] is None or known(found["rest"])):
            return True
    return False


def remedies() -> Iterator[str]:
    """What the rules advise, as it stands in their source."""
    for path in sorted(RULES.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            is_named = isinstance(node, ast.Assign) and any(
                isinstance(of, ast.Name) and of.id == "remedy" for of in node.targets
            )
            if (
                is_named
                and isinstance(node, ast.Assign)
                or isinstance(node, ast.keyword)
                and node.arg == "remedy"
            ):
                yield from _texts(node.value)


def _texts(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _texts(node.body)
        yield from _texts(node.orelse)


def test_no_value_is_lost_between_the_languages() -> None:
    for said, gives in pairs():
        assert set(PLACE.findall(said)) == set(PLACE.findall(gives)), said


def test_each_sentence_is_found_by_itself() -> None:
    assert all(known(PLACE.sub(SAMPLE, said)) for said, _ in pairs())
    assert len({said for said, _ in pairs()}) == len(pairs())


def test_every_advice_of_the_rules_is_in_the_catalogue() -> None:
    found = set(remedies())
    assert len(found) > 30
    assert not {one for one in found if not known(one)}


def test_every_finding_of_a_whole_case_is_in_the_catalogue(done: Done) -> None:
    rows = json.loads((done.out / "findings.json").read_text("utf-8"))
    assert not {row["text"] for row in rows if not known(row["text"])}


def test_why_a_path_is_tilted_is_in_the_catalogue() -> None:
    words = json.loads(CATALOGUE.read_text("utf-8"))["words"]
    titles = [row.title for row in score_parts()]
    assert len(titles) > 5
    assert not set(titles) - set(words)
    for title in titles:
        assert known(f"0.34 points fewer for {title}")
        assert known(f"0.02 points more for {title}")


def test_a_sentence_nobody_knows_is_not_taken_for_another() -> None:
    assert not known("The moon is made of cheese.")
