"""What cloth does by itself: long sets bow, high stacks drift, long crosswise borders stretch."""

from collections.abc import Iterator
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.words.message import message

BOWS_FROM = 4, Fraction(30)
"""Strips of a set, and inches of its length, from which it bows when every seam is sewn from the same end."""
DRIFTS_ABOVE = 6
"""Layers above which the lower ones drift under the ruler."""
STRETCHES_ABOVE = Fraction(60)
"""Inches of a crosswise border above which it stretches to the quilt instead of holding it. All three: common
practice, no source."""


def set_bows(block: str, name: str, strips: int, length: Fraction) -> Iterator[Finding]:
    """The caution for a strip set that long, where it has one."""
    least, longest = BOWS_FROM
    if strips >= least and length > longest:
        said = message("plan.bows", block=name, strips=strips, length=length)
        yield Finding("plan.bows", "note", said, block, message("plan.bows-hint"))


def stack_drifts(block: str, name: str, layers: int) -> Iterator[Finding]:
    """The caution for a stack that high, where it has one."""
    if layers > DRIFTS_ABOVE:
        said = message("plan.drifts", block=name, layers=layers)
        yield Finding("plan.drifts", "note", said, block, message("plan.drifts-hint"))


def border_stretches(number: int, longest: Fraction) -> Iterator[Finding]:
    """The caution for a border cut across the cloth, by its longest side."""
    if longest > STRETCHES_ABOVE:
        said = message("plan.stretches", number=number, length=longest)
        yield Finding("plan.stretches", "note", said, f"border {number}", message("plan.stretches-hint"))
