"""Array types, and arrays that cannot be written to."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base.errors import InputError

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int32]
Bools = NDArray[np.bool_]


def frozen_floats(values: Any, shape: tuple[int | None, ...], name: str) -> Floats:
    """Copy values into a read-only float64 array of a given shape (None: any length).

    Raises:
        InputError: the shape differs or a value is not finite.
    """
    array = np.array(values, dtype=np.float64)
    _check_shape(array, shape, name)
    if not np.isfinite(array).all():
        raise InputError(f"{name} holds values that are not finite numbers")
    array.setflags(write=False)
    return array


def frozen_ints(values: Any, shape: tuple[int | None, ...], name: str) -> Ints:
    """Copy values into a read-only int32 array of a given shape (None: any length)."""
    array = np.array(values, dtype=np.int32)
    _check_shape(array, shape, name)
    array.setflags(write=False)
    return array


def _check_shape(array: NDArray[Any], shape: tuple[int | None, ...], name: str) -> None:
    fits = array.ndim == len(shape) and all(
        want is None or want == got for want, got in zip(shape, array.shape, strict=True)
    )
    if not fits:
        raise InputError(f"{name} must have shape {shape}, got {array.shape}")
