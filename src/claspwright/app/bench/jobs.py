"""Work that was asked for: done by a pool of processes, watched, cancelled, taken up again.

Each job is a small file, so that a server that was killed knows at its next start what was asked
for and not finished, and does it. The work itself leaves nothing half-written.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Mapping
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from dataclasses import asdict, dataclass, field, replace
from typing import Any, Literal

from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.worker import LAB_TASKS, TASKS, do_task
from claspwright.app.processes import end, hushed, manager, pool_of
from claspwright.app.whole_file import write_whole_text
from claspwright.base import Cancelled, InputError

JobState = Literal["waiting", "at work", "done", "failed", "cancelled"]
_OPEN = ("waiting", "at work")
PATIENCE_S = 4.0  # that a job may take to come to its end where the server ends


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of work on one case, or on what the laboratory keeps beside its cases."""

    id: str
    case: str  # empty for one of worker.LAB_TASKS
    task: str  # one of worker.TASKS
    wish: Mapping[str, Any] = field(default_factory=dict)  # Any: a JSON object, see worker
    state: JobState = "waiting"
    fraction: float = 0.0
    phase: str = ""
    error: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it still waits or runs."""
        return self.state in _OPEN


Listener = Callable[[Job], None]


class JobBook:
    """The jobs of one laboratory and the processes that do them; close it when done."""

    def __init__(self, lab: Laboratory, *, workers: int = 1) -> None:
        """Open the book and take up what an earlier server left unfinished."""
        self._lab = lab
        self._folder = lab.kept("jobs")
        self._folder.mkdir(parents=True, exist_ok=True)
        self._workers = workers
        self._closing = False
        self._manager = manager()
        self._told = self._manager.Queue()
        self._pool = pool_of(workers)
        self._lock = threading.RLock()
        self._jobs: dict[str, Job] = {}
        self._stops: dict[str, Any] = {}  # Any: events of the manager
        self._listeners: list[Listener] = []
        self._ear = threading.Thread(target=self._listen, name="job-progress", daemon=True)
        self._ear.start()
        self._take_up()

    def jobs(self) -> tuple[Job, ...]:
        """All jobs that are known, the newest first."""
        with self._lock:
            return tuple(sorted(self._jobs.values(), key=lambda job: job.id, reverse=True))

    def job(self, number: str) -> Job:
        """One job.

        Raises:
            InputError: there is no such job.
        """
        with self._lock:
            if number not in self._jobs:
                raise InputError(f"there is no job {number!r}", remedy="Take one from the list.")
            return self._jobs[number]

    def ask(self, case: str, task: str, wish: Mapping[str, Any] | None = None) -> Job:
        """Ask for work; the same work that waits or runs already is not asked for twice."""
        if task not in TASKS:
            raise InputError(f"there is no task {task!r}", remedy=f"Ask for {', '.join(TASKS)}.")
        if case or task not in LAB_TASKS:
            self._lab.folder_of(case)
        with self._lock:
            for job in self._jobs.values():
                same = (job.case, job.task, job.wish) == (case, task, wish or {})
                if job.state == "waiting" and same:
                    return job
            number = max((int(key[2:]) for key in self._jobs), default=0) + 1
            job = Job(f"J-{number:05d}", case, task, wish or {})
            self._note(job)
            self._start(job)
            return job

    def cancel(self, number: str) -> Job:
        """Stop a job; one that has ended stays as it is."""
        with self._lock:
            job = self.job(number)
            if job.is_open and number in self._stops:
                self._stops[number].set()
                if job.state == "waiting":
                    job = replace(job, state="cancelled", phase="")
                    self._note(job)
            return job

    def listen(self, listener: Listener) -> Callable[[], None]:
        """Call `listener` from another thread with each change of a job; returns how to end it."""
        with self._lock:
            self._listeners.append(listener)
        return lambda: self._listeners.remove(listener)

    def close(self) -> None:
        """Stop everything; open jobs are taken up at the next start."""
        with self._lock:
            self._closing = True
            for stop in self._stops.values():
                stop.set()
            self._listeners.clear()
        end(self._pool, patience_s=PATIENCE_S)
        self._told.put(None)
        self._ear.join(timeout=5)
        self._manager.shutdown()

    def _take_up(self) -> None:
        for path in sorted(self._folder.glob("J-*.json")):
            job = Job(**json.loads(path.read_text(encoding="utf-8")))
            self._jobs[job.id] = job
        known = self._lab.case_folders()
        for job in list(self._jobs.values()):
            if job.is_open and (job.case in known or job.task in LAB_TASKS):
                self._note(replace(job, state="waiting", fraction=0.0, phase="taken up again"))
                self._start(job)

    def _start(self, job: Job) -> None:
        stop = self._manager.Event()
        self._stops[job.id] = stop
        task = (self._lab.root, job.case, job.task, dict(job.wish), (job.id, self._told, stop))
        with hushed():
            try:
                future = self._pool.submit(do_task, *task)
            except BrokenProcessPool:
                self._pool = pool_of(self._workers)
                future = self._pool.submit(do_task, *task)
        future.add_done_callback(lambda ended: self._ended(job.id, ended))

    def _ended(self, number: str, future: Future[None]) -> None:
        with self._lock:
            job = self._jobs[number]
            if self._closing or not job.is_open:
                return
            error = None if future.cancelled() else future.exception()
            if future.cancelled() or isinstance(error, Cancelled):
                job = replace(job, state="cancelled", phase="")
            elif error is None:
                job = replace(job, state="done", fraction=1.0, phase="")
            else:
                told = (
                    "the process that did it ended"
                    if isinstance(error, BrokenProcessPool)
                    else error
                )
                job = replace(job, state="failed", phase="", error=str(told))
            self._stops.pop(number, None)
            self._note(job)

    def _listen(self) -> None:
        while True:
            told = self._told.get()
            if told is None:
                return
            number, fraction, phase = told
            with self._lock:
                job = self._jobs.get(number)
                if job is not None and job.is_open:
                    further = max(job.fraction, fraction)
                    self._note(replace(job, state="at work", fraction=further, phase=phase))

    def _note(self, job: Job) -> None:
        """Keep a job's state, on disk where it changed in kind, and tell it."""
        before = self._jobs.get(job.id)
        self._jobs[job.id] = job
        if before is None or before.state != job.state:
            write_whole_text(self._folder / f"{job.id}.json", json.dumps(asdict(job), indent=1))
        for listener in list(self._listeners):
            listener(job)
