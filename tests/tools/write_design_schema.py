"""Write the JSON Schema of designs anew: `python -m tests.tools.write_design_schema`."""

import json
from pathlib import Path

import piecewright_data
from piecewright.model.schema import IDENTITY, design_schema

SCHEMA_FILE = Path(piecewright_data.__path__[0]) / "schema" / IDENTITY


def schema_text() -> str:
    """The schema as it is shipped."""
    return json.dumps(design_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SCHEMA_FILE.write_text(schema_text(), "utf-8")
