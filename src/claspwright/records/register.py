"""The laboratory's register: entries in a chain, persons apart, files by their hash."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, delete, insert, select, text, update

from claspwright.base import InputError, StaleRecordError
from claspwright.records.chain import START, Kept, entry_hash
from claspwright.records.database import newest_revision, open_engine, revision_of, upgrade
from claspwright.records.kinds import KINDS, canonical, checked, parents_of
from claspwright.records.store import Store
from claspwright.records.tables import Blob, Current, Entry, Head, Link, Person

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/+-]{0,119}")
DATABASE = "register.sqlite"


@dataclass(frozen=True, slots=True)
class Signed:
    """Who enters what, and when; no clock is asked."""

    by: str
    at: str  # ISO 8601, such as 2026-11-25T09:30:00

    def __post_init__(self) -> None:
        if not self.by.strip() or not re.match(r"\d{4}-\d{2}-\d{2}", self.at):
            raise InputError(
                f"an entry needs a name and a date, got {self.by!r}, {self.at!r}",
                remedy="Write the date as YYYY-MM-DD or YYYY-MM-DDThh:mm:ss.",
            )


@dataclass(frozen=True, slots=True)
class Proposed:
    """One thing to be entered."""

    kind: str
    id: str
    body: Mapping[str, Any]  # Any: a JSON object
    supersedes: int | None = None  # the entry that it replaces; needed where there is one


class Register:
    """An open register. Close it, or use it in a `with`.

    Args:
        engine: of the database.
        store: of the files.
    """

    def __init__(self, engine: Engine, store: Store) -> None:
        self.engine, self.store = engine, store

    def __enter__(self) -> Register:
        return self

    def __exit__(self, *error: object) -> None:
        self.close()

    def close(self) -> None:
        """Give the connections back."""
        self.engine.dispose()

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One transaction; other writers wait, nothing is kept if it fails."""
        with self.engine.execution_options(writing=True).begin() as connection:
            yield connection

    def enter(self, entries: Sequence[Proposed], signed: Signed) -> list[int]:
        """Add entries to the chain, all or none.

        Returns:
            Their numbers.

        Raises:
            InputError: an entry is malformed or names something that is not there.
            StaleRecordError: the thing has been changed since, or exists already.
        """
        with self.writing() as connection:
            return [enter_one(connection, entry, signed) for entry in entries]

    def add(
        self, kind: str, id_: str, body: Mapping[str, Any], signed: Signed,
        *, supersedes: int | None = None,
    ) -> int:  # fmt: skip
        """Add one entry; see `enter`."""
        return self.enter([Proposed(kind, id_, body, supersedes)], signed)[0]

    def keep_file(self, name: str, content: bytes, *, personal: str = "") -> str:
        """Keep a file and return its hash; `personal`: the pseudonym whose health data it holds."""
        digest = self.store.put(content)
        with self.writing() as connection:
            if not connection.execute(select(Blob.hash).where(Blob.hash == digest)).first():
                row = {"hash": digest, "name": name, "size_bytes": len(content)}
                connection.execute(insert(Blob).values(**row, personal=personal))
        return digest

    def file_name(self, digest: str) -> str:
        """The name that a file was kept under; empty where it is unknown."""
        with self.engine.connect() as connection:
            name = connection.execute(select(Blob.name).where(Blob.hash == digest)).scalar()
        return name or ""

    def set_person(self, pseudonym: str, body: Mapping[str, Any]) -> None:
        """Keep what is known of a patient apart from the chain, under the pseudonym."""
        _check_id(pseudonym)
        with self.writing() as connection:
            connection.execute(delete(Person).where(Person.pseudonym == pseudonym))
            connection.execute(insert(Person).values(pseudonym=pseudonym, body=canonical(body)))

    def person(self, pseudonym: str) -> dict[str, Any] | None:
        """What is known of a patient; None once erased."""
        with self.engine.connect() as connection:
            query = select(Person.body).where(Person.pseudonym == pseudonym)
            found = connection.execute(query).scalar()
        return None if found is None else dict(json.loads(found))

    def erase_person(self, pseudonym: str, signed: Signed, *, reason: str = "") -> int:
        """Erase a patient's data and files; the erasure is entered, the chain stays whole.

        Returns:
            The number of the entry.

        Raises:
            InputError: nothing is known under the pseudonym.
        """
        with self.writing() as connection:
            gone = connection.execute(delete(Person).where(Person.pseudonym == pseudonym)).rowcount
            query = select(Blob.hash).where(Blob.personal == pseudonym)
            files = list(connection.execute(query).scalars())
            if not gone and not files:
                raise InputError("no health data are kept under this pseudonym", place=pseudonym)
            connection.execute(delete(Blob).where(Blob.personal == pseudonym))
            body = {"pseudonym": pseudonym, "reason": reason}
            entry = Proposed("erasure", f"{pseudonym}/{signed.at.replace(':', '.')}", body)
            seq = enter_one(connection, entry, signed)
        for name in files:
            self.store.remove(name)
        if self.engine.dialect.name == "sqlite":
            with self.engine.connect() as connection:
                connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
        return seq

    def current(self, kind: str, id_: str) -> tuple[int, dict[str, Any]] | None:
        """Number and body of the latest entry on a thing; None where there is none."""
        with self.engine.connect() as connection:
            return _current(connection, f"{kind}:{id_}")

    def all_of(self, kind: str) -> list[tuple[str, dict[str, Any]]]:
        """(id, body) of everything of a kind, as it stands now."""
        query = select(Current.subject, Current.body).where(Current.kind == kind)
        with self.engine.connect() as connection:
            rows = connection.execute(query.order_by(Current.seq)).all()
        return [(subject.split(":", 1)[1], json.loads(body)) for subject, body in rows]

    def history(self, kind: str, id_: str) -> list[Kept]:
        """Every entry on a thing, first to last."""
        return list(self.entries(f"{kind}:{id_}"))

    def entries(self, subject: str | None = None) -> Iterator[Kept]:
        """The chain in order, or the entries on one subject."""
        query = select(Entry.__table__).order_by(Entry.seq)
        if subject is not None:
            query = query.where(Entry.subject == subject)
        with self.engine.connect() as connection:
            for row in connection.execution_options(yield_per=1000).execute(query):
                yield Kept(*row)

    def head(self) -> tuple[int, str]:
        """Number and hash of the last entry: note it elsewhere, and no tampering stays hidden."""
        with self.engine.connect() as connection:
            row = connection.execute(select(Head.seq, Head.hash)).one()
        return int(row.seq), str(row.hash)


def enter_one(connection: Connection, entry: Proposed, signed: Signed) -> int:
    """Add one entry within a transaction that the caller has begun."""
    body = checked(entry.kind, entry.body)
    _check_id(entry.id)
    subject = f"{entry.kind}:{entry.id}"
    head = connection.execute(select(Head.seq, Head.hash).with_for_update()).one()
    _check_fresh(connection, subject, entry.supersedes)
    links = links_of(connection, entry.kind, body)
    kept_body, seq = canonical(body), int(head.seq) + 1
    digest = entry_hash(
        seq, entry.kind, subject, kept_body, signed.at, signed.by, entry.supersedes, head.hash
    )
    connection.execute(
        insert(Entry).values(
            seq=seq, kind=entry.kind, subject=subject, body=kept_body, made_at=signed.at,
            made_by=signed.by, supersedes=entry.supersedes, previous=head.hash, hash=digest,
        )
    )  # fmt: skip
    connection.execute(update(Head).values(seq=seq, hash=digest))
    project(connection, subject, entry.kind, seq, kept_body, links)
    return seq


def _check_fresh(connection: Connection, subject: str, supersedes: int | None) -> None:
    now = connection.execute(select(Current.seq).where(Current.subject == subject)).scalar()
    if now == supersedes:
        return
    if supersedes is None:
        raise StaleRecordError(
            f"this exists already, as entry {now}", place=subject,
            remedy=f"Entries are not edited; say that the new one supersedes {now}.",
        )  # fmt: skip
    raise StaleRecordError(
        f"entry {supersedes} is not the latest one on it, that is {now}", place=subject,
        remedy="Look at what has changed since, then enter again.",
    )  # fmt: skip


Links = list[tuple[str, str, float | None]]


def links_of(connection: Connection, kind: str, body: Mapping[str, Any]) -> Links:
    """(relation, parent subject, mass [g]); every parent must be in the register."""
    out: Links = []
    for relation, name, mass in parents_of(kind, body):
        kinds = KINDS[kind].parents[relation]
        wanted = [name] if name.split(":", 1)[0] in kinds else [f"{k}:{name}" for k in kinds]
        query = select(Current.subject).where(Current.subject.in_(wanted))
        found = list(connection.execute(query).scalars())
        if len(found) != 1:
            say = "is not in the register" if not found else "could be one of several things"
            raise InputError(
                f"{name!r} under {relation!r} {say}", place=kind,
                remedy=f"Enter it first, or write it as one of {', '.join(wanted)}.",
            )  # fmt: skip
        out.append((relation, found[0], mass))
    return out


def project(
    connection: Connection, subject: str, kind: str, seq: int, body: str, links: Links
) -> None:
    """Keep what follows from a new entry: how its subject stands now, and what it came from."""
    connection.execute(delete(Current).where(Current.subject == subject))
    connection.execute(insert(Current).values(subject=subject, kind=kind, seq=seq, body=body))
    connection.execute(delete(Link).where(Link.child == subject))
    for (relation, parent), mass in summed(links).items():
        row = {"child": subject, "relation": relation, "parent": parent, "mass_g": mass}
        connection.execute(insert(Link).values(**row))


def summed(links: Links) -> dict[tuple[str, str], float | None]:
    """Links with the same relation and parent as one, their masses added."""
    out: dict[tuple[str, str], float | None] = {}
    for relation, parent, mass in links:
        before = out.get((relation, parent))
        out[relation, parent] = mass if before is None else before + (mass or 0.0)
    return out


def _current(connection: Connection, subject: str) -> tuple[int, dict[str, Any]] | None:
    query = select(Current.seq, Current.body).where(Current.subject == subject)
    row = connection.execute(query).first()
    return None if row is None else (int(row.seq), json.loads(row.body))


def _check_id(id_: str) -> None:
    if not _ID.fullmatch(id_):
        raise InputError(
            f"{id_!r} cannot serve as an id", place="id",
            remedy="Letters, digits, blanks and . _ / + - ; at most 120, a letter or digit first.",
        )  # fmt: skip


def init_register(where: str | Path, *, files: str = "") -> Register:
    """Make a register, or bring an existing one up to date, and open it.

    Args:
        where: a folder (SQLite within), or a database URL.
        files: folder or URL of the store; needed with a database URL.
    """
    engine, store = _parts(where, files, make=True)
    upgrade(engine)
    with engine.execution_options(writing=True).begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("LOCK TABLE head IN EXCLUSIVE MODE"))
        if connection.execute(select(Head.id)).first() is None:
            connection.execute(insert(Head).values(id=1, seq=0, hash=START))
    return Register(engine, store)


def open_register(where: str | Path, *, files: str = "") -> Register:
    """Open a register that exists and is up to date.

    Raises:
        InputError: there is none, or it was made by another version of the program.
    """
    engine, store = _parts(where, files, make=False)
    found, wanted = revision_of(engine), newest_revision()
    if found != wanted:
        engine.dispose()
        raise InputError(
            f"the register has revision {found or 'none'}, this program needs {wanted}",
            place=_plain(where),
            remedy="Bring it up to date with `claspwright register init`; all data stay.",
        )
    return Register(engine, store)


def _parts(where: str | Path, files: str, *, make: bool) -> tuple[Engine, Store]:
    address = str(where)
    if "://" in address:
        if not files:
            raise InputError(
                "a register in a database server needs a place for its files",
                place=_plain(where),
                remedy="Give a folder or a URL for them.",
            )
        return open_engine(address), Store(files)
    folder = Path(address)
    if make:
        folder.mkdir(parents=True, exist_ok=True)
    elif not (folder / DATABASE).is_file():
        raise InputError(
            "there is no register here", place=folder.as_posix(),
            remedy="Make one with `claspwright register init`.",
        )  # fmt: skip
    engine = open_engine(f"sqlite:///{(folder / DATABASE).resolve().as_posix()}")
    return engine, Store(files or (folder / "files").resolve().as_posix())


def _plain(where: str | Path) -> str:
    """The address without a password."""
    return re.sub(r"//[^@/]*@", "//", str(where))
