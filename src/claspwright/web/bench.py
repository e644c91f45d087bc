"""What every route works with."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import Annotated

from fastapi import Depends, Path, Request

from claspwright.app.bench.jobs import JobBook
from claspwright.app.bench.laboratory import Laboratory


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """The laboratory's folder, its book of jobs, and whether the server is about to end."""

    lab: Laboratory
    jobs: JobBook
    closing: threading.Event = field(default_factory=threading.Event)  # set when the server ends


def _bench_of(request: Request) -> Bench:
    bench: Bench = request.app.state.bench
    return bench


TheBench = Annotated[Bench, Depends(_bench_of)]
CaseName = Annotated[str, Path(min_length=1, max_length=64, description="name of the case")]
