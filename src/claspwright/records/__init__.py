"""The laboratory's register: what was made of what, for whom, by whom, and whether it was right."""

from claspwright.records.backup import backup, export, restore
from claspwright.records.chain import Kept
from claspwright.records.database import newest_revision, open_engine, revision_of, upgrade
from claspwright.records.genealogy import Recalled, Trace, made_from, recall, trace
from claspwright.records.kinds import KINDS, Kind
from claspwright.records.register import (
    DATABASE,
    Proposed,
    Register,
    Signed,
    init_register,
    open_register,
)
from claspwright.records.signing import sign
from claspwright.records.store import Store
from claspwright.records.verify import Verdict, verify

__all__ = [
    "DATABASE",
    "KINDS",
    "Kept",
    "Kind",
    "Proposed",
    "Recalled",
    "Register",
    "Signed",
    "Store",
    "Trace",
    "Verdict",
    "backup",
    "export",
    "init_register",
    "made_from",
    "newest_revision",
    "open_engine",
    "open_register",
    "recall",
    "restore",
    "revision_of",
    "sign",
    "trace",
    "upgrade",
    "verify",
]
