"""What can be asked for."""

from __future__ import annotations

from typing import get_args

from fastapi import APIRouter

from claspwright.framework import ClaspForm, RestForm, connectors_of
from claspwright.web.models import Forms

routes = APIRouter(prefix="/api", tags=["forms"])


@routes.get("/forms")
def list_forms() -> Forms:
    """The forms of rests, clasps and connectors that can be asked for."""
    return Forms(
        rests=list(get_args(RestForm)),
        clasps=list(get_args(ClaspForm)),
        connectors={
            "mandible": list(connectors_of("mandible")),
            "maxilla": list(connectors_of("maxilla")),
        },
    )
