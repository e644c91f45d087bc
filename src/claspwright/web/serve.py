"""Serve one laboratory on loopback until interrupted."""

from __future__ import annotations

import secrets
import socket
import threading
import webbrowser
from collections.abc import Callable
from pathlib import Path
from types import FrameType

import uvicorn

from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory
from claspwright.base import InputError
from claspwright.web.application import create_app
from claspwright.web.bench import Bench

HOST = "127.0.0.1"


def serve(root: Path, *, port: int = 0, browser: bool = True, say: Callable[[str], None]) -> None:
    """Serve the bench.

    Args:
        root: the laboratory's folder; made if it is not there.
        port: 0 for any that is free.
        browser: open the page.
        say: told the address with its token.

    Raises:
        InputError: the folder or the port cannot be used.
    """
    if root.exists() and not root.is_dir():
        raise InputError("this is a file", place=root.as_posix(), remedy="Give a folder.")
    root.mkdir(parents=True, exist_ok=True)
    door = _door(port)
    token = secrets.token_urlsafe(24)
    address = f"http://{HOST}:{door.getsockname()[1]}/?token={token}"
    jobs = JobBook(Laboratory(root.resolve()))
    try:
        app = create_app(Laboratory(root.resolve()), jobs, token)
        config = uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=3)
        bench: Bench = app.state.bench
        server = _Server(config, bench)
        say(address)
        if browser:
            threading.Timer(0.5, webbrowser.open, [address]).start()
        server.run(sockets=[door])
    finally:
        jobs.close()


class _Server(uvicorn.Server):
    """Tells the open streams of events that it is about to end."""

    def __init__(self, config: uvicorn.Config, bench: Bench) -> None:
        super().__init__(config)
        self._bench = bench

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        self._bench.closing.set()
        super().handle_exit(sig, frame)


def _door(port: int) -> socket.socket:
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((HOST, port))
    except OSError as error:
        door.close()
        raise InputError(
            f"port {port} cannot be used ({error.strerror})", place="--port",
            remedy="Give another port, or none to take a free one.",
        ) from None  # fmt: skip
    door.listen(128)  # whoever opens the address before the server is up waits
    return door
