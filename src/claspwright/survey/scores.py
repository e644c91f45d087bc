"""The table by which paths of placement are weighed."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

WIDEST_USUAL_DEG = 10.0  # path.tilt: beyond it a path pays more


@dataclass(frozen=True, slots=True)
class ScorePart:
    """One thing that a path is judged by, and what it costs."""

    key: str  # such as "guiding"
    title: str  # in words
    amount: str  # what is counted
    unit: str  # of the amount, such as "mm3"
    points: float  # for one unit of the amount
    source: str  # for weighing it at all, with its mark


@cache
def score_parts() -> tuple[ScorePart, ...]:
    """The rows of the table, in its order; the points of a path add up over them."""
    text = files("claspwright.survey").joinpath("path_scores.toml").read_text(encoding="utf-8")
    return tuple(
        ScorePart(
            key, row["title"], row["amount"], row["unit"], float(row["points"]), row["source"]
        )
        for key, row in tomllib.loads(text).items()
    )
