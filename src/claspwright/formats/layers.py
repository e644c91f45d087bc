"""Common Layer Interface files, ASCII and binary: contours and hatches layer by layer.

Source:
    Common Layer Interface, version 2.0 (check-values J10 to J24).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.build import Hatches, Slices

_PLACE_MM = 1e-4  # coordinates in ASCII are written to a tenth of a micrometre
_INNER, _OUTER = 0, 1


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
    first = _checked(parts)
    count = max((_used_layers(part) for part in parts), default=0)
    head = _header(parts, how, count)
    tops = first.tops_mm()
    if how.mode == "binary":
        body = [head.encode("ascii")]
        if how.zero_layer:
            body.append(_layer_long(first.bottom_mm / how.unit_mm))
        for layer in range(count):
            body.append(_layer_long(tops[layer] / how.unit_mm))
            for n, part in enumerate(parts):
                body.extend(_binary(n + 1, part, layer, how.unit_mm))
        return b"".join(body)
    lines = ["$$GEOMETRYSTART"]
    if how.zero_layer:
        lines.append(f"$$LAYER/{_words(np.array([first.bottom_mm]), how)}")
    for layer in range(count):
        lines.append(f"$$LAYER/{_words(tops[layer : layer + 1], how)}")
        for n, part in enumerate(parts):
            lines.extend(_ascii(n + 1, part, layer, how))
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


def _rings(slices: Slices, layer: int) -> Iterator[tuple[int, Floats]]:
    """Direction and closed points of each contour of a layer [mm]."""
    for n in range(slices.layer_start[layer], slices.layer_start[layer + 1]):
        ring = slices.contour(n)
        closed = np.concatenate([ring, ring[:1]])
        x, y = (closed - closed[0]).T
        outer = float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) > 0
        yield (_OUTER if outer else _INNER), closed


def _layer_long(height: float) -> bytes:
    return np.array([127], "<u2").tobytes() + np.array([height], "<f4").tobytes()


def _binary(number: int, part: LayeredPart, layer: int, unit: float) -> Iterator[bytes]:
    for slices in part.contours:
        for direction, ring in _rings(slices, layer):
            yield np.array([130], "<u2").tobytes()
            yield np.array([number, direction, len(ring)], "<i4").tobytes()
            yield (ring / unit).astype("<f4").tobytes()
    if part.hatches is not None:
        lines = part.hatches.layer(layer)
        if len(lines):
            yield np.array([132], "<u2").tobytes()
            yield np.array([number, len(lines)], "<i4").tobytes()
            yield (lines / unit).astype("<f4").tobytes()


def _ascii(number: int, part: LayeredPart, layer: int, how: LayerFile) -> Iterator[str]:
    for slices in part.contours:
        for direction, ring in _rings(slices, layer):
            yield f"$$POLYLINE/{number},{direction},{len(ring)},{_words(ring.ravel(), how)}"
    if part.hatches is not None:
        lines = part.hatches.layer(layer)
        if len(lines):
            yield f"$$HATCHES/{number},{len(lines)},{_words(lines.ravel(), how)}"


def _words(values_mm: Floats, how: LayerFile) -> str:
    """Numbers in units of the file, separated by commas."""
    digits = max(0, round(-np.log10(_PLACE_MM / how.unit_mm)))
    values = np.round(values_mm / how.unit_mm, digits) + 0.0
    return ",".join(["%.12g"] * len(values)) % tuple(values.tolist())
