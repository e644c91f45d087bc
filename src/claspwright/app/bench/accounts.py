"""Accounts of a bench that other machines may reach: names, roles, hashed passwords."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from typing import Literal

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerifyMismatchError

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.whole_file import write_whole_text
from claspwright.base import InputError

Role = Literal["technician", "lead", "dentist"]
ROLES: tuple[Role, ...] = ("technician", "lead", "dentist")
LEAST_LETTERS = 12
_NAME = re.compile(r"[^\W\d_][\w .@-]{1,59}")


@dataclass(frozen=True, slots=True)
class Account:
    """Somebody who may use the bench; a dentist reads the named cases and no others."""

    name: str
    role: Role
    cases: tuple[str, ...]
    password_hash: str  # Argon2id, RFC 9106


def accounts(lab: Laboratory) -> Mapping[str, Account]:
    """Every account by its name.

    Raises:
        InputError: the file was changed by hand and cannot be read.
    """
    path = lab.kept("accounts.json")
    if not path.is_file():
        return {}
    try:
        rows = json.loads(path.read_text(encoding="utf-8"))
        found = [Account(**{**row, "cases": tuple(row["cases"])}) for row in rows]
    except (ValueError, TypeError, KeyError) as error:
        raise InputError(f"the accounts cannot be read: {error}", place=path.name,
                         remedy="Put a backup of the file back.") from error  # fmt: skip
    return {one.name: one for one in found}


def set_account(
    lab: Laboratory, name: str, role: str, password: str, cases: tuple[str, ...] = ()
) -> None:
    """Make an account, or give one a new password, role and cases.

    Raises:
        InputError: the name, the role, a case or the password will not do.
    """
    if not _NAME.fullmatch(name):
        raise InputError(f"{name!r} cannot name an account", place="name",
                         remedy="Begin with a letter; then letters, digits, . @ -")  # fmt: skip
    if role not in ROLES:
        raise InputError(f"there is no role {role!r}", place="role",
                         remedy=f"Take {', '.join(ROLES)}.")  # fmt: skip
    if role == "dentist" and not cases:
        raise InputError("a dentist reads named cases alone", place="cases",
                         remedy="Name the case, or cases, with --case.")  # fmt: skip
    for case in cases:
        lab.folder_of(case)
    if len(password) < LEAST_LETTERS:
        raise InputError(f"the password has fewer than {LEAST_LETTERS} signs", place="password",
                         remedy="Take a few words.")  # fmt: skip
    kept = dict(accounts(lab))
    kept[name] = Account(name, role, cases if role == "dentist" else (), _hasher().hash(password))
    _keep(lab, kept)


def drop_account(lab: Laboratory, name: str) -> None:
    """Take an account away."""
    kept = dict(accounts(lab))
    if kept.pop(name, None) is None:
        raise InputError(f"there is no account {name!r}", remedy="Take a name from the list.")
    _keep(lab, kept)


def account_with(lab: Laboratory, name: str, password: str) -> Account | None:
    """The account if the password is right, else None; as slow for a name that is not known."""
    account = accounts(lab).get(name)
    kept = _nobody() if account is None else account.password_hash
    try:
        _hasher().verify(kept, password)
    except (VerifyMismatchError, InvalidHashError):
        return None
    return account


def _keep(lab: Laboratory, kept: Mapping[str, Account]) -> None:
    path = lab.kept("accounts.json")
    path.parent.mkdir(parents=True, exist_ok=True)
    before = os.umask(0o077)
    try:
        rows = [asdict(kept[name]) for name in sorted(kept)]
        write_whole_text(path, json.dumps(rows, indent=1, ensure_ascii=False))
        path.chmod(0o600)
    finally:
        os.umask(before)


@cache
def _hasher() -> PasswordHasher:
    return PasswordHasher()


@cache
def _nobody() -> str:
    return _hasher().hash(os.urandom(16).hex())
