"""The schema that is shipped: as the code says, and as strict as the reader where a schema can be."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]  # has no types of its own

import piecewright_data
from piecewright.errors import FileError
from piecewright.files import limits
from piecewright.files.design_file import read_design
from piecewright.making.shipped import shipped_recipes
from piecewright.model.codec import to_plain
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.schema import design_schema
from tests.core.files.random_designs import designs
from tests.core.files.sample_design import sample_design
from tests.tools.write_design_schema import SCHEMA_FILE, schema_text

PAGE = Path(piecewright_data.__path__[0]) / "help" / "design-file.md"
SHIPPED: dict[str, Any] = json.loads(SCHEMA_FILE.read_text("utf-8"))
VALIDATOR = Draft202012Validator(SHIPPED)


def by_hand() -> bytes:
    """The design on the page of documentation, as a reader of the page would copy it."""
    (text,) = re.findall(r"^```json\n(.*?)^```", PAGE.read_text("utf-8"), re.DOTALL | re.MULTILINE)
    assert isinstance(text, str)
    return text.encode()


def test_the_shipped_schema_is_that_of_the_code() -> None:
    assert SCHEMA_FILE.read_text("utf-8") == schema_text()


def test_the_schema_is_a_schema_and_refers_to_nothing_outside_itself() -> None:
    Draft202012Validator.check_schema(SHIPPED)
    references = re.findall(r'"\$ref": "([^"]+)"', SCHEMA_FILE.read_text("utf-8"))
    assert references
    for reference in references:
        part: Any = SHIPPED
        for key in reference.removeprefix("#/").split("/"):
            part = part[key]


def test_every_key_says_what_it_is_for() -> None:
    def check(part: Any) -> None:
        for key, rule in part.get("properties", {}).items():
            assert rule.get("description"), key

    check(design_schema())
    for part in design_schema()["$defs"].values():
        check(part)


def test_the_sample_the_empty_design_and_every_shipped_recipe_are_valid() -> None:
    recipes = tuple(RecipeEntry(f"r{n}", recipe) for n, recipe in enumerate(shipped_recipes().values(), 1))
    for design in (sample_design(), Design("x"), Design("x", recipes=recipes, next_id=len(recipes) + 1)):
        VALIDATOR.validate(to_plain(design))


@settings(max_examples=60)
@given(designs())
def test_every_design_is_valid(design: Design) -> None:
    VALIDATOR.validate(to_plain(design))


def test_the_design_written_by_hand_is_valid_and_opens() -> None:
    plain = json.loads(by_hand())
    VALIDATOR.validate(plain)
    loaded = read_design(by_hand())
    assert loaded.notes == ()
    assert sum(len(row.placements) for row in loaded.design.quilt.rows) == 16
    assert loaded.design.quilt.finished.width == 30


def _changed(place: tuple[str | int, ...], value: object) -> dict[str, Any]:
    plain: dict[str, Any] = json.loads(by_hand())
    inner: Any = plain
    for key in place[:-1]:
        inner = inner[key]
    if value is None:
        del inner[place[-1]]
    else:
        inner[place[-1]] = value
    return plain


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("piecewright",), None),
        (("piecewright",), 2.5),
        (("name",), None),
        (("name",), "  "),
        (("hexagons",), []),
        (("fabrics", 0, "color"), "slate"),
        (("fabrics", 0, "id"), "F1"),
        (("fabrics", 1, "print", "kind"), "paisley"),
        (("fabrics", 1, "print", "scale"), 0.5),
        (("fabrics", 1, "print", "inks"), []),
        (("fabrics", 1, "print", "turn"), 360),
        (("recipes", 0, "recipe", "hexagons"), 1),
        (("recipes", 0, "recipe", "steps", 0, "lay", "width"), 2),
        (("blocks", 0, "fabrics", "A"), []),
        (("blocks", 0, "sizes"), {"F": 6}),
        (("arrangements",), []),
        (("arrangements", 0, "lattice", "columns"), 0),
        (("arrangements", 0, "lattice", "unit"), None),
        (("arrangements", 0, "rows", 0, "placements"), []),
        (("arrangements", 0, "rows", 0, "placements", 0, "turn"), 45),
        (("arrangements", 0, "borders", 0, "first"), "top"),
        (("arrangements", 0, "binding", "fabric"), 3),
        (("settings",), {"yardage": "fifth"}),
        (("next_id",), 0),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses_too(place: tuple[str | int, ...], value: object) -> None:
    plain = _changed(place, value)
    assert not VALIDATOR.is_valid(plain)
    with pytest.raises(FileError):
        read_design(json.dumps(plain).encode())


def test_a_color_in_capitals_is_taken_by_both_and_kept_in_small_letters() -> None:
    plain = _changed(("fabrics", 0, "color"), "#3D5166")
    assert VALIDATOR.is_valid(plain)
    assert read_design(json.dumps(plain).encode()).design.fabrics[0].color == "#3d5166"


def test_the_page_names_the_limits_in_force() -> None:
    page = PAGE.read_text("utf-8")
    megabytes = limits.MEGABYTE
    assert f"| the file | {limits.FILE_BYTES // megabytes} MB |" in page
    parts = f"{limits.DESIGN_PARTS:,}".replace(",", " ")
    assert f"| {limits.DESIGN_BYTES // megabytes} MB, with {parts} lists and objects |" in page
    assert f"| all recipes | {limits.RECIPES_BYTES // 1024} kB |" in page
    assert f"all block sizes | {limits.MOST_OF_A_KIND} each |" in page
    assert (
        f"| {limits.PICTURE_COUNT}, each {limits.PICTURE_BYTES // megabytes} MB and "
        f"{limits.PICTURE_PIXELS // 1_000_000} million pixels, "
        f"all together {limits.PICTURES_BYTES // megabytes} MB |"
    ) in page
