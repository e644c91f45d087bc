"""Figures and designs in words."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Finding, Severity
from claspwright.framework import Clasp, MajorConnector, Retainer
from claspwright.report.gather import degrees, gathered
from claspwright.report.words import (
    compared,
    connector_words,
    figure,
    listed,
    measure_of,
    path_words,
    retainer_parts,
)
from claspwright.survey import PathOfPlacement

GAP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.842, "mm", f"0.84{GAP}mm"),
        (12.34, "N", f"12.3{GAP}N"),
        (312.6, "MPa", f"313{GAP}MPa"),
        (0.0123, "mm", f"0.0123{GAP}mm"),
        (-3.0, "°", "\N{MINUS SIGN}3.0°"),
        (0.0, "mm", f"0{GAP}mm"),
        (2.0, "", "2"),
        ("nickel", "", "nickel"),
        (None, "mm", ""),
    ],
)
def test_figures(value: float | str | None, unit: str, text: str) -> None:
    assert figure(value, unit) == text


def test_findings_that_differ_in_figures_alone_are_told_once_but_stops_never() -> None:
    def finding(code: int, severity: Severity = "look") -> Finding:
        text = f"The rest on {code} is {code / 50:.2f} mm thick."
        return Finding("rest.thickness", severity, text, "own", code / 50, 1.0, "mm",
                       component=f"rest.{code}")  # fmt: skip

    other = Finding("path.tilt", "look", "The path is tilted.", "own")
    looks = (finding(35), other, finding(44), finding(46))
    groups = gathered(looks)
    assert [g.first for g in groups] == [looks[0], other]
    assert groups[0].others == (looks[2], looks[3])
    assert len(gathered(looks[:3])) == 3  # two alike are not yet many
    stops = tuple(finding(code, "stop") for code in (35, 44, 46, 47))
    assert [g.first for g in gathered(stops)] == list(stops)


def test_degrees_get_their_sign() -> None:
    assert degrees("800 degC, 3 deg and 10 degrees") == f"800{GAP}°C, 3° and 10°"


def test_a_limit_missed_by_a_hair_does_not_look_met() -> None:
    assert compared(0.9994, 1.0, "mm") == (f"0.999{GAP}mm", f"1.000{GAP}mm")
    assert compared(0.84, 1.0, "mm") == (f"0.84{GAP}mm", f"1.00{GAP}mm")
    assert compared(1.0, 1.0, "mm") == (f"1.00{GAP}mm", f"1.00{GAP}mm")
    assert compared(None, 3.0, "deg") == ("", "3.0°")


def test_a_named_figure_becomes_a_measure() -> None:
    got = measure_of("tip_force_n", 4.8)
    assert (got.name, got.unit) == ("tip force", "N")
    assert measure_of("area_mm2", 3.0).unit == "mm²"


def test_paths_say_which_side_is_lowered() -> None:
    up = np.array([0.0, 0.0, 1.0])
    assert "no tilt" in path_words(PathOfPlacement(up, 0.0, 0.0))
    both = path_words(PathOfPlacement(up, -2.0, -4.0))
    assert both == (
        "Path of placement: front of the cast raised by 2.0° "
        "and patient's left side lowered by 4.0°."
    )


def test_designs_in_words() -> None:
    retainer = Retainer(35, ("mesial occlusal",), ("distal",), Clasp("I-bar"), indirect=True)
    assert listed(retainer_parts(retainer)) == (
        "mesial occlusal rest, distal proximal plate, buccal I-bar, undercut 0.25 mm, "
        "lingual reciprocal arm and indirect retainer"
    )
    assert "4 mm high" in connector_words(MajorConnector("lingual bar"))
    assert "8 mm wide" in connector_words(MajorConnector("palatal strap"))
