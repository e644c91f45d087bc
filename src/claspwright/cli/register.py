"""`claspwright register`: the laboratory's own records."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import EnteredBy, EnteredOn
from claspwright.cli.outcome import CLEAN, STOPPED

if TYPE_CHECKING:
    from claspwright.records import Register

register = typer.Typer(
    help="The laboratory's register: entries that are never edited, each with the hash of the "
    "one before; health data apart.",
    no_args_is_help=True,
)

Where = Annotated[
    str,
    typer.Option(
        "--register", "-r",
        envvar="CLASPWRIGHT_REGISTER",
        help="Folder of the register, or the URL of a PostgreSQL database.",
    ),
]  # fmt: skip
Files = Annotated[
    str,
    typer.Option(
        envvar="CLASPWRIGHT_REGISTER_FILES",
        help="Folder or URL of its files, where the register is in a database server.",
    ),
]
Json = Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")]
HERE = "register"


def open_at(where: str, files: str) -> Register:
    """The register at a folder or URL, and its files."""
    from claspwright.records import open_register

    return open_register(where, files=files)


def _say(answer: dict[str, Any], as_json: bool, lines: list[str]) -> None:
    print(json.dumps(answer, ensure_ascii=False) if as_json else "\n".join(lines))


@register.command()
def init(where: Where = HERE, files: Files = "") -> None:
    """Make a register, or bring an existing one up to this version; all data stay."""
    from claspwright.records import init_register, revision_of

    with init_register(where, files=files) as opened:
        print(f"revision {revision_of(opened.engine)}, {opened.head()[0]} entries")


@register.command()
def add(
    kind: Annotated[str, typer.Argument(help="Kind of entry, such as lot, build or part.")],
    id_: Annotated[str, typer.Argument(metavar="ID", help="Its id.")],
    body: Annotated[Path, typer.Argument(help="JSON file with its fields.")],
    by: EnteredBy,
    on: EnteredOn,
    supersedes: Annotated[
        int | None, typer.Option(help="Number of the entry that this one replaces.")
    ] = None,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter one thing; prints the number of the entry."""
    from claspwright.base import InputError
    from claspwright.records import Signed

    try:
        fields = json.loads(body.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise InputError(f"the fields cannot be read: {error}", place=str(body)) from error
    if not isinstance(fields, dict):
        raise InputError("the fields must be one JSON object", place=str(body))
    with open_at(where, files) as opened:
        print(opened.add(kind, id_, fields, Signed(by, on), supersedes=supersedes))


@register.command()
def sign(
    subject: Annotated[str, typer.Argument(help="KIND:ID of what is signed, as it stands now.")],
    meaning: Annotated[str, typer.Option(help="What the signature says, such as released.")],
    by: EnteredBy,
    on: EnteredOn,
    role: Annotated[str, typer.Option(help="In which office.")] = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Put a name under an entry by its hash; `verify` finds a signature that fits none."""
    import claspwright.records as records

    with open_at(where, files) as opened:
        signed = records.Signed(by, on)
        print(f"entry {records.sign(opened, subject, meaning, signed, role=role)}")


@register.command()
def build(
    folder: Annotated[Path, typer.Argument(help="Folder that `claspwright build` wrote.")],
    id_: Annotated[str, typer.Argument(metavar="ID", help="Id of the build.")],
    feedstock: Annotated[list[str], typer.Option(help="Lot or batch loaded; repeatable.")],
    by: EnteredBy,
    on: EnteredOn,
    case: Annotated[
        list[str] | None,
        typer.Option(help="PART=CASE, where a part is not named like its case; repeatable."),
    ] = None,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Enter a build with its parts, their places and the support contacts to remove."""
    from claspwright.app.enter_build import enter_build
    from claspwright.base import InputError
    from claspwright.records import Signed

    pairs = [one.split("=", 1) for one in case or []]
    if any(len(pair) != 2 for pair in pairs):
        raise InputError("not PART=CASE", place="--case")
    with open_at(where, files) as opened:
        signed = Signed(by, on)
        named = {pair[0]: pair[1] for pair in pairs}
        for part in enter_build(opened, folder, id_, feedstock, signed, cases=named):
            print(part)


@register.command()
def show(
    subject: Annotated[str, typer.Argument(help="KIND:ID, such as lot:L-7; or KIND for all.")],
    where: Where = HERE,
    files: Files = "",
    as_json: Json = False,
) -> None:
    """Show every entry on one thing, or everything of a kind as it stands now."""
    from dataclasses import asdict

    kind, _, id_ = subject.partition(":")
    with open_at(where, files) as opened:
        if id_:
            rows = [asdict(kept) for kept in opened.history(kind, id_)]
            lines = [f"{r['seq']} {r['made_at']} {r['made_by']}: {r['body']}" for r in rows]
        else:
            rows = [{"id": name, **body} for name, body in opened.all_of(kind)]
            lines = [json.dumps(row, ensure_ascii=False) for row in rows]
    _say({"subject": subject, "rows": rows}, as_json, lines or ["nothing"])


@register.command()
def verify(
    where: Where = HERE,
    files: Files = "",
    head: Annotated[
        str, typer.Option(help="NUMBER:HASH of an entry, as noted elsewhere before.")
    ] = "",
    as_json: Json = False,
) -> None:
    """Check the chain, what follows from it and every file; 1 where anything was changed."""
    import claspwright.records as records
    from claspwright.base import InputError

    number, _, digest = head.partition(":")
    if head and not (number.isdigit() and len(digest) == 64):
        raise InputError("not NUMBER:HASH", place="--head")
    with open_at(where, files) as opened, progress_bar("verify") as progress:
        known = (int(number), digest) if head else None
        verdict = records.verify(opened, known_head=known, progress=progress)
    answer = {"entries": verdict.entries, "head": verdict.head, "faults": list(verdict.faults)}
    whole = f"whole: {verdict.entries} entries, head {verdict.entries}:{verdict.head}"
    _say(answer, as_json, list(verdict.faults) or [whole])
    raise typer.Exit(CLEAN if verdict.whole else STOPPED)


@register.command()
def backup(
    out: Annotated[Path, typer.Argument(help="Zip file to write; holds the health data too.")],
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Write the whole register to one file; prints its head, which to note elsewhere."""
    from claspwright.app.whole_file import write_whole
    from claspwright.records import backup as write_backup

    with open_at(where, files) as opened, progress_bar("backup") as progress:
        heads: list[tuple[int, str]] = []
        write_whole(out, lambda path: heads.append(write_backup(opened, path, progress=progress)))
    print(f"{heads[0][0]}:{heads[0][1]}")


@register.command()
def restore(
    backup_file: Annotated[Path, typer.Argument(metavar="BACKUP", help="File of a backup.")],
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Fill a new register from a backup and check it."""
    import claspwright.records as records

    with records.init_register(where, files=files) as opened, progress_bar("restore") as progress:
        head = records.restore(backup_file, opened, progress=progress)
    print(f"{head[0]}:{head[1]}")


@register.command()
def export(
    out: Annotated[Path, typer.Argument(help="Zip file of CSV tables.")],
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Write what stands in the register as tables, without health data."""
    from claspwright.app.whole_file import write_whole
    from claspwright.records import export as write_export

    with open_at(where, files) as opened:
        counts: list[int] = []
        write_whole(out, lambda path: counts.append(write_export(opened, path)))
    print(f"{counts[0]} rows")


@register.command()
def trace(
    subject: Annotated[str, typer.Argument(help="part:ID, case:ID or anything else: KIND:ID.")],
    where: Where = HERE,
    files: Files = "",
    as_json: Json = False,
) -> None:
    """Everything that a thing came from: builds, batches, lots of powder."""
    import claspwright.records as records

    with open_at(where, files) as opened:
        found = records.trace(opened, subject)
    lines = [f"{kind}: {', '.join(ids)}" for kind, ids in found.found.items()]
    _say({"subject": subject, "came_from": found.found}, as_json, lines or ["nothing above it"])


@register.command()
def recall(
    subject: Annotated[str, typer.Argument(help="lot:ID, batch:ID or build:ID.")],
    pdf: Annotated[Path | None, typer.Option(help="Write the recall list as PDF/A.")] = None,
    laboratory: Annotated[
        Path | None, typer.Option(help="TOML file with its particulars, for the PDF.")
    ] = None,
    on: Annotated[str, typer.Option(help="Day of the list, YYYY-MM-DD.")] = "",
    where: Where = HERE,
    files: Files = "",
    as_json: Json = False,
) -> None:
    """Every framework that holds powder of it, with the patient's pseudonym and prescriber."""
    from dataclasses import asdict

    import claspwright.records as records
    from claspwright.app.register_papers import recall_page
    from claspwright.app.whole_file import write_whole

    with open_at(where, files) as opened:
        found = records.recall(opened, subject)
    if pdf is not None:
        content = recall_page(subject, found, laboratory, date=on)
        write_whole(pdf, lambda path: path.write_bytes(content))
    rows = [asdict(one) for one in found]
    lines = [f"{r['part']}  case {r['case']}  {r['patient']}  {r['prescriber']}" for r in rows]
    _say({"subject": subject, "frameworks": rows}, as_json, [*lines, f"frameworks: {len(rows)}"])


@register.command()
def person(
    pseudonym: Annotated[str, typer.Argument(help="As the case and the labels carry it.")],
    keep: Annotated[Path | None, typer.Option(help="JSON file of what to keep of them.")] = None,
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Show or keep the health data of a patient, which lie apart from the entries."""
    from claspwright.base import InputError

    with open_at(where, files) as opened:
        if keep is not None:
            try:
                opened.set_person(pseudonym, dict(json.loads(keep.read_text(encoding="utf-8"))))
            except (OSError, ValueError, TypeError) as error:
                raise InputError(f"cannot be read: {error}", place=str(keep)) from error
        found = opened.person(pseudonym)
    print("nothing is kept" if found is None else json.dumps(found, ensure_ascii=False))


@register.command()
def erase(
    pseudonym: Annotated[str, typer.Argument(help="Whose health data to erase.")],
    by: EnteredBy,
    on: EnteredOn,
    reason: Annotated[str, typer.Option(help="Why; it is entered.")] = "",
    where: Where = HERE,
    files: Files = "",
) -> None:
    """Erase a patient's health data; the entries, which hold the pseudonym only, stay whole."""
    from claspwright.records import Signed

    with open_at(where, files) as opened:
        print(f"entry {opened.erase_person(pseudonym, Signed(by, on), reason=reason)}")
