"""Random but sewable: every draw is made, keeps to its limits, is unlike the others, and is stored as values."""

from fractions import Fraction
from math import atan2, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import RecipeError
from piecewright.making.events import Severed, first
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.wonky import Drawn, Limits, draw, varying_steps
from tests.core.making.building import Plain, cut, rails, recipe, sew, shuffle, sliced, square

PLAIN = Given()


def vary(start: str, end: str, step: str = "1/8") -> Plain:
    return {"from": start, "to": end, "step": step}


def wonky(ranges: Plain | None = None) -> Recipe:
    """A pair of 8 1/2 in blocks of rails, sliced anywhere, exchanged and squared up to 6 1/2."""
    steps = [
        *rails(4, "8 1/2"),
        sliced("part", "set", ("top", "t"), ("bottom", "b")),
        shuffle("right", "part.2", 1),
        sew("joined", ["part.1", "right"], "across", match="points"),
        square("block", "joined", "7", "6 1/2"),
    ]
    anywhere = {"t": vary("1/4", "8 1/4"), "b": vary("1/4", "8 1/4")}
    return recipe(steps, stack=2, vary=ranges or anywhere)


def slices(of: Recipe, drawn: Drawn) -> list[tuple[float, float]]:
    """Where each drawn slice begins on the top and ends on the bottom, from its line."""
    found = []
    for each in drawn.draws:
        making = run(of, Given(draws=each.values))
        (line,) = first(making.outcomes[5].events, Severed).lines
        found.append((float(line.start[0]), float(line.end[0])))
    return found


@given(seed=st.integers(0, 2**32), count=st.integers(1, 6))
def test_every_draw_can_be_sewn_is_whole_and_unlike_the_others(seed: int, count: int) -> None:
    asked = wonky()
    found = draw(asked, PLAIN, seed, count)
    assert len(found.draws) == count
    assert len({tuple(each.values.items()) for each in found.draws}) == count
    for each in found.draws:
        made = facts(asked, Given(draws=each.values))
        assert made == each.facts
        assert (made.finished.width, made.finished.height) == (Fraction(13, 2), 6)
        assert all(value % Fraction(1, 8) == 0 for value in each.values.values() if value.denominator != 4)


@given(seed=st.integers(0, 2**32))
def test_a_seed_gives_the_same_draws_and_another_most_often_others(seed: int) -> None:
    asked = wonky()
    one, same, other = (draw(asked, PLAIN, each, 3).draws for each in (seed, seed, seed + 1))
    assert [each.values for each in one] == [each.values for each in same]
    assert [each.values for each in one] != [each.values for each in other] or seed == seed + 1


@given(seed=st.integers(0, 2**32), edge=st.sampled_from([Fraction(1), Fraction(2), Fraction(5, 2)]))
def test_slices_stay_from_the_edges_and_lean_no_more_than_told(seed: int, edge: Fraction) -> None:
    asked = wonky()
    found = draw(asked, PLAIN, seed, 3, Limits(from_edge=edge, least_degrees=2, most_degrees=15))
    assert found.draws
    for start, end in slices(asked, found):
        assert edge <= start <= Fraction(17, 2) - edge
        assert edge <= end <= Fraction(17, 2) - edge
        assert 2 <= abs(degrees(atan2(end - start, 8.5))) <= 15


def test_ranges_may_be_narrowed_by_name() -> None:
    asked = wonky()
    between = {"t": (Fraction(3), Fraction(13, 4))}
    found = draw(asked, PLAIN, 7, 6, Limits(between=between))
    assert {each.values["t"] for each in found.draws} <= {Fraction(3), Fraction(25, 8), Fraction(13, 4)}
    with pytest.raises(
        RecipeError, match=r"vary.t: Nothing that t may be lies between 9 in and 10 in. It runs from 1/4 in"
    ):
        draw(asked, PLAIN, 7, 1, Limits(between={"t": (Fraction(9), Fraction(10))}))
    with pytest.raises(RecipeError, match="vary"):
        draw(asked, PLAIN, 7, 1, Limits(between={"x": (Fraction(9), Fraction(10))}))


def test_all_there_are_are_found_and_then_it_says_there_are_no_more() -> None:
    asked = wonky({"t": vary("3", "4", "1/2"), "b": vary("3", "4", "1/2")})
    found = draw(asked, PLAIN, 1, 12)
    assert len(found.draws) == 9
    assert [str(said) for said in found.messages] == [
        "Only 9 blocks were found of 12: widen the limits, or ask for fewer."
    ]


def test_draws_kept_are_not_drawn_again() -> None:
    asked = wonky({"t": vary("3", "4", "1/2"), "b": vary("3", "4", "1/2")})
    kept = [each.values for each in draw(asked, PLAIN, 1, 4).draws]
    again = [each.values for each in draw(asked, PLAIN, 1, 9, besides=kept).draws]
    assert len(again) == 5
    assert not [values for values in again if values in kept]


def test_straight_cuts_that_vary_stay_from_the_edges_and_fixed_ones_are_let_be() -> None:
    steps = [
        *rails(2, "12"),
        cut("part", "set", "across", widths=["v", "11 - v"]),
        cut("thin", "part.1", "down", into=1),
        sew("block", ["part.2", "thin.1"], "across"),
    ]
    asked = recipe(steps, vary={"v": vary("3/4", "10", "1/4")})
    assert varying_steps(asked) == {3}
    found = draw(asked, PLAIN, 3, 20, Limits(from_edge=Fraction(2)))
    assert len(found.draws) == 20
    assert all(2 <= each.values["v"] <= 9 for each in found.draws)


def test_what_can_not_be_sewn_is_never_offered() -> None:
    steps = [
        *rails(2, "12"),
        cut("part", "set", "across", widths=["v", "6"]),
        sew("block", ["part.*"], "across"),
    ]
    asked = recipe(steps, vary={"v": vary("1/4", "12", "1/4")})
    found = draw(asked, PLAIN, 5, 40)
    widths = {each.values["v"] for each in found.draws}
    assert widths == {Fraction(quarters, 4) for quarters in range(2, 25)}, (
        "more than the seam, and 12 less 6 at most"
    )
    assert found.messages


def test_a_recipe_that_draws_nothing_says_so() -> None:
    with pytest.raises(RecipeError, match=r'The recipe draws nothing\. Name what varies under "vary"'):
        draw(shipped_recipes()["rail-fence-of-two"], PLAIN, 1)


def test_a_range_beyond_all_counting_is_drawn_from_at_once() -> None:
    asked = wonky({"t": vary("3", "4", "1/1048576"), "b": vary("3", "4", "1/1048576")})
    found = draw(asked, PLAIN, 11, 3)
    assert len(found.draws) == 3
