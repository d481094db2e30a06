"""Topic 2: how many strips, squares and segments cloth gives, as published; sources in check_values.json by id."""

from fractions import Fraction

from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.plan.cloth import strip_use
from piecewright.plan.keys import StripKey
from piecewright.plan.materials import materials
from piecewright.plan.packing import Kit, Truing, pack, segments_per_set
from piecewright.units.scale import YARD
from piecewright.units.sizes import Cut
from tests.outside.published import Row, Topic
from tests.outside.published_quilts import around_the_block, sixteen_patches

TOPIC = Topic("2")
UNTRUED = Truing(Fraction(0), Fraction(0), 3)
USUAL = Truing(Fraction(1, 2), Fraction(1, 4), 3)

ONE_LONG_STRIP = "all strips joined to one long one: no recipe joins strips end to end"
NOT_APPLICABLE = {
    "B097": "the area of a yard: no number of the plan is an area of cloth",
    "B106": "a width that somebody measured: nothing to compute it from",
    "B107": "a convention of one publisher: nothing to compute it from",
    "B118": ONE_LONG_STRIP,
    "B119": ONE_LONG_STRIP,
    "B120": ONE_LONG_STRIP,
    "B123": "woven, not sewn: no recipe weaves strips",
    "B124": "columns cut from a loop: no recipe of the first verbs has one",
    "B129": "flying geese, which no recipe of strips and squares gives",
}


def exact(value: float) -> Fraction:
    return Fraction(str(value))


def kit(*segments: Fraction) -> Kit:
    return Kit(segments, sum(segments, Fraction(0)), whole=False, trims=False, blocks=Fraction(1))


def strips_for(count: int, length: Fraction, usable: Fraction, truing: Truing = UNTRUED) -> int:
    return pack(((kit(length), count),), usable, truing).sets


def cloth_for(count: int, cut: Fraction, usable: Fraction) -> Fraction:
    """Inches of cloth for so many squares."""
    strips = strips_for(count, cut, usable)
    return strip_use("piecing", StripKey("f1", cut, "crosswise", Fraction(0)), strips, usable).inches


def most_squares(cut: Fraction, width: Fraction, length: Fraction) -> int:
    """The most squares for which the plan asks no more than this length of cloth."""
    count = 0
    while cloth_for(count + 1, cut, width) <= length:
        count += segments_per_set(cut, width, UNTRUED)
    return count


@TOPIC.asserts(*TOPIC.ids(lambda row: row.inputs.get("squares_per") == "yard"))
def test_squares_from_a_yard(row: Row) -> None:
    # the chart is headed 42 x 36, but its counts need 44
    cut, width, length = (exact(row.inputs[name]) for name in ("cut", "width", "length"))
    assert most_squares(cut, width, length) == row.expected
    assert cloth_for(row.expected, cut, width) <= length < cloth_for(row.expected + 1, cut, width)


@TOPIC.refutes("B019")
def test_squares_of_7_inches_from_a_yard(row: Row) -> None:
    assert most_squares(Fraction(7), Fraction(44), YARD) == row.recomputed == 30 != row.expected


@TOPIC.asserts(*TOPIC.ids(lambda row: row.inputs.get("squares_per") == "fat quarter"))
def test_squares_from_a_fat_quarter(row: Row) -> None:
    length, width = (Fraction(side) for side in row.inputs["size"])
    assert most_squares(exact(row.inputs["cut"]), width, length) == row.expected


@TOPIC.refutes("B099")
def test_squares_from_a_quarter_yard(row: Row) -> None:
    # the source states a least number after washing, not what the cloth gives
    assert most_squares(Fraction(3), Fraction(42), YARD / 4) == row.recomputed == 42 > row.expected


@TOPIC.asserts("B089", "B095", "B100")
def test_strips_from_cloth(row: Row) -> None:
    length = YARD if row.inputs.get("strips_per") == "yard" else YARD / 2
    cloth = [
        strip_use(
            "piecing", StripKey("f1", Fraction(5, 2), "crosswise", Fraction(0)), count, Fraction(20)
        ).inches
        for count in (row.expected, row.expected + 1)
    ]
    assert cloth[0] <= length < cloth[1]


@TOPIC.asserts("B090")
def test_pieces_to_a_strip(row: Row) -> None:
    for truing in (UNTRUED, USUAL):
        assert segments_per_set(Fraction(7, 2), Fraction(44), truing) == row.expected


@TOPIC.asserts("B091")
def test_strips_for_a_hundred_pieces(row: Row) -> None:
    assert strips_for(row.inputs["strips_for_pieces"], Fraction(7, 2), Fraction(44)) == row.expected


@TOPIC.asserts("B104")
def test_two_strips_give_one_square_more_than_needed(row: Row) -> None:
    needed, available = row.expected, row.recomputed
    for truing in (UNTRUED, USUAL):
        assert strips_for(needed, Fraction(17, 4), Fraction(42), truing) == 2
        assert strips_for(available, Fraction(17, 4), Fraction(42), truing) == 2
        assert strips_for(available + 1, Fraction(17, 4), Fraction(42), truing) == 3


@TOPIC.asserts("B109")
def test_segments_of_a_short_set(row: Row) -> None:
    length = Fraction(row.inputs["strip_length"])
    assert segments_per_set(exact(row.inputs["segment"]), length, UNTRUED) == row.expected


@TOPIC.asserts("B112", "B113")
def test_strip_sets_for_sections(row: Row) -> None:
    sections = row.inputs["sections"]
    for usable in (Fraction(40), Fraction(42)):
        assert segments_per_set(Fraction(5, 2), usable, UNTRUED) == 16
        assert strips_for(sections, Fraction(5, 2), usable) == row.expected


@TOPIC.asserts("B116")
def test_segments_of_four_and_a_half_inches(row: Row) -> None:
    found = [segments_per_set(Fraction(9, 2), Fraction(length), UNTRUED) for length in row.inputs["lengths"]]
    assert found == row.expected


@TOPIC.asserts("B125")
def test_rows_that_finish_at_two_inches(row: Row) -> None:
    finished = Cut(Fraction(5, 2), Fraction(5, 2)).finished(Fraction(1, 4)).height
    assert 48 / Fraction(finished) == row.expected


@TOPIC.asserts("B126")
def test_strips_for_52_four_patches(row: Row) -> None:
    pair = Kit((Fraction(11, 2),), Fraction(11, 2), whole=False, trims=False, blocks=Fraction(1))
    assert 2 * pack(((pair, 52),), Fraction(22), UNTRUED).sets == row.expected


@TOPIC.asserts("B127")
def test_strips_for_48_squares(row: Row) -> None:
    for truing in (UNTRUED, USUAL):
        assert strips_for(row.inputs["need"], Fraction(5, 2), Fraction(44), truing) == row.expected


@TOPIC.asserts("B130")
def test_squares_of_41_blocks(row: Row) -> None:
    made = materials(sixteen_patches(41))
    assert made.block_count == 41
    squares = sum(
        cuts.sets * count * len(found.lanes)
        for found in made.sets
        for cuts in found.cuts
        for _, count in cuts.segments
    )
    assert squares == row.expected


def test_a_four_patch_of_squares_cut_3_finishes_at_5() -> None:
    # common practice, no source
    recipe = around_the_block().recipes[0].recipe
    assert facts(recipe, Given(usable=Fraction(42))).finished.width == 5


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    TOPIC.check_covered(NOT_APPLICABLE)
