"""Run by test_object_storage.py, beside packages that the other tests do without."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

import fsspec
import pytest
from moto.server import ThreadedMotoServer

from claspwright.base import InputError
from claspwright.records import Proposed, Signed, Store, init_register, verify


@pytest.fixture
def bucket(monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """An address on an S3-compatible server of the test's own, on loopback."""
    server = ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    server.start()
    try:
        host, port = server.get_host_and_port()
        for name, value in {
            "AWS_ACCESS_KEY_ID": "test", "AWS_SECRET_ACCESS_KEY": "test",
            "AWS_DEFAULT_REGION": "us-east-1", "AWS_ENDPOINT_URL": f"http://{host}:{port}",
        }.items():  # fmt: skip
            monkeypatch.setenv(name, value)
        fsspec.filesystem("s3", skip_instance_cache=True).mkdir("lab")
        yield "s3://lab/register"
    finally:
        server.stop()


def test_files_on_an_object_store(bucket: str, tmp_path: Path) -> None:
    store = Store(bucket)
    contents = [b"design", b"scan" * 50_000, b""]
    names = [store.put(content) for content in contents]
    assert names == [hashlib.sha256(content).hexdigest() for content in contents]
    assert store.put(contents[0]) == names[0]
    assert [store.get(name) for name in names] == contents
    assert list(store.names()) == sorted(names)

    with init_register(f"{tmp_path}/lab", files=bucket) as register:
        register.enter(
            [Proposed("lot", "L-1", {"alloy": "a", "mass_g": 1.0, "received": "2026-11-25"})],
            Signed("A. Technician", "2026-11-25T09:00:00"),
        )
        assert not verify(register).faults

    store.remove(names[1])
    with pytest.raises(InputError, match="holds no such file"):
        store.get(names[1])
    there = fsspec.filesystem("s3", skip_instance_cache=True)
    there.pipe_file(f"lab/register/{names[0][:2]}/{names[0]}", b"another")
    with pytest.raises(InputError, match="has been changed"):
        store.get(names[0])
    assert not [place for place in there.find("lab") if "unfinished" in place]
