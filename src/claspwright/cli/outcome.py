"""How a command ends: what is said where, and with which exit code."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable
from types import FrameType

CLEAN = 0
STOPPED = 1  # a finding says that the case must not go on
BAD_INPUT = 2
INTERRUPTED = 130


def guarded(command: Callable[[], object]) -> None:
    """Run a command; errors that the program knows are told in one message on stderr."""
    from claspwright.base import Cancelled, ClaspwrightError, InputError

    for number in (signal.SIGINT, signal.SIGTERM):  # also where a shell had them ignored
        signal.signal(number, _interrupt)
    _write_utf8()
    try:
        command()
    except InputError as error:
        sys.exit(_told(error, BAD_INPUT))
    except (Cancelled, KeyboardInterrupt):
        print("Interrupted; nothing was left half-written.", file=sys.stderr)
        sys.exit(INTERRUPTED)
    except ClaspwrightError as error:
        sys.exit(_told(error, STOPPED))


def _told(error: Exception, code: int) -> int:
    print(f"error: {error}", file=sys.stderr)
    return code


def _interrupt(number: int, frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _write_utf8() -> None:
    """Names and units print on every console; what it cannot show becomes a question mark."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
