"""The exception tree.

ClaspwrightError
├── InputError (also ValueError)   the user's file, sheet or argument is wrong
├── GeometryError                  a geometric operation has no valid result
├── ConvergenceError               an iteration did not reach its tolerance
├── InfeasibleError                no design satisfies what was asked for
├── StaleRecordError               a record was computed from inputs that have changed
└── Cancelled                      the user stopped the work

A message says what is wrong, its value with unit, the limit and the remedy. A failed check
of a part (a clasp that is overstressed) is a Finding, never an exception.
"""

from __future__ import annotations


class ClaspwrightError(Exception):
    """Root of all errors that Claspwright raises on purpose.

    Args:
        what: what is wrong, with value, unit and limit.
        place: file, line, component or point in space where it is wrong.
        remedy: what the reader can do about it.
    """

    def __init__(self, what: str, *, place: str = "", remedy: str = "") -> None:
        self.what = what
        self.place = place
        self.remedy = remedy
        text = f"{place}: {what}" if place else what
        super().__init__(f"{text}. {remedy}" if remedy else text)


class InputError(ClaspwrightError, ValueError):
    """A file, a case sheet or an argument that cannot be used as it is."""


class GeometryError(ClaspwrightError):
    """A geometric operation has no valid result on this input."""


class ConvergenceError(ClaspwrightError):
    """An iteration did not reach its tolerance."""


class InfeasibleError(ClaspwrightError):
    """No design satisfies what the prescription asks for."""


class StaleRecordError(ClaspwrightError):
    """A record was computed from inputs that have changed since."""


class Cancelled(ClaspwrightError):
    """The user stopped the work."""
