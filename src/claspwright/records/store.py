"""Files by the hash of their content, in a folder or anywhere that fsspec reaches."""

from __future__ import annotations

import hashlib
import uuid
from collections.abc import Iterator
from typing import Any

import fsspec

from claspwright.base import InputError


class Store:
    """A content-addressed store: a file is found by its SHA-256 and never changes.

    Args:
        url: a folder, or a URL of a file system that fsspec knows, such as `s3://bucket/lab`.
    """

    def __init__(self, url: str) -> None:
        module: Any = fsspec  # Any: fsspec is untyped
        self._system, root = module.core.url_to_fs(url)
        self._root = str(root).rstrip("/")

    def put(self, content: bytes) -> str:
        """Keep the bytes and return their hash; keeping them twice is harmless."""
        name = hashlib.sha256(content).hexdigest()
        place = self._place(name)
        if not self._system.exists(place):
            self._system.makedirs(place.rsplit("/", 1)[0], exist_ok=True)
            fresh = f"{self._root}/unfinished-{uuid.uuid4().hex}"
            self._system.pipe_file(fresh, content)
            self._system.mv(fresh, place)
        return name

    def get(self, name: str) -> bytes:
        """The bytes of a hash.

        Raises:
            InputError: no such file, or its content has been changed.
        """
        place = self._place(name)
        self._system.invalidate_cache()  # another process may have put it there
        if not self._system.exists(place):
            raise InputError("the store holds no such file", place=name)
        content = bytes(self._system.cat_file(place))
        if hashlib.sha256(content).hexdigest() != name:
            raise InputError("the file in the store has been changed", place=name)
        return content

    def remove(self, name: str) -> None:
        """Take a file away, as an erasure asks for."""
        if self._system.exists(self._place(name)):
            self._system.rm_file(self._place(name))

    def names(self) -> Iterator[str]:
        """The hashes of all files, in order."""
        self._system.invalidate_cache()
        if self._system.exists(self._root):
            found = (str(path).rsplit("/", 1)[-1] for path in self._system.find(self._root))
            yield from sorted(name for name in found if len(name) == 64)

    def _place(self, name: str) -> str:
        if len(name) != 64 or not set(name) <= set("0123456789abcdef"):
            raise InputError("not the hash of a file", place=name[:80])
        return f"{self._root}/{name[:2]}/{name}"
