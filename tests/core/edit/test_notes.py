"""Notes are pinned, written anew, moved and taken off, stay by their blocks, and change no number."""

from fractions import Fraction

import pytest
from hypothesis import given, settings

from piecewright.edit.notes import move_note, pin_note, remove_note, write_note
from piecewright.edit.registry import call, merges_with
from piecewright.edit.resizing import set_block_size, set_columns, set_rows
from piecewright.errors import DesignError, EditError
from piecewright.model.design import Design
from piecewright.model.note import LONGEST_NOTE, Note
from piecewright.plan.materials import materials
from piecewright.plan.report import materials_report
from tests.core.edit.quilts import laid
from tests.core.strategies import designs

NOTE = Note("More light here", Fraction(9), Fraction(3))


def test_a_note_is_pinned_written_anew_moved_and_taken_off() -> None:
    before = laid("ro....")
    pinned = pin_note(before, note=NOTE)
    assert pinned.quilt.notes == (NOTE,)
    assert write_note(pinned, index=0, text="Dark").quilt.notes[0].text == "Dark"
    moved = move_note(pinned, index=0, across=Fraction(-1, 2), down=Fraction(2)).quilt.notes[0]
    assert (moved.across, moved.down) == (Fraction(17, 2), Fraction(5))
    assert remove_note(pinned, index=0) == before


def test_what_is_no_note_is_refused() -> None:
    with pytest.raises(DesignError, match="no name"):
        Note("  ", Fraction(0), Fraction(0))
    with pytest.raises(DesignError):
        Note("a" * (LONGEST_NOTE + 1), Fraction(0), Fraction(0))
    with pytest.raises(DesignError, match="farthest"):
        Note("Far", Fraction(10_001), Fraction(0))
    with pytest.raises(EditError, match="no note 1: 0 notes are pinned"):
        remove_note(laid("r....."), index=0)


def test_nudges_of_one_note_are_one_step() -> None:
    right = call("move-note", index=0, across=Fraction(1, 2), down=Fraction(0))
    down = call("move-note", index=0, across=Fraction(0), down=Fraction(1))
    assert merges_with(right, down) == call("move-note", index=0, across=Fraction(1, 2), down=Fraction(1))
    assert merges_with(right, call("move-note", index=1, across=Fraction(0), down=Fraction(1))) is None


def test_a_note_stays_by_its_block_when_the_quilt_grows_at_its_left_or_top_or_is_scaled() -> None:
    pinned = pin_note(laid("ro....", "......"), note=NOTE)
    assert set_columns(pinned, columns=8, at="left").quilt.notes[0].across == 9 + 12
    assert set_columns(pinned, columns=8).quilt.notes == pinned.quilt.notes
    assert set_rows(pinned, rows=3, at="top").quilt.notes[0].down == 3 + 6
    scaled = set_block_size(pinned, unit=Fraction(9)).quilt.notes[0]
    assert (scaled.across, scaled.down) == (Fraction(27, 2), Fraction(9, 2))


@settings(max_examples=20, deadline=None)
@given(before=designs())
def test_a_note_changes_no_number(before: Design) -> None:
    if len(before.quilt.notes) < 200:
        after = pin_note(before, note=NOTE)
        assert materials_report(materials(after)) == materials_report(materials(before))
