"""Giving placed blocks other fabrics than their block on the shelf has."""

from collections.abc import Callable, Mapping

from piecewright.edit.facts_of import stack_of
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.model.value import Letters
from piecewright.words.message import message


@edit("recolor-letter", undo="edit.undo-recolor")
def recolor_letter(
    design: Design, *, cells: tuple[Cell, ...], letter: str, fabric: str, layer: int | None = None
) -> Design:
    """Let a letter be another fabric in the selected blocks that have it.

    `layer` is that of a patch as the facts give it: of a stack's fabrics only the one which that patch shows
    is changed.
    """
    check_fabric(design, fabric)
    having = [0]

    def recolored(placement: Placement, own: Letters) -> Letters:
        if letter not in design.shelf.letters(placement.block):
            return own
        having[0] += 1
        return own.with_item(letter, _with_fabric(design, placement, own.get(letter, ()), layer, fabric))

    after = _repainted(design, cells, recolored)
    if not having[0]:
        refuse("no-such-letter", letter=letter)
    return after


@edit("recolor-blocks", undo="edit.undo-recolor")
def recolor_blocks(design: Design, *, cells: tuple[Cell, ...], fabric: str, to: str) -> Design:
    """Replace one fabric by another in the selected blocks, whatever letters it stands for."""
    check_fabric(design, fabric)
    check_fabric(design, to)
    return _repainted(design, cells, lambda _, own: own.renamed({fabric: to}))


@edit("set-block-fabrics", undo="edit.undo-recolor")
def set_block_fabrics(design: Design, *, cells: tuple[Cell, ...], fabrics: Letters) -> Design:
    """Give the selected blocks these fabrics by letter.

    Letters left out stay as they are; letters that a block has not are passed over.
    """
    for fabric in sorted(fabrics.ids()):
        check_fabric(design, fabric)

    def recolored(placement: Placement, own: Letters) -> Letters:
        known = design.shelf.letters(placement.block)
        return fabrics.without(frozenset(fabrics).difference(known)).over(own)

    return _repainted(design, cells, recolored)


@edit("restore-fabrics", undo="edit.undo-restore")
def restore_fabrics(design: Design, *, cells: tuple[Cell, ...]) -> Design:
    """Give the selected blocks the fabrics that their block on the shelf has."""
    return _repainted(design, cells, lambda placement, _: design.shelf.blocks[placement.block].fabrics)


def check_fabric(design: Design, fabric: str) -> None:
    """Refuse a fabric id that the design has not."""
    if fabric not in design.shelf.fabrics:
        refuse("no-fabric", message("edit.add-fabric-first"), id=fabric)


def with_letters(placement: Placement, own: Letters, wanted: Letters) -> Placement:
    """A placement that shows the wanted fabrics, keeping only what differs from its block's `own` ones."""
    other: Mapping[str, tuple[str, ...]] = {
        letter: ids for letter, ids in wanted.items() if own.get(letter) != ids
    }
    fabrics = Letters(other)
    return placement if fabrics == placement.fabrics else placement.changed(fabrics=fabrics)


def _repainted(
    design: Design, cells: tuple[Cell, ...], recolored: Callable[[Placement, Letters], Letters]
) -> Design:
    """The design with the letters of the selected blocks as `recolored` makes them of the present ones."""
    wall = Wall(design)
    for laid in wall.all_at(cells):
        own = design.shelf.blocks[laid.placement.block].fabrics
        wanted = recolored(laid.placement, design.letters(laid.placement))
        wall.replace(laid, with_letters(laid.placement, own, wanted))
    return wall.design()


def _with_fabric(
    design: Design, placement: Placement, ids: tuple[str, ...], layer: int | None, fabric: str
) -> tuple[str, ...]:
    """A letter's fabrics with that one changed which a patch of the layer shows here; None: all."""
    stack = stack_of(design, placement.block)
    if layer is None or not ids or stack == 1:
        return (fabric,)
    shown = (placement.layer + layer) % stack
    return tuple(fabric if index == shown else ids[index % len(ids)] for index in range(stack))
