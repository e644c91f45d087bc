"""`claspwright build --scheduler`: the same bytes from the workers of a cluster."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from distributed import LocalCluster

from claspwright.app import cluster
from claspwright.app.build_platform import BuildWishes, build_platforms
from claspwright.base import Cancelled, InputError
from claspwright.formats import write_stl
from claspwright.geometry import box, union


@pytest.fixture(scope="module")
def solids(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("solids")
    out = []
    for name, length in (("c-21", 8.0), ("c-22", 6.0)):
        foot = box(np.zeros(3), np.array([length, 3.0, 1.5]))
        out.append(folder / f"{name}.stl")
        write_stl(union(foot, box(np.zeros(3), np.array([1.5, 3.0, 5.0]))), out[-1])
    return out


def local(processes: bool, workers: int = 1, threads: int = 1) -> LocalCluster:
    host = {"host": "127.0.0.1"} if processes else {}
    return LocalCluster(
        n_workers=workers,
        threads_per_worker=threads,
        processes=processes,
        dashboard_address="127.0.0.1:0",
        **host,
    )


@pytest.fixture(scope="module")
def here() -> Iterator[str]:
    """A scheduler whose worker lives in this process: quick, and it can be disturbed."""
    with local(False) as made:
        yield made.scheduler_address


def bytes_of(folder: Path) -> dict[Path, bytes]:
    return {f.relative_to(folder): f.read_bytes() for f in folder.rglob("*") if f.is_file()}


def test_a_cluster_writes_the_same_bytes(solids: list[Path], tmp_path: Path) -> None:
    wishes = {"layer_files": False}
    build_platforms(solids, tmp_path / "alone", BuildWishes("round-100", processes=1, **wishes))
    with local(True) as made:
        address = made.scheduler_address
        asked = BuildWishes("round-100", scheduler=address, **wishes)
        build_platforms(solids, tmp_path / "cluster", asked)
    assert bytes_of(tmp_path / "cluster") == bytes_of(tmp_path / "alone")
    assert len(bytes_of(tmp_path / "alone")) > 8


def test_a_stopped_build_takes_its_work_back(here: str, solids: list[Path], tmp_path: Path) -> None:
    def stop(fraction: float, phase: str) -> None:
        if phase == "orientation and supports":
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        build_platforms(
            solids, tmp_path / "out", BuildWishes("round-100", scheduler=here), progress=stop
        )
    assert not (tmp_path / "out").exists()


def test_workers_that_may_differ_are_refused(
    here: str, solids: list[Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with (
        pytest.raises(InputError, match="does not see"),
        cluster.cluster_crew(here, [tmp_path / "elsewhere"]),
    ):
        pass
    with (
        local(False, threads=2) as made,
        pytest.raises(InputError, match="2 threads"),
        cluster.cluster_crew(made.scheduler_address, solids),
    ):
        pass
    versions = iter([{"numpy": "2.0", "python": "3.11"}, {"numpy": "1.0", "python": "3.11"}])
    monkeypatch.setattr(cluster, "installed", lambda: next(versions))
    with (
        pytest.raises(InputError, match="other versions of numpy"),
        cluster.cluster_crew(here, solids),
    ):
        pass


def test_no_scheduler_and_no_worker_are_said(
    monkeypatch: pytest.MonkeyPatch, solids: list[Path]
) -> None:
    monkeypatch.setattr(cluster, "WAIT_S", 0.5)
    with (
        pytest.raises(InputError, match="no scheduler answers") as told,
        cluster.cluster_crew("tcp://127.0.0.1:9", solids),
    ):
        pass
    assert "dask scheduler" in told.value.remedy
    with (
        local(False, workers=0) as made,
        pytest.raises(InputError, match="no worker"),
        cluster.cluster_crew(made.scheduler_address, solids),
    ):
        pass
