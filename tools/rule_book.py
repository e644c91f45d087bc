"""Write docs/rules.md: the rule book with its sources, from the code's own tables.

python tools/rule_book.py            write the page
python tools/rule_book.py --check    exit 1 where the page is not what the code says
"""

from __future__ import annotations

import sys
from pathlib import Path

from claspwright.build import BUILD_RULES
from claspwright.limits import MARKS, Limit, limits
from claspwright.materials import conditions, materials
from claspwright.rules import FINISHED_RULES, PRESCRIPTION_RULES

PAGE = Path(__file__).resolve().parents[1] / "docs" / "rules.md"
MEANING = {
    "seen A": "read in a standard, from an authority or in a peer-reviewed paper",
    "seen B": "read in a university text, a handbook or an encyclopaedia",
    "seen C": "read in study notes or slides: a default, to be settled by the laboratory",
    "memory": "recalled from the named source, not read again",
    "common practice": "a fact of the trade without a source that can be cited",
    "derived": "computed from first principles",
    "own": "set by this project",
}


def page() -> str:
    """The whole page."""
    return "\n".join([*_head(), *_rules(), *_dimensions(), *_conditions(), *_alloys()]) + "\n"


def _head() -> list[str]:
    return [
        "# Rule book",
        "",
        "Made by `python tools/rule_book.py` from the tables of the program; do not edit by hand.",
        "",
        "Every finding is a `stop` (must not go on), a `look` (a person must judge) or a `note`",
        "(for the record). A source carries a mark that says how far it can be trusted:",
        "",
        "| mark | meaning |",
        "| --- | --- |",
        *(f"| {mark} | {MEANING[mark]} |" for mark in MARKS),
        "",
        "The rules help a technician and a dentist to judge a framework; they replace neither the",
        "prescription nor the judgement of the licensed dentist, and the instructions of the",
        "makers of alloy and machine come first.",
        "",
    ]


def _rules() -> list[str]:
    lines = ["## Rules that need only the prescription", "", "| id | rule | source |"]
    lines += ["| --- | --- | --- |"]
    lines += [f"| {r.id} | {r.title} | {r.source} |" for r in PRESCRIPTION_RULES]
    lines += ["", "## Rules on a finished framework", "", "| id | what is held | source |"]
    lines += ["| --- | --- | --- |"]
    for rule in FINISHED_RULES:
        told = (rule.check.__doc__ or "").split("\n")[0].rstrip(".")
        lines.append(f"| {rule.id} | {rule.title}: {told[:1].lower()}{told[1:]} | {rule.source} |")
    lines += ["", "## Rules on a build", "", "| id | severity | what is held | source |"]
    lines += ["| --- | --- | --- | --- |"]
    lines += [f"| {r.id} | {r.severity} | {r.title} | {r.source} |" for r in BUILD_RULES]
    return [*lines, ""]


def _dimensions() -> list[str]:
    lines = ["## Dimensions", "", "Defaults and thresholds; `1` is a plain ratio.", ""]
    lines += ["| key | dimension | default | unit | stop | look | note | source |"]
    lines += ["| --- | --- | --- | --- | --- | --- | --- | --- |"]
    for d in limits().values():
        steps = " | ".join(_steps(d, word) for word in ("stop", "look", "note"))
        lines.append(f"| {d.key} | {d.title} | {d.value:g} | {d.unit} | {steps} | {d.cited} |")
    return [*lines, ""]


def _steps(dimension: Limit, severity: str) -> str:
    low = getattr(dimension, f"{severity}_below")
    high = getattr(dimension, f"{severity}_above")
    found = [f"< {low:g}"] if low is not None else []
    found += [f"> {high:g}"] if high is not None else []
    return ", ".join(found)


def _conditions() -> list[str]:
    lines = ["## What a proof assumes", "", "Computed through the whole range.", ""]
    lines += ["| key | what | nominal | low | high | unit | source |"]
    lines += ["| --- | --- | --- | --- | --- | --- | --- |"]
    for one in conditions().values():
        p = one.value
        figures = f"{p.nominal:g} | {p.low:g} | {p.high:g}"
        lines.append(f"| {one.key} | {one.title} | {figures} | {one.unit} | {p.cited} |")
    return [*lines, ""]


def _alloys() -> list[str]:
    lines = ["## Alloys", ""]
    for alloy in materials().values():
        lines += [f"### {alloy.name}", "", f"{alloy.title}. ISO 22674 type {alloy.iso22674_type}."]
        lines += ["", "| property | nominal | low | high | unit | source |"]
        lines += ["| --- | --- | --- | --- | --- | --- |"]
        for name, unit in (
            ("density", "g/cm3"), ("modulus", "MPa"), ("poisson", "1"), ("proof", "MPa"),
            ("tensile", "MPa"), ("elongation", "%"), ("fatigue", "MPa"), ("expansion", "1e-6/K"),
        ):  # fmt: skip
            p = getattr(alloy, name)
            figures = f"{p.nominal:g} | {p.low:g} | {p.high:g}"
            lines.append(f"| {name} | {figures} | {unit} | {p.cited} |")
        lines.append("")
    return lines[:-1]


def main() -> int:
    """Write or check the page."""
    if "--check" in sys.argv[1:]:
        fresh = PAGE.exists() and PAGE.read_text(encoding="utf-8") == page()
        print("docs/rules.md is fresh" if fresh else "docs/rules.md is stale: make it again")
        return 0 if fresh else 1
    PAGE.write_text(page(), encoding="utf-8")
    print(f"wrote {PAGE.name}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
