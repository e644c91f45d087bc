"""Jobs, and the one stream of events that a page listens to."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

from fastapi import APIRouter, Request
from fastapi.sse import EventSourceResponse, ServerSentEvent

from claspwright.app.bench.jobs import Job
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.models import JobList, JobRow, JobWish

routes = APIRouter(prefix="/api", tags=["jobs"])
_BEAT_S = 15.0  # a word now and then, so that a lost connection is noticed
_STEP_S = 0.5  # how long the end of the server may go unnoticed


@routes.get("/jobs")
def list_jobs(bench: TheBench) -> JobList:
    """All jobs, the newest first."""
    return JobList(jobs=[JobRow.of(job) for job in bench.jobs.jobs()])


@routes.post("/cases/{name}/jobs", status_code=202)
def ask_for_work(name: CaseName, body: JobWish, bench: TheBench) -> JobRow:
    """Ask for work on a case."""
    return JobRow.of(bench.jobs.ask(name, body.task))


@routes.delete("/jobs/{number}")
def cancel_job(number: str, bench: TheBench) -> JobRow:
    """Stop a job."""
    return JobRow.of(bench.jobs.cancel(number))


@routes.get("/events", response_class=EventSourceResponse)
async def events(request: Request, bench: TheBench) -> AsyncIterator[ServerSentEvent]:
    """Every change of every job; at first all that is open, so that nothing is missed."""
    loop = asyncio.get_running_loop()
    heard: asyncio.Queue[Job] = asyncio.Queue()

    def hear(job: Job) -> None:
        loop.call_soon_threadsafe(heard.put_nowait, job)

    end = bench.jobs.listen(hear)
    try:
        yield ServerSentEvent(
            event="jobs",
            data={"jobs": [JobRow.of(j).model_dump() for j in bench.jobs.jobs() if j.is_open]},
        )
        quiet = 0.0
        while not bench.closing.is_set() and not await request.is_disconnected():
            try:
                job = await asyncio.wait_for(heard.get(), _STEP_S)
            except TimeoutError:
                quiet += _STEP_S
                if quiet >= _BEAT_S:
                    quiet = 0.0
                    yield ServerSentEvent(event="beat", data={})
                continue
            yield ServerSentEvent(event="job", data=JobRow.of(job).model_dump())
    finally:
        end()
