"""What goes round and behind the quilt: borders, binding, backing and batting."""

from fractions import Fraction

from piecewright.edit.footprint import exact_size
from piecewright.edit.ids import with_new_id
from piecewright.edit.recoloring import check_fabric
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import edit, last_wins
from piecewright.edit.wall import check_block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Backing, Batting, Binding, Border
from piecewright.words.message import message

_UNBLEACHED = "#e9e2d0"


@edit("add-border", undo="edit.undo-add-border")
def add_border(design: Design, *, border: Border, at: int | None = None) -> Design:
    """Add a border: outside the others, or as number `at`, counted from 0 at the innermost.

    One pieced of a block takes its width and the length of its pieces from the block.
    """
    border = _fitted(design, border)
    borders = design.quilt.borders
    at = len(borders) if at is None else at
    if not 0 <= at <= len(borders):
        _refuse_border(at, len(borders))
    return _with_borders(design, (*borders[:at], border, *borders[at:]))


@edit("change-border", undo="edit.undo-change-border", merge=last_wins("index"))
def change_border(design: Design, *, index: int, border: Border) -> Design:
    """Put a border in the place of one, counted from 0 at the innermost; of a block as in `add-border`."""
    border = _fitted(design, border)
    borders = _checked(design, index)
    return _with_borders(design, (*borders[:index], border, *borders[index + 1 :]))


@edit("remove-border", undo="edit.undo-remove-border")
def remove_border(design: Design, *, index: int) -> Design:
    """Take a border away, counted from 0 at the innermost."""
    borders = _checked(design, index)
    return _with_borders(design, (*borders[:index], *borders[index + 1 :]))


@edit("move-border", undo="edit.undo-move-border")
def move_border(design: Design, *, index: int, to: int) -> Design:
    """Let a border become number `to` from the inside, counted from 0."""
    borders = _checked(design, index)
    _checked(design, to)
    others = (*borders[:index], *borders[index + 1 :])
    return _with_borders(design, (*others[:to], borders[index], *others[to:]))


@edit("set-binding", undo="edit.undo-binding", merge=last_wins())
def set_binding(design: Design, *, binding: Binding) -> Design:
    """Bind the quilt so."""
    if binding.fabric is not None:
        check_fabric(design, binding.fabric)
    return design.with_quilt(design.quilt.changed(binding=binding))


@edit("set-backing", undo="edit.undo-backing", merge=last_wins())
def set_backing(design: Design, *, backing: Backing) -> Design:
    """Back the quilt so."""
    if backing.fabric is not None:
        check_fabric(design, backing.fabric)
    return design.with_quilt(design.quilt.changed(backing=backing))


@edit("widen-backing", undo="edit.undo-widen-backing")
def widen_backing(design: Design, *, name: str, width: Fraction) -> Design:
    """Back the quilt with cloth so wide: a new fabric of that name that looks as the backing's did, unpriced."""
    backing = design.quilt.backing
    new, counted = with_new_id(design, "f")
    old = design.shelf.fabrics.get(backing.fabric or "", Fabric(new, name, _UNBLEACHED))
    wide = old.changed(id=new, name=name, width=width, price=None, note="", forms=())
    backed = design.quilt.changed(backing=backing.changed(fabric=new))
    return counted.changed(fabrics=(*design.fabrics, wide)).with_quilt(backed)


@edit("set-batting", undo="edit.undo-batting", merge=last_wins())
def set_batting(design: Design, *, batting: Batting) -> Design:
    """Lay batting in so."""
    return design.with_quilt(design.quilt.changed(batting=batting))


def _fitted(design: Design, border: Border) -> Border:
    """The border, of the size of the block that it is pieced of. Raises EditError for what the design has not."""
    for fabric in sorted(border.fabrics):
        check_fabric(design, fabric)
    pieced = border.pieced
    if pieced is None or pieced.block is None:
        return border
    check_block(design, pieced.block)
    size = exact_size(design, pieced.block)
    length, width = (size.height, size.width) if pieced.turn in (90, 270) else (size.width, size.height)
    return border.changed(width=width, pieced=pieced.changed(length=length))


def _checked(design: Design, index: int) -> tuple[Border, ...]:
    borders = design.quilt.borders
    if not 0 <= index < len(borders):
        _refuse_border(index, len(borders))
    return borders


def _refuse_border(index: int, count: int) -> None:
    refuse("no-border", message("edit.borders-there", count=count), number=index + 1)


def _with_borders(design: Design, borders: tuple[Border, ...]) -> Design:
    return design.with_quilt(design.quilt.changed(borders=borders))
