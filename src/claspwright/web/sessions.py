"""Accounts: who has said a right password, what a role may do, how often one may try.

The cookie is `Secure`, `HttpOnly`, `SameSite=Strict` and bound to this host; what changes anything
must also carry the session's own second secret in a header, which no foreign page can know.
"""

from __future__ import annotations

import hmac
import re
import secrets
import threading
import time
from collections.abc import Callable, Collection
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response

from claspwright.app.bench.accounts import Account, account_with, accounts
from claspwright.app.bench.laboratory import Laboratory
from claspwright.web.access import SAFE, Guest, said

COOKIE = "__Host-claspwright"
HEADER = "x-claspwright-session"
IDLE_S, LONGEST_S = 3600.0, 12 * 3600.0
TRIES, WINDOW_S = 5, 900.0
OPEN = re.compile(r"/api/session|/(?!api(/|$)).*")  # before anybody is known: the page, logging in
LEAD_ALONE = re.compile(
    r"/api/(cases/[^/]+/dispatch|laboratory|month(/paper)?|rates|quality"
    r"|register/(check|backups|exports|restored|persons|erasures)(/.*)?)"
)
DENTIST = re.compile(r"/api/cases/(?P<case>[^/]+)(/.*)?")
DENTIST_TOO = frozenset(("/api/cases", "/api/forms", "/api/session"))


@dataclass(slots=True)
class _Session:
    account: str
    csrf: str
    begun: float
    used: float


@dataclass(slots=True)
class AccountDoor:
    """Other machines: whoever has said a right password, by TLS."""

    lab: Laboratory
    names: frozenset[str]  # that the server goes by
    clock: Callable[[], float] = time.monotonic
    _sessions: dict[str, _Session] = field(default_factory=dict)
    _failed: dict[str, list[float]] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @property
    def hosts(self) -> Collection[str]:
        """Names that the server was told to go by."""
        return self.names

    @property
    def secure(self) -> bool:
        """TLS alone."""
        return True

    def visit(self, request: Request) -> Response | None:
        """Nothing is kept at a first visit."""
        return None

    def guest(self, request: Request) -> Guest | Response:
        """Who asks, if they may ask this."""
        path = request.url.path
        found = self._find(request.cookies.get(COOKIE, ""))
        if found is None:
            if OPEN.fullmatch(path):
                return Guest("", "")
            return said(401, "nobody is signed in", "Sign in with your account.")
        session, account = found
        if request.method not in SAFE and path != "/api/session":
            sent = request.headers.get(HEADER, "")
            if not hmac.compare_digest(sent.encode(), session.csrf.encode()):
                return said(403, "the request lacks its secret", "Work in the bench's own page.")
        if not _may(account, request.method, path):
            return said(403, f"a {account.role} may not do this", "Ask the production lead.")
        return Guest(account.name, account.role, account.cases)

    def sign_in(self, name: str, password: str, come_from: str) -> tuple[str, str, Account] | None:
        """Session and its second secret for a right password, None for a wrong one.

        Raises:
            TooOftenError: too many wrong ones of late, for this name or from this place.
        """
        keys = (f"name {name}", f"from {come_from}")
        now = self.clock()
        with self._lock:
            for key in keys:
                late = [at for at in self._failed.get(key, []) if now - at < WINDOW_S]
                self._failed[key] = late
                if len(late) >= TRIES:
                    raise TooOftenError
            for key in keys:  # counted before it is tried, so that tries side by side count too
                self._failed[key].append(now)
        account = account_with(self.lab, name, password)
        with self._lock:
            self._failed = {k: v for k, v in self._failed.items() if v}
            if account is None:
                return None
            for key in keys:
                self._failed.get(key, [now]).remove(now)
            secret, csrf = secrets.token_urlsafe(32), secrets.token_urlsafe(32)
            self._sessions[secret] = _Session(account.name, csrf, now, now)
        return secret, csrf, account

    def sign_out(self, secret: str) -> None:
        """End a session."""
        with self._lock:
            self._sessions.pop(secret, None)

    def session(self, secret: str) -> tuple[str, Account] | None:
        """The second secret and the account of a session that stands."""
        found = self._find(secret)
        return None if found is None else (found[0].csrf, found[1])

    def _find(self, secret: str) -> tuple[_Session, Account] | None:
        now = self.clock()
        with self._lock:
            session = self._sessions.get(secret)
            if session is None:
                return None
            if now - session.used > IDLE_S or now - session.begun > LONGEST_S:
                del self._sessions[secret]
                return None
            session.used = now
        account = accounts(self.lab).get(session.account)  # read anew: it may have been taken away
        return None if account is None else (session, account)


class TooOftenError(Exception):
    """Too many wrong passwords of late."""


def _may(account: Account, method: str, path: str) -> bool:
    if not path.startswith("/api") or path == "/api/session":
        return True
    if account.role == "lead":
        return True
    if account.role == "technician":
        return LEAD_ALONE.fullmatch(path) is None or (path == "/api/laboratory" and method in SAFE)
    case = DENTIST.fullmatch(path)
    mine = path in DENTIST_TOO or (case is not None and case["case"] in account.cases)
    return method in SAFE and mine
