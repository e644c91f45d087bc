"""Common Layer Interface files, ASCII and binary: contours and hatches layer by layer.

Source:
    Common Layer Interface, version 2.0 (check-values J10 to J24).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from struct import Struct
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError
from claspwright.build import Hatches, Slices

_PLACE_MM = 1e-4  # coordinates in ASCII are written to a tenth of a micrometre
_INNER, _OUTER = 0, 1
_POLYLINE, _HATCHES = Struct("<Hiii"), Struct("<Hii")


@dataclass(frozen=True, slots=True, eq=False)
class LayeredPart:
    """One part of a layer file."""

    label: str
    contours: tuple[Slices, ...]  # written one after the other in each layer
    hatches: Hatches | None = None


@dataclass(frozen=True, slots=True)
class LayerFile:
    """How a layer file is written."""

    mode: Literal["ascii", "binary"] = "ascii"
    unit_mm: float = 0.01  # mm for each unit of the file
    zero_layer: bool = True  # a first layer without geometry, which fixes the thickness
    remark: str = ""  # a comment in the header

    def __post_init__(self) -> None:
        if not self.unit_mm > 0:
            raise InputError(f"a unit of {self.unit_mm} mm")


@dataclass(frozen=True, slots=True)
class _Made:
    """One part with its numbers as the file wants them."""

    contours: tuple[_Rings, ...]
    hatches: _Lines | None

    @staticmethod
    def of(part: LayeredPart, how: LayerFile) -> _Made:
        """Scale contours and hatches."""
        lines = None if part.hatches is None else _Lines(part.hatches, how)
        return _Made(tuple(_Rings(slices, how) for slices in part.contours), lines)


def layer_file(parts: Sequence[LayeredPart], how: LayerFile = LayerFile()) -> bytes:  # noqa: B008
    """Bytes of a layer file; layers ascend, empty ones at the top are left out.

    The height of a layer is that of its upper surface. Parts without metal in a layer are
    silent there.

    Raises:
        InputError: no part, or parts that lie in different layers.
    """
    first = _checked(parts)
    count = max((_used_layers(part) for part in parts), default=0)
    head = _header(parts, how, count)
    tops = first.tops_mm()
    made = [_Made.of(part, how) for part in parts]
    if how.mode == "binary":
        body = [head.encode("ascii")]
        if how.zero_layer:
            body.append(_layer_long(first.bottom_mm / how.unit_mm))
        for layer in range(count):
            body.append(_layer_long(tops[layer] / how.unit_mm))
            for n, part in enumerate(made):
                body.extend(_binary(n + 1, part, layer))
        return b"".join(body)
    lines = ["$$GEOMETRYSTART"]
    if how.zero_layer:
        lines.append(f"$$LAYER/{_words(_scaled(np.array([first.bottom_mm]), how))}")
    for layer in range(count):
        lines.append(f"$$LAYER/{_words(_scaled(tops[layer : layer + 1], how))}")
        for n, part in enumerate(made):
            lines.extend(_ascii(n + 1, part, layer))
    lines.append("$$GEOMETRYEND")
    return (head + "\n" + "\n".join(lines) + "\n").encode("ascii")


def _checked(parts: Sequence[LayeredPart]) -> Slices:
    every = [slices for part in parts for slices in part.contours]
    if not every:
        raise InputError("a layer file needs at least one part with contours")
    first = every[0]
    same = all(
        (s.bottom_mm, s.layer_mm, s.layers) == (first.bottom_mm, first.layer_mm, first.layers)
        for s in every
    )
    if not same:
        raise InputError("the parts of a layer file must lie in the same layers")
    return first


def _used_layers(part: LayeredPart) -> int:
    """Layers up to the last one that holds metal."""
    return max(
        (int(np.flatnonzero(np.diff(s.layer_start)).max(initial=-1)) + 1 for s in part.contours),
        default=0,
    )


def _header(parts: Sequence[LayeredPart], how: LayerFile, count: int) -> str:
    lines = ["$$HEADERSTART"]
    if how.remark:
        lines.append(f"//{_plain(how.remark)}//")
    lines += ["$$BINARY" if how.mode == "binary" else "$$ASCII"]
    lines += [f"$$UNITS/{how.unit_mm:.10g}", "$$VERSION/200"]
    lines += [f"$$LABEL/{n + 1},{_plain(part.label)}" for n, part in enumerate(parts)]
    lines += [f"$$LAYERS/{count}", "$$HEADEREND"]
    return "\n".join(lines)


def _plain(text: str) -> str:
    """A label that cannot be mistaken for a command or a comment."""
    kept = "".join(c if c.isascii() and c.isprintable() and c not in "$/," else "_" for c in text)
    return kept.strip() or "part"


class _Rings:
    """The contours of one value, closed, scaled to the unit of the file once and for all."""

    def __init__(self, slices: Slices, how: LayerFile) -> None:
        """Close every contour by its first point."""
        sizes = np.diff(slices.contour_start)
        self.layer_start = slices.layer_start.tolist()
        self.senses = np.where(slices.areas() > 0, _OUTER, _INNER).tolist()
        self.sizes = (sizes + 1).tolist()
        starts = np.concatenate([[0], np.cumsum(sizes + 1)])
        index = np.arange(starts[-1]) - np.repeat(np.arange(len(sizes)), sizes + 1)
        index[starts[1:] - 1] = slices.contour_start[:-1]
        self.starts = starts.tolist()
        self.points = _scaled(slices.points[index], how)

    def of_layer(self, layer: int) -> Iterator[tuple[int, NDArray[Any]]]:
        """Sense and points of each contour of a layer."""
        for n in range(self.layer_start[layer], self.layer_start[layer + 1]):
            yield self.senses[n], self.points[self.starts[n] : self.starts[n + 1]]


class _Lines:
    """The hatches of one value, scaled to the unit of the file."""

    def __init__(self, lines: Hatches, how: LayerFile) -> None:
        """Scale every vector."""
        self.layer_start = lines.layer_start.tolist()
        self.vectors = _scaled(lines.vectors, how)

    def of_layer(self, layer: int) -> NDArray[Any]:
        """(n, 4) vectors of a layer."""
        return self.vectors[self.layer_start[layer] : self.layer_start[layer + 1]]


def _scaled(values_mm: Floats, how: LayerFile) -> NDArray[Any]:
    """Numbers in units of the file: single precision in binary, rounded in text."""
    if how.mode == "binary":
        return (values_mm / how.unit_mm).astype("<f4")
    digits = max(0, round(-np.log10(_PLACE_MM / how.unit_mm)))
    return np.asarray(np.round(values_mm / how.unit_mm, digits) + 0.0)


def _layer_long(height: float) -> bytes:
    return np.array([127], "<u2").tobytes() + np.array([height], "<f4").tobytes()


def _binary(number: int, part: _Made, layer: int) -> Iterator[bytes]:
    for rings in part.contours:
        for sense, ring in rings.of_layer(layer):
            yield _POLYLINE.pack(130, number, sense, len(ring)) + ring.tobytes()
    if part.hatches is not None:
        lines = part.hatches.of_layer(layer)
        if len(lines):
            yield _HATCHES.pack(132, number, len(lines)) + lines.tobytes()


def _ascii(number: int, part: _Made, layer: int) -> Iterator[str]:
    for rings in part.contours:
        for sense, ring in rings.of_layer(layer):
            yield f"$$POLYLINE/{number},{sense},{len(ring)},{_words(ring)}"
    if part.hatches is not None:
        lines = part.hatches.of_layer(layer)
        if len(lines):
            yield f"$$HATCHES/{number},{len(lines)},{_words(lines)}"


def _words(values: NDArray[Any]) -> str:
    """Numbers separated by commas."""
    flat = values.ravel().tolist()
    return ",".join(["%.12g"] * len(flat)) % tuple(flat)
