"""Every placed block has its sets and segments, and no segment goes to two makings."""

from collections import Counter

from hypothesis import given, settings

from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.plan.dealt import dealt
from piecewright.plan.materials import materials
from tests.core.edit.quilts import laid
from tests.core.strategies import designs


@settings(max_examples=60, deadline=None)
@given(made=designs())
def test_every_sewn_block_has_its_segments_and_no_segment_two_makings(made: Design) -> None:
    needed, found = materials(made), dealt(made)
    assert len(found) == sum(batch.blocks for batch in needed.batches)
    owners: dict[object, tuple[object, int]] = {}
    for here in found.values():
        for segment in here.segments:
            assert owners.setdefault(segment, (here.batch, here.making)) == (here.batch, here.making)
    sets = {each.key: each.sets for each in needed.sets}
    assert all(1 <= segment.set <= sets[segment.key] for segment in owners)  # type: ignore[attr-defined]


def test_rails_take_one_segment_each_in_the_order_of_the_rows() -> None:
    made = laid("rrr...", "rrr...", "r.....")  # six to a set: 6 x 6 1/2 + 1/2 + 1/4 of 40 in
    found = dealt(made)
    cells = [Cell(one.column, one.row) for one in all_laid(made, made.quilt)]
    taken = [found[cell].segments for cell in cells]
    assert all(len(segments) == 1 for segments in taken)
    per_set = Counter(segments[0].set for segments in taken)
    assert per_set == {1: 6, 2: 1}
    assert [segments[0].cut for segments in taken] == [1, 2, 3, 4, 5, 6, 1]
    assert [found[cell].making for cell in cells] == [1, 2, 3, 4, 5, 6, 7]


def test_the_blocks_of_a_stack_share_the_segments_of_their_making() -> None:
    made = laid("fff...")
    found = list(dealt(made).values())
    assert len(found) == 3
    assert materials(made).batches[0].per_batch == 5
    for here in found:
        assert here.segments
