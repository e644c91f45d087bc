"""The powder at the bench: lots of the register, and a certificate that was sent or typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from claspwright.app.bench.laboratory import Laboratory, read_json
from claspwright.app.bench.register_desk import opened
from claspwright.app.judge_certificate import enter_judged, judged, read_certificate
from claspwright.base import InputError
from claspwright.process import Certificate
from claspwright.records import Signed, init_register

READ = "certificates"  # what was read from files that were sent, among what the bench keeps


@dataclass(frozen=True, slots=True)
class LotRow:
    """A lot of the register."""

    id: str
    alloy: str
    mass_g: float
    received: str
    maker_lot: str
    certificate_passed: bool | None  # None: no certificate was entered


def lots(lab: Laboratory) -> tuple[LotRow, ...]:
    """Every lot of the register, the newest first."""
    if not lab.has_register:
        return ()
    with opened(lab) as register:
        return tuple(
            LotRow(id_, body["alloy"], body["mass_g"], body["received"],
                   body.get("maker_lot", ""), body.get("certificate_passed"))
            for id_, body in reversed(register.all_of("lot"))
        )  # fmt: skip


def sent_certificate(lab: Laboratory, upload: str) -> dict[str, Any]:  # Any: a tree for JSON
    """What another process read from a file that was sent; see `register_jobs.certificate`.

    Raises:
        InputError: nothing was read from such a file.
    """
    folder = lab.kept(READ)
    known = {place.name for place in folder.iterdir()} if folder.is_dir() else set()
    if f"{upload}.json" not in known:
        raise InputError(f"there is no certificate {upload!r}", remedy="Send it again.")
    found: dict[str, Any] = read_json(folder / f"{upload}.json")
    return found


def certificate_told(certificate: Certificate) -> dict[str, Any]:  # Any: a tree for JSON
    """A certificate as the form on the screen holds it."""
    return {
        "lot": certificate.lot,
        "percent": dict(certificate.percent),
        "size_um": None if certificate.size_um is None else list(certificate.size_um),
        "apparent_density_g_cm3": certificate.apparent_density_g_cm3,
        "shown": sorted(certificate.shown),
    }


def enter(
    lab: Laboratory, certificate: Certificate, alloy: str, lot: Mapping[str, Any], signed: Signed,
    *, upload: str = "",
) -> int:  # fmt: skip
    """Enter a certificate on its lot, and the lot before it where it is new; returns the number.

    Args:
        lab: the laboratory's folder.
        certificate: as it was read or typed.
        alloy: whose specification it is held against.
        lot: fields of a lot that is new, else empty.
        signed: who and when.
        upload: the file that was sent; kept as it is, if nothing was changed after it was read.
    """
    found = judged(certificate, alloy)
    with init_register(str(lab.register), files="") as register:
        if register.current("lot", certificate.lot) is None:
            if not lot:
                raise InputError(
                    "the lot is not in the register", place=certificate.lot,
                    remedy="Say how much of it was received, and when.",
                )  # fmt: skip
            register.add("lot", certificate.lot, {"alloy": alloy, **lot}, signed)
        file = _as_sent(lab, certificate, upload)
        return enter_judged(register, certificate, found, signed, file=file)


def _as_sent(lab: Laboratory, certificate: Certificate, upload: str) -> Path | None:
    """The file that was sent, if it says the same."""
    if not upload:
        return None
    sent_certificate(lab, upload)
    file = lab.kept("uploads", upload)
    return file if file.is_file() and read_certificate(file) == certificate else None
