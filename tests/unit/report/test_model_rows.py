"""Bodies of the model and room to the opposing arch, as the report lists them."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pytest

from claspwright.arch import SHOULDER_MM, DentalArch, read_bite
from claspwright.framework import Framework
from claspwright.geometry import Mesh, box
from claspwright.report.content import BodyRow, RoomRow
from claspwright.report.model_rows import body_rows, room_rows
from claspwright.report.words import room_cells
from claspwright.survey import WaxBody

UP = np.array([0.0, 0.0, 1.0])
AT = (1.0, 2.0, 3.0)


def with_bodies(*bodies: WaxBody) -> Framework:
    return cast(Framework, SimpleNamespace(blocked_out=SimpleNamespace(bodies=bodies)))


def test_bodies_are_listed_by_kind_and_size() -> None:
    rows = body_rows(
        with_bodies(
            WaxBody("relief.base.35-36", "relief", 148.0, AT),
            WaxBody("blockout.31", "blockout", 2.0, AT),
            WaxBody("blockout.tissue", "blockout", 388.0, AT),
            WaxBody("fill.1", "fill", 5.0, AT),
        )
    )
    assert [row.name for row in rows] == [
        "blockout.tissue", "blockout.31", "fill.1", "relief.base.35-36",
    ]  # fmt: skip
    assert rows[1] == BodyRow("blockout.31", "blockout", "tooth 31", 2.0, AT)
    assert rows[3].words == "under the base 35-36"
    assert body_rows(None) == ()


def test_room_is_read_over_rests_bases_and_crowns(worked_case: Any) -> None:
    arch: DentalArch = worked_case.arch
    top = float(arch.scan.surface.vertices[:, 2].max())
    low, high = arch.scan.surface.vertices.min(axis=0), arch.scan.surface.vertices.max(axis=0)
    over: Mesh = box(np.append(low[:2], top + 0.5), np.append(high[:2], top + 3.0))
    arch = replace(arch, opposing=over)
    rows = room_rows(arch, read_bite(arch, UP), worked_case.framework)
    rests = [row for row in rows if row.wanted_mm == SHOULDER_MM]
    crowns = [row for row in rows if row.words.startswith("tooth")]
    assert len(crowns) == len(arch.teeth)
    assert len(rests) == sum(part.kind == "rest" for part in worked_case.framework.components)
    assert min(row.closing_mm for row in crowns) == pytest.approx(0.5, abs=1e-4)
    for row in crowns:
        assert row.path_mm == pytest.approx(row.closing_mm, abs=1e-4)
    assert room_rows(arch, None, worked_case.framework) == ()


def test_room_is_written_to_hundredths() -> None:
    row = RoomRow("tooth 31", -0.0001, float("inf"), None, AT)
    assert room_cells(row) == ["tooth 31", "0.00\N{NO-BREAK SPACE}mm", "free", ""]
