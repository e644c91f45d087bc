"""New cases: scans and a few answers."""

from __future__ import annotations

import shutil
import tempfile
from datetime import date
from pathlib import Path, PurePath
from typing import Annotated, Literal

from fastapi import APIRouter, File, Form, UploadFile

from claspwright.app.bench.cases import case_line
from claspwright.app.new_case import NewScans, new_case
from claspwright.arch import jaw_of, parse_tooth
from claspwright.base import InputError
from claspwright.case import Answers
from claspwright.web.bench import TheBench
from claspwright.web.models import CaseRow

routes = APIRouter(prefix="/api/cases", tags=["cases"])
ENDINGS = (".stl", ".ply", ".obj", ".3mf", ".dcm")
_Short = Annotated[str, Form(max_length=200)]
_Depth = Annotated[float | None, Form(gt=0, le=30)]


@routes.post("", status_code=201)
def make_case(  # noqa: PLR0913 - the fields of one form
    bench: TheBench,
    name: Annotated[str, Form(min_length=1, max_length=64)],
    missing: Annotated[str, Form(min_length=1, max_length=200)],
    master: Annotated[UploadFile, File()],
    opposing: Annotated[UploadFile | None, File()] = None,
    bite: Annotated[UploadFile | None, File()] = None,
    arch: Annotated[Literal["", "mandible", "maxilla"], Form()] = "",
    not_replaced: _Short = "",
    functional_depth_mm: _Depth = None,
    alloy: _Short = "cocr-lpbf-stress-relieved",
    allergies: _Short = "",
    patient: _Short = "",
    prescriber: _Short = "",
    laboratory: _Short = "",
    due: Annotated[date | None, Form()] = None,
) -> CaseRow:
    """Make a case from scans and a few answers; the scans are read when it is worked out."""
    folder = bench.lab.new_folder(name)
    absent = _teeth(missing, "missing")
    if not absent:
        raise InputError("no tooth is missing", place="missing", remedy="Name the absent teeth.")
    answers = Answers(
        case_id=name,
        jaw=arch or jaw_of(absent[0]),
        alloy=alloy,
        missing=absent,
        not_replaced=_teeth(not_replaced, "not_replaced"),
        functional_depth_mm=functional_depth_mm,
        allergies=[word.strip() for word in allergies.split(",") if word.strip()],
        patient=patient,
        prescriber=prescriber,
        laboratory=laboratory,
        due=due,
    )
    with tempfile.TemporaryDirectory(prefix="claspwright-") as place:
        kept = {
            key: _kept(Path(place) / key, key, sent)
            for key, sent in (("master", master), ("opposing", opposing), ("bite", bite))
            if sent is not None and sent.filename
        }
        if "master" not in kept:
            raise InputError(
                "the master scan is missing", place="master", remedy="Choose the arch's scan."
            )
        new_case(folder, NewScans(**kept), answers)
    return CaseRow.model_validate(case_line(bench.lab, name), from_attributes=True)


def _teeth(text: str, place: str) -> list[int]:
    words = text.replace(",", " ").split()
    return [parse_tooth(word, "iso3950", place=place) for word in words]


def _kept(folder: Path, key: str, sent: UploadFile) -> Path:
    """One upload as a file of its own, under a name that cannot lead elsewhere."""
    ending = PurePath(sent.filename or "").suffix.lower()
    if ending not in ENDINGS:
        raise InputError(
            f"a scan cannot end in {ending or 'nothing'!r}", place=key,
            remedy=f"Send one of {', '.join(ENDINGS)}.",
        )  # fmt: skip
    folder.mkdir()
    target = folder / f"{key}{ending}"
    with target.open("wb") as file:
        shutil.copyfileobj(sent.file, file)
    if target.stat().st_size == 0:
        raise InputError("the file is empty", place=key, remedy="Send the scan again.")
    return target
