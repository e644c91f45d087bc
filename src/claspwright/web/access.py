"""Who may ask. On loopback whoever knows the token of the opened address; else accounts.

The token comes once in the address, is then kept in a cookie that scripts cannot read and other
sites cannot use, and may also be sent as `Authorization: Bearer`. The host name must be one that
the server goes by, so that no foreign page can reach it by a name of its own (DNS rebinding), and
what changes anything must not come from another origin. Accounts: see `sessions`.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, Collection
from dataclasses import dataclass
from typing import Protocol
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from claspwright.app.bench.audit import note
from claspwright.app.bench.laboratory import Laboratory

COOKIE = "claspwright_token"
LOOPBACK = frozenset(("127.0.0.1", "localhost", "::1", "[::1]"))
SAFE = frozenset(("GET", "HEAD", "OPTIONS"))
MOST_WORDS = 2_000_000  # bytes of a request that carries no file
_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'self'; img-src 'self' data: blob:; style-src 'self'; script-src 'self'; "
        "connect-src 'self'; worker-src 'self' blob:; frame-ancestors 'none'; base-uri 'none'; "
        "form-action 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
_REVIEW = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:"

Next = Callable[[Request], Awaitable[Response]]


@dataclass(frozen=True, slots=True)
class Guest:
    """Who asks; `name` is empty where a token alone is known."""

    name: str = ""
    role: str = "token"
    cases: tuple[str, ...] = ()  # that a dentist may see


class Door(Protocol):
    """How a server knows who asks."""

    @property
    def hosts(self) -> Collection[str]:
        """Names that the server goes by."""

    @property
    def secure(self) -> bool:
        """Whether it is reached by TLS alone."""

    def guest(self, request: Request) -> Guest | Response:
        """Who asks, or what to answer instead."""

    def visit(self, request: Request) -> Response | None:
        """What to answer a first visit, or None."""


@dataclass(frozen=True, slots=True)
class TokenDoor:
    """Loopback: whoever knows the token."""

    token: str

    @property
    def hosts(self) -> Collection[str]:
        """Loopback alone."""
        return LOOPBACK

    @property
    def secure(self) -> bool:
        """Loopback needs none."""
        return False

    def guest(self, request: Request) -> Guest | Response:
        """Whoever knows the token."""
        sent = request.headers.get("authorization", "")
        bearer = sent[7:] if sent.lower().startswith("bearer ") else ""
        given = (request.query_params.get("token", ""), bearer, request.cookies.get(COOKIE, ""))
        if any(_same(one, self.token) for one in given):
            return Guest()
        return said(401, "the address lacks its token", "Open the address that the bench printed.")

    def visit(self, request: Request) -> Response | None:
        """Keep the token in a cookie and take it out of the address."""
        from_address = _same(request.query_params.get("token", ""), self.token)
        if not from_address or request.url.path.startswith("/api"):
            return None
        answer = RedirectResponse(request.url.path, status_code=303)
        answer.set_cookie(COOKIE, self.token, httponly=True, samesite="strict", path="/")
        return answer


def guard(
    door: Door, lab: Laboratory, most_bytes: int
) -> Callable[[Request, Next], Awaitable[Response]]:
    """Middleware that lets through only whom the door knows, and keeps to the size limits."""

    async def guarded(request: Request, call_next: Next) -> Response:
        guest = Guest("", "")
        answer = _refusal(request, door, most_bytes)
        if answer is None:
            known = door.guest(request)
            if isinstance(known, Guest):
                guest = known
                request.state.guest = known
                answer = door.visit(request) or await call_next(request)
            else:
                answer = known
        if request.method not in SAFE or answer.status_code in (401, 403, 413, 421, 429):
            come_from = request.client.host if request.client else ""
            what = f"{request.method} {request.url.path}"
            who = guest.name or getattr(request.state, "tried", "") or guest.role or "unknown"
            note(lab, who, what, status=answer.status_code, come_from=come_from)
        return _with_headers(answer, request, secure=door.secure)

    return guarded


def _refusal(request: Request, door: Door, most_bytes: int) -> Response | None:
    if (request.url.hostname or "") not in door.hosts:
        return said(421, "this server does not go by this name", "Open the printed address.")
    if request.method in SAFE:
        return None
    origin = request.headers.get("origin")
    if origin and urlsplit(origin).netloc != request.url.netloc:
        return said(403, "the request comes from another site", "Work in the bench's own page.")
    if "transfer-encoding" in request.headers:
        return said(411, "the request does not say how long it is", "Send its length.")
    length = request.headers.get("content-length", "0")
    with_files = request.headers.get("content-type", "").startswith("multipart/form-data")
    most = most_bytes if with_files else MOST_WORDS
    if not length.isdigit() or int(length) > most:
        return said(413, f"more than {most} bytes", "Send smaller files.")
    return None


def said(status: int, what: str, remedy: str) -> Response:
    """An error as words."""
    return JSONResponse({"what": what, "place": "", "remedy": remedy}, status_code=status)


def _same(given: str, token: str) -> bool:
    return bool(token) and hmac.compare_digest(given.encode(), token.encode())


def _with_headers(answer: Response, request: Request, *, secure: bool) -> Response:
    for name, value in _HEADERS.items():
        answer.headers.setdefault(name, value)
    if secure:
        answer.headers.setdefault("Strict-Transport-Security", "max-age=31536000")
    if request.url.path.endswith("/review.html"):  # one file with everything inside
        answer.headers["Content-Security-Policy"] = _REVIEW
    if request.url.path.startswith("/api"):
        answer.headers.setdefault("Cache-Control", "no-store")
    return answer
