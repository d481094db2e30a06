"""What to do about edges off the thread, and how long those seen in a block lay open."""

from math import hypot

import pytest
from hypothesis import assume, given, settings

from piecewright.errors import PiecewrightError
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.bias_care import bias_care
from piecewright.making.given import Given
from piecewright.making.open_edges import waiting_edges
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.stretch import stretch_of
from tests.core.making.strategies import Sewable, sewable_recipes

GIVEN = Given()


def on_the_bias() -> Recipe:
    strips = [
        {
            "lay": {"fabric": letter, "width": "6 1/2", "length": "6 1/2", "grain": grain},
            "make": letter.lower(),
        }
        for letter, grain in (("A", "bias"), ("B", "crosswise"))
    ]
    sewn = {"sew": ["a", "b"], "axis": "across", "make": "pair"}
    return Recipe.from_plain({"recipe": 1, "name": "Two", "steps": [*strips, sewn], "block": ["pair"]})


def test_outer_edges_come_first_with_all_that_is_to_do() -> None:
    """By hand: a bias square of 6 in finished has three sides on the outside of the block, one in the seam."""
    found = bias_care(facts(on_the_bias(), GIVEN))
    assert [(each.outer, each.count, each.length, each.degrees) for each in found] == [
        (True, 3, 18.0, 45.0),
        (False, 1, 6.0, 45.0),
    ]
    assert str(found[0].sentence) == (
        "3 outer edges of fabric A, 45° off the thread, 18 in long together, finished: lift it by the middle, never by "
        "the edge, starch before cutting, stay-stitch within the allowance and pin it closely."
    )


def test_a_slant_is_pinned_and_pressed_straight_down() -> None:
    (care,) = bias_care(facts(shipped_recipes()["slanted-exchange"], GIVEN))
    assert (care.kinds, care.fabrics, care.outer, care.count) == ((0,), ("A", "B", "C", "D"), False, 8)
    assert str(care.sentence) == (
        "8 inner edges of fabric A, B, C and D, 13.2° off the thread, 16.437 in long together, the longest 2.055 in, "
        "finished: pin it closely and press straight down, not sideways."
    )


@settings(max_examples=40)
@given(sewable_recipes())
def test_every_edge_off_the_thread_is_told_once(sewable: Sewable) -> None:
    try:
        made = facts(sewable.recipe(), GIVEN)
    except PiecewrightError:
        assume(condition=False)
    told = sum(each.length * len(each.kinds) for each in bias_care(made))
    assert told == pytest.approx(sum(float(edge.length) for kind in made.kinds for edge in kind.bias_edges))


@settings(max_examples=40)
@given(sewable_recipes())
def test_edges_seen_in_a_block_wait_as_long_as_edges_like_them(sewable: Sewable) -> None:
    try:
        making = run(sewable.recipe(), GIVEN)
        known = stretch_of(making).exposures
    except PiecewrightError:
        assume(condition=False)
    for kind in facts(sewable.recipe(), GIVEN).kinds:
        for found in waiting_edges(making, kind):
            alike = [
                each
                for each in known
                if each.letter == found.edge.fabric and abs(each.degrees - found.edge.degrees) < 0.001
            ]
            assert found.waits in {each.waits for each in alike}
            assert (found.until is None) <= (found.edge.outer or found.since >= 0)


def test_every_slant_of_the_exchange_is_found_in_the_block() -> None:
    """By hand: each slant waits from the slice, step 6, over one shuffle to the seam, step 8."""
    recipe = shipped_recipes()["slanted-exchange"]
    making = run(recipe, GIVEN)
    for kind in facts(recipe, GIVEN).kinds:
        found = waiting_edges(making, kind)
        assert len(found) == len(kind.bias_edges) > 0
        assert {(each.waits, each.since, each.until) for each in found} == {(1, 5, 7)}
        for each in found:
            (x, y), (to_x, to_y) = each.edge.start, each.edge.end
            assert hypot(float(x - to_x), float(y - to_y)) > ALIKE
