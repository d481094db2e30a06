"""The sizes table: rows are makings, counts are those of the trade, text and CSV say the same."""

import csv
from fractions import Fraction
from io import StringIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.plan.packing import Truing
from piecewright.plan.sizes_table import NO_TRUING, USUAL_TRUING, SizeRow, SizesTable, sizes_table
from piecewright.plan.sizes_text import sizes_csv, sizes_text
from piecewright.units.measure import Measure
from tests.core.making.building import cut, lay, rails, recipe, sew, turn

WIDE = Given(usable=Fraction(42))


def fitted(name: str, usable: int = 42, truing: Truing = NO_TRUING) -> SizeRow:
    """The row of the size that 2 1/2 in strips give."""
    table = sizes_table(shipped_recipes()[name], Given(usable=Fraction(usable)), truing=truing)
    return next(row for row in table.rows if row.fitted)


@pytest.mark.parametrize(
    ("name", "finished", "blocks", "over"),
    [
        ("rail-fence-of-two", (4, 4), 180, 0),
        ("rail-fence-of-three", (6, 6), 78, 1),
        ("rail-fence-of-four", (8, 8), 40, 0),
        ("two-halves-from-thirds", (6, 12), 40, 0),
        ("middle-end-for-end", (12, 12), 20, 0),
        ("framed-four-patch", (8, 8), 40, 0),
    ],
)
def test_forty_strips_of_42_in_without_truing(
    name: str, finished: tuple[int, int], blocks: int, over: int
) -> None:
    """Common practice, no source: forty strips, 2 1/2 in wide."""
    row = fitted(name)
    size = row.facts.finished
    assert [size.width, size.height] == list(finished)
    assert row.from_strips(40) == (blocks, over)
    assert row.waste == 0


def test_cut_turn_sew_takes_42_in_to_the_last_thread_so_truing_costs_a_block() -> None:
    """Common practice, no source: 6 x 7 = 42."""
    (exact,), (trued,) = fitted("cut-turn-sew").sets, fitted("cut-turn-sew", truing=USUAL_TRUING).sets
    assert exact.batches == 6
    assert exact.left_over == 0
    assert trued.batches == 5
    assert trued.truing == Fraction(1, 2) + 3 * Fraction(1, 4), (
        "ten cuts: once at first, again after each third"
    )
    assert trued.left_over == 42 - 35 - trued.truing


def test_thirds_of_13_1_2_do_not_come_from_40_in() -> None:
    row = fitted("middle-end-for-end", usable=40, truing=USUAL_TRUING)
    assert not row.possible
    assert row.sets[0].short == Fraction(81, 2) + Fraction(1, 2) - 40
    assert row.from_strips(40) == (0, 40)
    assert row.blocks_per_set(row.sets[0]) == 0


@settings(max_examples=3)
@pytest.mark.parametrize("name", sorted(shipped_recipes()))
@given(
    usable=st.integers(18, 60),
    width=st.integers(12, 40).map(lambda eighths: Fraction(eighths, 8)),
    trued=st.booleans(),
)
def test_every_row_is_a_making_and_its_sums_come_out(
    name: str, usable: int, width: Fraction, trued: bool
) -> None:
    truing = USUAL_TRUING if trued else NO_TRUING
    asked = shipped_recipes()[name]
    table = sizes_table(asked, Given(usable=Fraction(usable)), width, truing)
    listed = {choice for choices in asked.sizes.values() for choice in choices}
    assert table.rows
    for row in table.rows:
        assert row.facts == facts(row.recipe, row.given)
        if row.fitted:
            assert max(strip.width for strip in row.facts.strips) == width
        else:
            assert set(row.sizes.values()) <= listed
        for alike in row.sets:
            used = sum(sum(kit.segments) * count for kit, count in alike.kits) * alike.batches
            if alike.batches:
                assert used + alike.truing + alike.left_over == usable
                assert alike.left_over >= 0
                again = used / alike.batches
                cuts = sum(len(kit.segments) * count for kit, count in alike.kits) * (alike.batches + 1)
                assert used + again + truing.loss(cuts) > usable, "one more batch would not fit"
        assert 0 <= row.waste < 1
        blocks, over = row.from_strips(100)
        assert row.strips_for(blocks // row.facts.blocks) == 100 - over


@given(strips=st.integers(0, 300))
def test_more_strips_never_give_fewer_blocks(strips: int) -> None:
    row = fitted("rail-fence-of-three", truing=USUAL_TRUING)
    fewer, more = row.from_strips(strips), row.from_strips(strips + 1)
    assert fewer[0] <= more[0]
    assert fewer[0] == 6 * (strips // 3)


def test_strips_of_several_make_ups_are_counted_apart() -> None:
    steps = [
        *rails(2, "9"),
        cut("part", "set", "across", every="4 1/2", count=2),
        turn("other", "part.2", 180),
        sew("four", ["part.1", "other"], "across"),
        lay("c", "C", "2 1/2", "8 1/2"),
        sew("block", ["four", "c"], "down"),
    ]
    table = sizes_table(recipe(steps), WIDE, None, NO_TRUING)
    (row,) = table.rows
    assert [(len(alike.lanes), alike.batches) for alike in row.sets] == [(2, 4), (1, 4)]
    assert row.strips_for(4) == 3
    assert row.strips_for(5) == 6
    assert [row.blocks_per_set(alike) for alike in row.sets] == [4, 4]
    assert row.from_strips(8) == (9, 1), "two sets give 18 segments, three strips 9 of their own"


def test_a_batch_of_more_than_one_set_is_told_so() -> None:
    steps = [
        lay("a", "A", "2 1/2", "30"),
        lay("b", "A", "2 1/2", "30"),
        sew("block", ["a", "b"], "down"),
        lay("c", "B", "2 1/2", "30"),
        sew("whole", ["block", "c"], "down"),
        cut("part", "whole", "across", every="15", count=2),
        lay("d", "B", "2 1/2", "30"),
        lay("e", "B", "2 1/2", "30"),
        cut("dd", "d", "across", every="15", count=2),
        cut("ee", "e", "across", every="15", count=2),
        sew("one", ["part.1", "dd.1", "ee.1"], "down"),
        sew("two", ["part.2", "dd.2", "ee.2"], "down"),
    ]
    (row,) = sizes_table(recipe(steps, ["one", "two"]), WIDE, None, NO_TRUING).rows
    single = next(alike for alike in row.sets if len(alike.lanes) == 1)
    assert (single.batches, single.sets_per_batch) == (0, 2)
    assert row.blocks_per_set(single) == 1


def test_sizes_that_can_not_be_made_are_told_and_the_others_stand() -> None:
    asked = recipe(
        [*rails(2, "F"), cut("seg", "set", "across", every="9", count=1)], ["seg.1"], sizes={"F": ["12", "6"]}
    )
    table = sizes_table(asked, WIDE, None)
    assert [row.sizes["F"] for row in table.rows] == [12]
    assert [str(said) for said in table.missing] == [
        "F = 6 in: 9 in is more than the 6 in of cloth left: 3 in is missing."
    ]
    assert "F = 6 in: 9 in is more" in sizes_text(table)


def shown(table: SizesTable, measure: Measure) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(sizes_csv(table, measure), newline="")))


def test_csv_is_read_back_with_every_number_exact() -> None:
    """RFC 4180: records end in CRLF, fields with commas are quoted."""
    table = sizes_table(shipped_recipes()["rail-fence-of-three"], WIDE, truing=NO_TRUING)
    text = sizes_csv(table)
    assert text.count("\r\n") == len(table.rows) + 1 == text.count("\n")
    rows = shown(table, Measure())
    assert [row["finished width (in)"] for row in rows] == ["4 1/2", "6", "7 1/2", "9"]
    assert rows[1] == {
        "F (in)": "6",
        "finished width (in)": "6",
        "finished height (in)": "6",
        "unfinished width (in)": "6 1/2",
        "unfinished height (in)": "6 1/2",
        "strips, cut size (in)": "A, B, C 2 1/2 x 6 1/2",
        "cuts (in)": "1 x 6 1/2",
        "strips to a set, all layers": "3",
        "blocks from a set": "6",
        "left of a set (in)": "3",
        "waste": "0 %",
        "fitted": "yes",
    }


def test_metric_columns_name_their_unit() -> None:
    table = sizes_table(shipped_recipes()["rail-fence-of-two"], WIDE)
    metric = shown(table, Measure("cm"))
    assert metric[0]["F (cm)"] == "7.62"


def test_text_stands_in_even_columns() -> None:
    table = sizes_table(shipped_recipes()["two-halves-from-thirds"], WIDE, truing=NO_TRUING)
    name, cloth, told, empty, *lines = sizes_text(table).splitlines()
    assert name == "Sizes of Two halves from thirds"
    assert "42 in usable width" in cloth
    assert "2 1/2 in wide" in told
    assert empty == ""
    start = lines[0].index("unfinished")
    assert [line[start:].split("  ")[0] for line in lines[1:]] == [
        "3 1/2 x 6 1/2",
        "5 x 9 1/2",
        "6 1/2 x 12 1/2",
    ]
