"""A reader of Common Layer Interface files, written from the published syntax alone.

Source: Common Layer Interface, version 2.0, as quoted in check-values J10 to J24.
"""

from __future__ import annotations

import re
import struct
from dataclasses import dataclass, field


@dataclass
class Layer:
    z_mm: float
    polylines: list[tuple[int, int, list[tuple[float, float]]]] = field(default_factory=list)
    hatches: list[tuple[int, list[tuple[float, ...]]]] = field(default_factory=list)

    def area_mm2(self) -> float:
        """The value of dir decides the sign, whatever the order of the points."""
        total = 0.0
        for _, direction, points in self.polylines:
            assert points[0] == points[-1], "dir 0 and 1 ask for a closed polyline"
            pairs = zip(points, points[1:], strict=False)
            double = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
            total += abs(double) / 2 * (1 if direction == 1 else -1)
        return total

    def senses_agree(self) -> bool:
        for _, direction, points in self.polylines:
            pairs = zip(points, points[1:], strict=False)
            double = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
            if (double > 0) != (direction == 1):
                return False
        return True


@dataclass
class LayerText:
    units: float
    version: int
    labels: dict[int, str]
    layers_announced: int
    layers: list[Layer]


def read_layers(data: bytes) -> LayerText:
    end = data.index(b"$$HEADEREND") + len(b"$$HEADEREND")
    head = re.sub(r"//.*?//", "", data[:end].decode("ascii"), flags=re.S)
    keys = re.findall(r"\$\$([A-Z]+)(?:/([^$\r\n]*))?", head)
    words = dict(keys)
    assert keys[0][0] == "HEADERSTART" and keys[-1][0] == "HEADEREND"
    labels = {}
    for key, value in keys:
        if key == "LABEL":
            number, text = value.split(",", 1)
            labels[int(number)] = text.strip()
    units = float(words["UNITS"])
    body = data[end:]
    layers = _ascii(body, units) if "ASCII" in words else _binary(body, units)
    return LayerText(units, int(words["VERSION"]), labels, int(words["LAYERS"]), layers)


def _ascii(body: bytes, units: float) -> list[Layer]:
    text = re.sub(r"//.*?//", "", body.decode("ascii"), flags=re.S)
    commands = [c for c in re.split(r"\$\$", text) if c.strip()]
    assert commands[0].strip() == "GEOMETRYSTART" and commands[-1].strip() == "GEOMETRYEND"
    layers: list[Layer] = []
    for command in commands[1:-1]:
        name, rest = command.strip().split("/", 1)
        values = rest.split(",")
        if name == "LAYER":
            layers.append(Layer(float(rest) * units))
        elif name == "POLYLINE":
            number, direction, n = (int(v) for v in values[:3])
            flat = [float(v) * units for v in values[3:]]
            assert len(flat) == 2 * n
            layers[-1].polylines.append(
                (number, direction, list(zip(flat[::2], flat[1::2], strict=True)))
            )
        elif name == "HATCHES":
            number, n = int(values[0]), int(values[1])
            flat = [float(v) * units for v in values[2:]]
            assert len(flat) == 4 * n
            quads = [tuple(flat[i : i + 4]) for i in range(0, 4 * n, 4)]
            layers[-1].hatches.append((number, quads))
        else:
            raise AssertionError(f"unknown command {name}")
    return layers


def _binary(body: bytes, units: float) -> list[Layer]:
    layers: list[Layer] = []
    at = 0

    def take(form: str) -> tuple[float, ...]:
        nonlocal at
        values = struct.unpack_from("<" + form, body, at)
        at += struct.calcsize("<" + form)
        return values

    while at < len(body):
        (code,) = take("H")
        if code in (127, 128):
            (z,) = take("f" if code == 127 else "H")
            layers.append(Layer(z * units))
        elif code in (129, 130):
            number, direction, n = take("3H" if code == 129 else "3i")
            flat = [v * units for v in take(f"{2 * int(n)}" + ("H" if code == 129 else "f"))]
            points = list(zip(flat[::2], flat[1::2], strict=True))
            layers[-1].polylines.append((int(number), int(direction), points))
        elif code in (131, 132):
            number, n = take("2H" if code == 131 else "2i")
            flat = [v * units for v in take(f"{4 * int(n)}" + ("H" if code == 131 else "f"))]
            quads = [tuple(flat[i : i + 4]) for i in range(0, 4 * int(n), 4)]
            layers[-1].hatches.append((int(number), quads))
        else:
            raise AssertionError(f"unknown command {code}")
    return layers
