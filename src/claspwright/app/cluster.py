"""Pieces of work on the workers of a Dask cluster."""

from __future__ import annotations

import platform
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib.metadata import version
from pathlib import Path
from typing import Any

from claspwright.app.side_by_side import Crew
from claspwright.base import InputError

DECISIVE = (
    "claspwright",
    "numpy",
    "scipy",
    "numba",
    "manifold3d",
    "shapely",
    "matplotlib",
    "typst",
)
WAIT_S = 20.0


@contextmanager
def cluster_crew(address: str, seen: Sequence[Path]) -> Iterator[Crew]:
    """The workers of the cluster whose scheduler listens at an address.

    Whatever is raised inside takes back what has not been done.

    Args:
        address: of the scheduler, as in `tcp://127.0.0.1:8786`.
        seen: files and folders that every worker must see under the same path.

    Raises:
        InputError: Dask's distributed is not installed, the scheduler does not answer or has no
            worker, or a worker would not give the same result: other versions, more than one
            thread, other files.
    """
    try:
        from distributed import Client
    except ImportError as error:
        raise InputError(
            "a cluster needs the package distributed", remedy="pip install claspwright[scheduler]"
        ) from error
    try:
        client = Client(address, timeout=WAIT_S, set_as_default=False)
    except (OSError, ValueError) as error:
        raise InputError(
            f"no scheduler answers: {error}",
            place=address,
            remedy="Start `dask scheduler` and name its address, as in tcp://127.0.0.1:8786.",
        ) from error
    with client:
        _check_workers(client, address, [path.resolve().as_posix() for path in seen])
        crew = client.get_executor(pure=False)
        try:
            yield crew
        except BaseException:
            crew.shutdown(wait=False)
            raise


def _check_workers(client: Any, address: str, paths: Sequence[str]) -> None:
    """Any: the client has no types."""
    workers = client.scheduler_info(n_workers=-1)["workers"]
    if not workers:
        raise InputError(
            "the scheduler has no worker", place=address, remedy="Start `dask worker` for it."
        )
    here = installed()
    for name, worker in workers.items():
        if worker["nthreads"] != 1:
            raise InputError(
                f"a worker runs {worker['nthreads']} threads in one process",
                place=name,
                remedy="Start it with --nthreads 1, and more workers instead.",
            )
    for name, there in client.run(installed).items():
        if there != here:
            other = sorted(k for k in here if there.get(k) != here[k])
            raise InputError(
                f"a worker has other versions of {', '.join(other)}",
                place=name,
                remedy="Install the same locked packages there, or the result may differ.",
            )
    for name, missing in client.run(not_seen, list(paths)).items():
        if missing:
            raise InputError(
                f"a worker does not see {missing[0]}",
                place=name,
                remedy="Put cases and builds in a folder that all machines share, at one path.",
            )


def installed() -> dict[str, str]:
    """Versions on which a result depends; for another process."""
    return {"python": platform.python_version(), **{name: version(name) for name in DECISIVE}}


def not_seen(paths: Sequence[str]) -> list[str]:
    """Those of the paths that do not exist here; for another process."""
    return [path for path in paths if not Path(path).exists()]
