"""How large the top will really come out, sewn with the quilter's own seam: what each seam takes, seam by seam."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.facts_of import given_of
from piecewright.errors import PiecewrightError
from piecewright.geometry.motion import Number
from piecewright.making.nudging import without_claim
from piecewright.making.run import facts
from piecewright.model.quilt import Border, Placement, Quilt
from piecewright.plan.layout import Layout
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

Pair = tuple[Number, Number]
"""Of what is as wide and of what is as high."""
_ROOT = sqrt(2)


@dataclass(frozen=True, slots=True)
class RealSize:
    """The sewn top with the quilter's own seam, where every seam takes `lost` inches beyond its two allowances.

    Rows may come out unlike: `least` is as wide as the shortest row and as high as the shortest column, `most` as the
    longest. Both are None where a block can not be sewn with this seam: `block` is its name then.
    """

    lost: Fraction
    least: Unfinished | None
    most: Unfinished | None
    block: str = ""

    @property
    def sentence(self) -> Message:
        """The size, or what is in its way."""
        if self.least is None or self.most is None:
            return message("plan.real-size-not", block=self.block)
        if self.least == self.most:
            return message("plan.real-size", size=self.least)
        return message("plan.real-size-unlike", least=self.least, most=self.most)


def real_size(room: Workroom, quilt: Quilt, laid: Layout) -> RealSize | None:
    """The predicted size of the top; None where the seam is perfect, or nothing hangs.

    What lies between the blocks and round them is cut to its numbers, and each piece ends up narrower by what its
    one seam loses; of a block its own seams take more. The outer edges are not sewn yet, which gives one seam back.
    So three strips of 2 1/2 in of which two seams lose 1/16 each are 6 1/2 - 2/16 in wide.
    """
    return _real_size(room, quilt, laid) if room.settings.lost_per_seam and laid.rows else None


@stage(keep=16)
def _real_size(room: Workroom, quilt: Quilt, laid: Layout) -> RealSize:
    lost, top = room.settings.lost_per_seam, laid.size.unfinished
    shrunk = _Shrunk(room)
    try:
        around = _round(shrunk, quilt.borders)
        wide, high = _on_point(shrunk, laid) if laid.frame.on_point else _straight(shrunk, laid)
    except _NotSewnError as fault:
        return RealSize(lost, None, None, fault.block)
    width, height = (side + lost - around for side in (Fraction(top.width), Fraction(top.height)))
    least = Unfinished(width - max(wide), height - max(high))
    return RealSize(lost, least, Unfinished(width - min(wide), height - min(high)))


class _NotSewnError(Exception):
    def __init__(self, block: str) -> None:
        super().__init__(block)
        self.block = block


class _Shrunk:
    """By how much blocks come out smaller in their row than they should, the seam to the next one counted in."""

    def __init__(self, room: Workroom) -> None:
        self.room = room
        self.lost = room.settings.lost_per_seam
        self._known: dict[str, Pair] = {}

    def of(self, placement: Placement) -> Pair:
        """Inches lost of a block as it lies, across and down."""
        found = self._known.get(placement.block)
        if found is None:
            found = self._known[placement.block] = self._lost(placement.block)
        return found[::-1] if placement.turn in (90, 270) else found

    def _lost(self, name: str) -> Pair:
        room = self.room
        block = room.design.shelf.blocks[name]
        recipe, given = without_claim(room.design.shelf.recipes[block.recipe]), given_of(room.design, block)
        try:
            nominal = facts(recipe, given).unfinished
            real = facts(recipe, replace(given, lost=self.lost)).unfinished
        except PiecewrightError as error:
            raise _NotSewnError(block.name) from error
        return nominal.width - real.width + self.lost, nominal.height - real.height + self.lost


def _round(shrunk: _Shrunk, borders: tuple[Border, ...]) -> Number:
    """What all borders lose of the width, which is what they lose of the height."""
    total: Number = Fraction(0)
    for border in borders:
        pieced = border.pieced
        if pieced is None or pieced.block is None:
            total += 2 * shrunk.lost
        else:
            total += 2 * shrunk.of(Placement(0, pieced.block, pieced.turn))[1]
    return total


def _straight(shrunk: _Shrunk, laid: Layout) -> tuple[list[Number], list[Number]]:
    """What each row loses of the width, and each column of the height; of those that are not whole only if none is."""
    lattice, sashes = laid.lattice, _sashes(laid)
    rows: list[Number] = [sashes[0] * shrunk.lost] * lattice.rows
    columns: list[Number] = [sashes[1] * shrunk.lost] * lattice.columns
    for (across, down), cells in _pieces(shrunk, laid):
        _lose(rows, across, cells[:, 1], cells[:, 3])
        _lose(columns, down, cells[:, 0], cells[:, 2])
    there = laid.covered() > 0
    if laid.coping is not None:
        there[:] = True
    return _told(rows, there), _told(columns, there.T)


def _lose(lines: list[Number], lost: Number, first: NDArray[np.int64], count: NDArray[np.int64]) -> None:
    """Take from each row, or column, what pieces lose that begin in `first` and reach over `count` of them."""
    most = len(lines)
    begun = np.bincount(first, minlength=most + 1)
    ended = np.bincount(np.minimum(first + count, most), minlength=most + 1)
    for at, pieces in enumerate((begun - ended).cumsum()[:most].tolist()):
        if pieces:
            lines[at] += pieces * lost


def _told(lost: list[Number], there: NDArray[np.bool_]) -> list[Number]:
    """Of the lines that are whole; where none is, of those in which something lies. `there` has a row for each."""
    whole = there.all(axis=1)
    chosen = whole if whole.any() else there.any(axis=1)
    return [lost[at] for at in np.flatnonzero(chosen).tolist()]


def _pieces(shrunk: _Shrunk, laid: Layout) -> Iterator[tuple[Pair, NDArray[np.int64]]]:
    """What blocks and coping strips lose across and down, and the cells of all that lose as much (n x 4)."""
    alike: dict[Pair, list[int]] = {}
    for number, block in enumerate(laid.blocks):
        alike.setdefault(shrunk.of(block.laid.placement), []).append(number)
    for lost, numbers in alike.items():
        yield lost, laid.cells[numbers]
    if laid.coping is not None and laid.gap_cells:
        yield (shrunk.lost, shrunk.lost), np.array(laid.gap_cells, np.int64)


def _sashes(laid: Layout) -> tuple[int, int]:
    """How many sashes a row and a column cross."""
    frame, size = laid.frame, laid.frame.size
    spare = (
        Fraction(size.width) - laid.lattice.columns * laid.lattice.unit,
        Fraction(size.height) - laid.lattice.rows * laid.lattice.unit,
    )
    widths = (frame.sash_columns, frame.sash_rows)
    across, down = (int(inches / each) if each else 0 for inches, each in zip(spare, widths, strict=True))
    return across, down


def _on_point(shrunk: _Shrunk, laid: Layout) -> tuple[list[Number], list[Number]]:
    """What the quilt would lose of each side were all spaces filled with one of its blocks, for each of them.

    From corner to corner a space takes its side times the square root of 2. Setting triangles are trimmed to float.
    """
    lattice, frame = laid.lattice, laid.frame
    sash = shrunk.lost if frame.sash_columns else Fraction(0)
    wide, high = list[Number](), list[Number]()
    for block in laid.blocks:
        for lost, cells in zip(
            shrunk.of(block.laid.placement), (block.laid.columns, block.laid.rows), strict=True
        ):
            step = float(lost * lattice.space_columns / cells + sash) * _ROOT
            wide.append(lattice.columns * step)
            high.append(lattice.rows * step)
    return wide, high
