"""Values of a field between the nodes of its grid."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats, Singles
from claspwright.geometry import _sample_kernels as kernels
from claspwright.geometry.threads import in_chunks

POINTS_A_CHUNK = 32768


def linear_values(values: Singles, nodes: Floats) -> Floats:
    """(N,) trilinear values of (nx, ny, nz) at (N, 3) fractional nodes; border values outside.

    Worked out in double precision and given to that of the values, as scipy's map_coordinates
    does with order 1 and mode "nearest".
    """
    nodes = np.ascontiguousarray(nodes, dtype=np.float64)
    out = np.empty(len(nodes), np.float32)
    in_chunks(lambda a, b: kernels.linear(values, nodes, a, b, out), len(nodes), POINTS_A_CHUNK)
    return out.astype(np.float64)
