"""Result folders appear whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from claspwright.app.folder import check_target, whole_folder
from claspwright.base import InputError


def test_a_whole_folder_takes_the_place_of_the_earlier_one(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "out"
    for text in ("first", "second"):
        with whole_folder(out) as folder:
            (folder / "summary.json").write_text(text)
            assert not (out / "summary.json").exists() or text == "second"
    assert (out / "summary.json").read_text() == "second"
    assert [file.name for file in out.parent.iterdir()] == ["out"]


def test_an_interrupted_writing_changes_nothing(tmp_path: Path) -> None:
    out = tmp_path / "out"
    with whole_folder(out) as folder:
        (folder / "summary.json").write_text("kept")
    with pytest.raises(KeyboardInterrupt), whole_folder(out) as folder:
        (folder / "summary.json").write_text("half")
        raise KeyboardInterrupt
    assert (out / "summary.json").read_text() == "kept"
    assert [file.name for file in tmp_path.iterdir()] == ["out"]


def test_the_case_and_the_files_of_others_are_safe(tmp_path: Path) -> None:
    case = tmp_path / "case"
    case.mkdir()
    (case / "case.toml").touch()
    for bad in (case, tmp_path):
        with pytest.raises(InputError, match="overwrite the case"):
            check_target(bad, case)
    other = tmp_path / "other"
    other.mkdir()
    (other / "holiday.jpg").touch()
    with pytest.raises(InputError, match=r"holiday\.jpg"):
        check_target(other, case)
    with pytest.raises(InputError, match="a file, not a folder"):
        check_target(other / "holiday.jpg", case)
    check_target(tmp_path / "new", case)
