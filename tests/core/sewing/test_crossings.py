"""Where seams cross and how thick they lie, on blocks put down seam by seam."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.sewing.crossings import bulks, crossings
from piecewright.sewing.junctions import SeamLine, Spot, junctions
from piecewright.sewing.layers import OPEN, lump
from piecewright.sewing.nesting import nest, opened, seamwork


def line(seam: int, start: Spot, end: Spot, toward: Spot, order: int | None = None) -> SeamLine:
    return SeamLine(seam, seam if order is None else order, start, end, toward)


def four_patch() -> list[SeamLine]:
    """Upper and lower pair, then the seam between the rows; sign 1 is right, or down."""
    return [
        line(0, (2, 0), (2, 2), (1, 0)),
        line(1, (2, 2), (2, 4), (1, 0)),
        line(2, (0, 2), (4, 2), (0, 1)),
    ]


def test_a_four_patch_has_one_crossing_that_nests_where_its_pairs_lie_opposite() -> None:
    lines = four_patch()
    (met,) = junctions(lines)
    assert [ray.line for ray in met.rays] == [2, 1, 2, 0]
    (crossing,) = crossings(lines, [met])
    assert (crossing.on, {crossing.one, crossing.other}, crossing.same) == (2, {0, 1}, False)
    assert bulks(lines, [met]) == ()


@pytest.mark.parametrize("miss", [0.0, 1 / 64, 1 / 65])
def test_seams_that_miss_by_a_sixty_fourth_are_made_to_meet(miss: float) -> None:
    lines = four_patch()
    lines[1] = line(1, (2 + miss, 2), (2 + miss, 4), (1, 0))
    assert len(crossings(lines, junctions(lines))) == 1


def test_seams_that_miss_by_more_do_not_cross_and_lie_away_from_each_other() -> None:
    lines = four_patch()
    lines[1] = line(1, (2 + 1 / 32, 2), (2 + 1 / 32, 4), (1, 0))
    met = junctions(lines)
    assert crossings(lines, met) == ()
    assert [(bulk.on, bulk.sign) for bulk in bulks(lines, met)] == [(2, 1), (2, -1)]


def pinwheel() -> list[SeamLine]:
    """Four squares of two triangles each, sewn in pairs, then the pairs: all diagonals end in the middle."""
    return [
        line(0, (0, 0), (2, 2), (1, -1)),
        line(1, (2, 2), (4, 0), (1, 1)),
        line(2, (0, 4), (2, 2), (1, 1)),
        line(3, (2, 2), (4, 4), (1, -1)),
        line(4, (2, 0), (2, 2), (1, 0)),
        line(5, (2, 2), (2, 4), (1, 0)),
        line(6, (0, 2), (4, 2), (0, 1)),
    ]


def test_diagonals_meet_their_mirror_images() -> None:
    """Right sides together, each seam lies on the mirror image of the one it must nest with."""
    lines = pinwheel()
    (met,) = junctions(lines)
    assert [round(ray.angle / (pi / 4)) for ray in met.rays] == list(range(8))
    found = {(each.on, frozenset((each.one, each.other))): each.same for each in crossings(lines, [met])}
    assert found == {
        (4, frozenset((0, 1))): True,  # the upper pair, across its upright seam
        (5, frozenset((2, 3))): True,
        (6, frozenset((0, 2))): False,  # across the level seam: left above on left below
        (6, frozenset((1, 3))): False,
        (6, frozenset((4, 5))): False,
    }


def test_a_pinwheel_nests_whole_when_all_seams_go_round() -> None:
    """Common practice, no source: pressed all clockwise, every seam of a pinwheel nests."""
    work = seamwork(pinwheel())
    nested = nest(7, [work], {})
    assert nested.clashes == ()
    clockwise = (1, 1, -1, -1, 1, -1)
    ties = [(each.one, each.other, each.same) for each in work.crossings]
    assert all((clockwise[one] == clockwise[other]) == same for one, other, same in ties)


def test_a_seam_not_yet_sewn_ends_a_side() -> None:
    """The diagonal sewn last has no part in what the others meet on before it is there."""
    lines = [
        line(0, (0, 2), (2, 2), (0, 1), order=5),
        line(1, (2, 2), (4, 2), (0, 1), order=1),
        line(2, (2, 0), (2, 4), (1, 0), order=9),
        line(3, (2, 2), (4, 4), (1, -1), order=2),
    ]
    (met,) = junctions(lines)
    assert [(each.on, {each.one, each.other}) for each in crossings(lines, [met])] == [(2, {0, 1})]


def test_layers_by_hand() -> None:
    """Cloth by cloth: 7 nested, 9 clashing, 6 opened last, 5 spun, 4 all opened; 5 and 7 where a seam ends on one."""
    lines = four_patch()
    (met,) = junctions(lines)
    nested = lump(lines, met, (-1, 1, 1))
    assert (nested.pressed, nested.opened, nested.spun) == (7, 6, 5)
    assert lump(lines, met, (1, 1, 1)).pressed == 9
    assert lump(lines, met, (OPEN, OPEN, OPEN)).pressed == 4
    ending = [lines[0], lines[2]]
    (met,) = junctions(ending)
    assert [lump(ending, met, (1, 0, sign)).pressed for sign in (1, -1)] == [5, 7]
    assert lump(ending, met, (1, 0, 1)).spun is None


@given(st.sampled_from([(0, 1), (1, 0), (-1, 0), (0, -1)]), st.booleans())
def test_a_turned_block_has_the_same_crossings(way: Spot, swap: bool) -> None:
    """Turning turns lines and ways alike, so ties stay what they are; so does giving a line from its other end."""

    def placed(point: Spot) -> Spot:
        return (point[0] * way[0] - point[1] * way[1], point[0] * way[1] + point[1] * way[0])

    for lines in (four_patch(), pinwheel()):
        other = [
            SeamLine(
                each.seam,
                each.order,
                placed(each.end if swap else each.start),
                placed(each.start if swap else each.end),
                placed(each.toward),
            )
            for each in lines
        ]
        ties = [
            {
                (found.on, frozenset((found.one, found.other)), found.same)
                for found in crossings(some, junctions(some))
            }
            for some in (lines, other)
        ]
        assert ties[0] == ties[1]


def test_opened_seams_leave_no_pair() -> None:
    assert opened([(1, 2), (2, 3), (3, 4), (5, 5)]) == (2, 3, 5)
    assert opened([]) == ()


def test_no_seams_meet_nowhere() -> None:
    assert junctions([]) == ()
    assert junctions([line(0, (0, 0), (4, 0), (0, 1))]) == ()
