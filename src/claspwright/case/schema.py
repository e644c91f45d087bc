"""The JSON Schema of the case sheet, as published in the docs."""

from __future__ import annotations

import json

from claspwright.case.model import Sheet
from claspwright.materials import materials


def schema_text() -> str:
    """The schema (2020-12) of version 1 of the sheet, as indented JSON."""
    schema = Sheet.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "Claspwright case sheet, version 1"
    schema["$defs"]["Case"]["properties"]["alloy"]["enum"] = list(materials())
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
