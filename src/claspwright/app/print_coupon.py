"""The coupon for distortion: solid to print, strain from what was measured."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from claspwright.app.whole_file import write_whole
from claspwright.base import Progress, silent
from claspwright.build import Coupon, coupon_rise
from claspwright.build.coupon import check_rise
from claspwright.formats import read_process, write_stl
from claspwright.materials import material


def coupon_told(
    coupon: Coupon,
    process: str,
    rise_mm: float | None,
    out: Path | None,
    *,
    progress: Progress = silent,
) -> dict[str, Any]:
    """Figures of a coupon for JSON; Any: numbers and words.

    Args:
        coupon: its measures.
        process: name or file of the process record.
        rise_mm: measured rise of the free end; None where it is still to be printed.
        out: STL file to write; None writes nothing.
        progress: told of the lumps.

    Raises:
        InputError: the record, the rise or the place cannot be used.
    """
    record = read_process(process)
    alloy = material(record.alloy)
    if rise_mm is not None:
        check_rise(rise_mm)
    start = record.distortion.strain
    rise = coupon_rise(
        coupon, start, modulus=alloy.modulus.nominal, poisson=alloy.poisson.nominal,
        progress=progress,
    )  # fmt: skip
    if out is not None:
        write_whole(out, lambda file: write_stl(coupon.solid(), file))
    return {
        "process": record.name,
        "record_strain": start,
        "record_rise_mm": round(rise, 5),
        "rise_mm": rise_mm,
        "strain": None if rise_mm is None else round(start * rise_mm / rise, 9),
        "file": None if out is None else out.as_posix(),
    }
