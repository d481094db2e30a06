"""A stranger's recipe is safe to open: what asks for more than any block needs is refused, at the same step always."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import PiecewrightError
from piecewright.making.given import Given
from piecewright.making.limits import MOST_NESTED, MOST_PATCHES, MOST_WORK
from piecewright.making.recipe import read_recipe
from piecewright.making.run import attempt, facts, forget_makings
from piecewright.making.shipped import shipped_recipes
from tests.core.making.hostile import HOSTILE, Plain, grid, nested, whole
from tests.core.making.recipe_spoiling import spoiled_recipes


def said(plain: Plain) -> str:
    """The sentence that opening and making a recipe ends in; nothing where a block comes out."""
    try:
        facts(read_recipe(json.dumps(plain).encode()), Given())
    except PiecewrightError as fault:
        return fault.sentence()
    return ""


REFUSED = {
    "strips by the hundred": "are more than one step may have",
    "cut in thousands": "steps[61]: To here this making is more work than any block needs, so it stops. Lay",
    "turned on and on": "making is more work than any block needs",
    "used on and on": "making is more work than any block needs",
    "slanted cuts by the hundred": "steps[63]: To here this making is more work than any block needs",
    "the finest square": "steps[14]: To here this making is more work than any block needs",
    "recipes in recipes": "steps[0].use: Recipes use recipes here more than 8 deep.",
    "fine fractions": "steps[1].lay.width: Together the lengths to here are told more finely",
    "deep layers": "12100 patches are more than one step may have (10000).",
    "parts by name": "8000 parts are more than a table holds (2000).",
    "near words": "is longer than the 60 letters that a name may have.",
    "a thousand varied names": "vary: 1000 names vary; 40 are the most.",
}


@pytest.mark.parametrize("trap", REFUSED)
def test_a_trap_is_refused_in_one_sentence_the_same_each_time(trap: str) -> None:
    sentence = said(HOSTILE[trap])
    assert REFUSED[trap] in sentence
    assert len(sentence) < 400
    forget_makings()
    assert said(HOSTILE[trap]) == sentence


@pytest.mark.parametrize("name", ["a thousand steps", "long sums"])
def test_a_long_making_that_handles_little_is_made(name: str) -> None:
    assert said(HOSTILE[name]) == ""


def test_recipes_may_lie_as_deep_as_the_limit_says() -> None:
    assert said(nested(MOST_NESTED)) == ""
    assert "more than 8 deep" in said(nested(MOST_NESTED + 1))


def test_names_for_lengths_are_counted_together() -> None:
    strip = {"make": "block", "lay": {"fabric": "A", "width": "3", "length": "3"}}
    lets = {f"x{number}": "1" for number in range(200)}
    assert said(whole([strip], let=lets)) == ""
    assert said(whole([strip], let=lets, sizes={"F": ["6"]})) == (
        "This has 201 names for lengths; 200 are the most."
    )


def test_a_batch_of_more_patches_than_can_be_shown_is_refused() -> None:
    shuffled = [{"make": "t", "shuffle": "c.*", "which": "even", "by": 1}]
    assert said(grid(10, 10, shuffled, stack=99)) == ""
    sentence = said(grid(11, 11, shuffled, stack=100))
    assert sentence == (
        f"block: 12100 patches are more than one step may have ({MOST_PATCHES}). "
        "Lay fewer strips, cut fewer parts, or take steps out."
    )


@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_shipped_recipes_take_a_tenth_of_the_work_allowed_at_most(name: str) -> None:
    assert attempt(shipped_recipes()[name], Given()).table.work * 10 < MOST_WORK


@given(spoiled_recipes(), st.data())
def test_of_a_spoiled_making_only_a_fault_escapes_and_its_work_is_bounded(
    plain: Plain, data: st.DataObject
) -> None:
    for step in plain.get("steps", []) if isinstance(plain.get("steps"), list) else []:
        if isinstance(step, dict) and "count" in step:
            step["count"] = data.draw(st.sampled_from([1, 2, 50, 1999, 2001, "fit"]))
        if isinstance(step, dict) and "into" in step:
            step["into"] = data.draw(st.sampled_from([1, 3, 99, 2000]))
    assert (said(plain) or "made").isprintable()
    try:
        making = attempt(read_recipe(json.dumps(plain).encode()), Given())
    except PiecewrightError:
        return
    assert making.table.work <= MOST_WORK
