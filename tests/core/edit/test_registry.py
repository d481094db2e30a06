"""Edits as data: read back, checked, merged into one undo step, named; a wrong call is told with its place."""

import json
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit import MODULES
from piecewright.edit.placing import Offset
from piecewright.edit.registry import EDITS, Cell, EditCall, apply, call, edit, merges_with, undo_text
from piecewright.errors import EditError
from piecewright.model.codec import from_plain, read_json, to_json
from piecewright.model.design import Design
from tests.core.edit.quilts import RAILS, at, design, drawn, laid
from tests.core.edit_strategies import random_call
from tests.core.strategies import designs, randoms

MERGING = sorted(name for name, found in EDITS.items() if found.merge is not None)


def test_a_call_is_short_json_that_people_can_read() -> None:
    made = call("turn-blocks", cells=at((2, 1)), by=90)
    assert json.loads(to_json(made)) == {
        "name": "turn-blocks",
        "arguments": {"cells": [{"column": 2, "row": 1}], "by": 90, "together": False},
    }


def test_a_call_written_by_hand_may_leave_defaults_out() -> None:
    text = b'{"name": "place-block", "arguments": {"cell": {"column": 1, "row": 0}, "block": "b11"}}'
    written = from_plain(read_json(text), EditCall)
    assert drawn(apply(design(3, 1), written)) == (".r.",)


@pytest.mark.parametrize(
    ("name", "arguments", "sentence"),
    [
        ("turn-block", "{}", 'There is no edit "turn-block". Did you mean turn-blocks?'),
        ("sing", "{}", 'There is no edit "sing".'),
        (
            "turn-blocks",
            '{"cells": [], "by": 45}',
            "turn-blocks by: 45 is not one of the choices. Choose 90, 180 or 270.",
        ),
        ("turn-blocks", '{"cells": []}', "turn-blocks: Missing here: by. Add this key."),
        (
            "set-columns",
            '{"columns": 3, "att": "left"}',
            'set-columns: A design has no key "att" here. Did you mean at?',
        ),
        (
            "move-blocks",
            '{"cells": [{"column": 1, "row": "x"}], "columns": 1, "rows": 1}',
            'move-blocks cells[0].row: "x" is not a whole number.',
        ),
        (
            "set-target-size",
            '{"width": "60", "height": 72}',
            'set-target-size height: 72 is not a length. Write it in quotation marks: "72".',
        ),
    ],
)
def test_a_wrong_call_is_told_with_its_place(name: str, arguments: str, sentence: str) -> None:
    made = from_plain({"name": name, "arguments": json.loads(arguments)}, EditCall)
    with pytest.raises(EditError) as refusal:
        apply(design(), made)
    assert refusal.value.sentence() == sentence


@settings(max_examples=300, deadline=None)
@given(before=designs(), random=randoms, name=st.sampled_from(MERGING))
def test_a_merged_call_does_what_both_do(before: Design, random: Random, name: str) -> None:
    first = random_call(random, before, name)
    try:
        between = apply(before, first)
        second = random_call(random, between, name)
        after = apply(between, second)
    except EditError:
        return
    merged = merges_with(first, second)
    if merged is not None:
        assert apply(before, merged) == after


def test_nudges_of_one_selection_merge_to_one_path_and_others_do_not() -> None:
    right, down = Offset(1, 0), Offset(0, 1)
    first = call("nudge-blocks", cells=at((0, 0)), path=(right,))
    merged = merges_with(first, call("nudge-blocks", cells=at((1, 0)), path=(down, right)))
    assert merged == call("nudge-blocks", cells=at((0, 0)), path=(right, down, right))
    assert merges_with(first, call("nudge-blocks", cells=at((0, 0)), path=(right,))) is None
    assert merges_with(first, call("move-blocks", cells=at((1, 0)), columns=1, rows=0)) is None
    assert merged is not None
    assert drawn(apply(laid("ro....", "......"), merged)) == ("o.....", "..r...")


def test_values_set_in_a_row_merge_to_the_last() -> None:
    typed = [call("set-name", name=name) for name in ("A", "Ab")]
    assert merges_with(*typed) == typed[1]
    renamed = [call("rename-arrangement", index=index, name="B") for index in (0, 1)]
    assert merges_with(*renamed) is None
    assert merges_with(call("place-block", block=RAILS, cell=Cell(0, 0)), typed[0]) is None


def test_the_undo_list_speaks_plainly() -> None:
    assert undo_text(call("turn-blocks", cells=at((0, 0), (1, 0), (2, 0)), by=90)).text() == "Turn 3 blocks"
    assert undo_text(call("move-blocks", cells=at((0, 0)), columns=1, rows=0)).text() == "Move 1 block"
    assert undo_text(call("add-fabric", name="Plum", color="#5a2340")).text() == "Add the fabric Plum"


def test_every_edit_says_what_it_does() -> None:
    assert {found.function.__module__ for found in EDITS.values()} == {module.__name__ for module in MODULES}
    for name, found in EDITS.items():
        assert found.function.__doc__, name
        assert name == found.function.__name__.replace("_", "-")


def test_no_two_edits_have_one_name() -> None:
    with pytest.raises(ValueError, match="two edits are named turn-blocks"):
        edit("turn-blocks", undo="edit.undo-turn")(lambda made: made)
