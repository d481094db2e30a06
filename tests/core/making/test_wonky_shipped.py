"""The shipped recipes that leave something to chance: every draw sews exactly, keeps its limits, and comes again."""

import json
from fractions import Fraction
from itertools import product
from math import atan, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.making.events import Severed
from piecewright.making.given import Given
from piecewright.making.limits import MOST_WORK
from piecewright.making.names import VaryRange, resolve_names, vary_range
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.report import report
from piecewright.making.run import attempt, facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.wonky import Limits, draw

VARIED = {name: shipped_recipes()[name] for name in ("wonky-cross", "wonky-exchange")}
SEAMS = (Fraction(1, 4), Fraction(3, 8))
seeds = st.integers(0, 2**31)


def ranges(recipe: Recipe, given: Given) -> dict[str, VaryRange]:
    names = resolve_names(recipe, given)
    return {name: vary_range(varied, names, name) for name, varied in recipe.vary.items()}


@pytest.mark.parametrize("seam", SEAMS)
@pytest.mark.parametrize("name", sorted(VARIED))
def test_the_ends_of_every_range_sew_to_the_claimed_size_without_a_warning(name: str, seam: Fraction) -> None:
    recipe = VARIED[name]
    for size in recipe.sizes["F"]:
        found = ranges(recipe, Given({"F": size}, seam))
        for values in product(*((one.start, one.value(one.count - 1)) for one in found.values())):
            made = facts(recipe, Given({"F": size}, seam, draws=dict(zip(found, values, strict=True))))
            assert (made.finished.width, made.finished.height) == (size, size)
            assert not made.warnings


@pytest.mark.parametrize("name", sorted(VARIED))
@given(seeds, st.data())
def test_every_draw_is_a_whole_block_within_its_range_and_unlike_the_others(
    name: str, seed: int, data: st.DataObject
) -> None:
    recipe = VARIED[name]
    given = Given({"F": data.draw(st.sampled_from(recipe.sizes["F"]))}, data.draw(st.sampled_from(SEAMS)))
    drawn = draw(recipe, given, seed, 4)
    assert len(drawn.draws) == 4
    assert not drawn.messages
    assert len({tuple(one.values.items()) for one in drawn.draws}) == 4
    allowed = ranges(recipe, given)
    for one in drawn.draws:
        assert all(value in allowed[letter] for letter, value in one.values.items())
        assert one.facts.finished.width == one.facts.finished.height == given.sizes["F"]
        ledger = one.facts.ledger
        assert float(ledger.laid) == pytest.approx(
            float(ledger.seen + ledger.allowance + ledger.waste), abs=1e-9
        )


@pytest.mark.parametrize("name", sorted(VARIED))
@given(seeds)
def test_a_seed_gives_the_same_draws_and_stored_values_the_same_block(name: str, seed: int) -> None:
    recipe = VARIED[name]
    first, again = draw(recipe, Given(), seed, 3), draw(recipe, Given(), seed, 3)
    assert [one.values for one in first.draws] == [one.values for one in again.draws]
    for one in first.draws:
        stored = {
            letter: Fraction(text) for letter, text in json.loads(json.dumps(_texts(one.values))).items()
        }
        assert report(facts(recipe, Given(draws=stored))) == report(one.facts)


def _texts(values: object) -> dict[str, str]:
    return {letter: str(value) for letter, value in dict(values).items()}  # type: ignore[call-overload]


@given(seeds, st.sampled_from([Fraction(1), Fraction(2), Fraction(5, 2)]), st.integers(4, 20))
def test_slants_and_edges_keep_the_limits_that_the_user_sets(seed: int, edge: Fraction, most: int) -> None:
    """Measured anew from the cut itself: the angle by the arc tangent, the ends by their distance from the corners."""
    recipe = VARIED["wonky-exchange"]
    for one in draw(recipe, Given(), seed, 3, Limits(from_edge=edge, most_degrees=most)).draws:
        making = run(recipe, Given(draws=one.values))
        cut = next(event for step in making.outcomes for event in step.events if isinstance(event, Severed))
        (line,) = cut.lines
        box = making.table.piles["set"][0].box
        assert degrees(atan(abs(float(line.end[0] - line.start[0])) / float(box.height))) <= most + 1e-9
        for x, _ in (line.start, line.end):
            assert float(min(x - box.left, box.right - x)) >= float(edge) - 1e-9


def test_drawing_from_a_recipe_that_never_sews_ends_in_counted_work() -> None:
    plain = VARIED["wonky-cross"].plain
    plain["steps"][-1]["width"] = "F * 9"
    recipe = read_recipe(json.dumps(plain).encode())
    each = attempt(recipe, Given()).table.work
    drawn = draw(recipe, Given(), 1, 1000)
    assert drawn.draws == ()
    assert drawn.messages
    assert each * 40 * 1000 > 4 * MOST_WORK
