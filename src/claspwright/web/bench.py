"""What every route works with."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field, replace
from typing import Annotated

from fastapi import Depends, Path, Request

from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.live import LiveHand
from claspwright.web.access import Guest


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """The laboratory's folder, its book of jobs, what shows changes, whether the server ends."""

    lab: Laboratory
    jobs: JobBook
    live: LiveHand
    closing: threading.Event = field(default_factory=threading.Event)  # set when the server ends
    guest: Guest = field(default_factory=Guest)  # who asks

    def author(self, given: str) -> str:
        """Who signs a change: the account where there are accounts, else the name as given."""
        return self.guest.name or given


def _bench_of(request: Request) -> Bench:
    bench: Bench = request.app.state.bench
    return replace(bench, guest=getattr(request.state, "guest", Guest()))


def may_see(bench: Bench, case: str) -> bool:
    """Whether whoever asks may see a case; a dentist sees the named ones alone."""
    return bench.guest.role != "dentist" or case in bench.guest.cases


TheBench = Annotated[Bench, Depends(_bench_of)]
CaseName = Annotated[str, Path(min_length=1, max_length=64, description="name of the case")]
BuildName = Annotated[str, Path(min_length=1, max_length=64, description="such as P-0001")]
