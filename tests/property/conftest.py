"""The toy arch of the unit tests, for laws as well."""

from __future__ import annotations

import importlib.util
from pathlib import Path

_SPEC = importlib.util.spec_from_file_location(
    "toy_of_unit_tests", Path(__file__).resolve().parents[1] / "unit" / "conftest.py"
)
assert _SPEC is not None and _SPEC.loader is not None
_TOY = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(_TOY)

toy_arch = _TOY.toy_arch
toy_spans = _TOY.toy_spans
toy_survey = _TOY.toy_survey
