"""Both ways: what is asked of a making is what comes out of it, exactly, or a reason why it can not be."""

from fractions import Fraction
from math import atan, cos

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from hypothesis.errors import UnsatisfiedAssumption

from piecewright.errors import MakingError, RecipeError
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.given import Given
from piecewright.making.linear import Equation, least_change, total
from piecewright.making.nudging import Named, Spot, places, spot_at, spot_text, with_lengths
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.making.solve import Fill, Finish, NoAnswerError, Solution, StripWidth, UseUp, solve
from piecewright.making.traced import Traced, slopes_of
from piecewright.making.tracing import trace
from piecewright.making.trying import tried
from piecewright.making.verbs.verb import Place
from piecewright.units.sizes import Finished
from tests.core.making.building import Plain, cut, lay, rails, recipe, sew, shuffle, sliced, square, turn
from tests.core.making.strategies import Sewable, sewable_recipes

PLAIN = Given()
EIGHTH = Fraction(1, 8)
SLANTED = "slanted-exchange"
SHIPPED = sorted(shipped_recipes())
SIZES = st.integers(3 * 12, 16 * 12).map(lambda twelfths: Fraction(twelfths, 12))
SLOPES = st.dictionaries(st.integers(0, 4), st.integers(-3, 3).map(Fraction), max_size=4)


def middle(
    width: str = "2 1/2", length: str = "40 1/2", part: str = "13 1/2", column: str = "4 1/2"
) -> Recipe:
    """Middle end for end, every length a number: 12 x 12 in finished."""
    steps = [
        *rails(2, length, width),
        cut("third", "set", "across", every=part, count=3),
        sew("slab", ["third.*"], "down"),
        cut("col", "slab", "across", every=column, count=3),
        turn("mid", "col.2", 180),
        sew("block", ["col.1", "mid", "col.3"], "across"),
    ]
    return recipe(steps)


def exchange(*ending: Plain, length: str = "8 1/2", block: str = "block") -> Recipe:
    """Two 8 1/2 in blocks of four rails sliced from 3 to 5 as a pair, right parts exchanged."""
    steps = [
        *rails(4, length),
        sliced("part", "set", ("top", "3"), ("bottom", "5")),
        shuffle("right", "part.2", 1),
        sew("joined", ["part.1", "right"], "across", match="points"),
        *ending,
    ]
    return recipe(steps, [block], stack=2)


def spots(of: Recipe, *texts: str) -> list[Spot]:
    return [spot_at(of, text) for text in texts]


def values(of: Recipe) -> dict[str, Fraction]:
    return {spot_text(length.place): length.value for length in places(of)}


def finished_of(of: Recipe, when: Given) -> Finished:
    """What a random recipe finishes at; one whose slices leave a patch too small to be sewn is passed over."""
    try:
        return facts_of_recipe(of, when).finished
    except MakingError:
        raise UnsatisfiedAssumption from None


def solve_or_refuse(of: Recipe, when: Given, goal: Finish) -> Solution | NoAnswerError:
    try:
        return solve(of, when, goal)
    except NoAnswerError as fault:
        return fault


# asked and made


@settings(max_examples=5)
@pytest.mark.parametrize("name", SHIPPED)
@given(size=SIZES, side=st.sampled_from(["width", "height"]))
def test_a_shipped_recipe_finishes_exactly_as_asked_or_a_step_says_why_not(
    name: str, size: Fraction, side: str
) -> None:
    asked = shipped_recipes()[name]
    found = solve_or_refuse(asked, PLAIN, Finish(**{side: size}))
    if isinstance(found, NoAnswerError):
        assert size < 6, "only small blocks may have no room for their slants or their limits"
        assert found.where.startswith("steps[")
        assert len(found.sentence()) > 20
        return
    made = facts_of_recipe(found.recipe, found.given)
    result = getattr(made.finished, side)
    assert result == size if isinstance(result, Fraction) else abs(result - float(size)) <= 1e-9
    assert made.finished == found.finished
    assert made.ledger.waste == 0 or facts_of_recipe(asked, PLAIN).ledger.waste


@settings(max_examples=40)
@given(size=SIZES.filter(lambda size: size >= 4))
def test_the_slanted_recipe_finishes_as_asked_since_it_is_squared_up(size: Fraction) -> None:
    found = solve(shipped_recipes()[SLANTED], PLAIN, Finish(size, size))
    assert (found.finished.width, found.finished.height) == (size, size)


@settings(max_examples=40)
@given(width=SIZES, height=SIZES)
def test_plain_numbers_are_solved_for_width_and_height_apart_and_nothing_goes_to_waste(
    width: Fraction, height: Fraction
) -> None:
    found = solve(middle(), PLAIN, Finish(width, height))
    made = facts_of_recipe(found.recipe, found.given)
    assert (made.finished.width, made.finished.height) == (width, height)
    assert made.ledger.waste == 0
    strips = {(strip.width, strip.length) for strip in made.strips}
    assert len(strips) == 1, "strips that count alike change alike"


@settings(max_examples=60)
@given(made=sewable_recipes(), more=st.integers(-8, 16), side=st.sampled_from(["width", "height"]))
def test_any_recipe_finishes_as_asked_or_says_why_not(made: Sewable, more: int, side: str) -> None:
    asked = made.recipe()
    now = finished_of(asked, made.given)
    present = now.width if side == "width" else now.height
    size = Fraction(round(float(present) * 8) + more, 8)
    assume(size > 1)
    found = solve_or_refuse(asked, made.given, Finish(**{side: size}))
    if isinstance(found, NoAnswerError):
        assert len(found.sentence()) > 20
        return
    new = facts_of_recipe(found.recipe, found.given).finished
    result = new.width if side == "width" else new.height
    if isinstance(result, Fraction) and not made.slanted:
        assert result == size
    else:
        assert result >= float(size) - ALIKE


@given(made=sewable_recipes(), data=st.data())
def test_one_traced_run_tells_what_another_length_would_give(made: Sewable, data: st.DataObject) -> None:
    """The slopes of every number against a second making, where the pieces stay as they are."""
    asked = made.recipe()
    finished_of(asked, made.given)
    lengths = places(asked, made.given)
    traced = trace(asked, made.given, [length.place for length in lengths])
    index = data.draw(st.integers(0, len(lengths) - 1))
    tiny = Fraction(data.draw(st.sampled_from([1, -1])), 4096)
    broken = any(row.slopes.get(index) for row in traced.ties) or any(
        row.value + row.slopes.get(index, 0) * tiny < 0 for row in traced.rooms
    )
    assume(not broken)
    found = tried(asked, made.given, {lengths[index].place: lengths[index].value + tiny}).facts
    assume(found is not None)
    assert found is not None
    for row, side in ((traced.width, found.finished.width), (traced.height, found.finished.height)):
        if isinstance(row.value, Fraction) and isinstance(side, Fraction) and row.slopes:
            assert side == row.value + row.slopes.get(index, 0) * tiny


def test_strips_grow_with_what_is_cut_from_them() -> None:
    found = solve(middle(), PLAIN, Finish(Fraction(14), Fraction(14)))
    now = values(found.recipe)
    assert now["steps[0].lay.width"] == now["steps[1].lay.width"] == Fraction(17, 6)
    assert now["steps[0].lay.length"] == 3 * now["steps[3].every"] == 9 * now["steps[5].every"]
    assert [change.place for change in found.changes] == spots(found.recipe, *(
        f"steps[{step}].{key}" for step, key in (
            (0, "lay.width"), (0, "lay.length"), (1, "lay.width"), (1, "lay.length"), (3, "every"), (5, "every"),
        )
    ))  # fmt: skip


def test_a_side_not_asked_for_is_kept_where_it_can_be() -> None:
    kept = solve(middle(), PLAIN, Finish(width=Fraction(9)))
    assert (kept.finished.width, kept.finished.height) == (9, 12)
    tied = solve(shipped_recipes()["middle-end-for-end"], PLAIN, Finish(width=Fraction(9)))
    assert (tied.finished.width, tied.finished.height) == (9, 9)
    assert tied.given.sizes == {"F": 9}


def test_only_lengths_marked_free_move_and_evenly() -> None:
    asked = recipe([*rails(3, "20"), cut("rail", "set", "across", every="6 1/2", count=1)], ["rail.1"])
    marked = spots(asked, "steps[0].lay.width", "steps[2].lay.width")
    found = solve(asked, PLAIN, Finish(height=Fraction(8)), free=marked)
    assert [(change.length.value, change.after) for change in found.changes] == [
        (Fraction(5, 2), Fraction(7, 2))
    ] * 2
    assert [change.place for change in found.changes] == marked
    assert found.finished.width == 6


def test_a_claimed_size_is_written_anew() -> None:
    plain = middle().plain
    found = solve(
        Recipe.from_plain({**plain, "finished": ["12", "12"]}), PLAIN, Finish(Fraction(9), Fraction(9))
    )
    assert found.recipe.plain["finished"] == ["9", "9"]
    assert facts_of_recipe(found.recipe, found.given).finished == found.finished


def test_an_own_seam_and_a_sewn_one_do_not_mislead() -> None:
    found = solve(
        middle(), Given(seam=Fraction(3, 8), lost=Fraction(1, 20)), Finish(Fraction(9), Fraction(9))
    )
    assert facts_of_recipe(found.recipe, Given(seam=Fraction(3, 8))).finished == found.finished
    assert found.finished.width == 9


# strips used up


def test_forty_two_inches_used_up_make_the_middle_column_wider() -> None:
    found = solve(middle(), PLAIN, UseUp(Fraction(42)))
    now = values(found.recipe)
    assert now["steps[3].every"] == 14
    assert now["steps[5].every"] == Fraction(14, 3)
    assert (found.finished.width, found.finished.height) == (Fraction(25, 2), 12)
    assert any("4 2/3 in" in str(said) for said in found.messages)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_strip_is_used_up_exactly(name: str) -> None:
    found = solve(shipped_recipes()[name], PLAIN, UseUp(Fraction(42)))
    assert max(strip.length for strip in found.facts.strips) == 42


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("rail-fence-of-two", 4),
        ("rail-fence-of-three", 6),
        ("rail-fence-of-four", 8),
        ("middle-end-for-end", 12),
    ],
)
def test_as_large_as_a_strip_2_1_2_in_wide_allows(name: str, size: int) -> None:
    """Common practice, no source: what a roll of 2 1/2 in strips gives."""
    start = Given(sizes={"F": Fraction(3)})
    filled = solve(shipped_recipes()[name], start, Fill(Fraction(42), Fraction(5, 2)))
    assert filled.finished.height == size
    assert solve(shipped_recipes()[name], start, StripWidth(Fraction(5, 2))).finished == filled.finished


@settings(max_examples=40)
@given(length=st.integers(20, 60), width=st.integers(12, 28).map(lambda eighths: Fraction(eighths, 8)))
def test_a_filled_strip_is_never_longer_or_wider_and_all_lengths_are_on_the_ruler(
    length: int, width: Fraction
) -> None:
    found = solve(middle(), PLAIN, Fill(Fraction(length), width))
    assert all(strip.length <= length and strip.width <= width for strip in found.facts.strips)
    assert all(change.after % EIGHTH == 0 for change in found.changes)
    column = found.finished.width + Fraction(3, 2)
    assert 3 * column > length - 9 * EIGHTH - 3 * EIGHTH, "another eighth would not fit"


# past a slant


def test_rails_for_a_slanted_block_of_8_1_2_are_9_014_so_9_1_8() -> None:
    """Common practice, no source: 8 1/2 + 1/2 / cos(atan(2 / 8 1/2))."""
    needed = 8.5 + 0.5 / cos(atan(2 / 8.5))
    asked = exchange(square("block", "joined", "fit", "fit", shape="square"))
    marked = spots(asked, *(f"steps[{step}].lay.length" for step in range(4)))
    found = solve(asked, PLAIN, Finish(Fraction(8), Fraction(8)), free=marked)
    assert {change.after for change in found.changes} == {Fraction(73, 8)}
    assert all(change.just == pytest.approx(needed, abs=2e-6) for change in found.changes)
    assert (found.finished.width, found.finished.height) == (8, 8)
    said = " ".join(str(each) for each in found.messages)
    assert "9 1/8 in (9.014 in would just do)" in said
    assert "rounded up" in said


@pytest.mark.parametrize("step", [Fraction(1, 16), EIGHTH, Fraction(1, 4)])
@pytest.mark.parametrize("ending", ["7 7/8", "fit", "raw"])
def test_strips_follow_a_slant_to_the_next_step_and_no_less_would_do(ending: str, step: Fraction) -> None:
    endings = {
        "7 7/8": [square("block", "joined", "7 7/8", "7 7/8")],
        "fit": [square("block", "joined", "fit", "fit", shape="square")],
    }
    asked = exchange(*endings.get(ending, []), block="joined" if ending == "raw" else "block")
    found = solve(asked, PLAIN, Finish(Fraction(8), Fraction(8)), step=step)
    moved = {change.place: change.after for change in found.changes if change.just is not None}
    assert len(moved) == 4
    assert all(value % step == 0 for value in moved.values())
    less = tried(found.recipe, found.given, {place: value - step for place, value in moved.items()}).facts
    assert less is None or less.finished.width < 8


def test_a_taller_slanted_block_gets_wider_strips_no_wider_than_need_be() -> None:
    asked = exchange(square("block", "joined", "fit", "fit", shape="square"))
    found = solve(asked, PLAIN, Finish(Fraction(9), Fraction(9)))
    widths = {strip.width for strip in found.facts.strips}
    assert widths == {Fraction(11, 4)}, "4 x 2 3/4 - 6 x 1/4 = 9 1/2"
    assert found.finished.height == 9


# no answer


def test_the_step_that_fixes_the_size_is_named() -> None:
    asked = middle()
    with pytest.raises(NoAnswerError) as caught:
        solve(asked, PLAIN, Finish(width=Fraction(9)), free=spots(asked, "steps[0].lay.length"))
    assert caught.value.where == "steps[5].every"
    assert "the width of each segment col fixes it, at 4 1/2 in" in str(caught.value)


def test_cloth_that_is_not_free_is_named_with_sizes_near() -> None:
    asked = middle(length="41")
    with pytest.raises(NoAnswerError) as caught:
        solve(asked, PLAIN, Finish(width=Fraction(14)), free=spots(asked, "steps[3].every", "steps[5].every"))
    assert caught.value.where == "steps[3]"
    (near, *_) = caught.value.near
    assert near.height == 12
    assert 12 < near.width <= Fraction(25, 2)
    solve(
        asked,
        PLAIN,
        Finish(width=Fraction(near.width)),
        free=spots(asked, "steps[3].every", "steps[5].every"),
    )


def test_sides_that_move_together_offer_each_alone_and_the_sizes_listed() -> None:
    with pytest.raises(NoAnswerError) as caught:
        solve(shipped_recipes()["two-halves-from-thirds"], PLAIN, Finish(Fraction(10), Fraction(10)))
    assert [(size.width, size.height) for size in caught.value.near] == [
        (5, 10), (6, 12), (Fraction(9, 2), 9),
    ]  # fmt: skip


def test_a_slanted_block_too_small_for_its_slant_says_what_breaks() -> None:
    with pytest.raises(NoAnswerError, match="is more than joined measures there") as caught:
        solve(shipped_recipes()[SLANTED], PLAIN, Finish(Fraction(2), Fraction(2)))
    assert caught.value.where == "steps[8].width"
    assert float(caught.value.near[0].width) < 3


def test_strips_of_a_fixed_length_can_not_be_used_up() -> None:
    asked = middle()
    with pytest.raises(NoAnswerError, match="length of the longest strip stays at 40 1/2 in"):
        solve(asked, PLAIN, UseUp(Fraction(42)), free=spots(asked, "steps[5].every"))


def test_edges_that_would_no_longer_fit_are_named() -> None:
    asked = recipe([lay("a", "A", "3", "6"), lay("b", "B", "3", "6"), sew("block", ["a", "b"], "down")])
    with pytest.raises(NoAnswerError) as caught:
        solve(asked, PLAIN, Finish(width=Fraction(9)), free=spots(asked, "steps[0].lay.length"))
    assert caught.value.where == "steps[2]"


# lengths and places


def test_every_length_has_its_place_value_and_words() -> None:
    found = {spot_text(length.place): length for length in places(shipped_recipes()[SLANTED])}
    assert list(found)[:4] == ["sizes.F", "sizes.lean", "let.w", "let.long"]
    assert found["steps[5].from[1]"].value == Fraction(57, 16)
    assert str(found["steps[5].from[1]"].sentence) == "where the slice part begins on the top side: 3 9/16 in"
    assert found["sizes.F"].literal
    assert not found["steps[0].lay.width"].literal
    assert found["steps[0].lay.width"].names == {"w"}


def test_rounding_steps_are_no_lengths_of_cloth() -> None:
    asked = recipe([lay("a", "A", "8", "8"), square("block", "a", "fit", "fit", step="1/4")])
    assert [spot_text(length.place) for length in places(asked)] == [
        "steps[0].lay.width",
        "steps[0].lay.length",
    ]


@given(size=st.fractions(Fraction(1, 16), 60, max_denominator=64))
def test_a_length_is_written_exactly_where_it_stands(size: Fraction) -> None:
    asked = shipped_recipes()["framed-four-patch"]
    for length in places(asked):
        changed = with_lengths(asked, {length.place: size})
        now = {each.place: each.value for each in places(changed)}
        assert now[length.place] == size
        if isinstance(length.place, Place):
            assert [now[each.place] for each in places(asked) if each.place != length.place] == [
                each.value for each in places(asked) if each.place != length.place
            ]


def test_a_size_set_becomes_the_first_choice_and_the_others_stay() -> None:
    asked = with_lengths(shipped_recipes()["rail-fence-of-three"], {Named("sizes", "F"): Fraction(9)})
    assert asked.plain["sizes"]["F"] == ["9", "6", "4 1/2", "7 1/2"]


def test_a_place_is_found_by_its_text_or_refused_with_the_nearest() -> None:
    asked = shipped_recipes()["rail-fence-of-three"]
    assert spot_at(asked, "F") == Named("sizes", "F")
    assert spot_at(asked, "steps[4].every") == Place(4, "every")
    with pytest.raises(RecipeError, match=r'no length at "steps\[4\].evry". Did you mean "?steps\[4\].every'):
        spot_at(asked, "steps[4].evry")


# the mathematics


@given(
    rows=st.lists(SLOPES, min_size=1, max_size=4), point=st.lists(st.integers(-4, 4), min_size=5, max_size=5)
)
def test_the_least_change_meets_all_equations_and_none_that_does_is_smaller(
    rows: list[dict[int, Fraction]], point: list[int]
) -> None:
    known = [Fraction(value) for value in point]
    equations = [Equation({k: v for k, v in row.items() if v}, total(row, known)) for row in rows]
    found = least_change(equations, 5)
    assert found is not None
    assert all(total(equation.slopes, found) == equation.wanted for equation in equations)
    assert sum(value * value for value in found) <= sum(value * value for value in known)


def test_equations_that_contradict_have_no_answer() -> None:
    one = Equation({0: Fraction(1), 1: Fraction(1)}, Fraction(1))
    assert least_change([one, Equation({0: Fraction(2), 1: Fraction(2)}, Fraction(3))], 2) is None
    assert least_change([Equation({}, Fraction(1))], 2) is None


@given(x=st.fractions(1, 9, max_denominator=8), y=st.fractions(1, 9, max_denominator=8))
def test_traced_numbers_keep_the_rules_of_calculus(x: Fraction, y: Fraction) -> None:
    one, other = Traced(x, {0: Fraction(1)}), Traced(y, {1: Fraction(1)})
    share = (2 * one - other) / (one * other) + 3 - one / 2
    assert share == (2 * x - y) / (x * y) + 3 - x / 2
    assert slopes_of(share) == {
        index: slope for index, slope in ((0, 1 / x**2 - Fraction(1, 2)), (1, -2 / y**2)) if slope
    }
    assert slopes_of(abs(-one)) == {0: 1}
    assert slopes_of(one - one) == {}
    assert slopes_of(1 / other) == {1: -1 / y**2}
    assert slopes_of(5 - one) == {0: -1}
    assert isinstance(one + 0.5, float)
    assert isinstance(0.5 * one, float)
    assert {one} == {x}
