"""The whole register in one file, and back; the same on every database."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import zipfile
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

from sqlalchemy import insert, select, update

from claspwright.base import InputError, Progress, silent
from claspwright.records.chain import Kept
from claspwright.records.kinds import KINDS, parents_of
from claspwright.records.register import Register, links_of, project
from claspwright.records.tables import Blob, Entry, Head, Person
from claspwright.records.verify import verify

FORMAT = "claspwright register 1"


def backup(register: Register, path: Path, *, progress: Progress = silent) -> tuple[int, str]:
    """Write everything, health data too, to a zip file; keep it as safe as the register.

    Returns:
        Number and hash of the last entry; note them elsewhere.
    """
    head = register.head()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        sums = {}
        tables = {
            "entries.jsonl": _lines(asdict(kept) for kept in register.entries()
                                    if kept.seq <= head[0]),
            "persons.jsonl": _lines(_rows(register, Person)),
            "files.jsonl": _lines(_rows(register, Blob)),
        }  # fmt: skip
        for done, (name, lines) in enumerate(tables.items()):
            archive.writestr(name, lines)
            sums[name] = hashlib.sha256(lines).hexdigest()
            progress(0.2 * (done + 1), name)
        blobs = list(_rows(register, Blob))
        for done, row in enumerate(blobs):
            progress(0.6 + 0.4 * done / len(blobs), "files")
            archive.writestr(f"files/{row['hash']}", register.store.get(row["hash"]))
        manifest = {"format": FORMAT, "seq": head[0], "hash": head[1], "sha256": sums}
        archive.writestr("manifest.json", json.dumps(manifest, sort_keys=True))
    progress(1.0, "written")
    return head


def restore(path: Path, empty: Register, *, progress: Progress = silent) -> tuple[int, str]:
    """Fill an empty register from a backup and check it.

    Raises:
        InputError: the register is not empty, or the backup is damaged.
    """
    if empty.head()[0] != 0:
        raise InputError("the register is not empty", remedy="Restore into a new one.")
    try:
        with zipfile.ZipFile(path) as archive:
            manifest = json.loads(archive.read("manifest.json"))
            tables = {name: archive.read(name) for name in manifest["sha256"]}
            for name, content in tables.items():
                if hashlib.sha256(content).hexdigest() != manifest["sha256"][name]:
                    raise InputError(f"{name} has been changed", place=path.name)
            for row in _parsed(tables["files.jsonl"]):
                if empty.store.put(archive.read(f"files/{row['hash']}")) != row["hash"]:
                    raise InputError(f"the file {row['hash']} has been changed", place=path.name)
    except (zipfile.BadZipFile, KeyError, json.JSONDecodeError, OSError) as error:
        raise InputError(
            f"the backup cannot be read: {error}", place=path.name, remedy="Take an earlier one."
        ) from error
    progress(0.3, "entries")
    _fill(empty, tables, manifest)
    progress(0.7, "checking")
    verdict = verify(empty, known_head=(int(manifest["seq"]), str(manifest["hash"])))
    if not verdict.whole:
        raise InputError(f"the backup is damaged: {verdict.faults[0]}", place=path.name)
    progress(1.0, "restored")
    return empty.head()


def _fill(empty: Register, tables: dict[str, bytes], manifest: dict[str, Any]) -> None:
    with empty.writing() as connection:
        for row in _parsed(tables["entries.jsonl"]):
            kept = Kept(**row)
            connection.execute(insert(Entry).values(**row))
            body = json.loads(kept.body)
            links = links_of(connection, kept.kind, body) if kept.kind in KINDS else []
            project(connection, kept.subject, kept.kind, kept.seq, kept.body, links)
        for table, name in ((Person, "persons.jsonl"), (Blob, "files.jsonl")):
            for row in _parsed(tables[name]):
                connection.execute(insert(table).values(**row))
        connection.execute(update(Head).values(seq=manifest["seq"], hash=manifest["hash"]))


def export(register: Register, path: Path) -> int:
    """Write what stands in the register as CSV tables in a zip file, without health data.

    Returns:
        The number of rows.
    """
    count = 0
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("entries.jsonl", _lines(asdict(kept) for kept in register.entries()))
        for kind, rules in KINDS.items():
            rows = register.all_of(kind)
            if not rows:
                continue
            columns = [*rules.needed, *rules.optional]
            text = io.StringIO()
            table = csv.writer(text, lineterminator="\n")
            table.writerow(["id", *columns])
            for id_, body in rows:
                table.writerow([id_, *(_cell(body.get(name)) for name in columns)])
            archive.writestr(f"{kind}.csv", text.getvalue())
            count += len(rows)
        archive.writestr("genealogy.csv", _genealogy(register))
    return count


def _genealogy(register: Register) -> str:
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(["kind", "id", "relation", "came_from", "mass_g"])
    for kind in KINDS:
        for id_, body in register.all_of(kind):
            for relation, parent, mass in parents_of(kind, body):
                table.writerow([kind, id_, relation, parent, "" if mass is None else mass])
    return text.getvalue()


def _cell(value: Any) -> str:
    if value is None:
        return ""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _rows(register: Register, table: Any) -> Iterator[dict[str, Any]]:
    columns = table.__table__.columns
    with register.engine.connect() as connection:
        for row in connection.execute(select(columns).order_by(*table.__table__.primary_key)):
            yield dict(zip(columns.keys(), row, strict=True))


def _lines(rows: Any) -> bytes:
    return "".join(json.dumps(r, ensure_ascii=False, sort_keys=True) + "\n" for r in rows).encode()


def _parsed(content: bytes) -> Iterator[dict[str, Any]]:
    for line in content.decode("utf-8").splitlines():
        yield json.loads(line)
