"""`claspwright classify`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

import typer

if TYPE_CHECKING:
    from claspwright.arch import Jaw, Notation

Arch = Annotated[
    Literal["mandible", "maxilla"], typer.Option("--arch", help="The jaw.", show_default=False)
]
TOOTH_LIST = "Tooth codes with commas between, such as 36,37,46."


def classify(
    arch: Arch,
    missing: Annotated[str, typer.Option(help=f"Every absent tooth. {TOOTH_LIST}")],
    not_replaced: Annotated[
        str, typer.Option(help="Absent teeth that get no artificial tooth; they count as missing.")
    ] = "",
    present_abutment: Annotated[
        list[str] | None, typer.Option(help="Standing teeth, third molars above all, that carry.")
    ] = None,
    replaced: Annotated[str, typer.Option(help="Missing third molars that are replaced.")] = "",
    notation: Annotated[
        Literal["iso3950", "universal"], typer.Option(help="How the codes are written.")
    ] = "iso3950",
    json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
) -> None:
    """Kennedy class and modifications by Applegate's rules."""
    import claspwright.arch as teeth

    found = teeth.classify(
        arch,
        codes(missing, notation, "--missing"),
        not_replaced=codes(not_replaced, notation, "--not-replaced"),
        present_abutments=codes(",".join(present_abutment or []), notation, "--present-abutment"),
        replaced=codes(replaced, notation, "--replaced"),
    )
    if json:
        from json import dumps

        answer = {"kennedy_class": found.kennedy_class, "modifications": found.modifications}
        print(dumps(answer))
    else:
        print(found)


def codes(text: str, notation: Notation, option: str) -> list[int]:
    """Tooth codes in ISO 3950 from a list with commas or blanks."""
    from claspwright.arch import parse_tooth

    return [parse_tooth(word, notation, place=option) for word in text.replace(",", " ").split()]


def jaw_from(arch: Jaw | None, missing: list[int]) -> Jaw:
    """The jaw that was named, or that the missing teeth stand in."""
    from claspwright.arch import jaw_of
    from claspwright.base import InputError

    if arch is not None:
        return arch
    if not missing:
        raise InputError("the jaw is not known", remedy="Give --arch mandible or --arch maxilla.")
    return jaw_of(missing[0])
