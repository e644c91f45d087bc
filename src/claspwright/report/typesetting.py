"""A template, its words and its pictures set as PDF by typst."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal

import typst


def typeset(
    template: str,
    words: Mapping[str, Any],
    pictures: Mapping[str, bytes],
    *,
    standard: Literal["ua-1", "a-2b"] = "ua-1",
) -> bytes:
    """The finished document; the same arguments give the same bytes.

    Args:
        template: name of a file among the package's templates; it reads `words.json`.
        words: what that file holds (Any: whatever JSON takes).
        pictures: by the file name under which the template finds them.
        standard: the PDF standard that is kept to.
    """
    source = files("claspwright.report").joinpath("templates", template).read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / template).write_bytes(source)
        for file, data in pictures.items():
            (folder / file).write_bytes(data)
        text = json.dumps(words, ensure_ascii=False, sort_keys=True)
        (folder / "words.json").write_text(text, encoding="utf-8")
        made = typst.compile(
            str(folder / template),
            root=str(folder),
            format="pdf",
            ignore_system_fonts=True,
            pdf_standards=[standard],
            timestamp=0,
        )
    return bytes(made)
