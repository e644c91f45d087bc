"""Who may ask: on loopback whoever knows the token of the opened address.

The token comes once in the address, is then kept in a cookie that scripts cannot read and other
sites cannot use, and may also be sent as `Authorization: Bearer`. The host name must be one of
this machine's own, so that no foreign page can reach the server by a name of its own (DNS
rebinding), and what changes anything must not come from another origin.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

COOKIE = "claspwright_token"
_HOSTS = frozenset(("127.0.0.1", "localhost", "::1", "[::1]"))
_SAFE = frozenset(("GET", "HEAD", "OPTIONS"))
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


def guard(token: str, most_bytes: int) -> Callable[[Request, Next], Awaitable[Response]]:
    """Middleware that lets through only what knows the token and keeps to the size limit."""

    async def guarded(request: Request, call_next: Next) -> Response:
        refused = _refusal(request, token, most_bytes)
        if refused is not None:
            return _with_headers(refused, request)
        if _from_address(request, token) and not request.url.path.startswith("/api"):
            return _with_headers(_first_visit(request, token), request)
        return _with_headers(await call_next(request), request)

    return guarded


def _refusal(request: Request, token: str, most_bytes: int) -> Response | None:
    host = request.url.hostname or ""
    if host not in _HOSTS:
        return _said(421, "this server answers on this machine alone", "Open the printed address.")
    origin = request.headers.get("origin")
    if request.method not in _SAFE and origin and urlsplit(origin).netloc != request.url.netloc:
        return _said(403, "the request comes from another site", "Work in the bench's own page.")
    if not (_from_address(request, token) or _from_keeper(request, token)):
        return _said(401, "the address lacks its token", "Open the address that the bench printed.")
    length = request.headers.get("content-length", "0")
    if request.method not in _SAFE and (not length.isdigit() or int(length) > most_bytes):
        return _said(413, f"more than {most_bytes} bytes", "Send smaller files.")
    return None


def _from_address(request: Request, token: str) -> bool:
    return _same(request.query_params.get("token", ""), token)


def _from_keeper(request: Request, token: str) -> bool:
    sent = request.headers.get("authorization", "")
    bearer = sent[7:] if sent.lower().startswith("bearer ") else ""
    return _same(bearer, token) or _same(request.cookies.get(COOKIE, ""), token)


def _same(given: str, token: str) -> bool:
    return hmac.compare_digest(given.encode(), token.encode())


def _first_visit(request: Request, token: str) -> Response:
    """Keep the token in a cookie and take it out of the address."""
    answer = RedirectResponse(request.url.path, status_code=303)
    answer.set_cookie(COOKIE, token, httponly=True, samesite="strict", path="/")
    return answer


def _said(status: int, what: str, remedy: str) -> Response:
    return JSONResponse({"what": what, "place": "", "remedy": remedy}, status_code=status)


def _with_headers(answer: Response, request: Request) -> Response:
    for name, value in _HEADERS.items():
        answer.headers.setdefault(name, value)
    if request.url.path.endswith("/review.html"):  # one file with everything inside
        answer.headers["Content-Security-Policy"] = _REVIEW
    if request.url.path.startswith("/api"):
        answer.headers.setdefault("Cache-Control", "no-store")
    return answer
