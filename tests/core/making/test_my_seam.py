"""The quilter's own seam: real sizes by simple sums, and advice that does what it says."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.making.given import Given
from piecewright.making.my_seam import my_seam
from piecewright.making.nudging import with_lengths, without_claim
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.settings import Settings
from tests.core.making.building import recipe, square
from tests.core.making.test_solve import exchange

LOST = st.integers(-6, 6).map(lambda parts: Fraction(parts, 64))
RAILS = {"rail-fence-of-two": 2, "rail-fence-of-three": 3, "rail-fence-of-four": 4}


def test_three_strips_measured_give_the_loss_of_each_seam() -> None:
    """Common practice, no source: (6 1/2 - measured) / 2."""
    assert Settings(three_strips=Fraction(51, 8)).lost_per_seam == Fraction(1, 16)
    assert Settings(three_strips=Fraction(105, 16)).lost_per_seam == Fraction(-1, 32)


@pytest.mark.parametrize(("name", "strips"), RAILS.items())
@given(lost=LOST)
def test_a_set_is_lower_by_the_loss_of_its_seams(name: str, strips: int, lost: Fraction) -> None:
    found = my_seam(shipped_recipes()[name], Given(lost=lost))
    set_, segment = found.steps
    assert set_.piece == "set"
    assert set_.nominal.height - set_.real.height == (strips - 1) * lost
    assert set_.nominal.width == set_.real.width
    assert segment.real.height == set_.real.height
    assert found.real is not None
    assert found.real == segment.real


def test_twelve_inch_block_of_three_columns_and_six_rails() -> None:
    """Five seams one way and two the other: 12 1/2 less 5 and less 2 times what is lost."""
    lost = Fraction(1, 32)
    found = my_seam(shipped_recipes()["middle-end-for-end"], Given(lost=lost))
    assert found.real is not None
    assert (found.real.width, found.real.height) == (Fraction(25, 2) - 2 * lost, Fraction(25, 2) - 5 * lost)
    assert [str(said) for said in found.messages] == [
        "Each of your seams takes 1/32 in more than two allowances: sew a scant seam, 1/64 in narrower.",
        (
            "The block measures 12 7/16 x 12 11/32 in unfinished with your seam, "
            "where the recipe says 12 1/2 x 12 1/2 in unfinished."
        ),
        (
            "No point is lost if you make up for the width in step 6: "
            "cut the width of each segment column at about 4 15/32 in."
        ),
    ]


@settings(max_examples=40)
@pytest.mark.parametrize("name", ["cut-turn-sew", "middle-end-for-end", *RAILS, "two-halves-from-thirds"])
@given(lost=LOST)
def test_trimmed_where_it_says_the_block_has_its_shape_again(name: str, lost: Fraction) -> None:
    asked = shipped_recipes()[name]
    found = my_seam(asked, Given(lost=lost))
    nominal = facts_of_recipe(asked, Given()).finished
    changes = {trim.length.place: Fraction(trim.value) for trim in found.trims if trim.length and trim.value}
    made = facts_of_recipe(without_claim(with_lengths(asked, changes)), Given(lost=lost)).finished
    width, height = Fraction(made.width), Fraction(made.height)
    for trim in found.trims:
        if trim.length is None:
            width -= Fraction(trim.amount) if trim.side == "width" else 0
            height -= Fraction(trim.amount) if trim.side == "height" else 0
    assert width * nominal.height == height * nominal.width
    assert width <= nominal.width
    if lost <= 0:
        assert (width, height) == (nominal.width, nominal.height)


def test_a_true_seam_needs_nothing() -> None:
    found = my_seam(shipped_recipes()["framed-four-patch"], Given())
    assert [str(said) for said in found.messages] == ["Your seam is true: sizes are as the recipe says."]
    assert found.trims == ()
    assert all(step.nominal == step.real for step in found.steps)


def test_a_making_that_stops_with_this_seam_shows_what_was_done_until_then() -> None:
    found = my_seam(shipped_recipes()["framed-four-patch"], Given(lost=Fraction(1, 8)))
    assert found.real is None
    assert found.fault is not None
    assert found.fault.where.startswith("steps[13]")
    assert {step.step for step in found.steps} <= set(range(13))
    assert "With your seam the making stops" in str(found.messages[-1])


def test_slants_that_run_into_an_edge_have_points_to_lose_there() -> None:
    found = my_seam(exchange(block="joined"), Given(lost=Fraction(-1, 32)))
    assert found.real is not None
    assert found.real.height == Fraction(17, 2) + 3 * Fraction(1, 32), (
        "too high, but the slant ends above and below"
    )
    assert [(trim.side, trim.length) for trim in found.trims] == [("width", None)]
    assert "from the left and the right edge" in str(found.messages[-1])


def test_a_square_up_at_the_end_is_where_a_full_seam_is_made_up_for() -> None:
    asked = exchange(square("block", "joined", "7 7/8", "7 7/8"))
    found = my_seam(asked, Given(lost=Fraction(-1, 32)))
    assert [trim.length.place.step for trim in found.trims if trim.length] == [8, 8]  # type: ignore[union-attr] # both are of a step
    assert {trim.value for trim in found.trims} == {Fraction(63, 8) - Fraction(1, 32)}


def test_a_seam_of_another_width_is_carried_the_same() -> None:
    asked = recipe(
        [*shipped_recipes()["rail-fence-of-two"].plain["steps"]],
        ["segment.1"],
        let={"w": "3"},
        sizes={"F": ["4"]},
    )
    found = my_seam(asked, Given(seam=Fraction(3, 8), lost=Fraction(1, 16)))
    assert found.steps[0].real.height == 6 - Fraction(3, 4) - Fraction(1, 16)
