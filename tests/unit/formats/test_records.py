"""Machine and process records."""

from __future__ import annotations

from pathlib import Path

import pytest

from claspwright.base import InputError
from claspwright.formats import machine_names, process_names, read_machine, read_process
from claspwright.materials import material


def test_every_record_that_comes_along_can_be_used() -> None:
    shapes = {read_machine(name).platform.shape for name in machine_names()}
    assert shapes == {"round", "rectangular"}
    for name in process_names():
        process = read_process(name)
        assert process.name == name
        material(process.alloy)
        process.check_fits(read_machine("rectangular-250"))


def test_a_file_of_ones_own_and_what_is_wrong_with_it(tmp_path: Path) -> None:
    own = tmp_path / "ours.toml"
    text = Path(__file__).parents[3] / "src/claspwright/formats/machines/round-100.toml"
    good = text.read_text(encoding="utf-8")
    own.write_text(good, encoding="utf-8")
    assert read_machine(own).name == "ours"
    for line, wrong, said in (
        ("recoat_s = 9.0", "recoat_s = 'nine'", "recoat_s"),
        ("recoat_s = 9.0", "", "recoat_s"),
        ("recoat_s = 9.0", "recoat_s = -9.0", "must be positive"),
        ("width_mm = 100.0", "width = 100.0", "platform.width"),
        ("width_mm = 100.0", "width_mm = 90.0", "one diameter"),
    ):
        own.write_text(good.replace(line, wrong), encoding="utf-8")
        with pytest.raises(InputError, match=said):
            read_machine(own)
    with pytest.raises(InputError, match="Known names: .*round-100"):
        read_machine("nowhere")


def test_a_process_that_asks_for_more_power_than_there_is() -> None:
    with pytest.raises(InputError, match="220 W"):
        read_process("cocr-50um").check_fits(read_machine("round-100"))
