"""Serve one laboratory on loopback until interrupted."""

from __future__ import annotations

import os
import secrets
import socket
import ssl
import threading
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import uvicorn

from claspwright.app.bench.accounts import accounts
from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory
from claspwright.base import InputError
from claspwright.web.application import create_app
from claspwright.web.bench import Bench
from claspwright.web.sessions import AccountDoor

HOST = "127.0.0.1"


@dataclass(frozen=True, slots=True)
class Network:
    """How other machines reach the bench; all of it is needed."""

    listen: str  # address of this machine
    certificate: Path | None  # PEM
    key: Path | None  # PEM, readable by its owner alone
    names: tuple[str, ...] = ()  # that browsers know it by; the address where there are none


def serve(
    root: Path,
    *,
    port: int = 0,
    browser: bool = True,
    network: Network | None = None,
    say: Callable[[str], None],
) -> None:
    """Serve the bench.

    Args:
        root: the laboratory's folder; made if it is not there.
        port: 0 for any that is free.
        browser: open the page.
        network: for other machines, with accounts; None: loopback, with a token.
        say: told the address, with its token where there is one.

    Raises:
        InputError: the folder or the port cannot be used, or accounts, certificate or key are
            missing or will not do.
    """
    if root.exists() and not root.is_dir():
        raise InputError("this is a file", place=root.as_posix(), remedy="Give a folder.")
    root.mkdir(parents=True, exist_ok=True)
    lab = Laboratory(root.resolve())
    keeper = secrets.token_urlsafe(24) if network is None else _account_door(lab, network)
    tls = {} if network is None else _tls(network)
    socket_ = _socket(HOST if network is None else network.listen, port)
    jobs = JobBook(lab)
    try:
        app = create_app(lab, jobs, keeper)
        config = uvicorn.Config(
            app, log_level="warning", timeout_graceful_shutdown=3, limit_concurrency=200,
            server_header=False, **tls,
        )  # fmt: skip
        bench: Bench = app.state.bench
        server = _Server(config, bench)
        here = socket_.getsockname()[1]
        if isinstance(keeper, str):
            address = f"http://{HOST}:{here}/?token={keeper}"
        else:
            address = f"https://{sorted(keeper.names)[0]}:{here}/"
        say(address)
        if browser and network is None:
            threading.Timer(0.5, webbrowser.open, [address]).start()
        server.run(sockets=[socket_])
        bench.live.close()
    finally:
        jobs.close()


def _account_door(lab: Laboratory, network: Network) -> AccountDoor:
    """Accounts at the door; refused where there is none, or none that can work."""
    if not any(one.role in ("technician", "lead") for one in accounts(lab).values()):
        raise InputError("there is no account of a technician or lead", place="--listen",
                         remedy="Make one with `claspwright account`.")  # fmt: skip
    names = network.names or (network.listen,)
    if not network.names and network.listen in ("0.0.0.0", "::"):
        raise InputError("an address of all networks names no server", place="--listen",
                         remedy="Say with --name how browsers know this machine.")  # fmt: skip
    return AccountDoor(lab, frozenset(name.lower() for name in names))


def _tls(network: Network) -> dict[str, Any]:  # Any: options of the server
    """Certificate and key; refused where one is missing, unsound or open to others."""
    for option, path in (("--certificate", network.certificate), ("--key", network.key)):
        if path is None or not path.is_file():
            raise InputError("other machines are served by TLS alone", place=option,
                             remedy="Give certificate and key as PEM files.")  # fmt: skip
    assert network.certificate is not None and network.key is not None
    if os.name == "posix" and network.key.stat().st_mode & 0o077:
        raise InputError("others can read the key", place=network.key.as_posix(),
                         remedy="Take their rights away: chmod 600.")  # fmt: skip
    try:
        ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(
            network.certificate, network.key
        )
    except (ssl.SSLError, OSError) as error:
        raise InputError(f"certificate and key cannot be used: {error}", place="--certificate",
                         remedy="Give a PEM certificate with its own key.") from None  # fmt: skip
    return {"ssl_certfile": network.certificate, "ssl_keyfile": network.key}


class _Server(uvicorn.Server):
    """Tells the open streams of events that it is about to end."""

    def __init__(self, config: uvicorn.Config, bench: Bench) -> None:
        super().__init__(config)
        self._bench = bench

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        self._bench.closing.set()
        threading.Thread(target=self._bench.live.close).start()  # answers what waits for it
        super().handle_exit(sig, frame)


def _socket(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    door = socket.socket(family, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((host, port))
    except OSError as error:
        door.close()
        raise InputError(
            f"port {port} of {host} cannot be used ({error.strerror})", place="--port",
            remedy="Give another port, or none to take a free one.",
        ) from None  # fmt: skip
    door.listen(128)  # whoever opens the address before the server is up waits
    return door
