"""The JSON Schema of recipes, read off the classes that read them: what may be written by hand, and where."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import msgspec

from piecewright.making.expressions import MOST_CHARACTERS, RESERVED
from piecewright.making.lengths import UNITS
from piecewright.making.recipe import VERSION, Text
from piecewright.making.used import UsedRecipe
from piecewright.making.verbs import VERBS

DRAFT = "https://json-schema.org/draft/2020-12/schema"
IDENTITY = "recipe.schema.json"

_NAME = "[A-Za-z][A-Za-z0-9_]*"
_PIECE_NAME = f"^(?!({'|'.join(UNITS)})$){_NAME}$"
_LENGTH_NAME = f"^(?!({'|'.join((*UNITS, *RESERVED))})$){_NAME}$"

_OWN: Mapping[str, dict[str, Any]] = {
    "Length": {
        "type": "string",
        "minLength": 1,
        "maxLength": 100,
        "description": "An exact length in inches, or with one of the units in, cm, mm, yd.",
        "examples": ["2 1/2", "13", "0.75", "3/8", "6.5 cm", "10 mm", "1/4 yd"],
    },
    "Expression": {
        "type": "string",
        "minLength": 1,
        "maxLength": MOST_CHARACTERS,
        "description": "A length, or a sum over names with + - * / ( ); a mixed number binds tightest.",
        "examples": ["2 1/2", "F + 2*seam", "(F + 3/2) / 3"],
    },
}

_TABLES: Mapping[str, str] = {
    "recipe": "The version of the format.",
    "name": "What the block is called.",
    "about": "What is special about this block, in a sentence or two.",
    "note": "A remark for whoever reads or sews it.",
    "sizes": "Names with their choices, first the default; any may be overridden in use.",
    "vary": "Names drawn anew for each block, from, to and by step; not drawn, a name has the value of from.",
    "let": "Names worked out, in order, from earlier names.",
    "seam": "The seam allowance; left out, the design's is used.",
    "stack": "Layers handled together, layer 0 on top; one block for each layer comes out.",
    "steps": "What the hands do, in order; each step has exactly one verb.",
    "block": 'The pieces that are blocks when all steps are done; "name.*" stands for all parts of a name.',
    "finished": "The finished width and height that must come out.",
}
_RULES: Mapping[str, dict[str, Any]] = {
    "Cut": {
        "oneOf": [{"required": ["every"]}, {"required": ["widths"]}, {"required": ["into"]}],
        "dependentRequired": {"every": ["count"], "count": ["every"], "step": ["into"]},
    },
    "Turn": {"oneOf": [{"required": ["by"]}, {"required": ["level"]}]},
}
_KEYS: Mapping[str, str] = {
    "make": "The name of what this step makes.",
    "Vary.from": "The least value, and the value where nothing is drawn.",
    "Vary.to": "The greatest value.",
    "Vary.step": "The distance between two values.",
    "Lay.lay": "The cloth to lay, one strip for each layer of the stack.",
    "Strip.fabric": "The fabric's letter.",
    "Strip.width": "The cut width, along y.",
    "Strip.length": "The cut length, along x.",
    "Strip.grain": "The lengthwise thread: across the strip (the default), along it, or at 45 degrees.",
    "Strip.join": "How pieces are joined end to end where the strip is longer than the cloth is wide.",
    "Strip.least": "Whether the length is a minimum.",
    "Sew.sew": "The pieces in order, two or more.",
    "axis": "down: below one another; across: side by side.",
    "Cut.axis": "across: cuts from the left, standing upright; down: cuts from the top, lying level.",
    "Sew.align": "Which ends are even where edges differ in length; without it they must be alike.",
    "Sew.step": "Each further piece moves by this much along the seam.",
    "Sew.match": "points: the edges are sides of slices, and seams running into them meet.",
    "Sew.edge": "cut: the seams run along the edges that the last slice or leaning cut made, whatever way they run.",
    "Sew.flush": "Whether what sticks out beyond the sides of the first piece is trimmed off.",
    "Sew.leave": "A partial seam: the side at whose end it stays open, and for what length; finish closes it.",
    "which": "Which parts of a wildcard are meant.",
    "Cut.cut": "The piece to cut.",
    "Cut.every": "The width of each part; goes with count.",
    "Cut.count": 'How many parts, or "fit" for as many as the cloth gives.',
    "Cut.widths": "The widths of the parts, in order.",
    "Cut.into": "How many equal parts.",
    "Cut.step": "With into: round each part down to a whole number of these.",
    "Cut.trim": "Cut off first, to true the end.",
    "Cut.angle": "Degrees by which the cuts lean, clockwise from square to the axis; widths are square to the cut.",
    "Slice.slice": "The piece to slice.",
    "Slice.from": "Where the cut begins: a side, and the distance from the left or the top.",
    "Slice.to": "Where the cut ends, on another side.",
    "Turn.turn": "The piece to turn, or all parts by a wildcard.",
    "Turn.by": "Degrees, clockwise: more than 0, less than 360.",
    "Turn.level": "In place of by: the side on which the edge cut last, or else the slanted one, comes to lie level.",
    "Turn.layers": "Only these layers of the stack.",
    "Shuffle.shuffle": "The pile to shuffle, or all parts by a wildcard.",
    "Shuffle.by": "How many top layers go to the bottom.",
    "Square.square": "The piece to trim, or all parts by a wildcard.",
    "Square.width": 'The width to trim to, or "fit" for the largest rectangle.',
    "Square.height": 'The height to trim to, or "fit" with width.',
    "Square.from": "What stays: the centre of the piece's box, or a corner.",
    "Square.step": 'With "fit": sizes are whole numbers of these.',
    "Square.shape": 'With "fit": the largest square.',
    "Corner.corner": "The piece.",
    "Corner.with": "The square that is sewn on.",
    "Corner.at": "The corner of the piece that it is sewn over.",
    "Corner.keep": "Whether the pair cut off is sewn too, one allowance beyond the cut, and kept as the second part.",
    "Face.face": "The piece that lies face up, and the one that is laid face down on it.",
    "Face.seams": "The lines to sew on.",
    "SewnLine.from": "Where the line begins: a side, and the distance from the left or the top.",
    "SewnLine.to": "Where the line ends, on another side.",
    "SewnLine.beside": "Sewn this far from the line, on both its sides; without it, on the line.",
    "Open.open": "The piece to open, or all parts by a wildcard.",
    "Loop.loop": "The piece to sew into a tube, or all parts by a wildcard.",
    "Loop.axis": "Which ends are sewn together: down: top and bottom; across: left and right.",
    "Unpick.unpick": "The tube to open, or all parts by a wildcard.",
    "Unpick.seam": "Which of the seams right across it, from the top or the left; the tube's own seam is the last.",
    "Finish.finish": "The piece with a partial seam, or all parts by a wildcard.",
    "Use.use": "The recipe: the name of one that ships, or a whole recipe.",
    "Use.sizes": "Its sizes, worked out from the names of this recipe; those left out have their first choice.",
    "Use.fabrics": "Which letter of this recipe stands for which of its own; those left out keep theirs.",
    "Press.press": "Which seam, and where to.",
    "Pressing.seam": 'A sewing step\'s name for all its seams, or "name.2" for its second.',
    "Pressing.toward": "Where the allowances lie, in the frame of the sewing step.",
    "Pressing.layers": "Only these layers of the stack.",
    **{f"Text.{key}": text for key, text in _TABLES.items()},
}


def recipe_schema() -> dict[str, Any]:
    """The JSON Schema of a recipe. The program's own reader also checks what no schema can say."""
    kinds = [Text, *(verb.step for verb in VERBS.values())]
    _, found = msgspec.json.schema_components(kinds, schema_hook=_own_schema, ref_template="#/$defs/{name}")
    parts = {name: _finish(name, part) for name, part in found.items()}
    top = parts.pop("Text")
    top["properties"] |= {"recipe": {"const": VERSION, "description": _TABLES["recipe"]}}
    steps = [_reference(verb.step.__name__) for verb in VERBS.values()]
    top["properties"]["steps"]["items"] = {"oneOf": steps}
    for table in ("sizes", "vary", "let"):
        top["properties"][table]["propertyNames"] = {"pattern": _LENGTH_NAME}
    title = {"$schema": DRAFT, "$id": IDENTITY, "title": "Piecewright recipe"}
    return {**top, **title, "$defs": {**_OWN, **parts}}


def _own_schema(kind: type) -> dict[str, Any]:
    if kind is UsedRecipe:
        return {"anyOf": [{"type": "string", "minLength": 1}, {"$ref": "#"}]}
    return _reference("Length" if kind is Fraction else "Expression")


def _reference(name: str) -> dict[str, Any]:
    return {"$ref": f"#/$defs/{name}"}


def _finish(name: str, part: dict[str, Any]) -> dict[str, Any]:
    """An object's schema without null, which recipes do not have, and with every key described."""
    keys = {key: _finish_key(name, key, value) for key, value in part["properties"].items()}
    return {**part, "properties": keys, **_RULES.get(name, {})}


def _finish_key(name: str, key: str, value: dict[str, Any]) -> dict[str, Any]:
    described = {"description": _KEYS.get(f"{name}.{key}") or _KEYS.get(key) or _TABLES[key]}
    choices = [choice for choice in value.get("anyOf", ()) if choice != {"type": "null"}]
    kept = {word: rule for word, rule in value.items() if word not in ("anyOf", "default")}
    if value.get("default"):
        kept["default"] = value["default"]
    if key in ("make", "fabric"):
        kept["pattern"] = _PIECE_NAME
    if len(choices) > 1:
        kept["anyOf"] = choices
    return {**(choices[0] if len(choices) == 1 else {}), **kept, **described}
