from __future__ import annotations

from dataclasses import replace

import pytest

from claspwright.framework.amend import _arms_alone
from claspwright.framework.design import Clasp, Retainer

WAS = Retainer(35, ("mesial occlusal",), ("distal",), Clasp("circumferential"))
CLASP = Clasp("circumferential")


def clasped(**new: object) -> Retainer:
    return replace(WAS, clasp=replace(CLASP, **new))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "new", [clasped(undercut_mm=0.2), clasped(side="lingual"), clasped(reciprocal=False)]
)
def test_arms_are_laid_alone_where_only_they_differ(new: Retainer) -> None:
    assert _arms_alone(new, WAS)


@pytest.mark.parametrize(
    "new",
    [
        clasped(form="I-bar"),
        clasped(origin="distal"),
        replace(WAS, clasp=None),
        replace(WAS, rests=("distal occlusal",)),
        replace(clasped(undercut_mm=0.2), proximal_plates=()),
    ],
)
def test_rests_and_plates_are_laid_anew_where_they_may_differ(new: Retainer) -> None:
    assert not _arms_alone(new, WAS)
