"""Common Layer Interface files, ASCII and binary: contours and hatches layer by layer.

Source:
    Common Layer Interface, version 2.0 (check-values J10 to J24).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from struct import Struct
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError
from claspwright.build import Hatches, Slices
from claspwright.formats.number_text import byte_groups, groups, rows

_PLACE_MM = 1e-4  # coordinates in ASCII are written to a tenth of a micrometre
_INNER, _OUTER = 0, 1
_BUFFER = 1 << 20
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


def layer_file(parts: Sequence[LayeredPart], how: LayerFile = LayerFile()) -> bytes:  # noqa: B008
    """Bytes of a layer file; layers ascend, empty ones at the top are left out.

    The height of a layer is that of its upper surface. Parts without metal in a layer are
    silent there.

    Raises:
        InputError: no part, or parts that lie in different layers.
    """
    return b"".join(_pieces(parts, how))


def write_layer_file(parts: Sequence[LayeredPart], path: Path, how: LayerFile) -> None:
    """The same bytes to a file."""
    with path.open("wb", buffering=_BUFFER) as file:
        file.writelines(_pieces(parts, how))


def _pieces(parts: Sequence[LayeredPart], how: LayerFile) -> Iterator[bytes | memoryview]:
    """What a layer file is made of."""
    first = _checked(parts)
    count = max((_used_layers(part) for part in parts), default=0)
    text = how.mode != "binary"
    yield _header(parts, how, count).encode("ascii")
    if text:
        yield b"\n$$GEOMETRYSTART\n"
    if how.zero_layer:
        yield _layer(first.bottom_mm, how)
    made = [
        block
        for n, part in enumerate(parts)
        for block in (*(_rings(s, n + 1, how) for s in part.contours), _lines(part, n + 1, how))
        if block is not None
    ]
    for layer, top in enumerate(first.tops_mm()[:count]):
        yield _layer(top, how)
        for block in made:
            yield block.bytes[block.places[layer] : block.places[layer + 1]]
    if text:
        yield b"$$GEOMETRYEND\n"


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


@dataclass(frozen=True, slots=True)
class _Block:
    """All commands of one kind of one part as the file holds them."""

    bytes: memoryview
    places: list[int]  # where those of each layer begin, and where the last end


def _rings(slices: Slices, number: int, how: LayerFile) -> _Block:
    """The contours of one value, each closed by its first point."""
    sizes = np.diff(slices.contour_start)
    starts = np.concatenate([[0], np.cumsum(sizes + 1)]).astype(np.int64)
    index = np.arange(starts[-1]) - np.repeat(np.arange(len(sizes)), sizes + 1)
    index[starts[1:] - 1] = slices.contour_start[:-1]
    senses = np.where(slices.areas() > 0, _OUTER, _INNER).tolist()
    pairs = zip(senses, (sizes + 1).tolist(), strict=True)
    if how.mode == "binary":
        heads = [_POLYLINE.pack(130, number, sense, size) for sense, size in pairs]
    else:
        heads = [b"$$POLYLINE/%d,%d,%d," % (number, sense, size) for sense, size in pairs]
    return _block(slices.points[index], starts, heads, slices.layer_start, how)


def _lines(part: LayeredPart, number: int, how: LayerFile) -> _Block | None:
    """The hatches of one part."""
    if part.hatches is None:
        return None
    counts = np.diff(part.hatches.layer_start)
    full = np.flatnonzero(counts)
    starts = np.concatenate([[0], np.cumsum(counts[full])]).astype(np.int64)
    if how.mode == "binary":
        heads = [_HATCHES.pack(132, number, n) for n in counts[full].tolist()]
    else:
        heads = [b"$$HATCHES/%d,%d," % (number, n) for n in counts[full].tolist()]
    before = np.concatenate([[0], np.cumsum(counts > 0)])
    return _block(part.hatches.vectors, starts, heads, before, how)


def _block(
    values_mm: Floats, starts: NDArray[Any], heads: Sequence[bytes], layer_start: NDArray[Any],
    how: LayerFile,
) -> _Block:  # fmt: skip
    """Scaled to the unit of the file once and for all."""
    values = values_mm / how.unit_mm
    if how.mode == "binary":
        found, ends = byte_groups(values, starts, heads)
    else:
        found, ends = groups(values, starts, _digits(how), heads)
    return _Block(found, np.concatenate([[0], ends])[layer_start].tolist())


def _digits(how: LayerFile) -> int:
    """Behind the point of a number in text."""
    return max(0, round(-float(np.log10(_PLACE_MM / how.unit_mm))))


def _layer(top_mm: float, how: LayerFile) -> bytes:
    """The command that begins a layer."""
    height = top_mm / how.unit_mm
    if how.mode == "binary":
        return np.array([127], "<u2").tobytes() + np.array([height], "<f4").tobytes()
    return b"$$LAYER/" + rows(np.array([[height]]), _digits(how), ["", "\n"])[0]
