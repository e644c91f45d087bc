"""Logs of several shapes are read alike; a good run passes and each kind of bad one fails."""

from __future__ import annotations

import csv
from datetime import datetime, timedelta
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from claspwright.base import Floats, InputError
from claspwright.formats import read_furnace_log
from claspwright.process import FurnaceLog, judge_run, schedule
from claspwright.report import furnace_plot

RELIEF = schedule("stress-relief-800")


def run_of(
    *, ramp: float = 500.0, soak: float = 22.0, cooling: float = 400.0, last: float = 60.0,
    purge: float = 25.0, gas_lost: bool = False, top: float = 800.0,
) -> FurnaceLog:  # fmt: skip
    """A run minute by minute: purge, rise, soak, fall; rates in K/h, times in min."""
    points = [(0.0, 20.0), (30.0, 20.0)]
    points.append((points[-1][0] + (top - 20.0) / ramp * 60.0, top))
    points.append((points[-1][0] + soak, top))
    points.append((points[-1][0] + (top - 300.0) / cooling * 60.0, 300.0))
    points.append((points[-1][0] + max(300.0 - last, 1.0) / 400.0 * 60.0, last))
    minutes = np.arange(0.0, np.ceil(points[-1][0]) + 1.0)
    x, y = np.array(points).T
    platform = np.interp(minutes, x, y) + np.random.default_rng(1).normal(0.0, 0.5, len(minutes))
    gas = np.where(minutes >= 30.0 - purge, 8.0, 0.0)
    if gas_lost:
        gas[(minutes > 110.0) & (minutes < 125.0)] = 0.0
    return FurnaceLog(60.0 * minutes, platform, gas)


def rules(log: FurnaceLog) -> set[str]:
    return {f.rule for f in judge_run(log, RELIEF).findings if f.severity == "stop"}


def test_a_good_run_passes() -> None:
    run = judge_run(run_of(), RELIEF)
    assert run.findings == ()
    assert run.passed
    assert run.ramp_c_per_h == pytest.approx(500.0, abs=25.0)
    assert run.cooling_c_per_h == pytest.approx(400.0, abs=25.0)
    assert 22.0 <= run.soak_min <= 29.0  # the band is entered and left along the ramps
    assert run.purge_min is not None
    assert run.purge_min > 25.0


@pytest.mark.parametrize(
    ("log", "rule"),
    [
        (run_of(soak=8.0), "furnace.soak"),
        (run_of(cooling=1500.0), "furnace.cooling"),
        (run_of(last=250.0), "furnace.unloading"),
        (run_of(purge=1.0), "furnace.purge"),
        (run_of(gas_lost=True), "furnace.gas"),
        (run_of(top=850.0), "furnace.too_hot"),
    ],
    ids=["short soak", "quenched", "unloaded hot", "no purge", "gas lost", "too hot"],
)
def test_each_kind_of_bad_run_is_stopped(log: FurnaceLog, rule: str) -> None:
    assert rule in rules(log)
    assert not judge_run(log, RELIEF).passed


def test_a_steep_ramp_no_gas_record_and_a_pause_are_looked_at() -> None:
    steep = judge_run(run_of(ramp=1200.0), RELIEF)
    assert "furnace.ramp" in {f.rule for f in steep.findings}
    log = run_of()
    silent = judge_run(FurnaceLog(log.time_s, log.platform_c), RELIEF)
    assert [f.rule for f in silent.findings] == ["furnace.gas_unknown"]
    assert silent.passed
    keep = np.ones(len(log.time_s), bool)
    keep[40:50] = False
    gap = FurnaceLog(log.time_s[keep], log.platform_c[keep], np.full(keep.sum(), 8.0))
    assert "furnace.pause" in {f.rule for f in judge_run(gap, RELIEF).findings}


def test_a_platform_that_never_got_there_fails() -> None:
    cold = run_of(top=700.0)
    assert rules(cold) >= {"furnace.soak"}


@pytest.mark.reference("check-values F22: 400 K/h to 1150 degC, 1 h, furnace cool to 300 degC")
def test_the_annealing_schedule_is_the_published_one() -> None:
    wanted = schedule("cocr-lpbf-annealed")
    assert (wanted.ramp_c_per_h, wanted.soak_c, wanted.soak_min) == (400.0, 1150.0, 60.0)
    assert wanted.unload_c == 300.0
    with pytest.raises(InputError, match="no furnace schedule"):
        schedule("nonsense")


def plain(log: FurnaceLog, folder: Path) -> Path:
    return table(folder, ",", ["time_s", "platform_degC", "argon_l_min"],
                 [log.time_s, log.platform_c, log.gas_l_min])  # fmt: skip


def german(log: FurnaceLog, folder: Path) -> Path:
    start = datetime(2026, 11, 25, 22, 10)
    stamps = [f"{start + timedelta(seconds=float(s)):%d.%m.%Y %H:%M:%S}" for s in log.time_s]
    comma = [f"{t:.2f}".replace(".", ",") for t in log.platform_c]
    gas = [f"{g:.1f}".replace(".", ",") for g in log.gas_l_min]
    path = folder / "german.csv"
    lines = ["Furnace 3", "Serial;0815", "", "Date and time;Set [°C];Plate TC [°C];Argon [l/min]"]
    rows = zip(stamps, ["800,0"] * len(gas), comma, gas, strict=True)
    path.write_bytes("\r\n".join([*lines, *(";".join(row) for row in rows)]).encode("latin-1"))
    return path


def american(log: FurnaceLog, folder: Path) -> Path:
    return table(folder, "\t", ["Elapsed time (min)", "Chamber temp (deg F)", "Part temp (deg F)",
                                "Argon flow"],
                 [log.time_s / 60.0, np.full(len(log.time_s), 70.0),
                  log.platform_c * 1.8 + 32.0, log.gas_l_min])  # fmt: skip


def clocked(log: FurnaceLog, folder: Path) -> Path:
    seconds = (log.time_s + 22 * 3600.0) % 86_400.0
    clock = [f"{int(s // 3600):02d}:{int(s % 3600 // 60):02d}:{int(s % 60):02d}" for s in seconds]
    path = folder / "clock.csv"
    rows = zip(clock, log.platform_c + 273.15, log.gas_l_min, strict=True)
    path.write_text("time|platform K|gas\n" + "\n".join("|".join(map(str, row)) for row in rows))
    return path


def stamped(log: FurnaceLog, folder: Path) -> Path:
    start = datetime(2026, 11, 25, 22, 10)
    path = folder / "iso.csv"
    with path.open("w", newline="") as file:
        rows = csv.writer(file, quoting=csv.QUOTE_ALL)
        rows.writerow(["Timestamp", "Sample temperature", "Argon"])
        for s, t, g in zip(log.time_s, log.platform_c, log.gas_l_min, strict=True):
            rows.writerow([(start + timedelta(seconds=float(s))).isoformat(), t, g])
    return path


def table(folder: Path, split: str, header: list[str], columns: list[Floats]) -> Path:
    path = folder / f"log{len(header)}.csv"
    lines = [split.join(header)]
    lines += [split.join(f"{v:.4f}" for v in row) for row in zip(*columns, strict=True)]
    path.write_text("\n".join(lines) + "\n")
    return path


@pytest.mark.parametrize("shape", [plain, german, american, clocked, stamped])
def test_logs_of_several_shapes_are_read_alike(shape: object, tmp_path: Path) -> None:
    log = run_of()
    assert callable(shape)
    read = read_furnace_log(shape(log, tmp_path))
    assert np.allclose(read.time_s, log.time_s, atol=0.51)
    assert np.allclose(read.platform_c, log.platform_c, atol=0.01)
    assert read.gas_l_min is not None
    assert np.allclose(read.gas_l_min, log.gas_l_min, atol=0.01)
    assert judge_run(read, RELIEF).passed


def test_oxygen_in_percent_counts_as_gas(tmp_path: Path) -> None:
    log = run_of()
    oxygen = np.where(log.gas_l_min > 0, 0.05, 20.9)
    path = table(tmp_path, ",", ["time_min", "platform_degC", "oxygen_%"],
                 [log.time_s / 60.0, log.platform_c, oxygen])  # fmt: skip
    read = read_furnace_log(path)
    assert read.oxygen_ppm is not None
    assert read.oxygen_ppm.min() == pytest.approx(500.0)
    assert judge_run(read, RELIEF).passed


@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("a,b\n1,2\n", "no header"),
        ("time_s,platform_c\n", "no readings"),
        ("time_s,platform_c\n" + "1,x\n" * 20, "not a number"),
        ("time_s,platform_c\n1,2\n1\n3,4\n5,6\n", "columns where the header has 2"),
        ("time_s,platform_c\n" + "1,2\n" * 20, "increasing times"),
    ],
)
def test_broken_logs_are_refused(text: str, say: str, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(InputError, match=say):
        read_furnace_log(path)


def test_the_plot_is_a_picture() -> None:
    log = run_of()
    picture = Image.open(BytesIO(furnace_plot(log, judge_run(log, RELIEF))))
    assert picture.size[0] > 800
    assert np.asarray(picture.convert("L")).std() > 10
