"""Opening the database of a register and bringing its tables up to date."""

from __future__ import annotations

import re
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url, text

from claspwright.base import InputError

BUSY_MS = 20_000
LABORATORY = "laboratory"  # in the query of a URL
MIGRATING = 20_261_126  # key of the lock under which tables are made, one process at a time
_SCHEMA = re.compile(r"[a-z][a-z0-9_]{0,39}")


def open_engine(url: str) -> Engine:
    """An engine for a database URL; SQLite in WAL mode, every commit on the disk.

    A PostgreSQL URL may be written plainly: the installed driver is chosen. Several laboratories
    share one database where each names itself, `postgresql://host/name?laboratory=alder`: its
    tables lie in a schema of that name, which no other laboratory's connections look into.
    """
    if url.startswith(("postgresql://", "postgres://")):
        url = "postgresql+psycopg://" + url.split("://", 1)[1]
    if url.startswith("postgresql"):
        return _postgresql(make_url(url))
    if not url.startswith("sqlite"):
        raise InputError(
            "the register is kept in SQLite or PostgreSQL", place=url.split(":", 1)[0],
            remedy="Give a folder, or a URL such as postgresql://user@host/name.",
        )  # fmt: skip
    engine = create_engine(url, connect_args={"timeout": BUSY_MS / 1000})
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    return engine


def _postgresql(url: URL) -> Engine:
    name = url.query.get(LABORATORY)
    if name is None:
        return create_engine(url, pool_pre_ping=True)
    if not isinstance(name, str) or not _SCHEMA.fullmatch(name):
        raise InputError(
            f"{name!r} cannot name a laboratory", place=LABORATORY,
            remedy="Small letters, digits and _ ; at most 40, a letter first.",
        )  # fmt: skip
    return create_engine(
        url.difference_update_query([LABORATORY]),
        pool_pre_ping=True,
        connect_args={"options": f"-csearch_path={name}"},
    )


def _own_schema(connection: Connection) -> None:
    """Make the schema that the connection looks into, where a laboratory named it."""
    if connection.dialect.name != "postgresql":
        return
    connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": MIGRATING})
    path = str(connection.execute(text("SHOW search_path")).scalar())
    if _SCHEMA.fullmatch(path):
        connection.execute(text(f"CREATE SCHEMA IF NOT EXISTS {path}"))


def _prepare(connection: Any, record: object) -> None:  # Any: a DBAPI connection
    connection.isolation_level = None  # transactions are begun by hand, see _begin
    cursor = connection.cursor()
    for pragma in (
        f"busy_timeout={BUSY_MS}", "journal_mode=WAL", "synchronous=FULL", "secure_delete=ON",
    ):  # fmt: skip
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin(connection: Connection) -> None:
    """Writers queue from the start, so that two cannot read the same end of the chain."""
    mode = "IMMEDIATE" if connection.get_execution_options().get("writing") else "DEFERRED"
    connection.exec_driver_sql(f"BEGIN {mode}")


def upgrade(engine: Engine, target: str = "head") -> None:
    """Bring the tables up to a revision; all data stay."""
    with as_file(files("claspwright.records").joinpath("migrations")) as folder:
        config = _config(folder)
        with engine.execution_options(writing=True).begin() as connection:
            _own_schema(connection)
            config.attributes["connection"] = connection
            command.upgrade(config, target)


def revision_of(engine: Engine) -> str:
    """The revision that the tables have; empty for an empty database."""
    with engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision() or ""


def newest_revision() -> str:
    """The revision that this version of the program needs."""
    with as_file(files("claspwright.records").joinpath("migrations")) as folder:
        return ScriptDirectory.from_config(_config(folder)).get_current_head() or ""


def _config(folder: Path) -> Config:
    config = Config()
    config.set_main_option("script_location", str(folder).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config
