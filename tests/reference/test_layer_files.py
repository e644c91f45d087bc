"""Layer files against the published syntax of the Common Layer Interface and of 3MF."""

from __future__ import annotations

import importlib.util
import re
import sys
from pathlib import Path
from types import ModuleType

import lib3mf
import numpy as np
import pytest
from typer.testing import CliRunner

from claspwright.build import HatchPlan, LayerPlan, Slices, hatch, slice_solid
from claspwright.cli.commands import app
from claspwright.formats import (
    BuildObject,
    LayeredPart,
    LayerFile,
    layer_file,
    write_build_3mf,
    write_stl,
)
from claspwright.geometry import Mesh, ball, box, difference, union

SYNTAX = "Common Layer Interface 2.0 (check-values J10 to J24, W8)"


def _reader() -> ModuleType:
    path = Path(__file__).with_name("layer_reader.py")
    spec = importlib.util.spec_from_file_location("layer_reader", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["layer_reader"] = module
    spec.loader.exec_module(module)
    return module


read_layers = _reader().read_layers


def framed_square() -> Mesh:
    return difference(
        box(np.zeros(3), np.array([10.0, 10.0, 0.03])),
        box(np.array([3.0, 3.0, -1.0]), np.array([7.0, 7.0, 1.0])),
    )


@pytest.fixture(scope="module")
def w8(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("w8") / "square.stl"
    write_stl(framed_square(), file)
    return file


@pytest.mark.reference(SYNTAX)
def test_w8_as_text_exactly(w8: Path) -> None:
    out = w8.with_suffix(".cli")
    asked = ["slice", str(w8), "--layer-um", "30", "--hatch-um", "100", "--out", str(out)]
    assert CliRunner().invoke(app, asked).exit_code == 0
    lines = out.read_text(encoding="ascii").splitlines()
    assert lines[:-2] == [
        "$$HEADERSTART",
        "$$ASCII",
        "$$UNITS/0.01",
        "$$VERSION/200",
        "$$LABEL/1,part1",
        "$$LAYERS/1",
        "$$HEADEREND",
        "$$GEOMETRYSTART",
        "$$LAYER/0",
        "$$LAYER/3",
        "$$POLYLINE/1,1,5,0,0,1000,0,1000,1000,0,1000,0,0",
        "$$POLYLINE/1,0,5,300,300,300,700,700,700,700,300,300,300",
    ]
    assert lines[-2].startswith("$$HATCHES/1,140,0,5,1000,5,")
    assert lines[-1] == "$$GEOMETRYEND"
    (zero, layer) = read_layers(out.read_bytes()).layers
    assert not zero.polylines
    assert layer.area_mm2() == pytest.approx(84.0, abs=1e-9)
    assert layer.senses_agree()
    ((_, vectors),) = layer.hatches
    length = sum(np.hypot(c - a, d - b) for a, b, c, d in vectors)
    assert (len(vectors), length) == (140, pytest.approx(840.0, abs=1e-9))
    assert length / 800 == pytest.approx(1.05)  # seconds at 800 mm/s


@pytest.mark.reference(SYNTAX)
@pytest.mark.parametrize(("zero_layer", "size"), [(False, 2364), (True, 2370)])
def test_w8_binary_has_the_derived_size_and_reads_back(zero_layer: bool, size: int) -> None:
    slices = slice_solid(framed_square(), LayerPlan(0.03))
    part = LayeredPart("part1", (slices,), hatch(slices, HatchPlan(0.1)))
    data = layer_file([part], LayerFile("binary", zero_layer=zero_layer))
    body = data[data.index(b"$$HEADEREND") + 11 :]
    assert len(body) == size
    layer = read_layers(data).layers[-1]
    assert layer.z_mm == pytest.approx(0.03)
    assert layer.area_mm2() == pytest.approx(84.0, abs=1e-4)


@pytest.mark.reference("check-values J24")
def test_known_bytes() -> None:
    square = np.array([[0.0, 1000.0], [0.0, 0.0], [1000.0, 0.0], [1000.0, 1000.0]])
    slices = Slices(0.0, 3.0, square, np.array([0, 4]), np.array([0, 1]))
    how = LayerFile("binary", unit_mm=1.0, zero_layer=False)
    data = layer_file([LayeredPart("a", (slices,))], how)
    body = data[data.index(b"$$HEADEREND") + 11 :]
    assert body[:6].hex(" ") == "7f 00 00 00 40 40"
    assert body[6:20].hex(" ") == "82 00 01 00 00 00 01 00 00 00 05 00 00 00"
    assert body[20:28].hex(" ") == "00 00 00 00 00 00 7a 44"


def _lumpy() -> Mesh:
    shell = difference(ball(5.0, 0.4), ball(4.0, 0.4))
    return union(shell, box(np.array([3.0, -1.0, -1.0]), np.array([9.0, 1.0, 1.0])))


@pytest.mark.reference("3MF Slice Extension, read by lib3mf; " + SYNTAX)
def test_3mf_and_layer_file_give_the_same_areas(tmp_path: Path) -> None:
    mesh = _lumpy()
    slices = slice_solid(mesh, LayerPlan(0.1))
    file = tmp_path / "lumpy.3mf"
    write_build_3mf([BuildObject("lumpy", mesh, slices)], file)
    model = lib3mf.get_wrapper().CreateModel()  # type: ignore[no-untyped-call] # has no types
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(file))
    assert reader.GetWarningCount() == 0
    objects = model.GetMeshObjects()
    assert objects.MoveNext()
    assert objects.GetCurrentMeshObject().IsManifoldAndOriented()
    stack = model.GetSliceStacks()
    assert stack.MoveNext()
    found = stack.GetCurrentSliceStack()
    assert found.GetSliceCount() == slices.layers
    in_3mf = []
    for n in range(found.GetSliceCount()):
        one = found.GetSlice(n)
        points = np.array([v.Coordinates for v in one.GetVertices()]).reshape(-1, 2)
        area = 0.0
        for p in range(one.GetPolygonCount()):
            order = np.array(one.GetPolygonIndices(p))
            assert order[0] == order[-1]
            x, y = points[order].T
            area += 0.5 * float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1]))
        in_3mf.append(area)
    text = read_layers(layer_file([LayeredPart("lumpy", (slices,))]))
    in_text = [layer.area_mm2() for layer in text.layers[1:]]
    assert text.layers_announced == len(in_text) == slices.layers
    assert all(layer.senses_agree() for layer in text.layers)
    np.testing.assert_allclose(in_3mf, in_text, atol=5e-3)  # 0.1 um along 60 mm of contour
    np.testing.assert_allclose(in_text, slices.layer_areas(), atol=5e-3)


def test_one_command_a_line_and_labels_cannot_be_commands() -> None:
    slices = slice_solid(framed_square(), LayerPlan(0.03))
    part = LayeredPart("$$LAYER/9, a", (slices, slices))
    text = layer_file([part], LayerFile(remark="not // a comment")).decode("ascii")
    assert all(re.fullmatch(r"(\$\$[A-Z]+(/[^$]*)?|//[^/]*//)", line) for line in text.splitlines())
    assert read_layers(text.encode()).labels == {1: "__LAYER_9_ a"}
