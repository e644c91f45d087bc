from __future__ import annotations

from pathlib import Path

import pytest

from claspwright.base import InputError
from claspwright.case import parse_sheet
from claspwright.survey import NO_WAX

ASKED = """
[blockout]
taper_deg = 3.0
ledges = true
bead_line = true

[[relief]]
name = "torus"
at_mm = [1.0, 2.0, 3.0]
radius_mm = 4.0
gauge = 24

[[relief]]
at_mm = [-1.0, 2.0, 3.0]
radius_mm = 4.0

[[fill]]
at_mm = [5.0, 2.0, 3.0]
radius_mm = 2.0
"""


def read(folder: Path, more: str):
    text = (folder / "case.toml").read_text(encoding="utf-8") + more
    return parse_sheet(text, folder / "case.toml")


def test_a_sheet_without_wax_asks_for_plain_parallel_blockout(folder: Path) -> None:
    assert read(folder, "").wax == NO_WAX


@pytest.mark.reference("check-values B24, B27: 30 gauge is 0.255 mm, 24 gauge 0.511 mm")
def test_taper_ledges_reliefs_and_fills_are_read(folder: Path) -> None:
    wax = read(folder, ASKED).wax
    assert (wax.taper_deg, wax.ledges, wax.bead_line) == (3.0, True, True)
    torus, second = wax.reliefs
    assert (torus.name, torus.at, torus.radius_mm) == ("torus", (1.0, 2.0, 3.0), 4.0)
    assert torus.thickness_mm == pytest.approx(0.511, abs=0.001)
    assert (second.name, second.thickness_mm) == ("2", pytest.approx(0.255, abs=0.001))
    assert [(fill.name, fill.radius_mm) for fill in wax.fills] == [("1", 2.0)]


def test_a_taper_beyond_six_degrees_is_refused(folder: Path) -> None:
    with pytest.raises(InputError, match="taper_deg"):
        read(folder, "[blockout]\ntaper_deg = 8.0\n")
