"""Signing in and out, and who is signed in."""

from __future__ import annotations

from typing import Literal

from fastapi import APIRouter, Request, Response
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool

from claspwright.web.access import said
from claspwright.web.sessions import COOKIE, WINDOW_S, AccountDoor, TooOftenError

routes = APIRouter(prefix="/api/session", tags=["session"])


class SignIn(BaseModel):
    """Name and password of an account."""

    model_config = ConfigDict(extra="forbid")
    name: str = Field(min_length=1, max_length=60)
    password: str = Field(min_length=1, max_length=400)


class WhoIsHere(BaseModel):
    """Who is signed in; `accounts` is false where a token alone opens the bench."""

    accounts: bool
    name: str = ""
    role: Literal["", "technician", "lead", "dentist"] = ""
    secret: str = ""  # to be sent with each change, in X-Claspwright-Session


@routes.get("")
def who_is_here(request: Request) -> WhoIsHere:
    """Who is signed in."""
    door = request.app.state.door
    if not isinstance(door, AccountDoor):
        return WhoIsHere(accounts=False)
    found = door.session(request.cookies.get(COOKIE, ""))
    if found is None:
        return WhoIsHere(accounts=True)
    csrf, account = found
    return WhoIsHere(accounts=True, name=account.name, role=account.role, secret=csrf)


@routes.post("", responses={429: {"description": "too many wrong passwords"}})
async def sign_in(body: SignIn, request: Request, response: Response) -> WhoIsHere:
    """Sign in; five wrong passwords for a name or from a place close it for a quarter hour."""
    door = request.app.state.door
    if not isinstance(door, AccountDoor):
        return WhoIsHere(accounts=False)
    come_from = request.client.host if request.client else ""
    request.state.tried = body.name
    try:
        found = await run_in_threadpool(door.sign_in, body.name, body.password, come_from)
    except TooOftenError:
        return _said(429, "too many wrong passwords", "Wait a quarter of an hour.")
    if found is None:
        return _said(401, "name or password is wrong", "Try again.")
    secret, csrf, account = found
    response.set_cookie(COOKIE, secret, secure=True, httponly=True, samesite="strict", path="/")
    return WhoIsHere(accounts=True, name=account.name, role=account.role, secret=csrf)


@routes.delete("", status_code=204)
def sign_out(request: Request, response: Response) -> None:
    """Sign out."""
    door = request.app.state.door
    if isinstance(door, AccountDoor):
        door.sign_out(request.cookies.get(COOKIE, ""))
        response.delete_cookie(COOKIE, path="/", secure=True, httponly=True, samesite="strict")


def _said(status: int, what: str, remedy: str) -> WhoIsHere:
    answer = said(status, what, remedy)
    if status == 429:
        answer.headers["retry-after"] = str(int(WINDOW_S))
    return answer  # type: ignore[return-value] # FastAPI sends a response as it is
