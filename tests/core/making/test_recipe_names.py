"""The names of a recipe: their order, what may be chosen, what is drawn, and every exact value."""

from fractions import Fraction
from typing import Any

import pytest

from piecewright.errors import RecipeError
from piecewright.making.given import Given
from piecewright.making.names import read_sizes, resolve_names, vary_range
from piecewright.making.recipe import Recipe

NO_SIZE = "is no size: the recipe works it out or draws it, or it is reserved. Its sizes are F and gap."
NOT_DRAWN = "is not among the values that may be drawn: 3 in to 6 in by 1/4 in. Draw this block anew."


def recipe(**keys: object) -> Recipe:
    plain: dict[str, Any] = {
        "recipe": 1,
        "name": "Named",
        "sizes": {"F": ["12", "9"], "gap": ["0", "25.4 mm"]},
        "vary": {
            "t": {"from": "F/4", "to": "F/2", "step": "1/4"},
            "u": {"from": "t", "to": "t", "step": "1"},
        },
        "let": {"w": "F/3 + 2*seam", "v": "w + t + usable"},
        "steps": [{"make": "a", "lay": {"fabric": "A", "width": "w", "length": "v"}}],
        "block": ["a"],
    }
    return Recipe.from_plain({**plain, **keys})


def refused(given: Given, **keys: object) -> str:
    with pytest.raises(RecipeError) as refusal:
        resolve_names(recipe(**keys), given)
    return refusal.value.sentence()


def test_names_come_in_their_order_with_exact_values() -> None:
    names = resolve_names(recipe(), Given())
    assert list(names) == ["seam", "usable", "F", "gap", "t", "u", "w", "v"]
    assert names["w"] == Fraction(9, 2)
    assert names["v"] == Fraction(9, 2) + 3 + 40


def test_a_size_is_chosen_and_everything_follows() -> None:
    names = resolve_names(
        recipe(), Given({"F": Fraction(10)}, usable=Fraction(42), draws={"t": Fraction(11, 4)})
    )
    assert (names["F"], names["gap"], names["t"], names["u"]) == (
        Fraction(10),
        Fraction(0),
        Fraction(11, 4),
        Fraction(11, 4),
    )
    assert names["w"] == Fraction(10, 3) + Fraction(1, 2)


def test_a_length_in_centimeters_is_exact_inches() -> None:
    assert recipe().sizes["gap"] == (Fraction(0), Fraction(1))
    assert resolve_names(recipe(seam="1 cm"), Given())["seam"] == Fraction(50, 127)


def test_the_seam_of_the_recipe_wins() -> None:
    assert resolve_names(recipe(), Given(seam=Fraction(3, 8)))["seam"] == Fraction(3, 8)
    assert resolve_names(recipe(seam="1/2"), Given(seam=Fraction(3, 8)))["seam"] == Fraction(1, 2)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        (Given({"G": Fraction(1)}), 'The recipe has no size "G". Its sizes are F and gap.'),
        (Given({"gab": Fraction(1)}), 'The recipe has no size "gab". Did you mean "gap"?'),
        (
            Given({"w": Fraction(1)}),
            f'"w" {NO_SIZE}',
        ),
        (
            Given({"seam": Fraction(1)}),
            f'"seam" {NO_SIZE}',
        ),
        (Given({"F": Fraction(-1)}), "F: -1 in can not be a size: it is from nothing to 10000 in."),
        (Given({"F": Fraction(10001)}), "F: 10001 in can not be a size: it is from nothing to 10000 in."),
        (Given(seam=Fraction(0)), "seam: 0 in can not be: seam is more than nothing and at most 10000 in."),
        (
            Given(usable=Fraction(-4)),
            "usable: -4 in can not be: usable is more than nothing and at most 10000 in.",
        ),
        (Given(draws={"z": Fraction(1)}), 'Nothing named "z" is drawn in this recipe. Draw this block anew.'),
        (
            Given(draws={"t": Fraction(2)}),
            f"vary.t: 2 in {NOT_DRAWN}",
        ),
        (
            Given(draws={"t": Fraction(31, 10)}),
            f"vary.t: 3 1/10 in {NOT_DRAWN}",
        ),
    ],
)
def test_what_can_not_be_given_is_refused_in_one_sentence(given: Given, sentence: str) -> None:
    assert refused(given) == sentence


def test_a_name_that_can_not_be_worked_out_is_refused_where_it_stands() -> None:
    sentence = refused(Given(), let={"w": "1 / (F - 12)", "v": "1"})
    assert sentence == 'let.w: "1 / (F - 12)" divides by zero.'
    backwards = {"t": {"from": "3", "to": "2", "step": "1/4"}}
    assert (
        refused(Given(), vary=backwards)
        == 'vary.t: It goes from 3 in down to 2 in. Let "to" be at least "from".'
    )
    standing = {"t": {"from": "3", "to": "4", "step": "0"}}
    assert (
        refused(Given(), vary=standing)
        == "vary.t.step: A step of 0 in leads nowhere. Write a step of more than nothing."
    )


def test_a_chain_of_squares_is_stopped() -> None:
    chain = {"a0": "12345/7", **{f"a{index}": f"a{index - 1} * a{index - 1}" for index in range(1, 60)}}
    sentence = refused(Given(), vary={}, let={**chain, "w": "1", "v": "1"})
    assert sentence == 'let.a6: "a5 * a5" comes to a number far too long to cut by.'


def test_a_recipe_without_sizes_says_so() -> None:
    with pytest.raises(RecipeError) as refusal:
        read_sizes(recipe(sizes={}, vary={}, let={"w": "1", "v": "2"}), ["F=9"])
    assert refusal.value.sentence() == 'The recipe has no size "F". It has no sizes to choose.'


def test_what_may_be_drawn_is_counted() -> None:
    named = recipe()
    drawn = vary_range(named.vary["t"], resolve_names(named, Given()), "vary.t")
    assert drawn.count == 13
    assert [drawn.value(index) for index in (0, 12)] == [3, 6]
    assert drawn.value(12) in drawn
    assert drawn.value(13) not in drawn


def test_sizes_are_read_from_texts() -> None:
    found = read_sizes(recipe(), ["F=9", " gap = 2.54 cm "])
    assert found == {"F": 9, "gap": 1}


@pytest.mark.parametrize(
    ("settings", "sentence"),
    [
        (["F=nine"], 'F: "nine" is not a length. Write it like "6 1/2", "6.5", "16.5 cm" or "1/4 yd".'),
        (["F="], "F: No length is given."),
        (["F=-2"], 'F: "-2" is less than zero.'),
        (
            ["F 9"],
            '"F 9" does not say what a size is to be. Write the size\'s name, = and a length, such as F=9.',
        ),
        (["F=9", "F=6"], 'The size "F" is given twice. Give it once.'),
        (["f=9"], 'The recipe has no size "f". Did you mean "F"?'),
        (
            ["w=9"],
            f'"w" {NO_SIZE}',
        ),
        (
            ["F=9 ft"],
            'F: "9 ft" has the unit "ft", which recipes do not use.',
        ),
    ],
)
def test_a_size_that_can_not_be_set_is_refused_in_one_sentence(settings: list[str], sentence: str) -> None:
    with pytest.raises(RecipeError) as refusal:
        read_sizes(recipe(), settings)
    assert refusal.value.sentence().startswith(sentence)


def test_what_is_given_is_a_value() -> None:
    first = Given({"F": Fraction(9), "gap": Fraction(1)})
    second = Given({"gap": Fraction(1), "F": Fraction(9)})
    assert first == second
    assert hash(first) == hash(second)
    assert first != Given({"F": Fraction(9)})
    source = {"F": Fraction(9)}
    kept = Given(source)
    source["F"] = Fraction(6)
    assert kept.sizes["F"] == 9
