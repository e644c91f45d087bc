"""What passes between laboratory and clinic, as entries of the register.

Approval of a revision by its hash, try-in and adjustment, jaw record on wax rims, altered cast,
teeth and shades, remake and repair, delivery, and what is seen afterwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from claspwright.base import InputError
from claspwright.records import Proposed, Register, Signed, made_from

HOW = ("ground", "relieved", "bent", "nothing")
WORK = ("new", "remake", "repair", "reline")
FREE_ENDS = ("I", "II")  # Kennedy classes


def enter_revision(
    register: Register, case: str, files: Sequence[Path], signed: Signed, *, design: str = ""
) -> tuple[str, str]:
    """Keep the files of a design as the next revision of a case.

    Returns:
        Its id and its hash: SHA-256 over the names and hashes of the files, in order of name.

    Raises:
        InputError: a file cannot be read, or there is none.
    """
    if not files:
        raise InputError("a revision needs the files that are to be approved")
    try:
        kept = sorted((f.name, register.keep_file(f.name, f.read_bytes())) for f in files)
    except OSError as error:
        raise InputError(f"a file cannot be read: {error}") from error
    digest = sha256("".join(f"{name}\0{one}\n" for name, one in kept).encode()).hexdigest()
    id_ = f"{case}/{_next(register, f'case:{case}', 'revision')}"
    body: dict[str, Any] = {"case": case, "hash": digest, "files": [one for _, one in kept]}
    register.add("revision", id_, {**body, "design": design} if design else body, signed)
    return id_, digest


def approve(
    register: Register, revision: str, seen_hash: str, signed: Signed, *, approved: bool,
    text: str = "",
) -> int:  # fmt: skip
    """Enter the prescriber's word on a revision, bound to the hash of what was seen.

    Raises:
        InputError: the revision is unknown, or its hash is not the one that was seen.
    """
    now = register.current("revision", revision)
    if now is None:
        raise InputError("this revision is not in the register", place=revision)
    whole = str(now[1]["hash"])
    if len(seen_hash) < 12 or not whole.startswith(seen_hash.lower()):
        raise InputError(
            "this is not the hash of the revision as it stands", place=revision,
            remedy=f"Look at the revision again; its hash begins with {whole[:12]}.",
        )  # fmt: skip
    id_ = f"{revision}/{_next(register, f'revision:{revision}', 'approval')}"
    body = {"revision": revision, "hash": whole, "approved": approved}
    return register.add("approval", id_, {**body, "text": text} if text else body, signed)


@dataclass(frozen=True, slots=True)
class TryIn:
    """One adjustment at a try-in: the truth about the fit."""

    part: str
    place: str  # such as "rest.35.mesial"
    amount_um: float  # metal that was taken away; 0: none
    how: str = "ground"
    seated: bool = True  # whether it seats now
    minutes: float | None = None
    text: str = ""

    def __post_init__(self) -> None:
        if self.how not in HOW:
            raise InputError(f"no such adjustment {self.how!r}", remedy=f"One of {', '.join(HOW)}.")
        if not self.amount_um >= 0:
            raise InputError(f"an adjustment of {self.amount_um} um is none")


def enter_try_in(register: Register, tried: TryIn, signed: Signed) -> int:
    """Enter one adjustment; returns the entry's number."""
    body: dict[str, Any] = {
        "part": tried.part, "place": tried.place, "amount_um": tried.amount_um, "how": tried.how,
        "seated": tried.seated,
    }  # fmt: skip
    body |= {"minutes": tried.minutes} if tried.minutes is not None else {}
    body |= {"text": tried.text} if tried.text else {}
    id_ = f"{tried.part}/{_next(register, f'part:{tried.part}', 'adjustment')}"
    return register.add("adjustment", id_, body, signed)


def enter_next(
    register: Register, kind: str, case: str, fields: dict[str, Any], signed: Signed
) -> int:
    """Enter the next record of a kind under a case: jaw record, delivery, follow-up."""
    id_ = f"{case}/{_next(register, f'case:{case}', kind)}"
    return register.add(kind, id_, {"case": case, **fields}, signed)


def flag_altered_cast(
    register: Register, case: str, signed: Signed, *, needed: bool, done: str = ""
) -> int:
    """Say whether the free ends need an altered cast, and when it was done."""
    body: dict[str, Any] = {"case": case, "needed": needed, **({"done": done} if done else {})}
    now = register.current("altered_cast", case)
    return register.add(
        "altered_cast", case, body, signed, supersedes=None if now is None else now[0]
    )


def ask_altered_cast(register: Register, case: str) -> bool:
    """Whether a case with free ends still lacks the word on an altered cast."""
    now = register.current("case", case)
    if now is None:
        raise InputError("this case is not in the register", place=case)
    words = str(now[1].get("kennedy_class", "")).split()
    free = any(word in FREE_ENDS for word in words)
    return free and register.current("altered_cast", case) is None


def choose_teeth(register: Register, case: str, fields: dict[str, str], signed: Signed) -> int:
    """Enter tooth mould, shade, gum shade and tooth list on a case, beside all that it says."""
    now = register.current("case", case)
    if now is None:
        raise InputError("this case is not in the register", place=case)
    given = {name: value for name, value in fields.items() if value}
    if not given:
        raise InputError("nothing was chosen", remedy="Give mould, shade, gum shade or teeth.")
    return register.add("case", case, {**now[1], **given}, signed, supersedes=now[0])


def take_back(
    register: Register, parent: str, fresh: str, work: str, reason: str, signed: Signed
) -> tuple[int, ...]:
    """Take in a remake, repair or reline as a case of its own under the one it comes from.

    The frameworks of the parent get a non-conformity with the reason; that of a remake stays
    open until it is closed by hand, when it is known what was wrong.

    Raises:
        InputError: the parent is unknown, or the kind of work is.
    """
    now = register.current("case", parent)
    if now is None:
        raise InputError("the parent case is not in the register", place=parent)
    if work not in WORK[1:]:
        raise InputError(f"no such work {work!r}", remedy=f"One of {', '.join(WORK[1:])}.")
    kept = ("arch", "patient", "prescriber", "kennedy_class", "alloy", "teeth", "shade",
            "gum_shade", "tooth_mould", "health_institution")  # fmt: skip
    body = {name: now[1][name] for name in kept if name in now[1]}
    body |= {"parent_case": parent, "work": work, "reason": reason, "received": signed.at[:10]}
    rows = [Proposed("case", fresh, body)]
    for part, _ in made_from(register, f"case:{parent}", "part"):
        about = {"about": f"part:{part}", "cause": reason, "open": work == "remake"}
        rows.append(Proposed("nonconformity", f"{fresh}/{part}", about))
    return tuple(register.enter(rows, signed))


def _next(register: Register, subject: str, kind: str) -> int:
    return 1 + len(made_from(register, subject, kind))
