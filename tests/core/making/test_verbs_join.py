"""Strips longer than the cloth is wide, joined end to end."""

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.making.events import Joined, Laid, first
from piecewright.making.given import Given
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.plan.joining import strips_joined_diagonally, strips_joined_straight
from tests.core.making.building import cut, facts, lay, press, recipe, refusal, sew, the_kind, turn

LONG = Given(usable=Fraction(40))


def lengths(how: str, width: str, total: str, usable: Fraction = Fraction(40)) -> list[Fraction]:
    made = run(recipe([lay("block", "A", width, total, join=how)]), Given(usable=usable))
    return [event.length for event in made.outcomes[0].events if isinstance(event, Laid)]


def test_a_straight_join_takes_two_allowances_and_a_diagonal_one_the_width_of_the_strip() -> None:
    assert lengths("straight", "2 1/2", "100") == [40, 40, 21]
    assert lengths("diagonal", "2 1/2", "100") == [40, 40, 25]
    assert lengths("straight", "2 1/2", "79 1/2") == [40, 40]
    assert lengths("straight", "2 1/2", "79 5/8") == [40, 40, Fraction(5, 8)]
    assert lengths("diagonal", "2 1/2", "77 1/2") == [40, 40]


def test_a_strip_that_the_cloth_gives_is_not_joined() -> None:
    for how in ("straight", "diagonal"):
        assert lengths(how, "2 1/2", "40") == [40]
    plain = facts([lay("block", "A", "2 1/2", "40", join="straight")])
    assert plain == facts([lay("block", "A", "2 1/2", "40")])


widths = st.integers(8, 60).map(lambda count: Fraction(count, 8))


@given(
    widths, st.integers(200, 4000).map(lambda count: Fraction(count, 8)), st.sampled_from([40, 41, 42, 43])
)
def test_as_many_strips_as_the_plan_counts(width: Fraction, total: Fraction, usable: int) -> None:
    """Borders by straight joins are counted alike; bindings by a rule that never counts one too few."""
    cloth = Fraction(usable)
    straight = lengths("straight", str(width), str(total), cloth)
    assert len(straight) == strips_joined_straight(total, cloth, Fraction(1, 4))
    diagonal = lengths("diagonal", str(width), str(total), cloth)
    planned = strips_joined_diagonally(total, cloth, width)
    assert planned is not None
    assert len(diagonal) <= planned <= len(diagonal) + 1
    assert sum(straight) - Fraction(1, 2) * (len(straight) - 1) == total
    assert sum(diagonal) - width * (len(diagonal) - 1) == total
    assert all(length == cloth for length in (*straight[:-1], *diagonal[:-1]))
    assert straight[-1] <= cloth


def test_pieces_meet_at_their_seams() -> None:
    (cloth,) = run(recipe([lay("block", "A", "2", "100", join="straight")]), LONG).table.piles["block"]
    assert [patch.seen.box.right for patch in cloth.patches] == [Fraction(159, 4), Fraction(317, 4), 100]
    assert [patch.raw.box.width for patch in cloth.patches] == [40, 40, 21]
    (cloth,) = run(recipe([lay("block", "A", "2", "100", join="diagonal")]), LONG).table.piles["block"]
    assert [(float(p.seen.box.left), float(p.seen.box.right)) for p in cloth.patches] == [
        (0, 40),
        (38, 78),
        (76, 100),
    ]
    assert [seam.line.start for seam in cloth.seams] == [(38, 0), (76, 0)]
    assert [seam.line.end for seam in cloth.seams] == [(40, 2), (78, 2)]


def test_corners_beyond_a_diagonal_seam_are_trimmed_off_and_waste() -> None:
    found = facts_of_recipe(recipe([lay("block", "A", "2", "60", join="diagonal")]), LONG)
    assert found.ledger.laid == 2 * (40 + 22)
    corner = (2 - sqrt(2) / 4) ** 2 / 2
    assert float(found.ledger.waste) == pytest.approx(2 * corner)
    assert found.finished.width == Fraction(119, 2)


def test_each_piece_is_a_strip_to_cut_and_full_ones_take_the_whole_width() -> None:
    steps = [
        lay("a", "A", "2 1/2", "100", join="straight"),
        lay("b", "B", "2 1/2", "100", join="diagonal"),
        sew("block", ["a", "b"], "down"),
    ]
    found = facts(steps, stack=2)
    assert [(strip.fabric, float(strip.length), strip.count) for strip in found.strips] == [
        ("A", 40, 2),
        ("A", 21, 1),
        ("B", 40, 2),
        ("B", 25, 1),
    ]
    beds = [(bed.lanes[0].fabric, float(bed.length), bed.count, bed.whole) for bed in found.beds]
    assert beds == [("A", 40, 2, True), ("A", 21, 1, False), ("B", 40, 2, True), ("B", 25, 1, False)]
    assert {patch.layer for patch in the_kind(found).patches} == {0}


def test_joined_strips_are_cut_and_turned_like_others() -> None:
    steps = [
        lay("a", "A", "3", "90", join="diagonal"),
        cut("p", "a", "across", every="30", count=3),
        turn("t", "p.2", 180),
        sew("block", ["p.1", "t", "p.3"], "down"),
    ]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (30, 8)
    assert len(the_kind(found).patches) == 5
    slanted = [edge for edge in the_kind(found).bias_edges if round(edge.degrees) == 45]
    assert len(slanted) == 4


def test_seams_of_joins_are_pressed() -> None:
    steps = [lay("block", "A", "3", "90", join="straight"), press("block", "right"), press("block.1", "open")]
    assert [seam.pressed for seam in the_kind(facts(steps)).seams] == ["open", "right"]
    diagonal = [lay("block", "A", "3", "90", join="diagonal"), press("block", "left")]
    assert {seam.pressed for seam in the_kind(facts(diagonal)).seams} == {"left"}
    short = [lay("block", "A", "3", "30", join="straight"), press("block", "right")]
    assert refusal(short).startswith("steps[1].press.seam: block was not made by sewing")


def test_what_can_not_be_joined_is_refused() -> None:
    assert refusal([lay("block", "A", "3", "90", join="straight", grain="lengthwise")]) == (
        "steps[0].lay.join: Strips cut lengthwise are as long as the cloth allows; only crosswise ones are joined. "
        'Leave "join" out.'
    )
    assert refusal([lay("block", "A", "41", "90", join="diagonal")]) == (
        "steps[0].lay.join: A join takes 41 in of each strip, and the cloth is 40 in wide. "
        "Lay a narrower strip, or join straight."
    )
    assert refusal([lay("block", "A", "1", "90", join="mitered")]) == (
        'steps[0].lay.join: "mitered" can not stand here. Write "diagonal" or "straight".'
    )


def test_joined_strips_are_said_in_words() -> None:
    told = [
        str(run(recipe([lay("block", "A", "2 1/2", "100", join=how)]), LONG).outcomes[0].sentence)
        for how in ("straight", "diagonal")
    ]
    assert told == [
        ("Lay strips of fabric A, 2 1/2 in wide: 2 of 40 in and 1 of 21 in (cut size); join them end to end: "
        "block is 100 in long."),
        ("Lay strips of fabric A, 2 1/2 in wide: 2 of 40 in and 1 of 25 in (cut size); join them end to end, "
        "at right angles over the square where two ends lie on each other, on its diagonal: block is 100 in long."),
    ]  # fmt: skip
    making = run(recipe([lay("block", "A", "2 1/2", "100", join="straight")]), LONG)
    event = first(making.outcomes[0].events, Joined)
    assert event.pieces == ("block.1", "block.2", "block.3")
