"""`claspwright clinic`: approval, try-in, jaw record, teeth, remake, delivery, follow-up."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.options import EnteredBy, EnteredOn
from claspwright.cli.register import HERE, Files, Where, open_at

clinic = typer.Typer(
    help="What passes between laboratory and clinic, entered in the register.",
    no_args_is_help=True,
)

Case = Annotated[str, typer.Argument(metavar="CASE", help="Id of the case in the register.")]
Part = Annotated[str, typer.Argument(metavar="PART", help="Id of the framework.")]
Words = Annotated[str, typer.Option("--text", help="In words.")]


@clinic.command()
def revision(
    case: Case,
    design_files: Annotated[
        list[Path], typer.Argument(metavar="FILE...", help="What is to be approved.")
    ],
    by: EnteredBy,
    on: EnteredOn,
    design: Annotated[str, typer.Option(help="The design in words.")] = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Keep files as the next revision of a case; prints its id and the hash to approve."""
    from claspwright.app.clinic import enter_revision
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        print(*enter_revision(opened, case, design_files, Signed(by, on), design=design))


@clinic.command()
def approve(
    revision_id: Annotated[str, typer.Argument(metavar="REVISION", help="Such as C-1/1.")],
    seen_hash: Annotated[
        str, typer.Option("--hash", help="Hash of what was seen, its first 12 signs or more.")
    ],
    by: EnteredBy,
    on: EnteredOn,
    refused: Annotated[bool, typer.Option("--refused", help="It was not approved.")] = False,
    text: Words = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter the prescriber's approval, bound to the hash of the revision that was seen."""
    from claspwright.app.clinic import approve as enter
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        seq = enter(opened, revision_id, seen_hash, Signed(by, on), approved=not refused, text=text)
    print(f"entry {seq}")


@clinic.command("try-in")
def try_in(
    part: Part,
    place: Annotated[str, typer.Option(help="Where, such as rest.35.mesial.")],
    by: EnteredBy,
    on: EnteredOn,
    amount_um: Annotated[float, typer.Option(min=0.0, help="Metal taken away.")] = 0.0,
    how: Annotated[str, typer.Option(help="ground, relieved, bent or nothing.")] = "ground",
    seated: Annotated[bool, typer.Option("--seated/--not-seated", help="Seats now.")] = True,
    minutes: Annotated[float | None, typer.Option(min=0.0, help="Time at the chair.")] = None,
    text: Words = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter an adjustment at a try-in: where and how much."""
    from claspwright.app.clinic import TryIn, enter_try_in
    from claspwright.records import Signed

    tried = TryIn(part, place, amount_um, how, seated, minutes, text)
    with open_at(where, files) as opened:
        print(f"entry {enter_try_in(opened, tried, Signed(by, on))}")


@clinic.command()
def film(
    part: Part,
    gap: Annotated[list[str], typer.Option(help="AREA=UM, such as rest.35=180; repeatable.")],
    by: EnteredBy,
    on: EnteredOn,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter the thickness of a silicone film under each rest, which confirms the seating."""
    from claspwright.app.before_after import enter_film, film_against_seating
    from claspwright.base import InputError
    from claspwright.inspection import acceptance_limits
    from claspwright.records import Signed

    try:
        gaps = {area: float(um) for area, um in (one.rsplit("=", 1) for one in gap)}
    except ValueError as error:
        raise InputError("not AREA=UM", place="--gap") from error
    limit = 1000.0 * float(acceptance_limits()["fit.rest_gap"].stop_above or 0.0)
    with open_at(where, files) as opened:
        print(f"entry {enter_film(opened, part, gaps, limit, Signed(by, on))}")
        for area, off in film_against_seating(opened, part).items():
            print(f"{area}: film less the gap of seating {off:+.0f} um")


@clinic.command()
def compare(part: Part, where: Where = HERE, files: Files = "") -> None:
    """Every figure of a framework through its inspections: before and after."""
    from claspwright.app.before_after import changes_of

    with open_at(where, files) as opened:
        for one in changes_of(opened, part):
            values = " -> ".join(f"{value:.1f}" for value in one.values)
            print(f"{one.what} {one.name}: {values} (changed by {one.change:+.1f})")


@clinic.command("jaw-record")
def jaw_record(
    case: Case,
    by: EnteredBy,
    on: EnteredOn,
    part: Annotated[str, typer.Option(help="Framework that carried it.")] = "",
    wax_rims: Annotated[bool, typer.Option("--wax-rims/--no-wax-rims", help="Rims on it.")] = True,
    vertical_mm: Annotated[float | None, typer.Option(help="Vertical dimension.")] = None,
    file: Annotated[Path | None, typer.Option(help="Scan of the record.")] = None,
    text: Words = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter a jaw record taken with wax rims on the framework."""
    from claspwright.app.clinic import enter_next
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        kept = "" if file is None else opened.keep_file(file.name, file.read_bytes())
        optional = {"part": part, "vertical_mm": vertical_mm, "file": kept, "text": text}
        fields = {"made": on, "wax_rims": wax_rims, **{k: v for k, v in optional.items() if v}}
        print(f"entry {enter_next(opened, 'jaw_record', case, fields, Signed(by, on))}")


@clinic.command("altered-cast")
def altered_cast(
    case: Case,
    by: EnteredBy,
    on: EnteredOn,
    needed: Annotated[bool, typer.Option("--needed/--not-needed", help="For free ends.")] = True,
    done: Annotated[str, typer.Option(help="Day it was done, YYYY-MM-DD.")] = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Say whether the free ends need an altered cast, and when it was done."""
    from claspwright.app.clinic import flag_altered_cast
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        seq = flag_altered_cast(opened, case, Signed(by, on), needed=needed, done=done)
    print(f"entry {seq}")


@clinic.command()
def teeth(
    case: Case,
    by: EnteredBy,
    on: EnteredOn,
    mould: Annotated[str, typer.Option(help="Tooth mould.")] = "",
    shade: Annotated[str, typer.Option(help="Tooth shade.")] = "",
    gum_shade: Annotated[str, typer.Option(help="Shade of the gum.")] = "",
    numbers: Annotated[str, typer.Option(help="Teeth to set, such as 36, 37.")] = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter tooth mould, shade and gum shade on a case."""
    from claspwright.app.clinic import choose_teeth
    from claspwright.records import Signed

    fields = {"tooth_mould": mould, "shade": shade, "gum_shade": gum_shade, "teeth": numbers}
    with open_at(where, files) as opened:
        print(f"entry {choose_teeth(opened, case, fields, Signed(by, on))}")


@clinic.command("take-back")
def take_back(
    parent: Annotated[str, typer.Argument(help="Case that it comes from.")],
    fresh: Annotated[str, typer.Argument(metavar="CASE", help="Id of the new case.")],
    reason: Annotated[str, typer.Option(help="Why; it is entered as the cause.")],
    by: EnteredBy,
    on: EnteredOn,
    work: Annotated[str, typer.Option(help="remake, repair or reline.")] = "remake",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Take in a remake, repair or reline, linked to the case that it comes from."""
    from claspwright.app.clinic import take_back as enter
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        print(f"entry {enter(opened, parent, fresh, work, reason, Signed(by, on))[0]}")


@clinic.command()
def delivery(
    case: Case,
    by: EnteredBy,
    on: EnteredOn,
    fits: Annotated[bool, typer.Option("--fits/--does-not-fit", help="At delivery.")] = True,
    minutes: Annotated[float | None, typer.Option(min=0.0, help="Adjusted for.")] = None,
    text: Words = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter that the denture was delivered to the patient, and how it fitted."""
    from claspwright.app.clinic import enter_next
    from claspwright.records import Signed

    optional = {"minutes": minutes, "text": text}
    fields = {"delivered": on, "fits": fits, **{k: v for k, v in optional.items() if v}}
    with open_at(where, files) as opened:
        print(f"entry {enter_next(opened, 'delivery', case, fields, Signed(by, on))}")


@clinic.command("follow-up")
def follow_up(
    case: Case,
    by: EnteredBy,
    on: EnteredOn,
    worn: Annotated[bool, typer.Option("--worn/--not-worn", help="By the patient.")] = True,
    retains: Annotated[bool, typer.Option("--retains/--loose", help="Clasps hold.")] = True,
    sore: Annotated[bool, typer.Option("--sore", help="Sore spots.")] = False,
    fracture: Annotated[bool, typer.Option("--fracture", help="Something broke.")] = False,
    relined: Annotated[bool, typer.Option("--relined", help="Base was relined.")] = False,
    text: Words = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter what was seen when the patient was called in again."""
    from claspwright.app.clinic import enter_next
    from claspwright.records import Signed

    fields = {"seen": on, "worn": worn, "retains": retains, "sore": sore, "fracture": fracture,
              "relined": relined, **({"text": text} if text else {})}  # fmt: skip
    with open_at(where, files) as opened:
        print(f"entry {enter_next(opened, 'follow_up', case, fields, Signed(by, on))}")
