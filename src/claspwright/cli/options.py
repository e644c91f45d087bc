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
Into = Annotated[
    str, typer.Option("--register", help="Register to enter it in: a folder or a database URL.")
]
IntoFiles = Annotated[
    str, typer.Option("--register-files", help="Its files, where it is in a database server.")
]
EnteredBy = Annotated[str, typer.Option("--by", help="Who enters it.")]
EnteredOn = Annotated[str, typer.Option("--on", help="When: YYYY-MM-DD or YYYY-MM-DDThh:mm:ss.")]
Instrument = Annotated[
    str, typer.Option(help="Id of the instrument; its calibration is entered too.")
]


def iso_day(date: datetime | None) -> str:
    """The day as YYYY-MM-DD; empty where none was given."""
    return f"{date:%Y-%m-%d}" if date else ""
