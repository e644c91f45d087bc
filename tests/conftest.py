"""What all tests share: the real scans beside the project, and how a skip of theirs counts."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
SCANS = ROOT.parent / "shared" / "scans"
REQUIRED = os.environ.get("CLASPWRIGHT_SCANS_REQUIRED", "") not in ("", "0")


@pytest.fixture(scope="session")
def scans() -> Path:
    """Folder of the real scans; a test that asks for it carries the mark `scans`."""
    if not SCANS.is_dir():
        pytest.skip("the real scans are not beside the project (../shared/scans)")
    return SCANS


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]) -> Iterator[None]:
    """Where the scans are required, a skipped test that needs them has failed."""
    report = yield
    if REQUIRED and report.skipped and item.get_closest_marker("scans"):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"skipped, but the real scans are required here: {reason}"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector: pytest.Collector) -> Iterator[None]:
    """Where the scans are required, a file of tests that is skipped as a whole has failed."""
    report = yield
    if REQUIRED and report.outcome == "skipped":
        report.outcome = "failed"
        report.longrepr = f"{collector.nodeid} was skipped as a whole: {report.longrepr}"
    return report
