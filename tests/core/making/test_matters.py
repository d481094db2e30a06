"""Which numbers matter, found again by writing the number anew in the recipe's text and looking at the block."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.errors import UnsatisfiedAssumption

from piecewright.errors import MakingError, PiecewrightError
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.matters import Matter, folds, matters
from piecewright.making.nudging import spot_text
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.making.verbs.verb import Place
from tests.core.making.building import Plain, cut, lay, rails, recipe, sew, square
from tests.core.making.sample_recipes import SAMPLE_RECIPES
from tests.core.making.strategies import Sewable, sewable_recipes

PLAIN = Given()
EIGHTH = Fraction(1, 8)


def marks(of: Recipe, by: Fraction = EIGHTH) -> dict[str, Matter]:
    return {spot_text(matter.length.place): matter for matter in matters(of, PLAIN, by)}


def with_more(plain: Plain, place: Place, more: Fraction) -> Plain:
    """The same recipe with a sum written where a length stands."""
    copy = Recipe.from_plain(plain).plain
    copy.pop("finished", None)
    holder, *inwards = copy["steps"][place.step], *place.key.split(".")
    for key in inwards[:-1]:
        holder = holder[key]
    last = inwards[-1]
    if place.index is None:
        holder[last] = f"({holder[last]}) + ({more})"
    else:
        holder[last][place.index] = f"({holder[last][place.index]}) + ({more})"
    return copy


def made(plain: Plain, when: Given = PLAIN) -> Facts | None:
    try:
        return facts_of_recipe(Recipe.from_plain(plain), when)
    except PiecewrightError:
        return None


def drawn(found: Facts) -> Counter[object]:
    """Every level and upright edge of every patch, and how many corners the patch has."""
    edges: Counter[object] = Counter()
    for kind in found.kinds:
        for patch in kind.patches:
            lines: set[tuple[str, float]] = {("corners", len(patch.points))}
            for index, (x, y) in enumerate(patch.points):
                before_x, before_y = patch.points[index - 1]
                if abs(float(x - before_x)) < 1e-9:
                    lines.add(("upright", round(float(x), 6)))
                elif abs(float(y - before_y)) < 1e-9:
                    lines.add(("level", round(float(y), 6)))
            edges[patch.fabric, patch.layer, frozenset(lines)] += 1
    return edges


def unharmed(now: Facts, then: Facts | None) -> bool:
    """Whether a block has its size, its square lines and no more to be warned of."""
    if then is None or {warning.code for warning in then.warnings} - {
        warning.code for warning in now.warnings
    }:
        return False
    return then.finished == now.finished and drawn(then) == drawn(now) and then.blocks >= now.blocks


@pytest.mark.parametrize("name", SAMPLE_RECIPES)
def test_marks_of_single_numbers_stand_up_to_brute_force(name: str) -> None:
    asked = shipped_recipes()[name]
    now = made(asked.plain)
    assert now is not None
    for matter in matters(asked, PLAIN):
        place = matter.length.place
        assert isinstance(place, Place)
        if place.key == "lay.length" and len(asked.letters) > 1:
            continue  # strips sewn side by side are moved together, see below
        less, more = (unharmed(now, made(with_more(asked.plain, place, sign * EIGHTH))) for sign in (-1, 1))
        assert {(False, False): "exact", (True, True): "as you like", (False, True): "at least"}[
            less, more
        ] == (matter.mark), spot_text(place)


@pytest.mark.parametrize("name", SAMPLE_RECIPES)
def test_strips_of_shipped_recipes_are_at_least_so_long_and_all_else_square_is_exact(name: str) -> None:
    for matter in matters(shipped_recipes()[name], PLAIN):
        place = matter.length.place
        assert isinstance(place, Place)
        expected = {"lay.length": "at least", "from": "as you like", "to": "as you like"}.get(
            place.key, "exact"
        )
        assert matter.mark == expected
        if matter.mark == "at least":
            assert matter.low == matter.length.value, "shipped recipes lay no more than they need"
            assert matter.high is None or name == "slanted-exchange", "there the slant must stay inside"


@settings(max_examples=30)
@given(sewable=sewable_recipes(), data=st.data())
def test_the_range_without_harm_is_without_harm_and_ends_there(sewable: Sewable, data: st.DataObject) -> None:
    asked = sewable.recipe()
    now = made(asked.plain, sewable.given)
    if now is None:
        raise UnsatisfiedAssumption
    found = [
        each
        for each in matters(asked, sewable.given)
        if getattr(each.length.place, "key", "") != "lay.length"
    ]
    if not found:
        raise UnsatisfiedAssumption
    matter = data.draw(st.sampled_from(found))
    place, value = matter.length.place, matter.length.value
    assert isinstance(place, Place)

    def harmless(at: Fraction) -> bool:
        assert isinstance(place, Place)
        return unharmed_at(asked, sewable, now, place, at - value)

    for end, outward in ((matter.low, -EIGHTH), (matter.high, EIGHTH)):
        if end is not None:
            assert harmless(end)
            assert not harmless(end + outward)
        else:
            assert harmless(value + 64 * outward)


def unharmed_at(asked: Recipe, sewable: Sewable, now: Facts, place: Place, more: Fraction) -> bool:
    plain = asked.plain
    if "." in place.key and not place.key.startswith("lay"):
        raise UnsatisfiedAssumption
    return unharmed(now, made(with_more(plain, place, more), sewable.given))


def test_cloth_to_spare_is_told_as_the_least_that_does() -> None:
    asked = recipe(
        [*rails(2, "42"), cut("seg", "set", "across", every="6", count=6), sew("block", ["seg.*"], "down")]
    )
    found = marks(asked)
    assert found["steps[0].lay.length"].mark == "at least"
    assert found["steps[0].lay.length"].low == 36
    assert str(found["steps[0].lay.length"].sentence) == "At least 36 in: the length of the strip a."
    assert found["steps[3].every"].mark == "exact"
    assert str(found["steps[3].every"].sentence) == "Exact: the width of each segment seg, 6 in."


def test_a_trim_before_cuts_is_at_most_what_the_cloth_has_to_spare() -> None:
    asked = recipe([*rails(2, "8"), cut("seg", "set", "across", every="7", count=1, trim="1/2")], ["seg.1"])
    trim = marks(asked)["steps[3].trim"]
    assert trim.mark == "as you like"
    assert trim.low == 0
    assert trim.high == 1
    tight = recipe(
        [*rails(2, "7 1/2"), cut("seg", "set", "across", every="7", count=1, trim="1/2")], ["seg.1"]
    )
    assert marks(tight)["steps[3].trim"].mark == "at most"


def test_a_slant_is_cut_by_eye_between_its_ends() -> None:
    found = marks(shipped_recipes()["slanted-exchange"])
    start = found["steps[5].from[1]"]
    assert start.mark == "as you like"
    assert start.low is not None
    assert start.high is not None
    assert start.low < start.length.value < start.high
    assert "As you like, from" in str(start.sentence)


def improvised(**keys: object) -> Recipe:
    """Three parts that are squared up smaller after sewing, so that their own width hardly matters."""
    parts = [
        lay("a", "A", "6", "30"),
        cut("part", "a", "across", **keys),
        square("small", "part.*", "4", "4"),
        sew("block", ["small.*"], "across"),
    ]
    return recipe(parts)


def test_parts_squared_up_later_may_be_folded_instead_of_measured() -> None:
    asked = improvised(every="9", count=3)
    found = matters(asked, PLAIN)
    assert [matter.mark for matter in found if getattr(matter.length.place, "key", "") == "every"] == [
        "as you like"
    ]
    (fold,) = folds(asked, PLAIN, found)
    assert (fold.step, fold.piece, fold.count) == (1, "a", 3)
    assert str(fold.sentence) == "No ruler needed: fold a in 3 equal parts and cut on the folds."
    folded = facts_of_recipe(improvised(into=3), PLAIN)
    assert folded.finished == facts_of_recipe(asked, PLAIN).finished


def test_exact_cuts_are_not_folded_and_cuts_into_parts_always_may_be() -> None:
    exact = shipped_recipes()["middle-end-for-end"]
    assert folds(exact, PLAIN, matters(exact, PLAIN)) == ()
    into = recipe([*rails(2, "27"), cut("seg", "set", "across", into=3), sew("block", ["seg.*"], "down")])
    assert [fold.count for fold in folds(into, PLAIN, matters(into, PLAIN))] == [3]


def test_what_fails_from_the_start_is_told_and_a_sewn_seam_is_heeded() -> None:
    short = recipe([*rails(2, "8"), cut("seg", "set", "across", every="9", count=1)], ["seg.1"])
    with pytest.raises(MakingError, match="9 in is more than the 8 in of cloth left"):
        matters(short, PLAIN)
    asked = shipped_recipes()["rail-fence-of-two"]
    own = matters(asked, replace(PLAIN, lost=Fraction(1, 16)))
    assert [matter.mark for matter in own] == [matter.mark for matter in matters(asked, PLAIN)]
