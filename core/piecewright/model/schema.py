"""The JSON Schema of a design, read off the classes that read it, with the recipes' own schema inside."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from msgspec import NODEFAULT, inspect

from piecewright.making.recipe import Recipe
from piecewright.making.schema import DRAFT, recipe_schema
from piecewright.model.block import MOST_MADE
from piecewright.model.codec import to_plain
from piecewright.model.design import FORMAT, MOST_ARRANGEMENTS, Design
from piecewright.model.fabric import MOST_INKS
from piecewright.model.forms import MOST_FORMS, MOST_SHEETS
from piecewright.model.limits import LONGEST_NAME
from piecewright.model.note import LONGEST_NOTE, MOST_NOTES
from piecewright.model.quilt import MOST_BORDERS, MOST_CELLS, MOST_GROUP, MOST_LAYERS
from piecewright.model.setting import MOST_PIECES
from piecewright.model.shape import MOST_CORNERS
from piecewright.model.value import Letters, Sizes

IDENTITY = "design.schema.json"

_RECIPE_PARTS = "#/$defs/Recipe/$defs/"
_ID = "^[a-z]{1,8}[1-9][0-9]{0,8}$"
_COLOR = "^#[0-9a-fA-F]{6}$"
_LENGTH = {"$ref": "#/$defs/Length"}
_OWN: Mapping[type, dict[str, Any]] = {
    Fraction: _LENGTH,
    Sizes: {"type": "object", "additionalProperties": _LENGTH},
    Letters: {
        "type": "object",
        "additionalProperties": {"type": "array", "minItems": 1, "items": {"type": "string", "pattern": _ID}},
    },
    Recipe: {"$ref": "#/$defs/Recipe"},
}

_PLAIN: Mapping[type, str] = {
    inspect.StrType: "string",
    inspect.IntType: "integer",
    inspect.BoolType: "boolean",
    inspect.NoneType: "null",
}
_KEYS: Mapping[str, str] = {
    "id": "One to eight small letters and a number, such as f3; no two things of a design share one.",
    "note": "A remark of your own.",
    "Design.piecewright": "The version of the format.",
    "Design.name": "What the quilt is called.",
    "Design.fabrics": "Every fabric the design uses or keeps at hand.",
    "Design.recipes": "The recipes that its blocks are made by.",
    "Design.blocks": "The shelf: each a recipe with its sizes and fabrics.",
    "Design.arrangements": "The quilt, in one or more arrangements to compare.",
    "Design.current": "Which arrangement is in view; the first is 0.",
    "Design.settings": "Your own hands, cloth and shop.",
    "Design.about": "A few words for whoever opens it.",
    "Design.author": "Who designed it.",
    "Design.next_id": "The number of the next id to be given: above every number in use.",
    "Fabric.name": "What you call the fabric.",
    "Fabric.color": "The color of a solid, or of the ground under a print, as #rrggbb.",
    "Fabric.print": "A print that the program draws; left out for a solid.",
    "Fabric.picture": "The file name of a picture in the folder pictures of the design.",
    "Fabric.price": "The price of a yard, in the currency of the settings.",
    "Fabric.width": "The usable width in inches, where it differs from that of the settings.",
    "Fabric.forms": "What the fabric is had in; left out: as much off the bolt as it takes.",
    "Fabric.value": "Light, medium or dark as the quilter sees it; left out: as measured, among the quilt's fabrics.",
    "Form.kind": "The kind of cloth.",
    "Form.count": "How many are on hand, to be used first; null: as many are bought as it takes.",
    "Form.width": "From selvage to selvage; of a strip how wide it is. Left out: as is usual.",
    "Form.length": "Along the selvage; of a strip how long it is. Left out: as is usual.",
    "Form.longest": "Of strips of unlike length the longest; the length is that of the shortest.",
    "Form.lengthwise": "Whether the length of a strip runs along the selvage.",
    "Print.kind": "The kind of print.",
    "Print.inks": "The colors laid on the ground, in order.",
    "Print.scale": "The length of one repeat, in inches.",
    "Print.turn": "Degrees clockwise from the lengthwise thread to the print's own up.",
    "Print.one_way": "Whether the print has an up and a down.",
    "RecipeEntry.recipe": "The recipe, as it also stands alone in a file that ends in .recipe.json.",
    "Block.name": "What the block is called on the shelf.",
    "Block.recipe": "The id of its recipe.",
    "Block.sizes": "Sizes of the recipe by name; one left out has the recipe's first choice.",
    "Block.fabrics": "For each letter of the recipe the ids of its fabrics, one for each layer of the stack.",
    "Block.draws": "What a recipe that varies has drawn, by name.",
    "Block.favorite": "Whether the shelf shows it first.",
    "Block.made": "How many are sewn so far.",
    "Quilt.name": "What this arrangement is called.",
    "Quilt.lattice": "The grid that the blocks lie in.",
    "Quilt.rows": "The rows of the grid in which blocks begin, from the top; a row without any is left out.",
    "Quilt.borders": "The borders, from the inside out.",
    "Quilt.binding": "The binding.",
    "Quilt.backing": "The backing.",
    "Quilt.batting": "The batting.",
    "Quilt.sashing": "The strips between the blocks; null for none.",
    "Quilt.triangles": "The setting triangles, on point.",
    "Quilt.notes": "Notes pinned to the wall; part of nothing that is made.",
    "Quilt.shape": "What the sewn cloth is cut to; null for a whole quilt.",
    "Shape.kind": "One of the shapes that are offered; null for a polygon of its own.",
    "Shape.sizes": "The sizes of that shape that differ from the usual ones.",
    "Shape.corners": "The corners of a polygon of its own, in order; its box begins at 0, 0.",
    "Shape.margin": "How far cloth has to reach beyond it, in inches.",
    "Corner.x": "Inches from the left of the box.",
    "Corner.y": "Inches from the top of the box.",
    "Note.text": "What the note says.",
    "Note.across": "How far right of the top left of the quilt's center it is pinned; less than 0 to the left of it.",
    "Note.down": "How far below the top left of the quilt's center it is pinned; less than 0 above it.",
    "Quilt.coping": "The id of the fabric of coping strips that fill what the blocks leave free; null to leave it.",
    "Sashing.fabric": "The id of its fabric.",
    "Sashing.columns": "The finished width of the strips between columns; 0 for none.",
    "Sashing.rows": "The finished width of the strips between rows; 0 for none.",
    "Sashing.cornerstones": "The id of the fabric of the squares where strips cross; null for none.",
    "Sashing.long": "Without cornerstones, between which the strips run from edge to edge.",
    "Sashing.outside": "Whether strips also lie round all the blocks.",
    "Triangles.fabric": "The id of their fabric; null while it is not chosen.",
    "Triangles.float": "How far the points of the outer blocks stay inside the edge of the center.",
    "Triangles.allowance": "Whether squares are cut as charts have it, or only as large as they must be.",
    "Triangles.spare": "Added to the side of each square.",
    "Triangles.step": "To what part of an inch squares are rounded up.",
    "Lattice.unit": "The finished side of a cell; every block finishes at a whole number of them.",
    "Lattice.columns": "How many cells across; on point, how many spaces, corner to corner.",
    "Lattice.rows": "How many cells down; on point, how many spaces, corner to corner.",
    "Lattice.kind": "The setting.",
    "Lattice.space_columns": "How many cells wide a space is; sashing runs round spaces.",
    "Lattice.space_rows": "How many cells high a space is.",
    "Row.row": "The number of the row; the top one is 0.",
    "Row.placements": "The blocks whose top left cell lies in this row, from left to right.",
    "Placement.column": "The column of the block's top left cell; the leftmost is 0.",
    "Placement.block": "The id of the block.",
    "Placement.turn": "How far the block is turned, in degrees clockwise.",
    "Placement.kind": "Which of the unlike blocks that one making gives; the first is 0.",
    "Placement.layer": "Which layer of the stack it comes from; the top one is 0.",
    "Placement.fabrics": "Fabrics of this one block, for all letters or some, in place of the shelf's.",
    "Placement.locked": "Whether the block stays where it lies, as it lies, whatever is moved or arranged round it.",
    "Placement.group": "Blocks of one number are selected, moved and turned together; 0: of no group.",
    "Border.fabric": "The id of its fabric.",
    "Border.width": "Its finished width.",
    "Border.grain": "Whether its strips are cut from selvage to selvage, or along the selvage in one piece.",
    "Border.first": "Which pair is sewn on first; it ends at the corners, which the other pair covers.",
    "Border.corners": "How it ends at the corners.",
    "Border.corner": "The id of the fabric of corner squares; null for that of the border.",
    "Border.spare": "Added to the length of each strip of a mitered border.",
    "Border.pieced": "What it is pieced of; null where it is of one fabric.",
    "Pieced.length": "How long a piece finishes along the border.",
    "Pieced.fabrics": "The ids of the fabrics of the pieces, in turn.",
    "Pieced.block": "The id of a block instead.",
    "Pieced.turn": "How far the block is turned in the top border, in degrees clockwise.",
    "Binding.fabric": "The id of its fabric; null while it is not chosen.",
    "Binding.width": "The cut width of the binding strips.",
    "Binding.cut": "Strips from selvage to selvage, or one continuous strip from a bias square.",
    "Binding.join": "How strips are joined end to end.",
    "Binding.seam": "The allowance of a straight join, and of the two seams of a bias square.",
    "Binding.extra": "Counted beyond the way round, for the corners and the closing.",
    "Sleeve.depth": "How deep the sleeve is, as seen.",
    "Sleeve.hem": "What is turned under at each end.",
    "Label.width": "Its width once the edges are turned under.",
    "Label.height": "Its height once the edges are turned under.",
    "Backing.fabric": "The id of its fabric; null while it is not chosen.",
    "Backing.overage": "Added to the quilt's width and height, both sides together.",
    "Backing.seam": "The allowance of a seam between two panels.",
    "Backing.lie": "Which way whole widths lie; least: whichever takes less cloth.",
    "Backing.pieced": "Whether the last panel may be a strip that is pieced of strips.",
    "Backing.sleeve": "A sleeve to hang the quilt by, cut from the backing's fabric; null for none.",
    "Backing.label": "A label, cut from the backing's fabric; null for none.",
    "Batting.overage": "Added to the quilt's width and height, both sides together.",
    "Settings.seam": "The seam allowance.",
    "Settings.three_strips": "What three strips cut 2 1/2 in wide measure when sewn: 6 1/2 if perfect.",
    "Settings.usable": "The usable width of cloth.",
    "Settings.trim_first": "What is trimmed off the first end of a strip set.",
    "Settings.trim_again": "What is trimmed off to true the set again.",
    "Settings.trim_every": "After how many cuts it is trued again.",
    "Settings.yardage": "How lengths to buy are rounded up: to this part of a yard.",
    "Settings.margin": "Added to each length to buy, before it is rounded.",
    "Settings.currency": "The sign or word of the currency.",
    "Settings.lengths": "How sizes that may well be larger are rounded up: to this part of an inch.",
    "Settings.shrinkage": "What washing and quilting take.",
    "Settings.bundles": "What a bundle holds.",
    "Settings.country": "Whose mattresses and packages of batting are meant.",
    "Settings.drop": "What hangs over each side and the foot of a bed.",
    "Settings.tuck": "What goes under the pillows.",
    "Settings.oversize": "Added to the squares that pieces with bias edges are cut from, to be trimmed once sewn.",
    "Shrinkage.cloth": "Percent that cloth loses in length when it is washed before it is cut.",
    "Shrinkage.batting": "Percent that batting loses when it is washed before it is laid in.",
    "Shrinkage.take_up": "Percent that quilting and the first wash take of the quilt.",
    "Shrinkage.way": "Whether enough is bought that the wanted length is left, or so many percent more.",
    "Bundles.quarter_width": "The width of a fat quarter.",
    "Bundles.quarter_length": "The length of a fat quarter; that of a fat eighth is half of it.",
    "Bundles.roll": "How many strips a strip roll has.",
    "Bundles.squares": "How many squares a bundle of squares has.",
}
_RULES: Mapping[str, dict[str, Any]] = {
    "id": {"pattern": _ID},
    "name": {"minLength": 1, "maxLength": LONGEST_NAME, "pattern": r"\S"},
    "Design.piecewright": {"const": FORMAT},
    "Design.arrangements": {"minItems": 1, "maxItems": MOST_ARRANGEMENTS},
    "Design.current": {"minimum": 0, "maximum": MOST_ARRANGEMENTS - 1},
    "Design.next_id": {"minimum": 1},
    "Fabric.color": {"pattern": _COLOR},
    "Print.inks": {"minItems": 1, "maxItems": MOST_INKS, "items": {"type": "string", "pattern": _COLOR}},
    "Fabric.forms": {"maxItems": MOST_FORMS},
    "Form.count": {"minimum": 1, "maximum": MOST_SHEETS},
    "Print.turn": {"minimum": 0, "maximum": 359},
    "Lattice.columns": {"minimum": 1, "maximum": MOST_CELLS},
    "Lattice.rows": {"minimum": 1, "maximum": MOST_CELLS},
    "Lattice.space_columns": {"minimum": 1, "maximum": MOST_CELLS},
    "Lattice.space_rows": {"minimum": 1, "maximum": MOST_CELLS},
    "Pieced.fabrics": {"maxItems": MOST_PIECES},
    "Row.row": {"minimum": 0, "maximum": MOST_CELLS - 1},
    "Row.placements": {"minItems": 1},
    "Placement.column": {"minimum": 0, "maximum": MOST_CELLS - 1},
    "Placement.kind": {"minimum": 0, "maximum": MOST_LAYERS - 1},
    "Placement.layer": {"minimum": 0, "maximum": MOST_LAYERS - 1},
    "Quilt.borders": {"maxItems": MOST_BORDERS},
    "Quilt.notes": {"maxItems": MOST_NOTES},
    "Shape.corners": {"maxItems": MOST_CORNERS},
    "Note.text": {"minLength": 1, "maxLength": LONGEST_NOTE, "pattern": r"\S"},
    "Placement.group": {"minimum": 0, "maximum": MOST_GROUP},
    "Block.made": {"minimum": 0, "maximum": MOST_MADE},
}


def design_schema() -> dict[str, Any]:
    """The JSON Schema of a design. The program's own reader also checks what no schema can say."""
    parts = dict[str, dict[str, Any]]()
    _schema(inspect.type_info(Design), parts)
    top = parts.pop("Design")
    top["required"] = ["piecewright", *top["required"]]
    recipe = _with_references(recipe_schema())
    for key in ("$schema", "$id"):
        del recipe[key]
    shared = {"Length": recipe["$defs"]["Length"], "Recipe": {**recipe, "title": "Recipe"}}
    return {
        "$schema": DRAFT,
        "$id": IDENTITY,
        "title": "Piecewright design",
        **top,
        "$defs": {**shared, **parts},
    }


def _schema(kind: inspect.Type, parts: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """The schema of a type; that of a class is put into `parts` and referred to."""
    match kind:
        case inspect.StructType():
            name = kind.cls.__name__
            if name not in parts:
                parts[name] = {}
                parts[name] = _object(name, kind, parts)
            return {"$ref": f"#/$defs/{name}"}
        case inspect.CustomType():
            return dict(_OWN[kind.cls])
        case inspect.VarTupleType():
            return {"type": "array", "items": _schema(kind.item_type, parts)}
        case inspect.LiteralType():
            return {"enum": sorted(kind.values)}
        case inspect.UnionType():
            return {"anyOf": [_schema(member, parts) for member in kind.types]}
        case _:
            return {"type": _PLAIN[type(kind)]}


def _object(name: str, kind: inspect.StructType, parts: dict[str, dict[str, Any]]) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {field.encode_name: _key(name, field, parts) for field in kind.fields},
        "required": [field.encode_name for field in kind.fields if field.required],
        "additionalProperties": False,
    }


def _key(name: str, field: inspect.Field, parts: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """A key's schema with its rules, its default and what it means."""
    key, place = field.encode_name, f"{name}.{field.encode_name}"
    default = {} if field.default is NODEFAULT else {"default": to_plain(field.default)}
    text = _KEYS.get(place) or _KEYS[key]
    return {
        **_schema(field.type, parts),
        **_RULES.get(key, {}),
        **_RULES.get(place, {}),
        **default,
        "description": text,
    }


def _with_references(schema: Any) -> Any:
    """A copy of the recipes' schema whose references hold where it stands in that of designs."""
    if isinstance(schema, list):
        return [_with_references(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    moved = {key: _with_references(value) for key, value in schema.items()}
    if isinstance(moved.get("$ref"), str):
        whole = moved["$ref"] == "#"  # a recipe inside a recipe
        moved["$ref"] = _OWN[Recipe]["$ref"] if whole else moved["$ref"].replace("#/$defs/", _RECIPE_PARTS)
    return moved
