"""Tables of the register.

`entry` is the truth: it is only ever added to, and every row carries the hash of the one before.
`current` and `link` are what follows from the entries, kept so that questions are answered at
once; `verify` derives them anew and compares. `person` holds health data apart, under a
pseudonym, so that it can be erased while the chain stays whole.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Float, Index, Integer, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

Sequence = BigInteger().with_variant(Integer, "sqlite")


class Base(DeclarativeBase):
    """Root of the tables."""


class Entry(Base):
    """One thing that happened, never edited; the next entry on the same subject supersedes it."""

    __tablename__ = "entry"

    seq: Mapped[int] = mapped_column(Sequence, primary_key=True, autoincrement=False)
    kind: Mapped[str] = mapped_column(String(40))
    subject: Mapped[str] = mapped_column(String(200), index=True)  # "kind:id"
    body: Mapped[str] = mapped_column(Text)  # canonical JSON
    made_at: Mapped[str] = mapped_column(String(40))  # as told, ISO 8601
    made_by: Mapped[str] = mapped_column(String(200))
    supersedes: Mapped[int | None] = mapped_column(Sequence, nullable=True)
    previous: Mapped[str] = mapped_column(String(64))
    hash: Mapped[str] = mapped_column(String(64))


class Head(Base):
    """The end of the chain; the one row is locked while an entry is added."""

    __tablename__ = "head"

    id: Mapped[int] = mapped_column(Integer, primary_key=True, autoincrement=False)
    seq: Mapped[int] = mapped_column(Sequence)
    hash: Mapped[str] = mapped_column(String(64))


class Current(Base):
    """The latest entry on each subject."""

    __tablename__ = "current"

    subject: Mapped[str] = mapped_column(String(200), primary_key=True)
    kind: Mapped[str] = mapped_column(String(40), index=True)
    seq: Mapped[int] = mapped_column(Sequence)
    body: Mapped[str] = mapped_column(Text)


class Link(Base):
    """What a subject was made from or belongs to: the genealogy, both ways."""

    __tablename__ = "link"
    __table_args__ = (Index("link_both", "parent", "child"),)

    child: Mapped[str] = mapped_column(String(200), primary_key=True)
    relation: Mapped[str] = mapped_column(String(40), primary_key=True)
    parent: Mapped[str] = mapped_column(String(200), primary_key=True)
    mass_g: Mapped[float | None] = mapped_column(Float, nullable=True)


class Person(Base):
    """Health data, apart from the chain; deleted on request."""

    __tablename__ = "person"

    pseudonym: Mapped[str] = mapped_column(String(200), primary_key=True)
    body: Mapped[str] = mapped_column(Text)


class Blob(Base):
    """A file in the store: what it is, by the hash of its content."""

    __tablename__ = "blob"

    hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    name: Mapped[str] = mapped_column(String(300))
    size_bytes: Mapped[int] = mapped_column(Sequence)
    personal: Mapped[str] = mapped_column(String(200), default="", server_default="")
