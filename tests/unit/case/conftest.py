"""A case folder with a sound sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

GOOD = """\
claspwright = 1

[case]
id = "B-0142"
arch = "mandible"  # the lower
alloy = "cocr-lpbf-stress-relieved"

[scans]
master = "scans/lower.stl"

[teeth]
missing = [36, 37, 38, 46, 47, 48]  # by the dentist
not_replaced = [38, 48]

[[mark]]
tooth = 35
at_mm = [24.1, -3.2, 6.8]

[major_connector]
form = "lingual bar"

[[retainer]]
tooth = 35
rest = "mesial occlusal"
proximal_plate = "distal"
clasp = { form = "I-bar", side = "buccal", undercut_mm = 0.25 }

[[retainer]]
tooth = 45

[[denture_base]]
teeth = [36, 37]
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A case folder with the sound sheet and an empty scan file."""
    (tmp_path / "scans").mkdir()
    (tmp_path / "scans" / "lower.stl").touch()
    (tmp_path / "case.toml").write_text(GOOD, encoding="utf-8")
    return tmp_path


@pytest.fixture
def good() -> str:
    """The text of the sound sheet."""
    return GOOD
