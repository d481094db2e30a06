"""A strip longer than the cloth is wide: pieces of the full width and a rest, joined end to end."""

from fractions import Fraction
from typing import Literal, NamedTuple

from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.motion import Motion, Number
from piecewright.geometry.shapes import Rect, Segment, Shape
from piecewright.making.cloth import Cloth, Patch, Scrap, Seam
from piecewright.units.rounding import whole_up

How = Literal["diagonal", "straight"]


class JoinedStrip(NamedTuple):
    """A strip of `lengths` joined: its cloth, where each piece lies, the seams, and what is trimmed off."""

    cloth: Cloth
    lengths: tuple[Fraction, ...]
    starts: tuple[Fraction, ...]
    lines: tuple[Segment, ...]
    scraps: tuple[Scrap, ...]


def taken_by_a_join(how: How, width: Fraction, depth: Fraction) -> Fraction:
    """What a join takes of the length of both pieces together: two allowances, or as much as the strip is wide.

    Joined diagonally, strips cross at right angles and are sewn over the square in which they lie on each other.
    """
    return width if how == "diagonal" else 2 * depth


def joined_lengths(total: Fraction, usable: Fraction, taken: Fraction) -> tuple[Fraction, ...]:
    """Full widths and the rest that make up a length: n pieces give n x usable - (n - 1) x taken at most.

    `usable` is more than `taken`. The rest is more than what a join takes.
    """
    if total <= usable:
        return (total,)
    joins = int(whole_up((total - taken) / (usable - taken))) - 1
    return (*(usable,) * joins, total + joins * taken - joins * usable)


def joined_strip(
    first: Patch, width: Fraction, lengths: tuple[Fraction, ...], how: How, depth: Fraction, step: str
) -> JoinedStrip:
    """The strip of one layer, home. `first` is the patch of the first piece; further ones are numbered on from it."""
    taken = taken_by_a_join(how, width, depth)
    starts = [Fraction(0)]
    for length in lengths[:-1]:
        starts.append(starts[-1] + length - taken)
    total = starts[-1] + lengths[-1]
    lines = [_line(start, width, taken, how) for start in starts[1:]]
    patches: list[Patch] = []
    scraps: list[Scrap] = []
    for number, (start, length) in enumerate(zip(starts, lengths, strict=True)):
        rect = Rect(start, Fraction(0), start + length, width)
        halves = [right_hand(line.start, line.end) for line in lines[number : number + 1]]
        halves += [right_hand(line.end, line.start) for line in lines[max(0, number - 1) : number]]
        patch, off = _piece(first, number, rect, halves, depth)
        patches.append(patch)
        scraps += off
    seams = tuple(Seam(step, number, 0, 0, line) for number, line in enumerate(lines, start=1))
    box = Rect(Fraction(0), Fraction(0), total, width)
    return JoinedStrip(Cloth(tuple(patches), seams, box), lengths, tuple(starts), tuple(lines), tuple(scraps))


def _line(start: Fraction, width: Fraction, taken: Fraction, how: How) -> Segment:
    """The seam before a piece, from the upper edge to the lower."""
    if how == "diagonal":
        return Segment((start, Fraction(0)), (start + width, width))
    return Segment((start + taken / 2, Fraction(0)), (start + taken / 2, width))


def _piece(
    first: Patch, number: int, rect: Rect, halves: list[Half], depth: Number
) -> tuple[Patch, list[Scrap]]:
    """One piece seen up to its seams, trimmed one allowance beyond them; and what is trimmed off."""
    raw: Shape = rect
    scraps: list[Scrap] = []
    for half in halves:
        trimmed = half.shrunk(-depth)
        kept, off = raw.clipped(trimmed), raw.clipped(trimmed.opposite)
        if off is not None and kept is not None and kept is not raw:
            scraps.append(Scrap(first.letter, 0, first.strip + number, off, off))
        raw = kept or raw
    seen: Shape = raw
    for half in halves:
        seen = seen.clipped(half) or seen
    came = Motion(dx=rect.left)
    return Patch(first.letter, 0, first.strip + number, first.thread, raw, seen, came), scraps
