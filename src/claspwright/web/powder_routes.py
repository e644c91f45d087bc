"""The powder: its lots, and a lot's certificate against the alloy's specification."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, File, Query, UploadFile

from claspwright.app.bench import powder_desk as desk
from claspwright.app.judge_certificate import ALLOY, judged, told
from claspwright.process import Certificate, certificate_rows, feedstocks
from claspwright.records import Signed
from claspwright.web.bench import TheBench
from claspwright.web.models import JobRow
from claspwright.web.register_models import (
    CertificateEntry,
    CertificateJudged,
    CertificateWish,
    LimitRow,
    LotRow,
    PowderPage,
    ReadCertificate,
    SentCertificate,
)
from claspwright.web.register_routes import now
from claspwright.web.sent_files import kept
from claspwright.web.stage_models import Entered

routes = APIRouter(prefix="/api/powder", tags=["powder"])
MOST_BYTES = 200_000  # of a certificate that was written down


@routes.get("")
def read_powder(
    bench: TheBench, alloy: Annotated[str, Query(min_length=1, max_length=64)] = ALLOY
) -> PowderPage:
    """Lots of the register, and the limits that a certificate is held against."""
    limits = certificate_rows(Certificate("", {}), alloy)
    return PowderPage(
        alloys={title: list(names) for title, names in feedstocks().items()},
        limits=[LimitRow.model_validate(asdict(row)) for row in limits],
        lots=[LotRow.model_validate(asdict(row)) for row in desk.lots(bench.lab)],
    )


@routes.post("/judged")
def judge(body: CertificateWish) -> CertificateJudged:
    """Each value of a certificate against its limit; nothing is entered."""
    found = told(judged(_certificate(body), body.alloy))
    return CertificateJudged.model_validate(found)


@routes.post("/files", status_code=202)
def send_certificate(
    bench: TheBench,
    certificate: Annotated[UploadFile, File(description="TOML file, as the command reads it")],
) -> SentCertificate:
    """Send a certificate that was written down; another process reads it."""
    wish = kept(bench.lab, certificate, "certificate", (".toml",), MOST_BYTES)
    job = bench.jobs.ask("", "read the certificate", wish)
    return SentCertificate(upload=wish["upload"], job=JobRow.of(job))


@routes.get("/files/{upload}")
def read_sent(upload: str, bench: TheBench) -> ReadCertificate:
    """What was read from it."""
    return ReadCertificate.model_validate(desk.sent_certificate(bench.lab, upload))


@routes.post("/certificates", status_code=201)
def enter_certificate(body: CertificateEntry, bench: TheBench) -> Entered:
    """Enter a certificate on its lot, with what is wrong with it."""
    fields = {} if body.new is None else body.new.model_dump(mode="json", exclude_none=True)
    lot = {key: value for key, value in fields.items() if value != ""}
    signed = Signed(bench.author(body.by), now())
    number = desk.enter(bench.lab, _certificate(body), body.alloy, lot, signed, upload=body.upload)
    return Entered(number=number)


def _certificate(body: CertificateWish) -> Certificate:
    size = None if body.size_um is None else (body.size_um[0], body.size_um[1])
    return Certificate(
        body.lot, dict(body.percent), size, body.apparent_density_g_cm3, frozenset(body.shown)
    )
