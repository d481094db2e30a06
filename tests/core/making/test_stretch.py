"""Open bias edges: how long they lie, and the order of steps that keeps that least."""

from collections.abc import Sequence
from math import hypot

import pytest
from hypothesis import assume, given

from piecewright.errors import MakingError
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.stretch import Stretch, stretch_of, stretch_sentences
from tests.core.making.building import Plain, cut, lay, sew, shuffle, sliced, square, turn
from tests.core.making.strategies import Sewable, sewable_recipes

GIVEN = Given()


def recipe(steps: Sequence[Plain], block: str, stack: int = 1) -> Recipe:
    return Recipe.from_plain(
        {"recipe": 1, "name": "Any", "stack": stack, "steps": list(steps), "block": [block]}
    )


def stretch(found: Recipe) -> Stretch:
    return stretch_of(run(found, GIVEN))


def test_a_slice_lies_open_until_its_parts_are_sewn() -> None:
    """By hand: a slant of 2 in over 8 1/2 in, on both parts of both layers, waits for one shuffle."""
    found = stretch(shipped_recipes()["slanted-exchange"])
    assert {(each.since, each.until, each.waits, each.ended) for each in found.exposures} == {
        (5, 7, 1, "sewn")
    }
    assert sum(each.length for each in found.exposures) == pytest.approx(4 * hypot(2, 8.5))
    assert {round(each.degrees, 2) for each in found.exposures} == {13.24}
    assert found.is_soonest
    said = "9.246 in of edges of fabric A, 13.24° off the thread, cut in step 6, lie open for 1 step until step 8 sews"
    assert str(stretch_sentences(found)[0]) == f"{said} them."


SLANTED = {
    *("braid", "hourglass", "leaning-checkerboard", "mitered-rails", "slanted-exchange", "string-block"),
    *("squares-on-point-in-a-band", "strip-let-in", "three-slanted-parts", "tilted-checks"),
    *("triangles-from-a-tube", "triangles-two-at-a-time", "wonky-four-patch"),
    *("wonky-halves", "wonky-log-cabin", "zigzag-columns"),
}
"""Recipes that slice or cut at a slant and sew it later; as drawn first, the wonky exchange is cut straight."""


@pytest.mark.parametrize("name", sorted(SLANTED))
def test_every_slanted_recipe_has_open_bias_and_no_order_is_worse(name: str) -> None:
    found = stretch(shipped_recipes()[name])
    assert found.exposures
    assert all(each.degrees >= 2 and each.length > 0 for each in found.exposures)
    assert found.order.cost <= found.given_cost


@pytest.mark.parametrize("name", sorted(set(shipped_recipes()) - SLANTED))
def test_straight_cuts_along_the_thread_leave_no_open_bias(name: str) -> None:
    assert stretch(shipped_recipes()[name]).exposures == ()


def early_slice() -> list[Plain]:
    """A piece is sliced before the frame that it later gets is even laid."""
    return [
        lay("a", "A", "6 1/2", "10"),
        sliced("part", "a", ("top", "4"), ("bottom", "5")),
        lay("b", "B", "2 1/2", "6 1/2"),
        lay("c", "B", "2 1/2", "6 1/2"),
        sew("frame", ["b", "c"], "down"),
        sew("joined", ["part.1", "part.2"], "across", match="points"),
        square("middle", "joined", "6", "6"),
        turn("turned", "frame", 90),
        square("side", "turned", "2", "6"),
        sew("block", ["middle", "side"], "across"),
    ]


def test_a_slice_is_moved_to_just_before_its_seam_and_the_block_stays_the_same() -> None:
    steps = early_slice()
    found = stretch(recipe(steps, "block"))
    assert {each.waits for each in found.exposures} == {3}
    assert found.order.proven
    assert found.order.cost == 0
    assert str(stretch_sentences(found)[-1]).startswith(
        "Bias edges lie open less long when the steps are done in this"
    )
    better = recipe([steps[number] for number in found.order.steps], "block")
    assert stretch(better).given_cost == 0
    one, other = facts(recipe(steps, "block"), GIVEN), facts(better, GIVEN)
    assert (one.finished, one.ledger) == (other.finished, other.ledger)
    assert [kind.area_by_fabric for kind in one.kinds] == [kind.area_by_fabric for kind in other.kinds]


def test_all_edges_of_a_bias_strip_are_told() -> None:
    """By hand: a bias strip of 3 x 6 cut in two and sewn: every edge is off the thread."""
    found = stretch(
        recipe(
            [
                lay("a", "A", "3", "6", grain="bias"),
                cut("half", "a", "across", into=2),
                sew("block", ["half.*"], "down"),
            ],
            "block",
        )
    )
    ends = sorted(
        (each.since, each.until, each.ended, round(each.length, 3)) for each in found.exposures if each.until
    )
    # a level edge of each half, 3 in, and the ends of four upright ones, 1/4 in: two as laid, two from the cut
    assert ends == [(0, 2, "sewn", 6.5), (1, 2, "sewn", 0.5)]
    outer = {
        (each.since, each.ended): round(each.length, 3) for each in found.exposures if each.until is None
    }
    assert outer == {(0, "outer"): 6.0 + 2 * 2.75, (1, "outer"): 2 * 2.75}


def test_layers_are_followed_through_a_shuffle() -> None:
    found = stretch(
        recipe(
            [
                lay("a", "A", "8 1/2", "9"),
                sliced("part", "a", ("top", "4"), ("bottom", "6")),
                shuffle("swapped", "part.2", 1),
                sew("joined", ["part.1", "swapped"], "across", match="points"),
                square("block", "joined", "8", "8"),
            ],
            "block",
            stack=2,
        )
    )
    (each,) = found.exposures
    assert (each.since, each.until, each.waits) == (1, 3, 1)
    assert each.length == pytest.approx(4 * hypot(2, 8.5))


@given(sewable_recipes())
def test_outer_bias_edges_of_blocks_were_open_to_the_end(made: Sewable) -> None:
    try:
        found = stretch_of(run(made.recipe(), made.given))
    except MakingError as fault:  # slices may leave a patch too small to be sewn
        assume(fault.message.code != "making.no-seen-width")
        raise
    blocks = facts(made.recipe(), made.given)
    outer = sum(each.length for each in found.exposures if each.ended == "outer")
    seen = sum(
        float(edge.length) * len(kind.blocks) * len(kind.layers)
        for kind in blocks.kinds
        for edge in kind.bias_edges
        if edge.outer
    )
    assert seen <= outer + 1e-6
    assert (seen > 0) == (outer > 0)
    assert found.order.cost <= found.given_cost
    assert all(each.waits >= 0 for each in found.exposures)
