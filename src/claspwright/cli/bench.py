"""`claspwright bench`: the bench in the browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def bench(
    laboratory: Annotated[
        Path, typer.Argument(metavar="LAB_DIR", help="Folder of the laboratory; made if need be.")
    ],
    port: Annotated[int, typer.Option(min=0, max=65535, help="0: any that is free.")] = 0,
    browser: Annotated[bool, typer.Option(help="Open the page in the browser.")] = True,
) -> None:
    """Open the bench: cases, findings and the model in the browser, on this machine alone."""
    from claspwright.web import serve

    def say(address: str) -> None:
        print(f"The bench is open at {address}\nStop it with Ctrl-C.", flush=True)

    serve(laboratory, port=port, browser=browser, say=say)
