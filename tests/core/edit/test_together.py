"""Several edits as one step: all or none, named by what they are for, and told with the place of what does not fit."""

import json
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.registry import EditCall, apply, call, undo_text
from piecewright.errors import EditError
from piecewright.model.codec import from_plain, read_json, to_json
from piecewright.model.design import Design
from piecewright.words.message import Message
from tests.core.edit.quilts import at, laid
from tests.core.edit_strategies import random_call
from tests.core.strategies import designs, randoms


@settings(max_examples=100, deadline=None)
@given(before=designs(), random=randoms, count=st.integers(0, 4))
def test_together_is_one_after_the_other_or_nothing(before: Design, random: Random, count: int) -> None:
    calls = [
        random_call(random, before, name) for name in ("set-rows", "add-border", "set-sashing", "set-unit")
    ]
    one = call("do-together", edits=tuple(calls[:count]))
    expected: Design | Message = before
    for single in calls[:count]:
        expected = _after(expected, single)
    assert _after(before, one) == expected


def _after(design: Design | Message, wanted: EditCall) -> Design | Message:
    """The design after an edit; the first refusal where there was one."""
    if isinstance(design, Message):
        return design
    try:
        return apply(design, wanted)
    except EditError as refusal:
        return refusal.message


def test_it_is_read_back_as_it_was_written() -> None:
    edits = (call("set-columns", columns=8), call("turn-blocks", cells=at((0, 0)), by=90))
    made = call("do-together", edits=edits, purpose="resize")
    read = from_plain(read_json(to_json(made)), EditCall)
    assert read == made
    before = laid("r.o...")
    assert apply(before, read) == apply(apply(before, edits[0]), edits[1])


def test_the_undo_list_says_what_it_is_for() -> None:
    columns, rows = call("set-columns", columns=8), call("set-rows", rows=9)
    assert (
        undo_text(call("do-together", edits=(columns, rows), purpose="resize")).text() == "Resize the quilt"
    )
    assert undo_text(call("do-together", edits=(columns,))).text() == "Change the number of columns"
    three = call("do-together", edits=(columns, rows, rows))
    assert undo_text(three).text() == "Change the number of columns, and 2 more changes"
    assert undo_text(call("do-together", edits=())).text() == "Make several changes"
    assert undo_text(call("do-together", edits=(three,))).text() == "Make several changes"


@pytest.mark.parametrize(
    ("edits", "sentence"),
    [
        (
            '[{"name": "set-rows", "arguments": {"rows": 4}}, {"name": "set-rows", "arguments": {"rows": "x"}}]',
            'edits[1] set-rows rows: "x" is not a whole number.',
        ),
        ('[{"name": "sing", "arguments": {}}]', 'There is no edit "sing".'),
        ('[{"name": "set-rows"}]', "do-together edits[0]: Missing here: arguments. Add this key."),
        (
            '[{"name": "do-together", "arguments": {"edits": []}}]',
            "Edit 1 is itself several: tell them one by one.",
        ),
    ],
)
def test_what_does_not_fit_is_told_with_its_place(edits: str, sentence: str) -> None:
    made = from_plain({"name": "do-together", "arguments": {"edits": json.loads(edits)}}, EditCall)
    with pytest.raises(EditError) as refusal:
        apply(laid("r....."), made)
    assert refusal.value.sentence() == sentence


def test_a_crowd_of_edits_is_refused() -> None:
    many = (call("set-rows", rows=4),) * 101
    with pytest.raises(EditError, match="101 edits are too many to do as one"):
        apply(laid("r....."), call("do-together", edits=many))
