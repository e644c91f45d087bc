"""The laboratory's particulars, as its documents print them, from a file."""

from __future__ import annotations

import tomllib
from pathlib import Path

from claspwright.base import InputError
from claspwright.report import Laboratory


def read_laboratory(path: Path) -> Laboratory:
    """The laboratory's particulars from a TOML file.

    Raises:
        InputError: the file cannot be read, or name or address are missing.
    """
    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8"))
        rows.pop("rates", None)  # what things cost: see rates_file
        rows["sites"] = tuple(rows.get("sites", ()))
        return Laboratory(**rows)
    except (OSError, tomllib.TOMLDecodeError, TypeError) as error:
        raise InputError(
            f"the laboratory's particulars cannot be used: {error}", place=path.name,
            remedy="Give name, address and, if wanted, sites, authorised_representative, "
            "responsible, country, registration, phone.",
        ) from error  # fmt: skip
