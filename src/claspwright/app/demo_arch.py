"""Write an invented arch as the files that a dentist would send."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from claspwright.app.folder import whole_folder
from claspwright.app.preparations import ordinary_preparations
from claspwright.arch import Jaw
from claspwright.base import InputError, Progress, part, silent
from claspwright.case import SHEET_NAME, Answers, sheet_text
from claspwright.demo import ArchOptions, build_arch
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh


@dataclass(frozen=True, slots=True)
class DemoWishes:
    """What to build; codes in ISO 3950."""

    jaw: Jaw
    missing: tuple[int, ...]
    not_replaced: tuple[int, ...] = ()
    seed: int = 1
    crowns: Path | None = None  # folder of real crowns, PERSON_CODE.ply
    person: str = "a"
    pose_seed: int | None = None
    noise_um: float = 0.0
    edge_mm: float = 0.15
    prepared: bool = True  # rest seats and guiding planes, as is ordinary practice


def write_demo_arch(wishes: DemoWishes, out: Path, *, progress: Progress = silent) -> list[Path]:
    """Write scans, and a sheet where teeth are missing; returns the files.

    Raises:
        InputError: codes or crowns that cannot be built, or the folder is in use.
    """
    options = _options(wishes)
    missing = options.missing
    answers = Answers(
        case_id=f"DEMO-{wishes.seed}",
        jaw=wishes.jaw,
        alloy="cocr-lpbf-stress-relieved",
        missing=missing,
        not_replaced=tuple(tooth for tooth in missing if tooth % 10 == 8),
        functional_depth_mm=9.5 if wishes.jaw == "mandible" else None,
    )
    return write_case(options, answers, out, progress=progress)


def write_case(
    options: ArchOptions, answers: Answers, out: Path, *, progress: Progress = silent
) -> list[Path]:
    """Build an arch and write it as a case folder; an earlier one of the same case is replaced.

    Raises:
        InputError: the arch cannot be built, or the folder holds something else.
    """
    if not _is_free(out, answers.case_id):
        raise InputError(
            "this place is in use", place=out.as_posix(), remedy="Name a new or empty folder."
        )
    built = build_arch(options, progress=part(progress, 0.0, 0.9))
    meshes = {"master": built.master, "opposing": built.opposing, "bite": built.bite}
    with whole_folder(out) as fresh:
        (fresh / "scans").mkdir()
        names = {}
        for name, mesh in meshes.items():
            if mesh is not None:
                names[name] = f"scans/{name}.stl"
                write_stl(mesh, fresh / names[name])
        if answers.missing:
            text = sheet_text(answers, **names)
            (fresh / SHEET_NAME).write_bytes(text.encode("utf-8"))
        files = sorted(file.relative_to(fresh) for file in fresh.rglob("*") if file.is_file())
    progress(1.0, "arch written")
    return [out / file for file in files]


def _is_free(out: Path, case_id: str) -> bool:
    """Nothing lies there, or nothing but the same invented case."""
    if not out.exists():
        return True
    if not out.is_dir():
        return False
    if not any(out.iterdir()):
        return True
    expected = {SHEET_NAME, "scans"}
    if {file.name for file in out.iterdir()} != expected:
        return False
    return f'id = "{case_id}"' in (out / SHEET_NAME).read_text(encoding="utf-8").splitlines()


def read_crowns(folder: Path, person: str, jaw: Jaw) -> Mapping[int, Mesh]:
    """Real crowns of one person, PERSON_CODE.ply, by ISO 3950 code.

    Raises:
        InputError: there are none.
    """
    quadrants = "12" if jaw == "maxilla" else "34"
    files = sorted(folder.glob(f"{person}_[1-4][1-8].ply")) if folder.is_dir() else []
    if not any(file.stem[-2] in quadrants for file in files):
        raise InputError(
            f"no crowns of {person!r} for the {jaw} here",
            place=folder.as_posix(),
            remedy=f"The files are named {person}_CODE.ply, such as {person}_{quadrants[0]}1.ply.",
        )
    return {int(file.stem[-2:]): read_mesh(file) for file in files}


def _options(wishes: DemoWishes) -> ArchOptions:
    crowns: Literal["parametric"] | Mapping[int, Mesh] = "parametric"
    if wishes.crowns is not None:
        crowns = read_crowns(wishes.crowns, wishes.person, wishes.jaw)
    thirds = (18, 28) if wishes.jaw == "maxilla" else (38, 48)
    missing = tuple(sorted({*wishes.missing, *wishes.not_replaced, *thirds}))
    seats, planes = ordinary_preparations(wishes.jaw, missing) if wishes.prepared else ({}, {})
    return ArchOptions(
        wishes.jaw,
        missing,
        seed=wishes.seed,
        crowns=crowns,
        seats=seats,
        planes=planes,
        edge_mm=wishes.edge_mm,
        noise_um=wishes.noise_um,
        pose_seed=wishes.pose_seed,
        opposing_missing=(38, 48) if wishes.jaw == "maxilla" else (18, 28),
    )
