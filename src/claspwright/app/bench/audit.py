"""The audit trail: one line for each change and each refusal, appended, never changed."""

from __future__ import annotations

import json
import os
from datetime import UTC, datetime

from claspwright.app.bench.laboratory import Laboratory

AUDIT_NAME = "audit.jsonl"


def note(lab: Laboratory, who: str, what: str, *, status: int, come_from: str) -> None:
    """Append one line: when, who, from where, what, and how it ended."""
    path = lab.kept(AUDIT_NAME)
    path.parent.mkdir(parents=True, exist_ok=True)
    now = datetime.now(UTC).isoformat(timespec="milliseconds")
    line = {"at": now, "who": who, "from": come_from, "what": what[:300], "status": status}
    text = json.dumps(line, ensure_ascii=False) + "\n"
    door = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
    try:
        os.write(door, text.encode("utf-8"))
    finally:
        os.close(door)
