"""Recipes that pictures are tested with: the shipped ones, and one that uses every verb in unusual ways."""

from typing import Any

from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from tests.core.making.sample_recipes import SAMPLE_RECIPES

Plain = dict[str, Any]


def _lay(make: str, fabric: str, width: str, length: str, **keys: Any) -> Plain:
    return {"make": make, "lay": {"fabric": fabric, "width": width, "length": length, **keys}}


ODD = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Odd & <ends>",
        "steps": [
            _lay("a", "A", "3", "20", grain="lengthwise"),
            _lay("b", "B", "3", "20"),
            _lay("c", "C", "3", "20", grain="bias"),
            {"make": "set", "sew": ["a", "b", "c"], "axis": "down"},
            {"press": {"seam": "set.1", "toward": "down"}},
            {"press": {"seam": "set.2", "toward": "open"}},
            {"make": "part", "cut": "set", "axis": "across", "every": "4", "count": "fit", "trim": "1/2"},
            {"make": "t", "turn": "part.*", "which": "even", "by": 180},
            {"make": "row", "sew": ["t.*"], "axis": "across"},
            {"press": {"seam": "row", "toward": "out"}},
            {"make": "h", "cut": "row", "axis": "down", "widths": ["2", "3"]},
            {"make": "block", "square": "h.2", "width": "12", "height": "3"},
            {"make": "spare", "turn": "h.1", "by": 90},
        ],
        "block": ["block"],
    }
)

CORNERS = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Corners",
        "stack": 2,
        "steps": [
            _lay("a", "A", "8", "8"),
            {"make": "s", "slice": "a", "from": ["left", "5"], "to": ["top", "5"]},
            {"make": "b", "slice": "s.2", "from": ["right", "3"], "to": ["bottom", "3"]},
            {"make": "x", "shuffle": "b.*", "by": 1},
            {"make": "block", "square": "x.2", "width": "fit", "height": "fit"},
        ],
        "block": ["block"],
    }
)

GOOSE = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Goose",
        "stack": 2,
        "steps": [
            _lay("sky", "A", "4 1/2", "8 1/2"),
            _lay("l", "B", "4 1/2", "4 1/2"),
            _lay("u", "C", "2 1/2", "4 1/2"),
            _lay("v", "D", "2 1/2", "4 1/2"),
            {"make": "r", "sew": ["u", "v"], "axis": "down"},
            {"make": "half", "corner": "sky", "with": "l", "at": "top left"},
            {"make": "goose", "corner": "half", "with": "r", "at": "top right"},
            {"press": {"seam": "goose", "toward": "out"}},
        ],
        "block": ["goose"],
    }
)

HALVES = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Halves",
        "stack": 2,
        "steps": [
            _lay("a", "A", "7 3/4", "7 3/4"),
            _lay("u", "B", "4 1/8", "7 3/4"),
            _lay("v", "C", "4 1/8", "7 3/4"),
            {"make": "b", "sew": ["u", "v"], "axis": "down"},
            {
                "make": "pair",
                "face": ["a", "b"],
                "seams": [
                    {"from": ["top", "0"], "to": ["bottom", "7 3/4"], "beside": "seam"},
                    {"from": ["top", "7 3/4"], "to": ["bottom", "0"], "beside": "seam"},
                ],
            },
            {"make": "row", "cut": "pair", "axis": "down", "into": 2},
            {"make": "quarter", "cut": "row.1", "axis": "across", "into": 2},
            {"make": "half", "slice": "quarter.1", "from": ["top", "0"], "to": ["right", "3 7/8"]},
            {"make": "turned", "turn": "half.*", "by": 90, "which": [1]},
            {"make": "unit", "open": "turned.*"},
            {"press": {"seam": "unit", "toward": "left"}},
            {"make": "square", "square": "unit.*", "width": "3 1/2", "height": "3 1/2"},
            {"make": "c", "lay": {"fabric": "D", "width": "2", "length": "2"}},
            {"make": "kept", "corner": "square.1", "with": "c", "at": "bottom right", "keep": True},
            {"make": "small", "open": "kept.2"},
        ],
        "block": ["kept.1", "square.2"],
    }
)

DIAMONDS = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Diamonds",
        "steps": [
            _lay("a", "A", "2 1/2", "24"),
            _lay("b", "B", "2 1/2", "24"),
            _lay("c", "C", "2 1/2", "24"),
            {"make": "set", "sew": ["a", "b", "c"], "axis": "down", "align": "start", "step": "2"},
            {"make": "d", "cut": "set", "axis": "across", "widths": ["2 1/2", "2 1/2", "4"], "angle": -45},
            {"make": "t", "turn": "d.3", "by": 90},
            {
                "make": "e",
                "cut": "t",
                "axis": "down",
                "every": "1",
                "count": "fit",
                "trim": "1/2",
                "angle": -45,
            },
            {"make": "pair", "sew": ["d.1", "d.2"], "axis": "across", "edge": "cut"},
            {"make": "s", "lay": {"fabric": "D", "width": "2", "length": "14"}},
            {"make": "wide", "sew": ["pair", "s"], "axis": "down", "edge": "cut", "flush": True},
            {"make": "level", "turn": "wide", "level": "left"},
            {"make": "tilted", "turn": "level", "by": 22.5},
            {"make": "block", "square": "tilted", "width": "fit", "height": "fit"},
        ],
        "block": ["block"],
    }
)

RAILS = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Rails",
        "steps": [
            {"make": "one", "use": "rail-fence-of-two", "fabrics": {"A": "C"}},
            {"make": "two", "use": "two-halves-from-thirds", "sizes": {"F": "8"}},
            {"make": "block", "sew": ["one", "two.1"], "axis": "down"},
            {"make": "spare", "turn": "two.2", "by": 180},
            _lay("long", "D", "3", "100", join="diagonal"),
        ],
        "block": ["block"],
    }
)

WAVES = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Waves",
        "steps": [
            _lay("a", "A", "2 1/2", "12"),
            _lay("b", "B", "2 1/2", "12"),
            _lay("c", "C", "2 1/2", "12"),
            {"make": "set", "sew": ["a", "b", "c"], "axis": "down"},
            {"make": "tube", "loop": "set", "axis": "down"},
            {"make": "ring", "cut": "tube", "axis": "across", "widths": ["2", "3", "2 1/2"], "trim": "1/2"},
            {"make": "one", "unpick": "ring.1", "seam": 3},
            {"make": "two", "unpick": "ring.2", "seam": 1},
            {"make": "three", "unpick": "ring.3", "seam": 2},
            {"make": "block", "sew": ["one", "two", "three"], "axis": "across"},
        ],
        "block": ["block"],
    }
)

SPIRAL = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Round a square",
        "steps": [
            _lay("middle", "E", "3", "3"),
            _lay("a", "A", "2 1/2", "5"),
            _lay("b", "B", "2 1/2", "5"),
            _lay("c", "C", "2 1/2", "5"),
            _lay("d", "D", "2 1/2", "5"),
            {"make": "right", "turn": "b", "by": 90},
            {"make": "left", "turn": "d", "by": 270},
            {"make": "one", "sew": ["a", "middle"], "axis": "down", "leave": ["left", "1 1/2"]},
            {"make": "two", "sew": ["one", "right"], "axis": "across"},
            {"make": "turned", "turn": "two", "by": 90},
            {"make": "back", "turn": "turned", "by": 270},
            {"make": "three", "sew": ["back", "c"], "axis": "down"},
            {"make": "four", "sew": ["left", "three"], "axis": "across"},
            {"make": "block", "finish": "four"},
        ],
        "block": ["block"],
    }
)

RECIPES: dict[str, Recipe] = {
    **{name: shipped_recipes()[name] for name in (*SAMPLE_RECIPES, "tilted-checks", "churn-dash")},
    "odd": ODD,
    "corners": CORNERS,
    "spiral": SPIRAL,
    "goose": GOOSE,
    "halves": HALVES,
    "diamonds": DIAMONDS,
    "rails": RAILS,
    "waves": WAVES,
}
