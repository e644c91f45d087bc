"""Figures of no case: a single arm by the closed form, and the coupon for distortion."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import FileResponse

from claspwright.app.bench.laboratory import read_json
from claspwright.app.single_arm import arm_told
from claspwright.base import InputError
from claspwright.build import Coupon
from claspwright.build.coupon import check_rise
from claspwright.formats import process_names
from claspwright.materials import material, materials
from claspwright.mechanics import BareArm
from claspwright.web.bench import TheBench
from claspwright.web.figure_models import (
    AlloyRow,
    ArmFigures,
    ArmWish,
    CouponFigures,
    CouponState,
    CouponWish,
)
from claspwright.web.models import JobRow
from claspwright.web.sent_files import file_in

routes = APIRouter(prefix="/api", tags=["figures"])


@routes.get("/arm/alloys")
def list_alloys() -> list[AlloyRow]:
    """Alloys with Young's modulus and its source."""
    return [
        AlloyRow(
            name=name, title=one.title, modulus_mpa=one.modulus.nominal, source=one.modulus.cited
        )
        for name, one in materials().items()
    ]


@routes.post("/arm")
def work_out_arm(body: ArmWish) -> ArmFigures:
    """Force and stress of a bare half-round clasp arm, by bending alone."""
    alloy = material(body.alloy)
    arm = BareArm(
        body.length_mm, body.radius_mm, body.undercut_mm, alloy.modulus.nominal, body.tip_ratio,
        body.arc_deg,
    )  # fmt: skip
    told = arm_told(arm, convergence_deg=body.convergence_deg, friction=body.friction)
    return ArmFigures(**told, modulus_mpa=alloy.modulus.nominal, modulus_source=alloy.modulus.cited)


@routes.get("/coupon")
def read_coupon(bench: TheBench) -> CouponState:
    """The coupon that was worked out last."""
    told = read_json(bench.lab.coupon / "coupon.json")
    names = bench.lab.coupon.iterdir() if told is not None else ()
    return CouponState(
        told=None if told is None else CouponFigures.model_validate(told),
        files=sorted(one.name for one in names),
    )


@routes.post("/coupon", status_code=202)
def ask_for_coupon(body: CouponWish, bench: TheBench) -> JobRow:
    """Ask for a coupon's solid and its rise, with the strain where a rise was measured."""
    bench.lab.folder_of(body.case)
    if body.process not in process_names():
        raise InputError("no such process", place="process",
                         remedy="Take one of /api/builds/forms.")  # fmt: skip
    if body.rise_mm is not None:
        check_rise(body.rise_mm)
    sizes = body.sizes.model_dump()
    Coupon(**sizes)
    wish = {"process": body.process, "rise_mm": body.rise_mm, "sizes": sizes}
    return JobRow.of(bench.jobs.ask(body.case, "coupon", wish))


@routes.get("/coupon/files/{file}", response_class=FileResponse)
def read_coupon_file(file: str, bench: TheBench) -> FileResponse:
    """A file of the coupon, such as coupon.stl."""
    return file_in(bench.lab.coupon, file)
