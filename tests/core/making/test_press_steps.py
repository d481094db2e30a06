"""Pressing decisions written into a recipe: the block is then pressed so, and nothing else of it changes."""

import pytest
from hypothesis import assume, given, settings

from piecewright.errors import PiecewrightError
from piecewright.making.given import Given
from piecewright.making.press_steps import opening, with_presses
from piecewright.making.pressing_plan import plan_of
from piecewright.making.pressing_words import Decision, press_decisions
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from tests.core.making.strategies import Sewable, sewable_recipes

GIVEN = Given()


def written(recipe: Recipe, decisions: tuple[Decision, ...]) -> Recipe:
    return Recipe.from_plain(with_presses(recipe.plain, decisions, run(recipe, GIVEN).outcomes))


@pytest.mark.parametrize("name", shipped_recipes())
def test_the_whole_plan_written_into_the_steps_is_the_plan(name: str) -> None:
    recipe = shipped_recipes()[name]
    plan = plan_of(recipe, GIVEN)
    after = written(recipe, press_decisions(plan))
    again = plan_of(after, GIVEN)
    assert [(seam.seam, seam.toward) for seam in again.seams] == [
        (seam.seam, seam.toward) for seam in plan.seams
    ]
    assert all(seam.fixed or "." in seam.seam.step for seam in again.seams)  # a dot: of a recipe that is used
    assert len(again.clashes) == len(plan.clashes)
    assert written(after, press_decisions(again)) == after


@settings(max_examples=40)
@given(sewable_recipes())
def test_seams_opened_leave_no_clash_and_the_same_block(sewable: Sewable) -> None:
    try:
        plan = plan_of(sewable.recipe(), GIVEN)
    except PiecewrightError:
        assume(condition=False)
    after = written(sewable.recipe(), opening(plan.press_open, sewable.stack))
    again = plan_of(after, GIVEN)
    beyond = [
        one for one in plan.press_open if "." in one.seam.step
    ]  # sewn inside a used recipe: not ours to open
    assert not again.clashes or not plan.press_open or beyond
    assert facts(after, GIVEN).finished == facts(sewable.recipe(), GIVEN).finished


def test_a_later_word_on_one_seam_comes_after_what_presses_them_all() -> None:
    plain = {
        "recipe": 1,
        "name": "Three",
        "steps": [
            {"lay": {"fabric": "A", "width": "2 1/2", "length": "10"}, "make": "a"},
            {"lay": {"fabric": "B", "width": "2 1/2", "length": "10"}, "make": "b"},
            {"lay": {"fabric": "C", "width": "2 1/2", "length": "10"}, "make": "c"},
            {"sew": ["a", "b", "c"], "axis": "down", "make": "set"},
            {"press": {"seam": "set", "toward": "up"}},
        ],
        "block": ["set"],
    }
    one = Decision("set", 1, "open", None)
    after = written(Recipe.from_plain(plain), (one,))
    assert [step["press"] for step in after.plain["steps"][4:]] == [
        {"seam": "set", "toward": "up"},
        {"seam": "set.1", "toward": "open"},
    ]
    assert [seam.toward for seam in plan_of(after, GIVEN).seams] == ["open", "up"]
    every = Decision("set", None, "down", None)
    assert [step["press"] for step in written(after, (every,)).plain["steps"][4:]] == [
        {"seam": "set", "toward": "down"}
    ]
