"""Several alternatives of one quilt: added, duplicated, renamed, taken away, looked at."""

from fractions import Fraction

from piecewright.edit.refusing import refuse
from piecewright.edit.registry import edit, last_wins
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Quilt
from piecewright.words.message import message


@edit("add-arrangement", undo="edit.undo-add-arrangement")
def add_arrangement(design: Design, *, name: str, unit: Fraction, columns: int, rows: int) -> Design:
    """Add an empty arrangement behind the others and look at it."""
    return _with_new(design, Quilt(name, Lattice(unit, columns, rows)), len(design.arrangements))


@edit("duplicate-arrangement", undo="edit.undo-duplicate-arrangement")
def duplicate_arrangement(design: Design, *, index: int, name: str) -> Design:
    """Add a copy of an arrangement (counted from 0) behind it, under a name of its own, and look at it."""
    return _with_new(design, _found(design, index).changed(name=name), index + 1)


@edit("rename-arrangement", undo="edit.undo-rename-arrangement", merge=last_wins("index"))
def rename_arrangement(design: Design, *, index: int, name: str) -> Design:
    """Give an arrangement (counted from 0) another name."""
    renamed = _found(design, index).changed(name=name)
    quilts = design.arrangements
    return design.changed(arrangements=(*quilts[:index], renamed, *quilts[index + 1 :]))


@edit("remove-arrangement", undo="edit.undo-remove-arrangement")
def remove_arrangement(design: Design, *, index: int) -> Design:
    """Take an arrangement away (counted from 0); the one before it comes in view.

    Raises EditError for the only one.
    """
    found = _found(design, index)
    quilts = design.arrangements
    if len(quilts) == 1:
        refuse("only-arrangement", message("edit.add-arrangement-first"), name=found.name)
    current = design.current - 1 if design.current >= index else design.current
    return design.changed(arrangements=(*quilts[:index], *quilts[index + 1 :]), current=max(current, 0))


@edit("switch-arrangement", undo="edit.undo-switch-arrangement", merge=last_wins())
def switch_arrangement(design: Design, *, index: int) -> Design:
    """Look at an arrangement, counted from 0."""
    _found(design, index)
    return design.changed(current=index)


def _found(design: Design, index: int) -> Quilt:
    if not 0 <= index < len(design.arrangements):
        refuse("no-arrangement", number=index + 1, count=len(design.arrangements))
    return design.arrangements[index]


def _with_new(design: Design, quilt: Quilt, index: int) -> Design:
    quilts = design.arrangements
    return design.changed(arrangements=(*quilts[:index], quilt, *quilts[index:]), current=index)
