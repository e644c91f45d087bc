"""A certificate of feedstock, written down as TOML, against an alloy's specification."""

from __future__ import annotations

import tomllib
from pathlib import Path

from claspwright.base import Finding, InputError
from claspwright.process import Certificate, judge_certificate


def judge_certificate_file(path: Path, alloy: str) -> tuple[Finding, ...]:
    """What a certificate breaks; see `read_certificate` for the file."""
    return judge_certificate(read_certificate(path), alloy)


def read_certificate(path: Path) -> Certificate:
    """A certificate that was written down.

    The file holds `lot`, a table `percent` of elements, and where the certificate shows them
    `size_um = [D10, D90]`, `apparent_density_g_cm3` and `shown`, a list of further items.

    Raises:
        InputError: the file cannot be read.
    """
    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8"))
        size = rows.get("size_um")
        return Certificate(
            lot=str(rows["lot"]),
            percent={str(name): float(value) for name, value in rows["percent"].items()},
            size_um=None if size is None else (float(size[0]), float(size[1])),
            apparent_density_g_cm3=rows.get("apparent_density_g_cm3"),
            shown=frozenset(rows.get("shown", ())),
        )
    except (OSError, tomllib.TOMLDecodeError, KeyError, TypeError, ValueError, IndexError) as error:
        raise InputError(
            f"the certificate cannot be read: {error}", place=path.name,
            remedy='Give lot = "..." and a table [percent] of elements.',
        ) from error  # fmt: skip
