"""A recipe under change by hand: sound again after each way back, and as much in view as still works."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.making.draft import (
    Draft,
    fresh_name,
    insert_step,
    loose_pieces,
    move_step,
    remove_step,
    replace_step,
    turned_further,
)
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.making.suggesting import suggested_step

SHIPPED = sorted(shipped_recipes())
recipes = st.sampled_from(SHIPPED).map(lambda name: shipped_recipes()[name])


@pytest.mark.parametrize("name", SHIPPED)
def test_a_sound_recipe_is_its_own_draft(name: str) -> None:
    recipe = shipped_recipes()[name]
    draft = Draft.of(recipe.plain)
    assert draft.sound == draft.shown == recipe
    assert draft.fault is None
    assert draft.plain == recipe.plain


@given(recipes, st.data())
def test_taking_a_step_out_keeps_what_came_before_in_view_and_putting_it_back_heals(recipe, data) -> None:  # type: ignore[no-untyped-def]
    plain = recipe.plain
    at = data.draw(st.integers(0, len(plain["steps"]) - 1))
    without = Draft.of(remove_step(plain, at))
    making = without.making(Given())
    if without.sound is None:
        assert without.fault is not None
    assert making is None or len(making.outcomes) >= min(at, len(making.recipe.steps))
    healed = Draft.of({**insert_step(without.plain, at, plain["steps"][at]), "block": plain["block"]})
    assert healed.plain["steps"] == plain["steps"]
    assert healed.sound is not None


@given(recipes, st.data())
def test_moving_a_step_there_and_back_is_nothing(recipe, data) -> None:  # type: ignore[no-untyped-def]
    steps = st.integers(0, len(recipe.plain["steps"]) - 1)
    at, to = data.draw(steps), data.draw(steps)
    assert move_step(move_step(recipe.plain, at, to), to, at) == recipe.plain


def test_what_breaks_is_said_at_its_step_and_the_rest_is_shown() -> None:
    plain = shipped_recipes()["middle-end-for-end"].plain
    turn = next(index for index, step in enumerate(plain["steps"]) if "turn" in step)
    draft = Draft.of(remove_step(plain, turn))
    assert draft.fault_step == turn
    assert "middle" in str(draft.fault)
    making = draft.making(Given())
    assert making is not None
    assert len(making.outcomes) == turn


def test_cloth_that_does_not_allow_a_step_stops_there_and_no_earlier() -> None:
    plain = shipped_recipes()["middle-end-for-end"].plain
    cut = next(index for index, step in enumerate(plain["steps"]) if "cut" in step)
    draft = Draft.of(replace_step(plain, cut, {**plain["steps"][cut], "every": "30"}))
    making = draft.making(Given())
    assert making is not None
    assert making.fault is not None
    assert len(making.outcomes) == cut


def test_a_block_can_be_made_up_step_by_step_from_suggestions() -> None:
    plain = {
        "recipe": 1,
        "name": "By hand",
        "steps": [{"make": "strip", "lay": {"fabric": "A", "width": "2 1/2", "length": "13"}}],
        "block": ["strip"],
    }
    for verb in ("lay", "sew", "cut", "sew", "turn", "press"):
        draft = Draft.of(plain)
        assert draft.sound is not None, verb
        pieces = loose_pieces(draft.making(Given()))
        plain = insert_step(plain, len(plain["steps"]), suggested_step(plain, verb, pieces))  # type: ignore[arg-type]
    draft = Draft.of(plain)
    assert draft.sound is not None
    made = facts(draft.sound, Given())
    assert (made.unfinished.width, made.unfinished.height) == (6.5, 8.5)


def test_names_are_fresh() -> None:
    plain = shipped_recipes()["rail-fence-of-two"].plain
    assert fresh_name(plain, "a") == "a2"
    assert fresh_name(plain, "new") == "new"


def test_what_is_kept_of_a_fault_keeps_nothing_else_alive() -> None:
    draft = Draft.of(remove_step(shipped_recipes()["middle-end-for-end"].plain, 0))
    assert draft.fault is not None
    assert draft.fault.__traceback__ is None


def test_a_turned_piece_is_turned_further_and_back_to_what_it_was() -> None:
    plain = shipped_recipes()["cut-turn-sew"].plain
    at = next(index for index, step in enumerate(plain["steps"]) if "cut" in step)
    before = Draft.of({**plain, "steps": plain["steps"][: at + 1]}).making(Given())
    step = suggested_step(plain, "turn", (f"{plain['steps'][at]['make']}.1",), before)
    turned = insert_step(plain, at + 1, step, before)
    assert Draft.of(turned).sound is not None
    assert turned_further(turned, at + 1, 90)["steps"][at + 1]["by"] == 270
    assert turned_further(turned, at + 1, 180) == plain
