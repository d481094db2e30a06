"""The JSON Schema of a design, read off its classes: what may be written by hand, and where."""

from collections.abc import Mapping
from fractions import Fraction
from inspect import cleandoc
from typing import Any

from msgspec import NODEFAULT, inspect

from piecewright.making.recipe import Recipe
from piecewright.model.codec import to_plain
from piecewright.model.design import Design
from piecewright.model.value import Letters, Sizes

DRAFT = "https://json-schema.org/draft/2020-12/schema"
RECIPE_SCHEMA = "recipe.schema.json"
"""Where the schema of recipes lies, beside that of designs."""

_LENGTH = {
    "type": "string",
    "description": 'An exact length in inches, such as "6 1/2", "6.5" or with a unit "16.5 cm"; a price without a unit.',
    "examples": ["6 1/2", "0.25", "16.5 cm"],
}
_OWN: Mapping[type, dict[str, Any]] = {
    Fraction: {"$ref": "#/$defs/Length"},
    Recipe: {"$ref": RECIPE_SCHEMA},
    Sizes: {"type": "object", "additionalProperties": {"$ref": "#/$defs/Length"}},
    Letters: {
        "type": "object",
        "description": "Fabric ids by letter of the recipe, one for each layer of the stack.",
        "additionalProperties": {"type": "array", "minItems": 1, "items": {"type": "string"}},
    },
}


def design_schema() -> dict[str, Any]:
    """The JSON Schema of a design file's `design.json`. Recipes refer to the schema beside it."""
    kinds: dict[str, Any] = {"Length": _LENGTH}
    top = _schema(inspect.type_info(Design), kinds)
    return {"$schema": DRAFT, "$id": "design.schema.json", "title": "Piecewright design", **top, "$defs": kinds}


def _schema(kind: inspect.Type, kinds: dict[str, Any]) -> dict[str, Any]:
    match kind:
        case inspect.StructType():
            name = kind.cls.__name__
            if name not in kinds:
                kinds[name] = {}
                kinds[name] = _object(kind, kinds)
            return {"$ref": f"#/$defs/{name}"}
        case inspect.CustomType():
            return dict(_OWN[kind.cls])
        case inspect.VarTupleType():
            return {"type": "array", "items": _schema(kind.item_type, kinds)}
        case inspect.LiteralType():
            return {"enum": sorted(kind.values)}
        case inspect.UnionType():
            return {"anyOf": [_schema(member, kinds) for member in kind.types]}
        case _:
            return {"type": _PLAIN[type(kind)]}


_PLAIN: Mapping[type, str] = {
    inspect.StrType: "string",
    inspect.IntType: "integer",
    inspect.BoolType: "boolean",
    inspect.NoneType: "null",
}


def _object(kind: inspect.StructType, kinds: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "description": cleandoc(kind.cls.__doc__ or ""),
        "properties": {field.encode_name: _field(field, kinds) for field in kind.fields},
        "required": [field.encode_name for field in kind.fields if field.required],
        "additionalProperties": False,
    }


def _field(field: inspect.Field, kinds: dict[str, Any]) -> dict[str, Any]:
    found = _schema(field.type, kinds)
    return found if field.default is NODEFAULT else {**found, "default": to_plain(field.default)}
