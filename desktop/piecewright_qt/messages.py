"""Sentences of the engine in the words and the measure of the window."""

from piecewright.errors import Finding, PiecewrightError
from piecewright.units.measure import Measure
from piecewright.words.message import Message


def words(said: Message | PiecewrightError | Finding, measure: Measure) -> str:
    """One sentence to show, with its hint where it has one."""
    if isinstance(said, Message):
        return said.text(measure)
    hint = f" {said.hint.text(measure)}" if said.hint is not None else ""
    return said.message.text(measure) + hint
