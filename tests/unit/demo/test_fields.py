from __future__ import annotations

import numpy as np
import pytest
from scipy.ndimage import gaussian_filter

from claspwright.demo.fields import slabs, softened


@pytest.mark.parametrize("shape", [(1, 5, 4), (31, 6, 5), (65, 9, 7), (200, 3, 8)])
@pytest.mark.parametrize(("sigma", "truncate"), [(0.6, 4.0), (2.7, 2.0), (12.0, 4.0)])
def test_rows_side_by_side_are_softened_to_the_same_bits(
    shape: tuple[int, int, int], sigma: float, truncate: float
) -> None:
    field = np.random.default_rng(len(shape) + shape[0]).normal(size=shape).astype(np.float32)
    whole = gaussian_filter(field, sigma, truncate=truncate)
    assert softened(field, sigma, truncate).tobytes() == whole.tobytes()


@pytest.mark.parametrize("shape", [(0, 4, 4), (1, 900, 900), (7, 50, 60), (700, 3, 0)])
def test_slabs_cover_every_row_once(shape: tuple[int, int, int]) -> None:
    rows = [row for part in slabs(shape) for row in range(shape[0])[part]]
    assert rows == list(range(shape[0]))
