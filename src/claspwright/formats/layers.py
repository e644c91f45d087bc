"""Common Layer Interface files, ASCII and binary: contours and hatches layer by layer.

Source:
    Common Layer Interface, version 2.0 (check-values J10 to J24).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from struct import Struct
from typing import Literal

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.build import Hatches, Slices
from claspwright.formats.number_text import rows

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
    lines = [head.encode("ascii"), b"$$GEOMETRYSTART"]
    if how.zero_layer:
        lines.append(b"$$LAYER/" + _height(first.bottom_mm, how))
    for layer in range(count):
        lines.append(b"$$LAYER/" + _height(tops[layer], how))
        for n, part in enumerate(made):
            lines.extend(_ascii(n + 1, part, layer))
    lines.append(b"$$GEOMETRYEND\n")
    return b"\n".join(lines)


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


class _Numbers:
    """Rows of numbers as the file holds them."""

    def __init__(self, values_mm: Floats, how: LayerFile) -> None:
        """Scale them, and write them where the file is text."""
        self.text = how.mode != "binary"
        if self.text:
            words = ["", *[","] * (values_mm.shape[1] - 1), ","]
            self.bytes, ends = rows(values_mm / how.unit_mm, _digits(how), words)
            self.places = ends.tolist()
        else:
            self.bytes = (values_mm / how.unit_mm).astype("<f4").tobytes()
            self.size = 4 * values_mm.shape[1]

    def between(self, first: int, last: int) -> bytes:
        """Rows first to last; text without the last comma."""
        if self.text:
            return self.bytes[self.places[first] : self.places[last] - 1]
        return self.bytes[self.size * first : self.size * last]


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
        self.points = _Numbers(slices.points[index], how)

    def of_layer(self, layer: int) -> Iterator[tuple[int, int, bytes]]:
        """Sense, number of points and the points themselves of each contour of a layer."""
        for n in range(self.layer_start[layer], self.layer_start[layer + 1]):
            first, last = self.starts[n], self.starts[n + 1]
            yield self.senses[n], last - first, self.points.between(first, last)


class _Lines:
    """The hatches of one value, scaled to the unit of the file."""

    def __init__(self, lines: Hatches, how: LayerFile) -> None:
        """Scale every vector."""
        self.layer_start = lines.layer_start.tolist()
        self.vectors = _Numbers(lines.vectors, how)

    def of_layer(self, layer: int) -> tuple[int, bytes]:
        """Number of vectors of a layer, and the vectors themselves."""
        first, last = self.layer_start[layer], self.layer_start[layer + 1]
        return last - first, self.vectors.between(first, last)


def _digits(how: LayerFile) -> int:
    """Behind the point of a number in text."""
    return max(0, round(-float(np.log10(_PLACE_MM / how.unit_mm))))


def _height(value_mm: float, how: LayerFile) -> bytes:
    """A height as the text of the file holds it."""
    return rows(np.array([[value_mm / how.unit_mm]]), _digits(how), ["", ""])[0]


def _layer_long(height: float) -> bytes:
    return np.array([127], "<u2").tobytes() + np.array([height], "<f4").tobytes()


def _binary(number: int, part: _Made, layer: int) -> Iterator[bytes]:
    for rings in part.contours:
        for sense, count, ring in rings.of_layer(layer):
            yield _POLYLINE.pack(130, number, sense, count) + ring
    if part.hatches is not None:
        count, lines = part.hatches.of_layer(layer)
        if count:
            yield _HATCHES.pack(132, number, count) + lines


def _ascii(number: int, part: _Made, layer: int) -> Iterator[bytes]:
    for rings in part.contours:
        for sense, count, ring in rings.of_layer(layer):
            yield b"$$POLYLINE/%d,%d,%d,%b" % (number, sense, count, ring)
    if part.hatches is not None:
        count, lines = part.hatches.of_layer(layer)
        if count:
            yield b"$$HATCHES/%d,%d,%b" % (number, count, lines)
