"""From a patient to the powder and back, in one query each."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select, text

from claspwright.base import InputError
from claspwright.records.register import Register
from claspwright.records.tables import Current, Link

# UNION, not UNION ALL: powder is blended again and again, so paths meet.
_UP = """
WITH RECURSIVE up(subject) AS (
  SELECT CAST(:start AS VARCHAR(200))
  UNION
  SELECT link.parent FROM link JOIN up ON link.child = up.subject
)
SELECT current.kind, current.subject, current.seq FROM up
JOIN current ON current.subject = up.subject ORDER BY current.seq
"""


@dataclass(frozen=True, slots=True)
class Trace:
    """All that a thing came from, by kind, in the order of entry."""

    subject: str
    found: dict[str, tuple[str, ...]]  # kind: ids

    def ids(self, kind: str) -> tuple[str, ...]:
        """The ids of one kind."""
        return self.found.get(kind, ())


@dataclass(frozen=True, slots=True)
class Recalled:
    """One framework that holds powder of a lot, and whose it is."""

    part: str
    case: str
    patient: str  # pseudonym
    prescriber: str
    build: str


def trace(register: Register, subject: str) -> Trace:
    """Everything upstream of a thing (`part:P-1`, `case:B-0142`): builds, batches, lots.

    A case has no parts above it, so a trace of a case starts from its parts.

    Raises:
        InputError: it is not in the register.
    """
    kind, _, id_ = subject.partition(":")
    starts = [subject]
    with register.engine.connect() as connection:
        if kind == "case":
            query = text("SELECT child FROM link WHERE parent = :start AND child LIKE 'part:%'")
            starts += list(connection.execute(query, {"start": subject}).scalars())
        rows = [row for one in starts for row in connection.execute(text(_UP), {"start": one})]
    if not rows:
        raise InputError("this is not in the register", place=f"{kind}:{id_}")
    found: dict[str, list[str]] = {}
    for row in sorted(set(map(tuple, rows)), key=lambda row: row[2]):
        if row[1] != subject:
            found.setdefault(row[0], []).append(row[1].split(":", 1)[1])
    return Trace(subject, {name: tuple(ids) for name, ids in found.items()})


_RECALL = """
WITH RECURSIVE down(subject) AS (
  SELECT CAST(:start AS VARCHAR(200))
  UNION
  SELECT link.child FROM link JOIN down ON link.parent = down.subject
  WHERE down.subject NOT LIKE 'part:%'
)
SELECT part.subject, owner.body, mine.parent, made.parent
FROM down
JOIN current AS part ON part.subject = down.subject
JOIN link AS mine ON mine.child = part.subject AND mine.relation = 'case'
JOIN link AS made ON made.child = part.subject AND made.relation = 'build'
JOIN current AS owner ON owner.subject = mine.parent
WHERE down.subject LIKE 'part:%'
ORDER BY part.seq
"""


def recall(register: Register, subject: str) -> list[Recalled]:
    """Every framework that holds powder of a lot (`lot:L-7`), or came from a batch or build.

    Raises:
        InputError: it is not in the register.
    """
    kind, _, id_ = subject.partition(":")
    if register.current(kind, id_) is None:
        raise InputError("this is not in the register", place=subject)
    with register.engine.connect() as connection:
        rows = connection.execute(text(_RECALL), {"start": subject}).all()
    out = []
    for part, body, case, build in rows:
        owner = json.loads(body)
        ids = [name.split(":", 1)[1] for name in (part, case, build)]
        out.append(Recalled(ids[0], ids[1], owner["patient"], owner["prescriber"], ids[2]))
    return out


def made_from(register: Register, subject: str, kind: str) -> list[tuple[str, dict[str, Any]]]:
    """(id, body) of everything of a kind that names a thing directly, in the order of entry."""
    query = (
        select(Current.subject, Current.body)
        .join(Link, Link.child == Current.subject)
        .where(Link.parent == subject, Current.kind == kind)
        .order_by(Current.seq)
        .distinct()
        .add_columns(Current.seq)
    )
    with register.engine.connect() as connection:
        rows = connection.execute(query).all()
    return [(row[0].split(":", 1)[1], json.loads(row[1])) for row in rows]
