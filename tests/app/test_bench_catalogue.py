"""Nothing that the page says stands beside its catalogue, and the second language has all of it."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.app.test_bench_sentences import CATALOGUE, ROOT, known

from claspwright.app.bench.worker import TASKS
from claspwright.records.kinds import KINDS
from claspwright.report import SIDES

SOURCE = ROOT / "src" / "claspwright"
PAGE = ROOT / "frontend" / "src"
BETWEEN = re.compile(
    r"(?<![=\-])>([^<>{}()=;&|?`]*?[A-Za-z]{2,}[^<>{}()=;&|?`]*?)(?=</|<[a-zA-Z]|\{)"
)
SPOKEN = re.compile(
    r"""\b(?:aria-label|title|alt|placeholder|label)="([^"{]*[A-Za-z]{2,}[^"]*)\""""
)
TOLD = re.compile(r"""\.value = (["'`](?:[^"'`]*[a-z]{2,} [a-z]{2,}[^"'`]*)["'`])""")
PROPER = {"Claspwright", "mm", "5 mm"}  # the program's name, a unit, a scale
KEYS = {"month", "quality", "feedstock", "register"}  # of pages, handed to their head
COMMENT = re.compile(r"<code>.*?</code>|/\*.*?\*/|(?<![:\"'`])//[^\n]*", re.DOTALL)
WORDS = json.loads(CATALOGUE.read_text("utf-8"))["words"]
RAISED = {"InputError", "StaleRecordError", "InfeasibleError"}
SERVED = (
    "app/bench",
    "web",
)  # whose errors reach the page; those of `serve` come before it is there
BEFORE = {"accounts.py", "serve.py"}


def beside_the_catalogue(text: str) -> set[str]:
    """Words of a person's language that a piece of the page writes down itself."""
    bare = COMMENT.sub("", text)
    found = {one.strip() for of in (BETWEEN, SPOKEN, TOLD) for one in of.findall(bare)}
    return {one for one in found if one not in PROPER | KEYS and not one.startswith(",")}


@pytest.mark.parametrize(
    "planted",
    [
        '<p class="hint">Nothing here</p>',
        '<b aria-label="close it" />',
        'a.value = "no such thing";',
    ],
)
def test_a_word_beside_the_catalogue_is_seen(planted: str) -> None:
    assert beside_the_catalogue(f"{{t(key)}} {planted}")


@pytest.mark.parametrize("file", sorted(PAGE.rglob("*.tsx")), ids=lambda file: file.name)
def test_the_page_writes_no_words_itself(file: Path) -> None:
    assert not beside_the_catalogue(file.read_text("utf-8"))


def keys_of(name: str, text: str) -> dict[str, str]:
    """Keys and texts of one language in a file of words."""
    block = text.split(f"const {name}", 1)[1].split("\n}", 1)[0]
    pair = r'^ {2}(\w+):\s+"((?:[^"\\]|\\.)*)",?$'
    return dict(re.findall(pair, block, re.MULTILINE))


def test_every_key_of_the_page_has_its_own_word_in_the_second_language() -> None:
    told = 0
    for file in (PAGE / "lib" / "words.ts", *sorted((PAGE / "lib" / "words").glob("*.ts"))):
        text = file.read_text("utf-8")
        first, second = keys_of("EN", text), keys_of("DE", text)
        assert set(first) == set(second), file.name
        told += len(first)
        alike = {k for k, v in first.items() if second[k] == v and re.search(r"[a-z]{3,} [a-z]", v)}
        assert not alike, file.name
    assert told > 400


def said_by(node: ast.expr) -> str | None:
    """A text with its values in place, or None where it is made elsewhere."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        pieces = (p.value if isinstance(p, ast.Constant) else "17" for p in node.values)
        return "".join(str(piece) for piece in pieces)
    return None


def errors() -> Iterator[str]:
    """What an error says and what it advises, of all that answers the page."""
    for folder in SERVED:
        for path in sorted((SOURCE / folder).glob("*.py")):
            if path.name in BEFORE:
                continue
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                    continue
                if node.func.id in RAISED:
                    asked = [*node.args[:1], *(k.value for k in node.keywords if k.arg == "remedy")]
                elif node.func.id == "said":
                    asked = node.args[1:3]
                else:
                    continue
                yield from filter(None, map(said_by, asked))


def stops() -> Iterator[str]:
    """What keeps a case from leaving."""
    tree = ast.parse((SOURCE / "app" / "dispatch.py").read_text("utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            if node.func.id == "_stop":
                yield from filter(None, [said_by(node.args[1])])
        elif isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "words":
            given = [one for one in ast.walk(node.value) if isinstance(one, ast.Constant)]
            yield from (f"Framework 17 {str(one.value).strip()}." for one in given if one.value)


def phases() -> Iterator[str]:
    """What progress tells, in the words of each step."""
    for path in sorted(SOURCE.rglob("*.py")):
        if "cli" in path.parts or path.name.startswith(("demo", "solid")):
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                continue
            if node.func.id == "progress" and len(node.args) == 2:
                yield from filter(None, [said_by(node.args[1])])


def in_catalogue(said: str) -> bool:
    return said in WORDS or known(said)


def test_every_error_that_reaches_the_page_is_in_the_catalogue() -> None:
    found = set(errors()) - {"17"}
    assert len(found) > 80
    assert not {one for one in found if not in_catalogue(one)}


def test_all_that_keeps_a_case_from_leaving_is_in_the_catalogue() -> None:
    found = set(stops()) - {"Framework 17 17."}
    assert len(found) > 12
    assert not {one for one in found if not in_catalogue(one)}


def test_every_step_of_the_work_is_in_the_catalogue() -> None:
    found = set(phases())
    assert len(found) > 60
    assert not {one for one in found if not in_catalogue(one)}


def test_kinds_fields_tasks_and_states_are_in_the_catalogue() -> None:
    kinds = {name.replace("_", " ") for name in KINDS}
    fields = {
        field.replace("_", " ")
        for kind in KINDS.values()
        for field in (*kind.needed, *kind.optional)
    }
    states = {"waiting", "at work", "worked out", "not worked out", "stale", "sheet has errors"}
    assert not {one for one in kinds | fields | set(TASKS) | states if one not in WORDS}
    assert not {side for side in SIDES if f"from the {side}" not in WORDS and side not in WORDS} - {
        "back"
    }
