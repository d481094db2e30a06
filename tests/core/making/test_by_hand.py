"""What hands do, as changes of a recipe: each does on cloth what it says."""

from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from piecewright.making import by_hand
from piecewright.making.by_hand import Changed
from piecewright.making.draft import Draft
from piecewright.making.given import Given
from piecewright.making.run import Making
from piecewright.making.steps import Side

LAID: dict[str, Any] = {
    "recipe": 1,
    "name": "By hand",
    "steps": [{"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "20"}}],
    "block": ["a"],
}


def made(changed: Changed) -> Making:
    making = Draft.of(changed.plain).making(Given())
    assert making is not None
    assert making.fault is None, making.fault
    return making


def strips(count: int) -> Changed:
    changed = Changed(LAID, 0)
    for letter in "BCDEFG"[: count - 1]:
        changed = by_hand.laid(changed.plain, changed.at, letter)
    return changed


def test_a_strip_laid_by_hand_is_as_wide_and_long_as_the_last() -> None:
    plain = by_hand.laid(LAID, 0, "B").plain
    assert plain["steps"][1] == {"make": "strip", "lay": {"fabric": "B", "width": "2 1/2", "length": "20"}}


def test_pieces_dropped_in_a_row_are_one_seam_step_and_a_rail_comes_out() -> None:
    at = strips(4)
    names = [step["make"] for step in at.plain["steps"]]
    at = by_hand.sewn_on(at.plain, at.at, names[1], names[0], "bottom")
    for name in names[2:]:
        at = by_hand.sewn_on(at.plain, at.at, name, "sewn", "bottom")
    assert at.plain["steps"][-1] == {"make": "sewn", "sew": names, "axis": "down"}
    # A rail of four 2 1/2 in strips is 8 1/2 in unfinished (common practice, no source).
    assert made(at).outcomes[-1].made["sewn"][0].box.height == Fraction("8.5")
    assert at.plain["block"] == ["sewn"]


def test_a_side_that_crosses_the_row_begins_another_step() -> None:
    at = strips(3)
    names = [step["make"] for step in at.plain["steps"]]
    at = by_hand.sewn_on(at.plain, at.at, names[1], names[0], "top")
    assert at.plain["steps"][-1]["sew"] == [names[1], names[0]]
    at = by_hand.sewn_on(at.plain, at.at, names[2], "sewn", "right", "start")
    assert at.plain["steps"][-1] == {
        "make": "sewn2", "sew": ["sewn", names[2]], "axis": "across", "align": "start",
    }  # fmt: skip


@given(
    st.sampled_from(["left", "right", "top", "bottom"]), st.fractions(Fraction(1, 4), 2, max_denominator=8)
)
def test_a_cut_by_hand_loses_nothing_and_lies_where_it_was_laid(side: Side, distance: Fraction) -> None:
    extent = Fraction(20) if side in ("left", "right") else Fraction("2.5")
    changed = by_hand.cut_from(LAID, 0, "a", side, distance, extent)
    outcome = made(changed).outcomes[-1]
    axis = "width" if side in ("left", "right") else "height"
    sizes = [getattr(pile[0].box, axis) for pile in outcome.made.values()]
    assert sum(sizes) == extent
    assert sizes[0 if side in ("left", "top") else -1] == distance


def test_cuts_one_after_the_other_are_one_step() -> None:
    at = by_hand.cut_from(LAID, 0, "a", "left", Fraction(6), Fraction(20))
    at = by_hand.cut_from(at.plain, at.at, "part.2", "left", Fraction(6), Fraction(14))
    assert at.plain["steps"][1:] == [
        {"make": "part", "cut": "a", "axis": "across", "widths": ["6", "6", "8"]}
    ]


@given(st.sampled_from(["left", "right", "top"]), st.fractions(Fraction(1, 4), 2, max_denominator=8))
def test_a_cut_that_repeats_gives_as_many_as_fit(side: Side, width: Fraction) -> None:
    extent = Fraction(20) if side != "top" else Fraction("2.5")
    outcome = made(by_hand.cut_every(LAID, 0, "a", side, width, extent)).outcomes[-1]
    assert len(outcome.made) == extent // width


def test_a_piece_turned_all_the_way_is_not_turned() -> None:
    changed = Changed(LAID, 0)
    piece = "a"
    for _ in range(4):
        changed = by_hand.turned_by(changed.plain, changed.at, piece, 90, made(changed))
        piece = changed.plain["steps"][-1]["make"]
    assert changed == Changed(LAID, 0)


def test_what_lies_on_the_table_is_what_is_made_and_not_used() -> None:
    at = strips(3)
    at = by_hand.sewn_in_row(at.plain, at.at, ["a", "strip"], "down")
    making = made(at)
    assert list(by_hand.lying_after(making, at.at)) == ["strip2", "sewn"]
    assert list(by_hand.lying_after(making, 1)) == ["a", "strip"]
    assert by_hand.lying_after(making, -1) == {}


def test_the_block_is_what_the_last_step_gives() -> None:
    at = by_hand.cut_from(LAID, 0, "a", "left", Fraction(6), Fraction(20))
    assert at.plain["block"] == ["part.1"]
    at = by_hand.sewn_in_row(at.plain, at.at, ["part.1", "part.2"], "down")
    assert at.plain["block"] == ["sewn"]


def test_a_square_a_slant_and_a_corner_by_hand_can_be_made() -> None:
    whole = made(Changed(LAID, 0))
    at = by_hand.squared(LAID, 0, "a", (Fraction(12), Fraction(2)), "top left", whole)
    assert made(at).outcomes[-1].made["squared"][0].box.width == 12
    at = by_hand.sliced(LAID, 0, "a", ("top", Fraction(4)), ("bottom", Fraction(6)))
    assert len(made(at).outcomes[-1].made) == 2
    at = by_hand.laid(LAID, 0, "B", ("2", "2"))
    at = by_hand.cornered(at.plain, at.at, "a", "strip", "bottom right")
    assert made(at).outcomes[-1].made["cornered"][0].box.width == 20
