"""The values that each slider of a resize stops at."""

from fractions import Fraction

from piecewright.edit.resize_quilt import cloth_around
from piecewright.edit.scaling import block_units
from piecewright.edit.spaces import largest_space
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_CELLS
from piecewright.units.measure import Measure
from piecewright.units.scale import CM

_LARGEST_QUILT = Fraction(130)
"""Inches that the sliders of columns and rows reach at least: wider than any bed."""
_HALVES = tuple(Fraction(n, 2) for n in range(1, 49))
_CENTIMETERS = tuple(n * CM for n in range(1, 61))
_WIDEST_BORDER = Fraction(16)


def count_stops(design: Design, count: int) -> tuple[int, ...]:
    """Columns or rows: from one to twice as many, or as many as the largest quilt has."""
    cells = int(_LARGEST_QUILT / design.quilt.lattice.unit)
    return tuple(range(1, min(MOST_CELLS, max(2 * count, cells)) + 1))


def unit_stops(design: Design, measure: Measure) -> tuple[Fraction, ...]:
    """Sizes of a cell: those in which all blocks on the wall can be made; round ones while it is empty."""
    unit = design.quilt.lattice.unit
    found = block_units(design) if design.quilt.blocks else _round_lengths(measure)
    return tuple(sorted({*found, unit}))


def border_stops(design: Design, measure: Measure) -> tuple[Fraction, ...]:
    """Finished widths of the outermost border; none where there is no border."""
    borders = design.quilt.borders
    if not borders:
        return ()
    narrow = (width for width in _round_lengths(measure) if width <= _WIDEST_BORDER)
    return tuple(sorted({*narrow, borders[-1].width}))


def sashing_stops(design: Design, measure: Measure) -> tuple[Fraction, ...]:
    """Finished widths of the sashing up to half a block, 0 for none; only the present one where no cloth is there."""
    quilt = design.quilt
    now = sash_width(design)
    if cloth_around(design) is None or not quilt.rows:
        return (now,)
    largest = quilt.frame.space_width if quilt.sashing else largest_space(design) * quilt.lattice.unit
    step = Fraction(1, 4) if measure.unit == "in" else CM / 2
    return tuple(sorted({*(n * step for n in range(int(largest / 2 / step) + 1)), now}))


def sash_width(design: Design) -> Fraction:
    """How wide the sashing is finished, the wider way; 0 for none."""
    sashing = design.quilt.sashing
    return max(sashing.columns, sashing.rows) if sashing else Fraction(0)


def _round_lengths(measure: Measure) -> tuple[Fraction, ...]:
    return _HALVES if measure.unit == "in" else _CENTIMETERS
