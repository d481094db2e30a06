"""What meets on the joins of an assembly, by hand and with knots."""

from fractions import Fraction

from piecewright.sewing.assembly import assemble
from piecewright.sewing.joins import NO_ENDS, RIGHT, TOP, End, Ends, ends_of, joins_of
from piecewright.sewing.junctions import SeamLine
from tests.core.sewing.tilings import rects

ONE = Fraction(1)


def level(sign: int, y: float) -> Ends:
    """A piece with one level seam from edge to edge, pressed down with sign 1."""
    return ([End(y, sign, 1)], [], [End(y, sign, 1)], [])


def test_pieces_side_by_side_meet_where_their_seams_run_on() -> None:
    found = joins_of(assemble(rects([(0, 0, 2, 4), (2, 0, 4, 4)], ONE)), [level(0, 1.0), level(1, 1.0)], 2)
    (crossing,) = found.crossings
    assert (crossing.join, crossing.along, crossing.one, crossing.other, crossing.same) == (
        2,
        1.0,
        0,
        1,
        False,
    )
    assert found.bulks == []


def test_seams_that_meet_none_push_the_join_away() -> None:
    found = joins_of(assemble(rects([(0, 0, 2, 4), (2, 0, 4, 4)], ONE)), [level(0, 1.0), level(1, 2.0)], 2)
    assert found.crossings == []
    assert sorted(bulk.sign for bulk in found.bulks) == [-1, 1]


def test_joins_of_rows_meet_on_the_seam_between_the_rows() -> None:
    grid = rects([(0, 0, 2, 2), (2, 0, 4, 2), (0, 2, 2, 4), (2, 2, 4, 4)], ONE)
    found = joins_of(assemble(grid), [NO_ENDS] * 4, 0)
    assert [(join.upright, join.at) for join in found.joins] == [(True, 2.0), (True, 2.0), (False, 2.0)]
    (crossing,) = found.crossings
    assert (crossing.join, crossing.one, crossing.other, crossing.same) == (2, 0, 1, False)


def test_joins_of_a_knot_end_on_each_other_and_its_pieces_meet() -> None:
    """A pinwheel of five: each of its four joins ends on the next; the left arm's seam runs on in the middle."""
    pinwheel = rects([(0, 0, 4, 2), (4, 0, 6, 4), (2, 4, 6, 6), (0, 2, 2, 6), (2, 2, 4, 4)], ONE)
    ends = [NO_ENDS, NO_ENDS, NO_ENDS, level(0, 3.0), level(1, 3.0)]
    found = joins_of(assemble(pinwheel), ends, 2)
    assert len(found.joins) == 4
    (crossing,) = found.crossings
    assert (crossing.along, {crossing.one, crossing.other}, crossing.same) == (3.0, {0, 1}, False)
    # the four joins that end on others, and the middle's seam on the right arm
    assert len(found.bulks) == 5


def test_ends_of_a_turned_block_lie_where_its_seams_come_to_lie() -> None:
    """A seam 1 in below the top of a block 2 wide and 4 high, pressed down: turned, it is 1 in from the right."""
    seam = SeamLine(0, 0, (0.0, 1.0), (2.0, 1.0), (0.0, 1.0))
    upright = ends_of([seam], {0: (7, 1)}, 2.0, 4.0, 0, (10.0, 20.0))
    assert upright == ([End(21.0, 7, 1)], [], [End(21.0, 7, 1)], [])
    turned = ends_of([seam], {0: (7, 1)}, 2.0, 4.0, 1, (10.0, 20.0))
    # down becomes left, and 1 in below the top becomes 1 in from the right of a block 4 wide
    assert turned == ([], [End(13.0, 7, -1)], [], [End(13.0, 7, -1)])
    assert ends_of([seam], {}, 2.0, 4.0, 0, (0.0, 0.0))[RIGHT] == []
    assert ends_of([seam], {0: (7, -1)}, 2.0, 4.0, 3, (0.0, 0.0))[TOP] == [End(1.0, 7, -1)]
