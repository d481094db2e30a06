"""Random walks over every registered edit: what must hold holds at every step, and a replay ends the same."""

import contextlib
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.registry import EDITS, apply, decoded, undo_text
from piecewright.errors import EditError
from piecewright.model.design import Design
from tests.core.edit.walking import Walk, assert_kept_by_json, replayed
from tests.core.edit_strategies import ARGUMENTS, LAYING, random_call
from tests.core.strategies import designs, random_design, randoms

STEPS = 4000


def test_every_edit_has_arguments_to_draw() -> None:
    assert set(ARGUMENTS) == set(EDITS)


@settings(max_examples=60, deadline=None)
@given(random=randoms, steps=st.integers(1, 12))
def test_short_walks_stay_sound_and_replay(random: Random, steps: int) -> None:
    walk = Walk(random_design(random))
    for _ in range(steps):
        walk.step(random)
    assert_kept_by_json(walk.design)
    assert replayed(walk.first, walk.journal) == walk.design


def test_a_longer_walk_accepts_every_edit_and_refuses_those_that_lay_blocks() -> None:
    random = Random(20)
    walk = Walk(random_design(random))
    for number in range(STEPS):
        walk.step(random)
        if number % 200 == 0:
            assert_kept_by_json(walk.design)
    assert walk.accepted.keys() == EDITS.keys()
    assert walk.refused.keys() >= set(LAYING)
    assert replayed(walk.first, walk.journal) == walk.design


@settings(max_examples=100, deadline=None)
@given(design=designs(), random=randoms)
def test_calls_name_themselves_and_decode(design: Design, random: Random) -> None:
    call = random_call(random, design)
    assert undo_text(call).text()
    assert set(decoded(call)) == set(EDITS[call.name].arguments.__struct_fields__)


@settings(max_examples=150, deadline=None)
@given(design=designs(), random=randoms)
def test_an_edit_leaves_the_design_before_it_as_it_was(design: Design, random: Random) -> None:
    kept = hash(design), repr(design)
    with contextlib.suppress(EditError):
        apply(design, random_call(random, design))
    assert (hash(design), repr(design)) == kept
