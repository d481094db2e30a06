"""One block's pressing in the quilt, told from the pressing of the whole."""

from piecewright.edit.registry import Cell, apply, call
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.plan.pressing import quilt_pressing
from piecewright.plan.pressing_of_block import joins_summary, neighbor_pressing, shelf_lights

NAMES = ("middle-end-for-end", "two-halves-from-thirds")


def design(places: int) -> Design:
    """Two blocks on the shelf; so many of the first in a row on the wall."""
    found = Design("Any")
    for name in NAMES:
        found = apply(found, call("add-block", name=name, new_recipe=shipped_recipes()[name]))
    step = int(12 / found.quilt.lattice.unit)
    for number in range(places):
        cell = Cell(number * step, 0)
        found = apply(found, call("place-block", block=found.blocks[0].id, cell=cell))
    return found


def test_a_block_that_lies_nowhere_has_no_neighbors() -> None:
    found = design(0)
    told = neighbor_pressing(found, found.blocks[1].id, quilt_pressing(found))
    assert (told.placed, told.crossings, told.clashes) == (0, 0, 0)
    assert [str(said) for said in told.sentences] == [
        "two-halves-from-thirds lies nowhere in the quilt yet, so it has no neighbors."
    ]


def test_what_is_told_adds_up_to_the_quilt() -> None:
    found = design(2)
    quilt = quilt_pressing(found)
    told = neighbor_pressing(found, found.blocks[0].id, quilt)
    assert told.placed == len(quilt.blocks) == 2
    assert told.other_way == sum(block.other_way for block in quilt.blocks)
    assert (told.crossings, told.clashes, told.bound) == (quilt.crossings, len(quilt.clashes), quilt.bound)
    assert told.sentences[0] in quilt.sentences
    assert told.sentences[1] == joins_summary(quilt)
    assert quilt.crossings > 0
    assert str(joins_summary(quilt)).startswith("On the joins of blocks")


def test_lights_are_those_of_the_fabrics_of_the_block_on_the_shelf() -> None:
    found = design(0)
    assert shelf_lights(found, found.blocks[0].id) == ()
    found = apply(found, call("add-fabric", name="Black", color="#000000", print=None))
    block = found.blocks[0]
    found = apply(found, call("change-block", block=block.changed(fabrics={"A": (found.fabrics[0].id,)})))
    assert shelf_lights(found, block.id) == (("A", 0, 0.0),)
