"""The page for the dentist: what is still to be reduced, and where, on a picture of the arch."""

from __future__ import annotations

import json
import tempfile
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

import numpy as np
import typst

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.report.render import png, render
from claspwright.report.scene import STONE, Item, Label, Scene
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
    """The page as PDF/UA-1; the same content gives the same bytes."""
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
    template = files("claspwright.report").joinpath("templates/preparation.typ").read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "preparation.typ").write_bytes(template)
        (folder / "arch.png").write_bytes(picture)
        text = json.dumps(words, ensure_ascii=False, sort_keys=True)
        (folder / "words.json").write_text(text, encoding="utf-8")
        made = typst.compile(
            str(folder / "preparation.typ"), root=str(folder), format="pdf",
            ignore_system_fonts=True, pdf_standards=["ua-1"], timestamp=0,
        )  # fmt: skip
    return bytes(made)
