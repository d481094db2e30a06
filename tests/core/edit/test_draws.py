"""Keeping blocks drawn by chance: one edit adds them all, and their values are what is stored."""

from fractions import Fraction

import pytest

from piecewright.edit.facts_of import facts_of, given_of
from piecewright.edit.ids import new_ids
from piecewright.edit.registry import apply, call
from piecewright.errors import EditError, RecipeError
from piecewright.making.shipped import shipped_recipes
from piecewright.making.wonky import draw
from piecewright.model.codec import from_json, to_json
from piecewright.model.design import Design
from piecewright.model.value import Sizes
from tests.core.files.sample_design import sample_design

RECIPE = shipped_recipes()["wonky-exchange"]


def with_block() -> tuple[Design, str]:
    before = sample_design()
    after = apply(before, call("add-block", name="Wonky", new_recipe=RECIPE))
    return after, new_ids(before, after)[-1]


def test_every_draw_becomes_a_block_of_its_own_with_the_very_block_that_was_shown() -> None:
    design, block = with_block()
    given = given_of(design, design.shelf.blocks[block])
    drawn = draw(RECIPE, given, 7, 3).draws
    kept = apply(design, call("keep-draws", block=block, draws=tuple(Sizes(one.values) for one in drawn)))
    new = new_ids(design, kept)
    assert [kept.shelf.blocks[one].name for one in new] == ["Wonky (2)", "Wonky (3)", "Wonky (4)"]
    again = from_json(to_json(kept))
    for key, one in zip(new, drawn, strict=True):
        assert kept.shelf.blocks[key].draws == Sizes(one.values)
        assert facts_of(again, key) == one.facts
    assert kept.recipes == design.recipes


def test_a_recipe_that_does_not_vary_and_values_out_of_range_are_refused() -> None:
    design, block = with_block()
    plain = design.blocks[0].id
    with pytest.raises(EditError) as refusal:
        apply(design, call("keep-draws", block=plain, draws=(Sizes(),)))
    assert "leaves nothing to chance. Choose a block whose recipe varies." in refusal.value.sentence()
    with pytest.raises((EditError, RecipeError)) as beyond:
        apply(design, call("keep-draws", block=block, draws=(Sizes({"top": Fraction(99)}),)))
    assert "99 in" in beyond.value.sentence()
