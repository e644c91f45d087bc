"""A certificate of feedstock, written down as TOML, against an alloy's specification."""

from __future__ import annotations

import math
import tempfile
import tomllib
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import tomlkit

from claspwright.app.enter_runs import enter_certificate
from claspwright.base import Finding, InputError
from claspwright.process import Certificate, CertificateRow, certificate_rows, judge_certificate
from claspwright.records import Register, Signed

ALLOY = "cocr-lpbf-stress-relieved"


@dataclass(frozen=True, slots=True)
class Judged:
    """A certificate against a specification."""

    rows: tuple[CertificateRow, ...]  # each value against its limit, and what must be shown
    findings: tuple[Finding, ...]  # what is wrong with it

    @property
    def passed(self) -> bool:
        """Whether nothing in it must stop the lot."""
        return not any(one.severity == "stop" for one in self.findings)


def judged(certificate: Certificate, alloy: str = ALLOY) -> Judged:
    """A certificate against the specification of an alloy; see `certificate_rows`."""
    return Judged(certificate_rows(certificate, alloy), judge_certificate(certificate, alloy))


def told(found: Judged) -> dict[str, Any]:  # Any: a JSON object
    """The verdict as one JSON object."""
    return {
        "passed": found.passed,
        "rows": [asdict(row) for row in found.rows],
        "findings": [asdict(finding) for finding in found.findings],
    }


def read_certificate(path: Path) -> Certificate:
    """A certificate that was written down.

    The file holds `lot`, a table `percent` of elements, and where the certificate shows them
    `size_um = [D10, D90]`, `apparent_density_g_cm3` and `shown`, a list of further items.

    Raises:
        InputError: the file cannot be read.
    """
    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8"))
        size, density = rows.get("size_um"), rows.get("apparent_density_g_cm3")
        return Certificate(
            lot=str(rows["lot"]),
            percent={str(name): _number(value) for name, value in rows["percent"].items()},
            size_um=None if size is None else (_number(size[0]), _number(size[1])),
            apparent_density_g_cm3=None if density is None else _number(density),
            shown=frozenset(str(one) for one in rows.get("shown", ())),
        )
    except (
        OSError, tomllib.TOMLDecodeError, AttributeError, KeyError, TypeError, ValueError,
        IndexError,
    ) as error:  # fmt: skip
        raise InputError(
            f"the certificate cannot be read: {error}", place=path.name,
            remedy='Give lot = "..." and a table [percent] of elements.',
        ) from error  # fmt: skip


def certificate_text(certificate: Certificate) -> str:
    """A certificate as `read_certificate` reads it."""
    rows: dict[str, Any] = {"lot": certificate.lot}  # Any: TOML
    if certificate.size_um is not None:
        rows["size_um"] = list(certificate.size_um)
    if certificate.apparent_density_g_cm3 is not None:
        rows["apparent_density_g_cm3"] = certificate.apparent_density_g_cm3
    rows["shown"] = sorted(certificate.shown)
    return tomlkit.dumps({**rows, "percent": dict(certificate.percent)})


def enter_judged(
    register: Register, certificate: Certificate, found: Judged, signed: Signed,
    *, file: Path | None = None,
) -> int:  # fmt: skip
    """Enter a certificate on its lot, with what is wrong with it; returns the entry's number.

    Args:
        register: the open register, which holds the lot.
        certificate: as it was read or typed.
        found: what `judged` found in it.
        signed: who and when.
        file: its file; None: one is written from it.

    Raises:
        InputError: the lot is not in the register.
    """
    with tempfile.TemporaryDirectory() as folder:
        kept = file
        if kept is None:
            kept = Path(folder) / "certificate.toml"
            kept.write_bytes(certificate_text(certificate).encode("utf-8"))
        return enter_certificate(
            register, certificate.lot, kept, certificate.percent, found.findings, signed
        )


def _number(value: Any) -> float:  # Any: whatever the file holds
    number = float(value)
    if not math.isfinite(number):
        raise ValueError(f"{value} is no number")
    return number
