"""A template, its words and its pictures set as PDF by typst."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import typst


def typeset(template: str, words: Mapping[str, Any], pictures: Mapping[str, bytes]) -> bytes:
    """The finished document, PDF/A-2a and PDF/UA-1; the same arguments give the same bytes.

    Args:
        template: name of a file among the package's templates; it reads `words.json`.
        words: what that file holds (Any: whatever JSON takes); "date" becomes the document's.
        pictures: by the file name under which the template finds them.
    """
    source = files("claspwright.report").joinpath("templates", template).read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / template).write_bytes(source)
        for file, data in pictures.items():
            (folder / file).write_bytes(data)
        told = {**words, "day": _day(str(words.get("date", "")))}
        text = json.dumps(told, ensure_ascii=False, sort_keys=True)
        (folder / "words.json").write_text(text, encoding="utf-8")
        made = typst.compile(
            str(folder / template),
            root=str(folder),
            format="pdf",
            ignore_system_fonts=True,
            pdf_standards=["a-2a", "ua-1"],  # to be kept for years, to be read by everyone
            timestamp=0,
        )
    return bytes(made)


def _day(date: str) -> list[int]:
    """Year, month and day, which PDF/A asks for; the first of 1970 where no date is told."""
    found = re.match(r"(\d{4})-(\d{2})-(\d{2})", date)
    return [int(part) for part in found.groups()] if found else [1970, 1, 1]
