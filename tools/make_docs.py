"""Write the pages that follow from the code, or check that they are fresh (`--check`)."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from importlib import metadata
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
DOCS = ROOT / "docs"
NOTICE = "<!-- Written by tools/make_docs.py; do not edit. -->\n"
# Packages whose metadata names no licence, or only a text: read in the licence file itself.
READ_BY_HAND = {"embreex": "BSD-2-Clause (embree within: Apache-2.0)"}
SHORT = {
    "MIT License": "MIT",
    "Apache Software License": "Apache-2.0",
    "BSD License": "BSD",
    "ISC License (ISCL)": "ISC",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
}
PERMITTED = (
    "MIT",
    "BSD",
    "Apache",
    "ISC",
    "MPL",
    "PSF",
    "Python Software Foundation",
    "HPND",
    "Zlib",
    "0BSD",
    "CC0",
)


def main(words: list[str]) -> int:
    """Write every page, or compare; 1 where a page is stale."""
    pages: dict[str, Callable[[], str]] = {
        "case-sheet.schema.json": _schema,
        "command-line.md": _command_line,
        "dependencies-and-licences.md": _licences,
        "scan-findings.md": _scan_findings,
    }
    stale = []
    for name, make in pages.items():
        page = DOCS / name
        text = make()
        if "--check" not in words:
            page.write_bytes(text.encode("utf-8"))
        elif not page.exists() or page.read_text(encoding="utf-8") != text:
            stale.append(name)
    if stale:
        print(f"stale: {', '.join(stale)}; run tools/make_docs.py")
    return 1 if stale else 0


def _schema() -> str:
    from claspwright.case import schema_text

    return schema_text()


def _command_line() -> str:
    """One section a command, as a table of its arguments and options."""
    import typer

    from claspwright.cli import app

    group = typer.main.get_command(app)
    parts = [NOTICE, "# The command line\n", f"{group.help}\n"]
    parts.append("Exit codes: 0 clean; 1 a finding of severity `stop`; 2 bad input.\n")
    parts += _commands(group, "claspwright", "##")
    return "\n".join(parts)


def _commands(group: Any, before: str, mark: str) -> list[str]:  # Any: a click group
    """A section for each command of a group, and below it one for each of its own."""
    parts = []
    for name, command in group.commands.items():
        parts += [f"{mark} {before} {name}\n", f"{command.help}\n"]
        if hasattr(command, "commands"):
            parts += _commands(command, f"{before} {name}", f"{mark}#")
            continue
        parts += ["| | | |", "| --- | --- | --- |"]
        parts += [_row(parameter) for parameter in command.params]
        parts.append("")
    return parts


def _row(parameter: object) -> str:
    names = ", ".join(f"`{name}`" for name in getattr(parameter, "opts", []))
    if getattr(parameter, "param_type_name", "") == "argument":
        names = f"`{str(getattr(parameter, 'name', '')).upper()}`"
    required = "required" if getattr(parameter, "required", False) else ""
    return f"| {names} | {getattr(parameter, 'help', '') or ''} | {required} |"


def _scan_findings() -> str:
    """The wrong inputs that the tests make, and what must be said of each."""
    sys.path.insert(0, str(ROOT / "tests" / "unit" / "arch"))
    from wrong_scans import MIRRORED_PAIRS, WRONG

    rows = [
        NOTICE,
        "# What is said of a wrong scan\n",
        "Each row is a test: an invented arch is spoilt in this way, and intake or the search for",
        "its teeth must give this finding. A sound arch must give none of them. A finding `look`",
        "asks for a person's judgement; a `stop` must not go on.\n",
        "| what is wrong | rule | severity | told by |",
        "| --- | --- | --- | --- |",
    ]
    for case in WRONG:
        by = "the teeth" if case.teeth else "the scan"
        rows.append(f"| {case.title} | `{case.rule}` | {case.severity} | {by} |")
    rows += [
        f"| {title} | `scan.mirrored` | stop | the bite record |" for title, _ in MIRRORED_PAIRS
    ]
    rows += [
        "",
        "A trimmed stone model and a scan of the mouth are told apart by the largest area in one",
        "plane (`scan.kind`, a note): 290 mm2 or more on the research models, 120 mm2 or less in",
        "the research mouths.\n",
        "A mirrored arch is an arch too: its right molars look like left ones. What betrays it",
        "lies outside its shape: faces left inside out; gaps that differ from side to side (the",
        "line of the arch is divided among the teeth of the sheet and among the mirrored list);",
        "or the bite record, which lies on both arches once one of them is mirrored back across",
        "an axis of its file, through the origin or its middle. With symmetrical gaps, faces",
        "put right and no record that was left alone, nothing tells.\n",
        "The jaw is told twice: by a vault between the sides of the arch, and by widths. The",
        "line is divided among the teeth of the sheet and among those at the same positions of",
        "the other jaw; upper central incisors are two thirds wider than lower ones. On 31",
        "arches with incisors (13 labelled scans, the others invented, most with real crowns)",
        "the jaw given rightly scores better by 2.7 or more; without two incisors standing",
        "(all front teeth lost) the widths of both jaws are too much alike, and only the vault",
        "tells. Who sets every mark by hand has answered the doubts about the list of teeth.\n",
        "![Four spoilt scans: palate missing, hole in a tooth, two passes, a loose tooth]"
        "(images/wrong-scans.png)\n",
    ]
    return "\n".join(rows)


def _licences() -> str:
    rows = [
        NOTICE,
        "# Dependencies and their licences\n",
        "What a run needs, as locked in `requirements/run.txt`, with the licence that each package",
        "declares. Only permissive and weak-copyleft licences are admitted. Build and test tools",
        "are not listed; `libigl`, whose wheel carries copyleft parts, is one of them: an oracle",
        "in tests and benchmarks, never installed for a run. The object-store test alone uses",
        "s3fs (BSD-3-Clause), moto (Apache-2.0), flask (BSD-3-Clause), flask-cors (MIT) and what",
        "they need, locked in `requirements/object-store.txt`: MIT, BSD, Apache-2.0, PSF-2.0, and",
        "certifi (MPL-2.0).\n",
        "| package | version | licence |",
        "| --- | --- | --- |",
    ]
    for name, version in _locked():
        licence = _licence(name)
        if not any(word in licence for word in PERMITTED):
            sys.exit(f"{name}: licence {licence!r} is not among the admitted ones")
        rows.append(f"| {name} | {version} | {licence} |")
    return "\n".join(rows) + "\n"


def _locked() -> list[tuple[str, str]]:
    """Packages of the run lock that this platform needs, build tools apart."""
    text = (ROOT / "requirements" / "run.txt").read_text(encoding="utf-8")
    build = {"hatchling", "packaging", "pathspec", "pluggy", "trove-classifiers"}
    found: dict[str, list[str]] = {}
    for name, version in re.findall(r"^([A-Za-z0-9_.-]+)==([^ \\;]+)", text, flags=re.MULTILINE):
        if name not in build:
            found.setdefault(name, []).append(version)
    return [(name, " / ".join(versions)) for name, versions in found.items()]


def _licence(name: str) -> str:
    if name in READ_BY_HAND:
        return READ_BY_HAND[name]
    try:
        about = metadata.metadata(name)
    except metadata.PackageNotFoundError:
        return "BSD-3-Clause" if name == "colorama" else f"{name} is not installed"
    expression = about.get("License-Expression")
    if expression:
        return str(expression)
    classified = [
        line.split(" :: ")[-1]
        for line in about.get_all("Classifier") or []
        if line.startswith("License ::")
    ]
    if classified:
        return ", ".join(SHORT.get(word, word) for word in classified)
    return str(about.get("License") or "none declared").splitlines()[0]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
