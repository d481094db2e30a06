"""What a recipe says of itself without being made is what comes out when it is."""

from fractions import Fraction
from itertools import product

import pytest

from piecewright.making.given import Given
from piecewright.making.offered import claimed_sizes, verb_words
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.units.sizes import Finished
from tests.core.making.building import lay, recipe


@pytest.mark.parametrize("name", ["piano-keys", "two-halves-from-thirds", "flying-goose", "churn-dash"])
def test_claimed_sizes_are_those_that_are_made(name: str) -> None:
    asked = shipped_recipes()[name]
    made = [
        facts(asked, Given(dict(zip(asked.sizes, choice, strict=True)))).finished
        for choice in product(*asked.sizes.values())
    ]
    assert list(claimed_sizes(asked, Given())) == list(dict.fromkeys(made))


def test_a_recipe_that_claims_nothing_offers_no_sizes() -> None:
    assert claimed_sizes(recipe([lay("block", "A", "3", "3")]), Given()) == ()


def test_what_can_not_be_worked_out_is_left_out() -> None:
    plain = shipped_recipes()["rail-fence-of-two"].plain
    plain["let"]["w"] = "1 / (F - 4)"
    broken = type(shipped_recipes()["rail-fence-of-two"]).from_plain(plain)
    assert claimed_sizes(broken, Given())[0] == Finished(Fraction(3), Fraction(3))


def test_verbs_are_told_once_and_those_of_recipes_used_as_well() -> None:
    assert verb_words(shipped_recipes()["rail-fence-of-two"]) == ("lay", "sew", "cut")
    assert set(verb_words(shipped_recipes()["pinwheel"])) >= {"use", "turn", "sew", "face", "slice", "open"}
