"""A note pinned to the wall: a few words at a place."""

from fractions import Fraction

from piecewright.model.limits import LONGEST, check_text, refuse
from piecewright.model.value import Value
from piecewright.words.message import message

LONGEST_NOTE = 500
"""The most characters of a note."""
MOST_NOTES = 200
"""The most notes pinned to one arrangement."""


class Note(Value, frozen=True):
    """Words on a slip of paper, pinned `across` and `down` inches from the top left of the quilt's center.

    The center is what the borders lie round; the place may be beside the quilt. A note is never sewn, cut or counted.
    """

    text: str
    across: Fraction
    down: Fraction

    def __post_init__(self) -> None:
        if not self.text.strip():
            refuse("no-name", what="note")
        if len(self.text) > LONGEST_NOTE:
            shorter = message("model.shorten", most=LONGEST_NOTE)
            refuse("long-name", shorter, what="note", length=len(self.text))
        check_text(self.text)
        for place in (self.across, self.down):
            if abs(place) > LONGEST:
                refuse("note-too-far", place=place, most=LONGEST)
