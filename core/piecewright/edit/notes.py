"""Notes on the wall: pinned, written anew, moved, taken off."""

from fractions import Fraction

from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Arguments, edit, last_wins
from piecewright.model.design import Design
from piecewright.model.note import Note
from piecewright.model.quilt import Quilt
from piecewright.units.rounding import nearest

_EIGHTH = nearest(Fraction(1, 8))


@edit("pin-note", undo="edit.undo-pin-note")
def pin_note(design: Design, *, note: Note) -> Design:
    """Pin a note to the arrangement in view, the last of its notes."""
    return _with_notes(design, (*design.quilt.notes, note))


@edit("write-note", undo="edit.undo-write-note", merge=last_wins("index"))
def write_note(design: Design, *, index: int, text: str) -> Design:
    """Let a note (counted from 0) say something else."""
    note = _found(design.quilt, index)
    return _with_note(design, index, note.changed(text=text))


def _both_ways(previous: Arguments, following: Arguments) -> Arguments | None:
    if previous["index"] != following["index"]:
        return None
    return {**following, **{way: previous[way] + following[way] for way in ("across", "down")}}


@edit("move-note", undo="edit.undo-move-note", merge=_both_ways)
def move_note(design: Design, *, index: int, across: Fraction, down: Fraction) -> Design:
    """Pin a note (counted from 0) so many inches further right and down; less than 0: left and up."""
    note = _found(design.quilt, index)
    return _with_note(design, index, note.changed(across=note.across + across, down=note.down + down))


@edit("remove-note", undo="edit.undo-remove-note")
def remove_note(design: Design, *, index: int) -> Design:
    """Take a note (counted from 0) off the wall."""
    _found(design.quilt, index)
    notes = design.quilt.notes
    return _with_notes(design, (*notes[:index], *notes[index + 1 :]))


def notes_moved(quilt: Quilt, across: Fraction, down: Fraction) -> Quilt:
    """The arrangement with its notes so far right and down, as when it grows at its left or top."""
    if not quilt.notes or not (across or down):
        return quilt
    moved = (note.changed(across=note.across + across, down=note.down + down) for note in quilt.notes)
    return quilt.changed(notes=tuple(moved))


def notes_kept(before: Design, after: Design, *, left: bool = False, top: bool = False) -> Design:
    """A resized design whose notes stay by the blocks they were pinned to, though it grew at its `left` or `top`."""
    old, new = before.quilt.frame.size, after.quilt.frame.size
    across = _EIGHTH(new.width - old.width) if left else Fraction(0)
    down = _EIGHTH(new.height - old.height) if top else Fraction(0)
    return after.with_quilt(notes_moved(after.quilt, across, down))


def notes_scaled(quilt: Quilt, factor: Fraction) -> Quilt:
    """The arrangement with its notes where they are once the quilt is `factor` times as large."""
    scaled = (note.changed(across=note.across * factor, down=note.down * factor) for note in quilt.notes)
    return quilt.changed(notes=tuple(scaled)) if quilt.notes else quilt


def _found(quilt: Quilt, index: int) -> Note:
    if not 0 <= index < len(quilt.notes):
        refuse("no-note", number=index + 1, count=len(quilt.notes))
    return quilt.notes[index]


def _with_note(design: Design, index: int, note: Note) -> Design:
    notes = design.quilt.notes
    return _with_notes(design, (*notes[:index], note, *notes[index + 1 :]))


def _with_notes(design: Design, notes: tuple[Note, ...]) -> Design:
    return design.with_quilt(design.quilt.changed(notes=notes))
