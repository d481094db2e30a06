"""How one block of the shelf is pressed in the quilt: against its neighbors, wherever it lies."""

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.colour.value import lightness
from piecewright.making.darker import Lightness
from piecewright.model.design import Design
from piecewright.plan.pressing import QuiltPressing
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class NeighborPressing:
    """How many of a block lie in the quilt and how many of them are pressed the other way than its own plan.

    `crossings` and `clashes` are those on the joins of the whole quilt, `bound` the least number of clashes.
    """

    placed: int
    other_way: int
    crossings: int
    clashes: int
    bound: int
    sentences: tuple[Message, ...]


def neighbor_pressing(design: Design, block: str, quilt: QuiltPressing) -> NeighborPressing:
    """What the pressing of a quilt asks of one block of the shelf, by its id."""
    own = [each for each in quilt.blocks if each.placed.laid.placement.block == block]
    placed, other = len(own), sum(each.other_way for each in own)
    said = tuple(_said(design.shelf.blocks[block].name, placed, other, quilt))
    return NeighborPressing(placed, other, quilt.crossings, len(quilt.clashes), quilt.bound, said)


def _said(name: str, placed: int, other: int, quilt: QuiltPressing) -> Iterator[Message]:
    if not placed:
        yield message("sewing.not-placed", block=name)
        return
    if not other:
        yield message("sewing.as-planned", block=name)
    elif other == placed:
        yield message("sewing.all-other-way", block=name, count=placed)
    else:
        yield message("sewing.other-way", block=name, count=placed, other=other)
    yield joins_summary(quilt)
    for finding in quilt.findings:
        yield finding.message


def joins_summary(quilt: QuiltPressing) -> Message:
    """How many crossings on the joins nest, and whether more could."""
    clashes = len(quilt.clashes)
    if not quilt.crossings:
        return message("sewing.joins-no-crossings")
    if not clashes:
        return message("sewing.joins-nest", count=quilt.crossings)
    code = "sewing.joins-fewest-clashes" if quilt.proven else "sewing.joins-few-clashes"
    return message(code, count=clashes, crossings=quilt.crossings, bound=quilt.bound)


def shelf_lights(design: Design, block: str) -> Lightness:
    """How light each letter of a block on the shelf is in each layer, where it has a fabric."""
    found = design.shelf.blocks[block]
    recipe = design.shelf.recipes[found.recipe]
    return tuple(
        (letter, layer, lightness(design.shelf.fabrics[fabric].color))
        for letter in recipe.letters
        for layer in range(recipe.stack)
        if (fabric := found.fabrics.fabric(letter, layer)) is not None
    )
