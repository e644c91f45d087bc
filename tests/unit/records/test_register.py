"""The register on both databases: entries, persons, files, genealogy, tampering, backup."""

from __future__ import annotations

import threading
import zipfile
from collections.abc import Callable
from importlib.resources import as_file, files
from pathlib import Path

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import text

from claspwright.base import InputError, StaleRecordError
from claspwright.records import (
    Proposed,
    Register,
    Signed,
    Store,
    backup,
    export,
    init_register,
    newest_revision,
    open_engine,
    open_register,
    recall,
    restore,
    revision_of,
    trace,
    upgrade,
    verify,
)


def small_laboratory(register: Register, me: Signed) -> None:
    """Two lots, a blend, two builds, powder recovered between, three frameworks."""
    lot = {"alloy": "cocr-lpbf-stress-relieved", "mass_g": 5000.0, "received": "2026-11-01"}
    case = {"arch": "mandible", "prescriber": "Dr. Invented"}
    register.enter(
        [
            Proposed("lot", "L-1", lot),
            Proposed("lot", "L-2", lot),
            Proposed("lot", "L-3", lot),
            Proposed("batch", "M-1", {"operation": "blend", "sources": [
                {"id": "L-1", "mass_g": 2000.0}, {"id": "L-2", "mass_g": 1000.0}]}),
            Proposed("build", "B-1", {"machine": "one", "feedstock": [
                {"id": "M-1", "mass_g": 1500.0}]}),
            Proposed("batch", "M-2", {"operation": "sieve", "sieve_um": 63.0, "build": "B-1",
                                      "sources": [{"id": "L-3", "mass_g": 400.0}]}),
            Proposed("build", "B-2", {"machine": "one", "feedstock": [{"id": "M-2"}]}),
            Proposed("case", "C-1", {**case, "patient": "P-17"}),
            Proposed("case", "C-2", {**case, "patient": "P-18"}),
            Proposed("part", "F-1", {"case": "C-1", "build": "B-1", "mass_g": 9.2}),
            Proposed("part", "F-2", {"case": "C-2", "build": "B-2"}),
        ],
        me,
    )  # fmt: skip


def test_trace_and_recall_run_both_ways(register: Register, me: Signed) -> None:
    small_laboratory(register, me)
    up = trace(register, "part:F-2")
    assert up.ids("lot") == ("L-1", "L-2", "L-3")
    assert up.ids("batch") == ("M-1", "M-2")
    assert up.ids("build") == ("B-1", "B-2")
    assert trace(register, "part:F-1").ids("lot") == ("L-1", "L-2")
    assert trace(register, "case:C-1").ids("lot") == ("L-1", "L-2")
    assert [one.part for one in recall(register, "lot:L-3")] == ["F-2"]
    found = recall(register, "lot:L-1")
    assert [(one.part, one.case, one.patient) for one in found] == [
        ("F-1", "C-1", "P-17"),
        ("F-2", "C-2", "P-18"),
    ]
    with pytest.raises(InputError, match="not in the register"):
        recall(register, "lot:L-9")


def test_entries_are_superseded_and_never_edited(register: Register, me: Signed) -> None:
    small_laboratory(register, me)
    seq, body = register.current("part", "F-1") or (0, {})
    assert body["mass_g"] == 9.2
    later = register.add("part", "F-1", {**body, "mass_g": 9.1}, me, supersedes=seq)
    assert [kept.seq for kept in register.history("part", "F-1")] == [seq, later]
    with pytest.raises(StaleRecordError, match="not the latest"):
        register.add("part", "F-1", {**body, "mass_g": 8.0}, me, supersedes=seq)
    with pytest.raises(StaleRecordError, match="exists already"):
        register.add("part", "F-1", body, me)
    assert verify(register).whole


def test_all_entries_of_a_call_or_none(register: Register, me: Signed) -> None:
    before = register.head()
    good = Proposed("lot", "L-1", {"alloy": "a", "mass_g": 1.0, "received": "2026-11-01"})
    for bad, say in (
        (Proposed("lot", "L-2", {"alloy": "a"}), "missing"),
        (Proposed("lot", "L-2", {**good.body, "colour": "red"}), "no field"),
        (Proposed("lot", "L-2", {**good.body, "mass_g": "much"}), "must be a number"),
        (Proposed("nonsense", "L-2", {}), "no kind"),
        (Proposed("lot", "*", good.body), "cannot serve as an id"),
        (Proposed("part", "F", {"case": "C", "build": "B"}), "not in the register"),
    ):
        with pytest.raises(InputError, match=say):
            register.enter([good, bad], me)
    assert register.head() == before
    with pytest.raises(InputError, match="a name and a date"):
        Signed("", "2026-11-25")


@pytest.mark.parametrize(
    ("how", "say"),
    [
        ("UPDATE entry SET body = replace(body, '9.2', '9.3') WHERE subject = 'part:F-1'",
         "has been changed"),
        ("UPDATE entry SET made_by = 'somebody' WHERE seq = 3", "has been changed"),
        ("DELETE FROM entry WHERE seq = 4", "missing"),
        ("DELETE FROM entry WHERE seq = 11", "the chain ends with entry 10"),
        ("UPDATE current SET body = '{}' WHERE subject = 'lot:L-1'", "does not stand"),
        ("UPDATE link SET parent = 'lot:L-2' WHERE parent = 'lot:L-3'", "genealogy"),
        ("DELETE FROM link WHERE child = 'part:F-2' AND relation = 'build'", "genealogy"),
    ],
)  # fmt: skip
def test_tampering_is_found(register: Register, me: Signed, how: str, say: str) -> None:
    small_laboratory(register, me)
    assert verify(register).whole
    with register.writing() as connection:
        assert connection.execute(text(how)).rowcount >= 1
    verdict = verify(register)
    assert any(say in fault for fault in verdict.faults)


def test_a_chain_rewritten_as_a_whole_is_found_by_a_noted_head(
    register: Register, me: Signed, tmp_path: Path
) -> None:
    small_laboratory(register, me)
    noted = register.head()
    with init_register(tmp_path / "forged") as forged:
        small_laboratory(forged, Signed("Somebody Else", me.at))
        assert verify(forged).whole
        assert not verify(forged, known_head=noted).whole
    assert verify(register, known_head=noted).whole
    assert not verify(register, known_head=(noted[0] + 1, "0" * 64)).whole


def test_a_person_is_erased_and_the_chain_stays_whole(register: Register, me: Signed) -> None:
    small_laboratory(register, me)
    register.set_person("P-17", {"name": "Jane Invented", "born": "1950-01-01"})
    scan = register.keep_file("scan.ply", b"her jaw", personal="P-17")
    sheet = register.keep_file("sheet.pdf", b"work ticket")
    assert register.person("P-17") == {"name": "Jane Invented", "born": "1950-01-01"}
    register.erase_person("P-17", me, reason="asked for")
    assert register.person("P-17") is None
    with pytest.raises(InputError, match="no such file"):
        register.store.get(scan)
    assert register.store.get(sheet) == b"work ticket"
    assert verify(register).whole
    assert [one.patient for one in recall(register, "lot:L-1")] == ["P-17", "P-18"]
    with pytest.raises(InputError, match="no health data"):
        register.erase_person("P-17", me)


def test_a_changed_or_lost_file_is_found(register: Register, me: Signed) -> None:
    one = register.keep_file("a.pdf", b"a" * 1000)
    two = register.keep_file("b.pdf", b"b" * 1000)
    assert register.keep_file("a.pdf", b"a" * 1000) == one
    assert list(register.store.names()) == sorted([one, two])
    register.store.remove(two)
    assert any(two in fault for fault in verify(register).faults)


def test_backup_and_restore_give_the_same_register(
    register: Register, me: Signed, tmp_path: Path
) -> None:
    small_laboratory(register, me)
    register.set_person("P-17", {"name": "Jane Invented"})
    file = register.keep_file("a.pdf", b"content")
    head = backup(register, tmp_path / "all.zip")
    with init_register(tmp_path / "second") as second:
        assert restore(tmp_path / "all.zip", second) == head == register.head()
        assert list(second.entries()) == list(register.entries())
        assert second.person("P-17") == {"name": "Jane Invented"}
        assert second.store.get(file) == b"content"
        assert recall(second, "lot:L-1") == recall(register, "lot:L-1")
        with pytest.raises(InputError, match="not empty"):
            restore(tmp_path / "all.zip", second)


def test_a_damaged_backup_is_refused(register: Register, me: Signed, tmp_path: Path) -> None:
    small_laboratory(register, me)
    backup(register, tmp_path / "all.zip")
    with zipfile.ZipFile(tmp_path / "all.zip") as good:
        content = {name: good.read(name) for name in good.namelist()}
    content["entries.jsonl"] = content["entries.jsonl"].replace(b"9.2", b"9.3")
    with zipfile.ZipFile(tmp_path / "bad.zip", "w") as bad:
        for name, data in content.items():
            bad.writestr(name, data)
    (tmp_path / "cut.zip").write_bytes((tmp_path / "all.zip").read_bytes()[:200])
    for name, say in (("bad.zip", "has been changed"), ("cut.zip", "cannot be read")):
        with init_register(tmp_path / name.split(".")[0]) as empty:
            with pytest.raises(InputError, match=say):
                restore(tmp_path / name, empty)
            assert empty.head()[0] == 0


def test_an_export_holds_no_health_data(register: Register, me: Signed, tmp_path: Path) -> None:
    small_laboratory(register, me)
    register.set_person("P-17", {"name": "Jane Invented"})
    assert export(register, tmp_path / "out.zip") == 11
    with zipfile.ZipFile(tmp_path / "out.zip") as archive:
        everything = b"".join(archive.read(name) for name in archive.namelist()).decode()
        parts = archive.read("part.csv").decode().splitlines()
    assert "Jane" not in everything
    assert parts[1].startswith("F-1,C-1,B-1,")
    assert "L-1,2000.0" in everything


def test_workers_at_once_lose_nothing(register: Register, me: Signed) -> None:
    body = {"arch": "maxilla", "patient": "P-1", "prescriber": "Dr. Invented"}
    first = register.add("case", "shared", {**body, "price": 0.0}, me)
    stale: list[int] = []

    def work(worker: int) -> None:
        for n in range(5):
            register.add("case", f"C-{worker}-{n}", body, Signed(f"W{worker}", me.at))
            while True:
                seq, now = register.current("case", "shared") or (first, {})
                try:
                    more = {**now, "price": now["price"] + 1.0}
                    register.add("case", "shared", more, me, supersedes=seq)
                    break
                except StaleRecordError:
                    stale.append(worker)

    workers = [threading.Thread(target=work, args=(n,)) for n in range(10)]
    for one in workers:
        one.start()
    for one in workers:
        one.join()
    shared = register.current("case", "shared")
    assert shared is not None
    assert shared[1]["price"] == 50.0
    assert len(register.all_of("case")) == 51
    verdict = verify(register)
    assert verdict.whole
    assert verdict.entries == 101


def revisions() -> list[str]:
    """All schemas there were, the first one first."""
    engine = open_engine("sqlite://")
    with as_file(files("claspwright.records").joinpath("migrations")) as folder:
        config = Config()
        config.set_main_option("script_location", str(folder))
        found = [one.revision for one in ScriptDirectory.from_config(config).walk_revisions()]
    engine.dispose()
    return found[::-1]


def test_an_upgrade_from_each_earlier_schema_keeps_all(
    tmp_path: Path, me: Signed, another_laboratory: Callable[[], str]
) -> None:
    known = revisions()
    assert known[-1] == newest_revision()
    for database in ("sqlite", "postgresql"):
        for earlier in known[:-1]:
            if database == "sqlite":
                folder = tmp_path / earlier
                folder.mkdir()
                address, opened = f"sqlite:///{folder}/register.sqlite", str(folder)
            else:
                address = opened = another_laboratory()
            kept_and_found(address, opened, str(tmp_path / "files"), earlier, me)


def kept_and_found(address: str, opened: str, store: str, earlier: str, me: Signed) -> None:
    """A small laboratory written under an earlier schema, all of it there under the newest."""
    engine = open_engine(address)
    upgrade(engine, earlier)
    assert revision_of(engine) == earlier
    with engine.execution_options(writing=True).begin() as connection:
        connection.execute(text(f"INSERT INTO head VALUES (1, 0, '{'0' * 64}')"))
    old = Register(engine, Store(store))
    small_laboratory(old, me)
    now = old.current("part", "F-1")
    assert now is not None
    old.add("part", "F-1", {**now[1], "mass_g": 9.1}, me, supersedes=now[0])
    old.set_person("P-17", {"name": "Jane Invented"})
    before = list(old.entries())
    with pytest.raises(InputError, match=f"revision {earlier}"):
        open_register(opened, files=store)
    with init_register(opened, files=store) as register:
        assert revision_of(register.engine) == newest_revision()
        assert list(register.entries()) == before
        assert register.head() == (before[-1].seq, before[-1].hash)
        assert register.person("P-17") == {"name": "Jane Invented"}
        assert [one.part for one in recall(register, "lot:L-1")] == ["F-2", "F-1"]
        register.keep_file("a.pdf", b"new table")
        assert verify(register).whole
    engine.dispose()


def test_addresses_that_cannot_be_used() -> None:
    with pytest.raises(InputError, match="needs a place for its files"):
        init_register("postgresql://lab@127.0.0.1/x")
    with pytest.raises(InputError, match="cannot name a laboratory"):
        open_engine("postgresql://lab@127.0.0.1/x?laboratory=a;b")
    with pytest.raises(InputError, match="SQLite or PostgreSQL"):
        init_register("mysql://lab@127.0.0.1/x", files="here")
    with pytest.raises(InputError, match="no register here"):
        open_register("/nonexistent/folder")


def test_a_store_finds_changed_content(tmp_path: Path) -> None:
    store = Store(str(tmp_path))
    name = store.put(b"as it was")
    (tmp_path / name[:2] / name).write_bytes(b"as it is not")
    with pytest.raises(InputError, match="has been changed"):
        store.get(name)
    with pytest.raises(InputError, match="not the hash"):
        store.get("../../etc/passwd")
    memory = Store("memory://lab")
    assert memory.get(memory.put(b"x")) == b"x"
