"""Finding whatever was changed behind the register's back."""

from __future__ import annotations

import json
from dataclasses import dataclass

from sqlalchemy import select

from claspwright.base import InputError, Progress, part, silent
from claspwright.records.chain import START, Kept, rehashed
from claspwright.records.kinds import KINDS, parents_of
from claspwright.records.register import Register, summed
from claspwright.records.tables import Blob, Current, Entry, Link

STEP = 256  # entries between two words on the progress


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a check of the whole register found."""

    entries: int
    head: str  # hash of the last entry
    faults: tuple[str, ...]  # empty: nothing was tampered with

    @property
    def whole(self) -> bool:
        """Whether nothing was found."""
        return not self.faults


def verify(
    register: Register, *, known_head: tuple[int, str] | None = None, progress: Progress = silent
) -> Verdict:
    """Check the chain, what follows from it, and every file of the store.

    Args:
        register: the open register.
        known_head: number and hash of an entry that was noted elsewhere: finds a chain that
            was rewritten as a whole, or cut off.
        progress: told of each step.
    """
    progress(0.0, "chain")
    faults: list[str] = []
    latest: dict[str, Kept] = {}
    signatures: list[Kept] = []
    at, before = 0, START
    last = max(1, register.head()[0])
    for kept in register.entries():
        if kept.seq % STEP == 0:
            progress(min(0.5, 0.5 * kept.seq / last), "chain")
        faults += _link_faults(kept, at, before, latest.get(kept.subject))
        if known_head is not None and kept.seq == known_head[0] and kept.hash != known_head[1]:
            faults.append(f"entry {kept.seq} is not the one that was noted")
        latest[kept.subject] = kept
        signatures += [kept] if kept.kind == "signature" else []
        at, before = kept.seq, kept.hash
    if register.head() != (at, before):
        faults.append(f"the chain ends with entry {at}, but {register.head()[0]} was the last one")
    if known_head is not None and known_head[0] > at:
        faults.append(f"the chain ends with entry {at}, but {known_head[0]} was noted")
    progress(0.5, "what follows from it")
    faults += _current_faults(register, latest)
    faults += _link_table_faults(register, latest)
    faults += _signature_faults(register, signatures)
    progress(0.7, "files")
    faults += _file_faults(register, part(progress, 0.7, 1.0))
    progress(1.0, "checked")
    return Verdict(at, before, tuple(faults))


def _link_faults(kept: Kept, at: int, before: str, earlier: Kept | None) -> list[str]:
    out = []
    if kept.seq != at + 1:
        out.append(f"entries {at + 1} to {kept.seq - 1} are missing")
    if kept.previous != before:
        out.append(f"entry {kept.seq} does not follow from the one before")
    if rehashed(kept) != kept.hash:
        out.append(f"entry {kept.seq} ({kept.subject}) has been changed")
    if kept.supersedes != (None if earlier is None else earlier.seq):
        out.append(f"entry {kept.seq} ({kept.subject}) does not supersede the one before it")
    return out


def _current_faults(register: Register, latest: dict[str, Kept]) -> list[str]:
    with register.engine.connect() as connection:
        rows = connection.execute(select(Current.subject, Current.kind, Current.seq, Current.body))
        found = {row[0]: (row[1], int(row[2]), row[3]) for row in rows}
    wanted = {name: (kept.kind, kept.seq, kept.body) for name, kept in latest.items()}
    return [
        f"{name} does not stand as its latest entry says"
        for name in sorted(set(found) | set(wanted))
        if found.get(name) != wanted.get(name)
    ]


def _link_table_faults(register: Register, latest: dict[str, Kept]) -> list[str]:
    wanted = set()
    for name, kept in latest.items():
        if kept.kind not in KINDS:
            continue
        links = [
            (relation, _full(kept.kind, relation, id_, latest), mass)
            for relation, id_, mass in parents_of(kept.kind, json.loads(kept.body))
        ]
        wanted |= {(name, *pair, mass) for pair, mass in summed(links).items()}
    with register.engine.connect() as connection:
        rows = connection.execute(select(Link.child, Link.relation, Link.parent, Link.mass_g))
        found = {tuple(row) for row in rows}
    return [f"the genealogy of {row[0]} was changed" for row in sorted(found ^ wanted, key=str)]


def _signature_faults(register: Register, signatures: list[Kept]) -> list[str]:
    """Signatures whose hash is that of no entry on what they are about."""
    out = []
    with register.engine.connect() as connection:
        for kept in signatures:
            body = json.loads(kept.body)
            query = select(Entry.seq).where(
                Entry.subject == body["about"], Entry.hash == body["hash"], Entry.seq < kept.seq
            )
            if connection.execute(query).first() is None:
                out.append(f"the signature of entry {kept.seq} fits no entry on {body['about']}")
    return out


def _full(kind: str, relation: str, id_: str, latest: dict[str, Kept]) -> str:
    """The subject that an id under a relation names."""
    kinds = KINDS[kind].parents[relation]
    if id_.split(":", 1)[0] in kinds:
        return id_
    return next((f"{k}:{id_}" for k in kinds if f"{k}:{id_}" in latest), id_)


def _file_faults(register: Register, progress: Progress) -> list[str]:
    out = []
    with register.engine.connect() as connection:
        names = list(connection.execute(select(Blob.hash).order_by(Blob.hash)).scalars())
    for done, name in enumerate(names):
        progress(done / len(names), "files")
        try:
            register.store.get(name)
        except InputError as error:
            out.append(str(error))
    return out
