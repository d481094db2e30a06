"""One block in the place of another, everywhere at once."""

from piecewright.edit.footprint import footprints
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import edit
from piecewright.edit.wall import check_block, with_placements
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Placement, Quilt
from piecewright.model.value import NO_LETTERS
from piecewright.words.message import message


@edit("replace-everywhere", undo="edit.undo-replace-everywhere")
def replace_everywhere(design: Design, *, block: str, to: str) -> Design:
    """Use another block wherever this one lies, in every arrangement and border, turned as it is, in its own fabrics.

    Raises EditError where it covers other cells, is locked, or can not be made.
    """
    check_block(design, block)
    check_block(design, to)
    return design.changed(
        arrangements=tuple(_replaced(design, one, block, to) for one in design.arrangements)
    )


def takes_place_of(design: Design, block: str) -> tuple[str, ...]:
    """The other blocks of the shelf that cover just as many columns and rows, in the shelf's order."""
    sizes = footprints(design)
    found = []
    for other in design.blocks:
        try:
            if other.id != block and sizes.unturned(other.id) == sizes.unturned(block):
                found.append(other.id)
        except EditError:
            continue
    return tuple(found)


def _replaced(design: Design, quilt: Quilt, block: str, to: str) -> Quilt:
    if block not in quilt.blocks and block not in quilt.blocks_around:
        return quilt
    _check_sizes(design, quilt, block, to)
    _check_free(design, quilt, block)

    def other(placement: Placement) -> Placement:
        if placement.block != block:
            return placement
        return placement.changed(block=to, kind=0, layer=0, fabrics=NO_LETTERS)

    borders = tuple(_border(border, block, to) for border in quilt.borders)
    return quilt.changed(rows=with_placements(quilt, other), borders=borders)


def _border(border: Border, block: str, to: str) -> Border:
    if border.pieced is None or border.block != block:
        return border
    return border.changed(pieced=border.pieced.changed(block=to))


def _check_sizes(design: Design, quilt: Quilt, block: str, to: str) -> None:
    sizes, names = footprints(design, quilt.lattice.unit), design.shelf.blocks
    (columns, rows), (wide, high) = sizes.unturned(block), sizes.unturned(to)
    if (columns, rows) != (wide, high):
        said = {"columns": columns, "rows": rows, "other_columns": wide, "other_rows": high}
        hint = message("edit.swap-alike")
        refuse("swap-unlike", hint, name=names[block].name, other=names[to].name, **said)


def _check_free(design: Design, quilt: Quilt, block: str) -> None:
    for row in quilt.rows:
        for one in row.placements:
            if one.block == block and one.locked:
                here = {"column": one.column + 1, "row": row.row + 1}
                refuse("locked", message("edit.unlock-first"), name=design.shelf.blocks[block].name, **here)
