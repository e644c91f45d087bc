"""Arguments and options that several commands share."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

Case = Annotated[Path, typer.Argument(help="Folder with case.toml, or that file.")]
WorkDay = Annotated[
    datetime | None,
    typer.Option(formats=["%Y-%m-%d"], help="Date of the work, to print; no clock is asked."),
]


def iso_day(date: datetime | None) -> str:
    """The day as YYYY-MM-DD; empty where none was given."""
    return f"{date:%Y-%m-%d}" if date else ""
