"""The values the engine must give: common practice, no source; a ruler and strips of 2 1/2 in check each."""

from fractions import Fraction
from math import atan, cos, degrees, hypot

import pytest

from piecewright.errors import MakingError
from piecewright.making.events import Joined, first
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.making.shipped import shipped_recipes
from piecewright.units.sizes import Finished
from tests.core.making.building import (
    Plain,
    cut,
    facts,
    lay,
    rails,
    recipe,
    sew,
    shuffle,
    sliced,
    square,
    the_kind,
    turn,
)

SLANT = atan(2 / 8.5)


def size(found: Facts) -> tuple[object, object]:
    return found.unfinished.width, found.unfinished.height


@pytest.mark.parametrize(("count", "unfinished"), [(2, "4 1/2"), (3, "6 1/2"), (4, "8 1/2")])
def test_rails_cut_at_the_height_of_their_own_set_are_square(count: int, unfinished: str) -> None:
    found = facts([*rails(count, "42"), cut("rail", "set", "across", every=unfinished, count=1)], ["rail.1"])
    side = Fraction(2 * count)
    assert size(found) == (side + Fraction(1, 2), side + Fraction(1, 2))
    assert (found.finished.width, found.finished.height) == (side, side)
    assert [patch.fabric for patch in the_kind(found).patches] == list("ABCD"[:count])


def cut_turn_sew(length: str, **keys: object) -> list[Plain]:
    return [
        *rails(3, length),
        cut("part", "set", "across", every="6 + 1", **keys),
        cut("half", "part.1", "across", into=2),
        turn("right", "half.2", 180),
        sew("block", ["half.1", "right"], "across"),
    ]


def test_a_set_of_three_cut_once_turned_and_sewn_is_six_and_a_half() -> None:
    found = facts(cut_turn_sew("7", count=1))
    assert size(found) == (Fraction(13, 2), Fraction(13, 2))
    kind = the_kind(found)
    assert [patch.fabric for patch in kind.patches] == ["A", "C", "B", "B", "C", "A"]


def thirds(part: str, columns: int, length: str) -> list[Plain]:
    return [
        *rails(2, length),
        cut("third", "set", "across", every=part, count=3),
        sew("slab", ["third.*"], "down"),
        cut("col", "slab", "across", into=columns),
    ]


def test_two_halves_from_thirds() -> None:
    found = facts(thirds("13", 2, "39"), ["col.*"])
    assert (found.blocks, found.finished.width, found.finished.height) == (2, 6, 12)
    assert found.ledger.laid == 195
    assert found.ledger.seen == 144
    assert found.ledger.allowance == 51
    assert found.ledger.waste == 0


def test_middle_end_for_end() -> None:
    steps = [
        *thirds("13 1/2", 3, "40 1/2"),
        turn("mid", "col.2", 180),
        sew("block", ["col.1", "mid", "col.3"], "across"),
    ]
    found = facts(steps)
    assert (found.finished.width, found.finished.height) == (12, 12)
    assert found.ledger.laid == Fraction(405, 2)
    assert found.ledger.waste == 0
    kind = the_kind(found)
    assert len(kind.patches) == 18
    columns = [[patch.fabric for patch in kind.patches if patch.points[0][0] == x] for x in (0, 4, 8)]
    assert columns == [list("ABABAB"), list("BABABA"), list("ABABAB")]


def framed_four_patch() -> list[Plain]:
    return [
        lay("s", "A", "2 1/2", "36"),
        cut("p", "s", "across", widths=["8 1/2"] * 2 + ["4 1/2"] * 2 + ["2 1/2"] * 4),
        *(shuffle(f"q{by}", f"p.{by + 4}", by) for by in (1, 2, 3, 4)),
        sew("upper", ["q1", "q2"], "across"),
        sew("lower", ["q3", "q4"], "across"),
        sew("four", ["upper", "lower"], "down"),
        turn("left", "p.3", 90),
        turn("right", "p.4", 90),
        sew("row", ["left", "four", "right"], "across"),
        sew("block", ["p.1", "row", "p.2"], "down"),
    ]


def test_a_framed_four_patch_from_a_stack_of_five_has_five_fabrics_in_each_of_five_blocks() -> None:
    found = facts(framed_four_patch(), stack=5)
    assert (found.finished.width, found.finished.height, found.blocks) == (8, 8, 5)
    (strip,) = found.strips
    assert (strip.width, strip.length, strip.count) == (Fraction(5, 2), Fraction(36), 1)
    kind = the_kind(found)
    assert kind.layers == (0, 1, 2, 3, 4)
    for block in range(5):
        assert {(block + patch.layer) % 5 for patch in kind.patches} == {0, 1, 2, 3, 4}
    squares = {tuple(map(int, patch.points[0])): patch.layer for patch in kind.patches if patch.layer}
    assert squares == {(2, 2): 1, (4, 2): 2, (2, 4): 3, (4, 4): 4}


def slanted(length: str = "8 1/2", start: str = "3", end: str = "5") -> list[Plain]:
    return [
        *rails(4, length),
        sliced("part", "set", ("top", start), ("bottom", end)),
        shuffle("right", "part.2", 1),
        sew("joined", ["part.1", "right"], "across", match="points"),
    ]


def test_two_blocks_sliced_as_a_pair_and_exchanged() -> None:
    found = facts(slanted(), ["joined"], stack=2)
    width = 8.5 - 0.5 / cos(SLANT)
    assert float(found.unfinished.width) == pytest.approx(width, abs=1e-9)
    assert round(float(found.unfinished.width), 4) == 7.9863
    assert found.unfinished.height == Fraction(17, 2)
    assert found.blocks == 2
    fabrics = {(patch.fabric, patch.layer) for patch in the_kind(found).patches}
    assert fabrics == {(letter, layer) for letter in "ABCD" for layer in (0, 1)}


def test_the_largest_square_by_eighths_in_a_slanted_exchange() -> None:
    steps = [*slanted(), square("block", "joined", "fit", "fit", shape="square")]
    assert size(facts(steps, stack=2)) == (Fraction(63, 8), Fraction(63, 8))
    as_wide_as_can_be = [*slanted(), square("block", "joined", "fit", "fit")]
    assert size(facts(as_wide_as_can_be, stack=2)) == (Fraction(63, 8), Fraction(17, 2))


def test_every_seam_meets_across_the_slant() -> None:
    found = facts(slanted(), ["joined"], stack=2)
    assert not found.warnings
    seams = [seam for seam in the_kind(found).seams if seam.step == "set"]
    left = sorted((seam.end for seam in seams if seam.start[0] == 0), key=lambda end: end[1])
    right = sorted((seam.start for seam in seams if seam.start[0] != 0), key=lambda end: end[1])
    assert len(left) == len(right) == 3
    for one, other in zip(left, right, strict=True):
        assert hypot(one[0] - other[0], one[1] - other[1]) < 1e-9


def test_slanted_edges_lie_13_24_degrees_off_the_thread() -> None:
    edges = the_kind(facts(slanted(), ["joined"], stack=2)).bias_edges
    assert len(edges) == 8
    assert {round(edge.degrees, 2) for edge in edges} == {13.24}
    assert not any(edge.outer for edge in edges)
    assert edges[0].degrees == pytest.approx(degrees(SLANT), abs=1e-9)


def test_raw_ends_of_a_matched_seam_stand_0_118_apart() -> None:
    making = run(recipe(slanted(), ["joined"], stack=2), Given())
    joined = first(making.outcomes[-1].events, Joined)
    assert float(joined.stand_out) == pytest.approx(0.5 * 2 / 8.5, abs=1e-12)
    assert round(float(joined.stand_out), 3) == 0.118
    assert "0.118 in apart" in str(making.outcomes[-1].sentence)


def test_a_slanted_exchange_of_8_1_2_needs_rails_of_9_014_so_9_1_8() -> None:
    needed = 8.5 + 0.5 / cos(SLANT)
    assert round(needed, 3) == 9.014
    exact = facts(slanted(f"{needed:.9f}"), ["joined"], stack=2)
    assert float(exact.unfinished.width) == pytest.approx(8.5, abs=1e-8)
    squared = [square("block", "joined", "8 1/2", "8 1/2")]
    assert size(facts([*slanted("9 1/8"), *squared], stack=2)) == (Fraction(17, 2), Fraction(17, 2))
    with pytest.raises(MakingError, match=r"steps\[8\].width: 8 1/2 in is more than joined measures there"):
        facts([*slanted("9"), *squared], stack=2)


@pytest.mark.parametrize(
    ("count", "every", "segments", "strips", "blocks", "over"),
    [(2, "4 1/2", 9, 40, 180, 0), (3, "6 1/2", 6, 40, 78, 1), (4, "8 1/2", 4, 40, 40, 0)],
)
def test_rails_from_forty_strips_of_42_in(
    count: int, every: str, segments: int, strips: int, blocks: int, over: int
) -> None:
    found = facts([*rails(count, "42"), cut("rail", "set", "across", every=every, count="fit")], ["rail.*"])
    sets, left = divmod(strips, count)
    assert (found.blocks, found.blocks * sets, left) == (segments, blocks, over)


def test_thirds_and_framed_four_patches_from_forty_strips_cover_48_by_60() -> None:
    halves = facts(thirds("13", 2, "42"), ["col.*"])
    turned = [
        *thirds("13 1/2", 3, "42"),
        turn("mid", "col.2", 180),
        sew("block", ["col.1", "mid", "col.3"], "across"),
    ]
    whole = facts(turned)
    framed = facts(framed_four_patch(), stack=5)
    sets = 40 // 2
    assert sets * halves.blocks == 40
    assert sets * whole.blocks == 20
    assert sets * halves.ledger.seen == sets * whole.ledger.seen == 48 * 60
    assert 40 // sum(strip.count for strip in framed.strips) == 40


def test_cut_turn_sew_at_42_in_leaves_nothing_for_truing() -> None:
    exact = facts([*rails(3, "42"), cut("part", "set", "across", every="7", count="fit")], ["part.*"])
    trued = facts(
        [*rails(3, "42"), cut("part", "set", "across", every="7", count="fit", trim="1/2")], ["part.*"]
    )
    assert (exact.blocks, exact.ledger.waste) == (6, 0)
    three_strips = 3 * Fraction(5, 2)
    assert (trued.blocks, trued.ledger.waste) == (5, three_strips * (42 - 5 * 7))


@pytest.mark.parametrize(
    ("name", "finished", "blocks", "laid"),
    [
        ("rail-fence-of-two", (4, 4), 1, Fraction(45, 2)),
        ("rail-fence-of-three", (6, 6), 1, Fraction(195, 4)),
        ("rail-fence-of-four", (8, 8), 1, 85),
        ("cut-turn-sew", (6, 6), 1, Fraction(105, 2)),
        ("two-halves-from-thirds", (6, 12), 2, 195),
        ("middle-end-for-end", (12, 12), 1, Fraction(405, 2)),
        ("framed-four-patch", (8, 8), 5, 90),
    ],
)
def test_shipped_recipes_give_the_same(
    name: str, finished: tuple[int, int], blocks: int, laid: Fraction
) -> None:
    found = facts_of_recipe(shipped_recipes()[name], Given())
    assert found.finished == Finished(*map(Fraction, finished))
    assert found.blocks == blocks
    assert found.ledger.laid == laid
    assert found.ledger.waste == 0
