"""`claspwright bench` and `account`: the bench in the browser, and who may use it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Lab = Annotated[
    Path, typer.Argument(metavar="LAB_DIR", help="Folder of the laboratory; made if need be.")
]


def bench(
    laboratory: Lab,
    port: Annotated[int, typer.Option(min=0, max=65535, help="0: any that is free.")] = 0,
    browser: Annotated[bool, typer.Option(help="Open the page in the browser.")] = True,
    listen: Annotated[
        str, typer.Option(help="Address for other machines; asks for accounts and TLS.")
    ] = "",
    certificate: Annotated[
        Path | None, typer.Option(help="PEM file, for --listen.", show_default=False)
    ] = None,
    key: Annotated[
        Path | None, typer.Option(help="PEM file of its key, for --listen.", show_default=False)
    ] = None,
    name: Annotated[
        list[str] | None,
        typer.Option(help="Name that browsers know this machine by.", show_default=False),
    ] = None,
) -> None:
    """Open the bench: cases, findings and the model in the browser, on this machine alone."""
    from claspwright.web import Network, serve

    def say(address: str) -> None:
        print(f"The bench is open at {address}\nStop it with Ctrl-C.", flush=True)

    network = Network(listen, certificate, key, tuple(name or ())) if listen else None
    serve(laboratory, port=port, browser=browser, network=network, say=say)


def account(
    laboratory: Lab,
    name: Annotated[str, typer.Argument(help="Name of the account; it signs what is changed.")],
    role: Annotated[str, typer.Option(help="technician, lead or dentist.")] = "technician",
    case: Annotated[
        list[str] | None,
        typer.Option(help="Case that a dentist may read.", show_default=False),
    ] = None,
    drop: Annotated[bool, typer.Option("--drop", help="Take the account away.")] = False,
    password_file: Annotated[
        Path | None,
        typer.Option(help="File whose first line is the password; else it is asked for.",
                     show_default=False),
    ] = None,
) -> None:  # fmt: skip
    """Make an account for a bench that other machines reach, change it, or take it away."""
    from claspwright.app.bench.accounts import drop_account, set_account
    from claspwright.app.bench.laboratory import Laboratory

    lab = Laboratory(laboratory.resolve())
    if drop:
        drop_account(lab, name)
        print(f"{name} is taken away")
        return
    if password_file is not None:
        lines = password_file.read_text(encoding="utf-8").splitlines()
        password = lines[0] if lines else ""
    else:
        password = str(typer.prompt("Password", hide_input=True, confirmation_prompt=True))
    set_account(lab, name, role, password, tuple(case or ()))
    print(f"{name} may use the bench as {role}")
