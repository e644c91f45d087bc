from __future__ import annotations

import pytest

from claspwright.arch import notation as n


@pytest.mark.reference("ISO 3950 chart, check-values A01 to A03")
def test_the_permanent_set_and_its_order() -> None:
    assert len(n.PERMANENT) == 32
    assert n.ARCH_ORDER["maxilla"] == (
        18, 17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27, 28,
    )  # fmt: skip
    assert n.ARCH_ORDER["mandible"] == (
        48, 47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37, 38,
    )  # fmt: skip


@pytest.mark.reference("two-digit to Universal, check-values A06 (standard table, from memory)")
@pytest.mark.parametrize(
    ("iso", "universal"),
    [(18, 1), (11, 8), (21, 9), (28, 16), (38, 17), (31, 24), (41, 25), (48, 32)],
)
def test_universal_numbers(iso: int, universal: int) -> None:
    assert n.to_universal(iso) == universal
    assert n.from_universal(universal) == iso
