"""Invented arches as files."""

from __future__ import annotations

from pathlib import Path

import pytest

from claspwright.app.demo_arch import DemoWishes, read_crowns, write_demo_arch
from claspwright.app.hashes import sha256_of
from claspwright.base import InputError
from claspwright.case import read_sheet

WISHES = DemoWishes("mandible", (36, 46), seed=4, edge_mm=0.6, pose_seed=2)


def test_an_arch_is_written_again_with_the_same_bytes(tmp_path: Path) -> None:
    out = tmp_path / "arch"
    first = {file: sha256_of(file) for file in write_demo_arch(WISHES, out)}
    assert {file.name for file in first} == {"case.toml", "master.stl", "opposing.stl", "bite.stl"}
    assert {file: sha256_of(file) for file in write_demo_arch(WISHES, out)} == first
    assert read_sheet(out).prescription.missing == (48, 46, 36, 38)


def test_other_files_are_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "holiday.jpg").touch()
    with pytest.raises(InputError, match="in use"):
        write_demo_arch(WISHES, tmp_path)


def test_crowns_of_nobody_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no crowns of 'z'"):
        read_crowns(tmp_path, "z", "maxilla")
