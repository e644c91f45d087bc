"""The undercut gauge on the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def gauge(
    mesh: Annotated[Path, typer.Argument(help="Mesh in mm: STL, PLY, OBJ, 3MF, or STL in DICOM.")],
    at: Annotated[str, typer.Option(metavar="X,Y,Z", help="Point on the surface, in mm.")],
    path: Annotated[
        str, typer.Option(metavar="X,Y,Z", help="Direction out of the mouth; of any length.")
    ] = "0,0,1",
    json: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Set the undercut gauge on a point of any mesh."""
    from claspwright.app.gauge_point import gauge_point

    direction, point = _three_numbers(path, "--path"), _three_numbers(at, "--at")
    found = gauge_point(mesh, direction, point)
    if json:
        from json import dumps

        print(dumps(found, indent=2, ensure_ascii=False))
        return
    height = found["below_survey_line_mm"]
    print(f"undercut           {found['undercut_mm']:.3f} mm")
    print(f"below survey line  {'none' if height is None else f'{height:.3f} mm'}")
    print(f"convergence        {found['convergence_deg']:.1f} degrees")
    print("point              " + ", ".join(f"{v:.3f}" for v in found["point_mm"])
          + f" mm ({found['moved_mm']:.3f} mm from the one given)")  # fmt: skip
    for note in found["notes"]:
        print(note)


def _three_numbers(text: str, option: str) -> tuple[float, float, float]:
    from claspwright.base import InputError

    try:
        x, y, z = (float(part) for part in text.replace(",", " ").split())
    except ValueError:
        raise InputError(
            f"{option} {text!r} is not three numbers",
            remedy=f"Write it as in {option} 0.1,-2.5,1.",
        ) from None
    return x, y, z
