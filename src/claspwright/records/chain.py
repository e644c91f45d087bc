"""The hash of an entry, which takes in the hash of the one before."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from claspwright.records.kinds import canonical

START = "0" * 64


@dataclass(frozen=True, slots=True)
class Kept:
    """One entry as it is kept."""

    seq: int
    kind: str
    subject: str
    body: str  # canonical JSON
    made_at: str
    made_by: str
    supersedes: int | None
    previous: str
    hash: str


def entry_hash(
    seq: int, kind: str, subject: str, body: str, made_at: str, made_by: str,
    supersedes: int | None, previous: str,
) -> str:  # fmt: skip
    """SHA-256 over all that an entry says and the hash of the one before."""
    text = canonical([seq, kind, subject, body, made_at, made_by, supersedes, previous])
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def rehashed(kept: Kept) -> str:
    """The hash that the entry should have."""
    return entry_hash(
        kept.seq, kept.kind, kept.subject, kept.body, kept.made_at, kept.made_by,
        kept.supersedes, kept.previous,
    )  # fmt: skip
