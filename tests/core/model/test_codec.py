"""A design as JSON: kept exactly, one text for one value, every fault told with place and repair."""

import json
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]  # has no types of its own

from piecewright.errors import DesignError
from piecewright.model.codec import from_json, from_plain, to_json, to_plain
from piecewright.model.design import Design
from piecewright.model.schema import design_schema
from piecewright.model.value import JsonObject, Value
from tests.core.strategies import designs, random_design, randoms, values

RECIPE = """{"recipe": 1, "name": "Two", "steps": [
    {"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "4 1/2"}},
    {"make": "b", "lay": {"fabric": "B", "width": "2 1/2", "length": "4 1/2"}},
    {"make": "c", "sew": ["a", "b"], "axis": "down"}], "block": ["c"]}"""
SHELF = f"""
    "fabrics": [{{"id": "f1", "name": "Rose", "color": "#aa3344"}}],
    "recipes": [{{"id": "r2", "recipe": {RECIPE}}}],
    "blocks": [{{"id": "b3", "name": "Rails", "recipe": "r2", "fabrics": {{"A": ["f1"]}}}}],
    "next_id": 4"""


def _with_row(row: int, placement: str, more: str = "") -> str:
    """A design with one block on its wall, as text."""
    lattice = '{"unit": "6", "columns": 2, "rows": 2}'
    rows = f'[{{"row": {row}, "placements": [{placement}]}}]'
    quilt = f'{{"name": "A", "lattice": {lattice}, "rows": {rows}}}'
    return f'{{"name": "x", {SHELF}, "arrangements": [{quilt}]{more}}}'


@settings(max_examples=150, deadline=None)
@given(value=values())
def test_values_are_kept_exactly_and_equal_values_give_equal_bytes(value: Value) -> None:
    data = to_json(value)
    read = from_plain(json.loads(data), type(value))
    assert read == value
    assert hash(read) == hash(value)
    assert to_json(read) == data
    assert to_plain(value) == json.loads(data)


@settings(max_examples=60, deadline=None)
@given(design=designs())
def test_the_schema_accepts_every_design(design: Design) -> None:
    Draft202012Validator(design_schema()).validate(to_plain(design))


@settings(max_examples=150, deadline=None)
@given(random=randoms, where=st.floats(0, 1, exclude_max=True), to=st.binary(min_size=1, max_size=3))
def test_a_damaged_design_is_refused_in_words_or_read(random: Random, where: float, to: bytes) -> None:
    data = bytearray(to_json(random_design(random)))
    at = int(where * len(data))
    data[at : at + len(to)] = to
    try:
        read = from_json(bytes(data))
    except DesignError as fault:
        said = fault.sentence()
    else:
        said = "read" if from_json(to_json(read)) == read else ""
    assert said


def test_a_design_written_by_hand_needs_little_and_takes_lengths_as_people_write_them() -> None:
    by_hand = ', "settings": {"usable": "107 cm", "seam": "0.25"}'
    design = from_json(_with_row(0, '{"column": 1, "block": "b3", "turn": 90}', by_hand).encode())
    assert design.settings.usable == Fraction(107 * 50, 127)
    assert design.quilt.rows[0].placements[0].turn == 90
    assert json.loads(to_json(design))["settings"]["seam"] == "1/4"
    Draft202012Validator(design_schema()).validate(to_plain(design))


UNIT_FAULT = (
    'settings.usable: "ells" is not a unit of length. Write in, ft, yd, mm, cm or m, or leave the unit out.'
)
FAULTS = [
    ("{", "Line 1, column 2 is not JSON: Expecting property name enclosed in double quotes."),
    ("[]", "[] is not an object in braces."),
    ('{"name": "x", "name": "y"}', 'The key "name" is there twice in one object. Keep one of them.'),
    ('{"name": "x", "next_id": NaN}', "NaN is not a number that JSON has."),
    ('{"name": "x", "next_id": 1' + "0" * 5000 + "}", "A number has too many digits."),
    ("[" * 100_000, "The JSON is nested too deep to be a design."),
    ("{}", "Missing here: name. Add this key."),
    ('{"name": " "}', "This design has no name."),
    ('{"name": "\\ud800"}', 'The text "\\ud800" holds half a character, which no file can keep.'),
    ('{"name": "x", "fabrcs": []}', 'A design has no key "fabrcs" here. Did you mean fabrics?'),
    ('{"name": "x", "fabrics": {}}', "fabrics: {} is not a list in brackets."),
    ('{"name": "x", "current": "0"}', 'current: "0" is not a whole number.'),
    ('{"name": "x", "current": 1.5}', "current: 1.5 is not a whole number."),
    ('{"name": null}', "name: null is not text in quotation marks."),
    (
        '{"name": "x", "settings": {"yardage": "exactly"}}',
        (
            'settings.yardage: "exactly" is not one of the choices. Choose "eighth", "exact", "half", '
            '"quarter" or "third".'
        ),
    ),
    (
        '{"name": "x", "settings": {"usable": 42}}',
        'settings.usable: 42 is not a length. Write it in quotation marks: "42".',
    ),
    (
        '{"name": "x", "settings": {"usable": "42 ells"}}',
        UNIT_FAULT,
    ),
    (
        '{"name": "x", "settings": {"seam": "-1/4"}}',
        "settings: The seam allowance is -1/4 in; it must be more than 0.",
    ),
    (
        '{"name": "x", "fabrics": [{"id": "f1", "name": "Rose", "color": "pink"}], "next_id": 2}',
        'fabrics[0]: "pink" is no color. Write # and six digits or letters a to f, such as #8c2f39.',
    ),
    (
        '{"name": "x", "fabrics": [{"id": "f1", "name": "Rose", "color": "#aa3344", "picture": "../x.png"}]}',
        'fabrics[0]: "../x.png" is no picture in the design: it must be one file name without folders.',
    ),
    (
        '{"name": "x", "fabrics": [{"id": "rose", "name": "Rose", "color": "#aa3344"}]}',
        'fabrics[0].id: "rose" is no id. An id is one to eight small letters and a number, such as f3.',
    ),
    (
        '{"name": "x", "fabrics": [{"id": "f7", "name": "Rose", "color": "#aa3344"}]}',
        'next_id is 1, but 7 is a number already given. Write "next_id": 8.',
    ),
    ('{"name": "x", "piecewright": 2}', "piecewright: This design has format 2; this program knows 1."),
    (
        _with_row(0, '{"column": 0, "block": "b4"}'),
        'arrangements[0].rows, row 0: There is no block "b4". Add it to the blocks.',
    ),
    (
        _with_row(2, '{"column": 0, "block": "b3"}'),
        "arrangements[0]: A block in column 0 of row 2 (the first are 0) lies outside the 2 x 2 cells.",
    ),
    (
        _with_row(0, '{"column": 0, "block": "b3", "fabrics": {"C": ["f1"]}}'),
        'arrangements[0].rows, row 0: The recipe has no fabric letter "C". Its letters: A and B.',
    ),
    (
        _with_row(0, '{"column": 0, "block": "b3", "fabrics": {"A": "f1"}}'),
        'arrangements[0].rows[0].placements[0].fabrics.A: "f1" is no table of fabrics, such as {"A": ["f1"]}.',
    ),
    (
        _with_row(0, '{"column": 0, "block": "b3", "turn": 45}'),
        "arrangements[0].rows[0].placements[0].turn: 45 is not one of the choices. Choose 0, 90, 180 or 270.",
    ),
]


@pytest.mark.parametrize(("text", "sentence"), FAULTS)
def test_a_fault_is_told_with_place_value_and_repair(text: str, sentence: str) -> None:
    with pytest.raises(DesignError) as refusal:
        from_json(text.encode())
    assert refusal.value.sentence() == sentence


def test_a_fault_in_a_recipe_keeps_its_own_place_below_that_of_the_recipe() -> None:
    with pytest.raises(DesignError) as refusal:
        from_json(b'{"name": "x", "recipes": [{"id": "r1", "recipe": {"recipe": 1, "steps": 3}}]}')
    assert refusal.value.where.startswith("recipes[0].recipe.")


def test_bytes_that_are_no_text_are_told_with_their_place() -> None:
    with pytest.raises(DesignError, match=r"^Byte 11 is not UTF-8 text\. Save the file as UTF-8\.$"):
        from_json(b'{"name": "\xff"}')


def test_a_byte_order_mark_is_no_fault() -> None:
    assert from_json(b'\xef\xbb\xbf{"name": "x"}').name == "x"


def test_a_json_object_is_kept_as_its_text() -> None:
    kept = from_plain({"b": [1, {"a": None}]}, JsonObject)
    assert kept.text == b'{"b":[1,{"a":null}]}'
    assert kept.plain == {"b": [1, {"a": None}]}
    assert kept == JsonObject(kept.text)
    assert hash(kept) == hash(JsonObject(kept.text))
    with pytest.raises(DesignError, match=r"^3 is not an object in braces\.$"):
        from_plain(3, JsonObject)
