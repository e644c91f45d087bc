"""Commands: arguments in, results and words out; no arithmetic."""

from claspwright.cli.commands import app, main

__all__ = ["app", "main"]
