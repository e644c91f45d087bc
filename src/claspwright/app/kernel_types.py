"""The types that kernels are compiled for at set-up: a table beside this file, and its notation.

A line of the table is `kernel = ["(float64[:, ::1], int64)"]`: for each set of argument types one
text, in numba's own shorthand. `[::1]` is an array whose last axis lies close together, `[:]` one
with steps; `const(...)` around an array says that it is read-only; brackets hold a tuple. The
table is written by `tools/kernel_types.py`; tests hold the main job and a build against it.
"""

from __future__ import annotations

import ast
import sys
import tomllib
from collections.abc import Iterator
from importlib import import_module
from importlib.resources import files
from typing import Any  # numba's types and its compiled functions carry no types themselves

import numba
from numba.core.dispatcher import Dispatcher

from claspwright.base import InputError

types: Any = numba.types
TABLE = "kernel_types.toml"
_NUMBERS = ("bool", "uint8", "int8", "int32", "int64", "uint64", "float32", "float64")
_BY_NAME: dict[str, Any] = {name: getattr(types, name) for name in _NUMBERS[1:]}
_BY_NAME["bool"] = types.boolean
_AXES = {"C": (":", "::1"), "F": ("::1", ":"), "A": (":", ":")}  # the first and the last one

Kernels = dict[str, tuple[str, ...]]  # of a module: argument types of each kernel, as texts
Table = dict[str, Kernels]  # by the module's name below `claspwright`


def listed() -> Table:
    """What is compiled at set-up."""
    text = files("claspwright.app").joinpath(TABLE).read_text(encoding="utf-8")
    return {
        module: {kernel: tuple(given) for kernel, given in kernels.items()}
        for module, kernels in tomllib.loads(text).items()
    }


def met() -> Table:
    """What this process has called, and what it has compiled as a part of other kernels."""
    found: Table = {}
    for module in sorted(sys.modules):
        if module.startswith("claspwright.") and module.endswith("_kernels"):
            short = module.removeprefix("claspwright.")
            for name, kernel in _kernels_of(module):
                if kernel.signatures:
                    given = tuple(sorted(text_of(given) for given in kernel.signatures))
                    found.setdefault(short, {})[name] = given
    return found


def compiled_here() -> list[str]:
    """Every kernel with its types that this process did not find in the cache."""
    return [
        f"{module}.{name}{text_of(given)}"
        for module in sorted(sys.modules)
        if module.startswith("claspwright.") and module.endswith("_kernels")
        for name, kernel in _kernels_of(module)
        for given in kernel.stats.cache_misses
    ]


def compile_module(module: str, kernels: Kernels) -> int:
    """Compile kernels of one module for their types, or load them from the cache.

    Args:
        module: its name below `claspwright`.
        kernels: argument types of each of its kernels.

    Returns:
        How many had to be compiled, those that others call not counted; 0 where numba is told
        to compile nothing (NUMBA_DISABLE_JIT).

    Raises:
        InputError: there is no such kernel, or a text is no list of types.
    """
    if numba.config.DISABLE_JIT:
        return 0
    own = dict(_kernels_of(f"claspwright.{module}"))
    compiled = 0
    for name, texts in kernels.items():
        if name not in own:
            raise InputError(
                f"{module} has no kernel {name}", remedy="Run tools/kernel_types.py again."
            )
        for text in texts:
            own[name].compile(types_of(text))
        compiled += sum(own[name].stats.cache_misses.values())
    return compiled


def _kernels_of(module: str) -> Iterator[tuple[str, Any]]:
    """Names and kernels of a module, those in a named tuple as `tuple.field`."""
    for name, value in vars(import_module(module)).items():
        if isinstance(value, Dispatcher):
            if value.py_func.__module__ == module:
                yield name, value
        elif isinstance(value, tuple):
            for field in getattr(value, "_fields", ()):
                if isinstance(getattr(value, field), Dispatcher):
                    yield f"{name}.{field}", getattr(value, field)


def types_of(text: str) -> tuple[Any, ...]:
    """Argument types from their text.

    Raises:
        InputError: the text is no list of types.
    """
    try:
        read = ast.parse(text, mode="eval").body
    except SyntaxError:
        raise _unreadable(text) from None
    if not isinstance(read, ast.Tuple):
        raise _unreadable(text)
    return tuple(_type(element, text) for element in read.elts)


def _type(node: ast.expr, text: str) -> Any:
    """A type from what the parser of Python made of its text; nothing is evaluated."""
    match node:
        case ast.Name(id=name) if name in _BY_NAME:
            return _BY_NAME[name]
        case ast.Tuple(elts=elements):
            return types.Tuple(tuple(_type(element, text) for element in elements))
        case ast.Subscript():
            return _array(node, text)
        case ast.Call(func=ast.Name(id="const"), args=[ast.Subscript() as inner], keywords=[]):
            return _array(inner, text).copy(readonly=True)
    raise _unreadable(text)


def _array(node: ast.Subscript, text: str) -> Any:
    """An array type from `number[axes]`."""
    number = _type(node.value, text)
    axes = node.slice.elts if isinstance(node.slice, ast.Tuple) else [node.slice]
    written = tuple(ast.unparse(axis) for axis in axes)
    for layout in _AXES:
        if written == _axes(len(axes), layout):
            return types.Array(number, len(axes), layout)
    raise _unreadable(text)


def _axes(count: int, layout: str) -> tuple[str, ...]:
    first, last = _AXES[layout]
    return (first,) * (layout == "F") + (":",) * (count - 1) + (last,) * (layout != "F")


def text_of(given: tuple[Any, ...]) -> str:
    """Text of argument types, which `types_of` reads; that of others is numba's own."""
    return f"({', '.join(map(_text, given))}{',' * (len(given) == 1)})"


def _text(one: Any) -> str:
    if isinstance(one, types.Array) and one.aligned:
        plain = f"{_text(one.dtype)}[{', '.join(_axes(one.ndim, one.layout))}]"
        return plain if one.mutable else f"const({plain})"
    if isinstance(one, types.BaseAnonymousTuple):
        return text_of(tuple(one.types))
    return next((name for name, known in _BY_NAME.items() if known == one), repr(one))


def _unreadable(text: str) -> InputError:
    return InputError(
        f"these are no argument types of a kernel: {text[:80]!r}",
        remedy="Write the table with tools/kernel_types.py.",
    )
