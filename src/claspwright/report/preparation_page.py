"""The page for the dentist: what is still to be reduced, and where, on a picture of the arch."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.report.render import png, render
from claspwright.report.scene import STONE, Item, Label, Scene
from claspwright.report.typesetting import typeset
from claspwright.report.views import view

SIZE = (1100, 820)


@dataclass(frozen=True, slots=True, eq=False)
class PreparationAsk:
    """One thing that the dentist is asked for, or that was found as it should be."""

    text: str
    needed: bool
    at: Floats  # (3,) arch frame [mm]
    kind: str  # "seat" or "plane"
    source: str


def write_preparation_page(
    arch: DentalArch, case_id: str, asks: tuple[PreparationAsk, ...], date: str, version: str
) -> bytes:
    """The page as PDF/A-2a and PDF/UA-1; the same content gives the same bytes."""
    needed = [ask for ask in asks if ask.needed]
    labels = tuple(
        Label(np.asarray(ask.at, dtype=np.float64), str(n), size_px=26, offset_px=(9, -9), dot=True)
        for n, ask in enumerate(needed, 1)
    )
    scene = Scene((Item(arch.scan.surface, STONE),), labels=labels)
    picture = png(render(scene, view("occlusal", arch.scan.jaw), SIZE))
    words = {
        "id": case_id,
        "version": version,
        "date": date,
        "asks": [{"text": ask.text, "source": ask.source} for ask in needed],
        "done": [ask.text for ask in asks if not ask.needed],
        "alt": "The arch from occlusal; the numbers stand where the list asks for a reduction.",
    }
    return typeset("preparation.typ", words, {"arch.png": picture})
