"""Resizing the quilt in view: by columns, rows, grid unit, block size or a target size.

What fits stays where it is.
"""

from bisect import bisect_left
from collections.abc import Iterable
from fractions import Fraction
from typing import Literal

from piecewright.edit.footprint import Laid, all_laid, common_measure
from piecewright.edit.notes import notes_kept, notes_scaled
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.scaling import with_blocks_scaled
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.frame import frame_of
from piecewright.model.quilt import MOST_CELLS, Lattice, Quilt
from piecewright.words.message import Message, message

Way = Literal["columns", "rows"]


@edit("set-columns", undo="edit.undo-columns")
def set_columns(design: Design, *, columns: int, at: Literal["left", "right"] = "right") -> Design:
    """Give the quilt more or fewer columns, at its right or its left; what no longer fits leaves the wall."""
    lattice = design.quilt.lattice
    added = columns - lattice.columns
    after = lattice.changed(columns=columns)
    way = "columns" if at == "left" else "rows"
    if lattice.kind == "on point":
        resized = _resized(design, after, **{way: added * lattice.space_columns})
    else:
        resized = _resized(design, after, columns=added if at == "left" else 0)
    return notes_kept(design, resized, left=at == "left")


@edit("set-rows", undo="edit.undo-rows")
def set_rows(design: Design, *, rows: int, at: Literal["top", "bottom"] = "bottom") -> Design:
    """Give the quilt more or fewer rows, at its bottom or its top; what no longer fits leaves the wall."""
    lattice = design.quilt.lattice
    added = rows - lattice.rows if at == "top" else 0
    after = lattice.changed(rows=rows)
    if lattice.kind == "on point":
        added *= lattice.space_rows
        resized = _resized(design, after, columns=added, rows=added)
    else:
        resized = _resized(design, after, rows=added)
    return notes_kept(design, resized, top=at == "top")


@edit("set-target-size", undo="edit.undo-target-size")
def set_target_size(design: Design, *, width: Fraction, height: Fraction) -> Design:
    """Come as near to a finished size, borders included, as whole columns and rows do; a tie goes up."""
    quilt = design.quilt
    borders = 2 * sum((border.width for border in quilt.borders), Fraction(0))
    if min(width, height) <= borders:
        refuse("target-too-small", message("edit.target-above", borders=borders), width=width, height=height)
    columns = _nearest_count(quilt, width - borders, "columns")
    rows = _nearest_count(quilt, height - borders, "rows")
    before = quilt.lattice
    added = columns - before.columns
    return _resized(
        design,
        before.changed(columns=columns, rows=rows),
        rows=added * before.space_columns if before.kind == "on point" else 0,
    )


@edit("set-unit", undo="edit.undo-unit")
def set_unit(design: Design, *, unit: Fraction) -> Design:
    """Divide the quilt into cells of another size; the quilt and every block stay as they are.

    Raises EditError where a block or an edge of the quilt would not lie on the new grid.
    """
    quilt, lattice = design.quilt, design.quilt.lattice
    laid = all_laid(design, quilt)
    fine = _finest(laid, quilt)
    lattice.changed(unit=unit)
    if (fine / unit).denominator != 1:
        refuse("unit-cuts-blocks", message("edit.units-that-fit", unit=fine, half=fine / 2), unit=unit)
    factor = lattice.unit / unit
    empty = quilt.changed(lattice=_on_unit(quilt, unit), rows=())
    wall = Wall(design, empty)
    for one in laid:
        cell = Cell(int(one.column * factor), int(one.row * factor))
        wall.lay(wall.over(cell, one.placement), alone=False)
    return design.with_quilt(wall.quilt())


@edit("set-block-size", undo="edit.undo-block-size")
def set_block_size(design: Design, *, unit: Fraction) -> Design:
    """Make all blocks larger or smaller, so that each still covers its cells when a cell is `unit` inches.

    Every block whose recipe can be made in the new size is; the others keep theirs, and stay where they still
    fit. Blocks that also lie in other arrangements stay as they are there. Raises EditError where no block
    can be made in the new size.
    """
    quilt = design.quilt
    resized = quilt.changed(lattice=quilt.lattice.changed(unit=unit), rows=())
    scaled, names = with_blocks_scaled(design, unit / quilt.lattice.unit)
    if quilt.blocks and not names:
        refuse("no-such-block-size", message("edit.block-sizes-known"), unit=unit)
    wall = Wall(scaled.with_quilt(resized))
    laid = all_laid(design, quilt)
    first = [one for one in laid if one.placement.block in names]
    for one in (*first, *(one for one in laid if one.placement.block not in names)):
        block = names.get(one.placement.block, one.placement.block)
        _lay_if_it_fits(wall, one._replace(placement=one.placement.changed(block=block)))
    return wall.design().with_quilt(notes_scaled(wall.quilt(), unit / quilt.lattice.unit))


def leaving(before: Design, after: Design) -> tuple[tuple[str, int], ...]:
    """Which blocks, by name, are fewer on the wall in view after an edit, and by how many.

    They come in the order of the shelf.
    """
    old, new = _counts(before), _counts(after)
    return tuple((name, old[name] - new.get(name, 0)) for name in old if new.get(name, 0) < old[name])


def leaving_text(before: Design, after: Design) -> Message:
    """What leaves the wall with an edit, in words."""
    left = leaving(before, after)
    if not left:
        return message("edit.nothing-leaves")
    parts = tuple(message("edit.leaving-one", count=count, name=name) for name, count in left)
    return message("edit.leaving", count=sum(count for _, count in left), parts=parts)


def _counts(design: Design) -> dict[str, int]:
    counts = {block.id: 0 for block in design.blocks}
    for row in design.quilt.rows:
        for placement in row.placements:
            counts[placement.block] += 1
    by_name: dict[str, int] = {}
    for id_, count in counts.items():
        name = design.shelf.blocks[id_].name
        by_name[name] = by_name.get(name, 0) + count
    return {name: count for name, count in by_name.items() if count}


def _resized(design: Design, lattice: Lattice, columns: int = 0, rows: int = 0) -> Design:
    """The quilt on another lattice of the same unit, everything moved by so many columns and rows."""
    quilt = design.quilt
    empty = quilt.changed(lattice=lattice, rows=())
    wall = Wall(design, empty)
    for laid in all_laid(design, quilt):
        moved = laid._replace(column=laid.column + columns, row=laid.row + rows)
        if wall.is_inside(moved):
            wall.put(moved)
    return design.with_quilt(wall.quilt())


def _nearest_count(quilt: Quilt, wanted: Fraction, way: Way) -> int:
    """The columns or rows with which the center comes nearest to a width or height; a tie goes up."""
    above = least_count(quilt, wanted, way)
    if above is None:
        return _most(quilt, way)
    below = max(above - 1, 1)
    over, under = (_length(quilt, way, count) - wanted for count in (above, below))
    return above if over <= -under else below


def least_count(quilt: Quilt, wanted: Fraction, way: Way, step: int = 1) -> int | None:
    """The fewest columns or rows, in whole steps, with which the center reaches a length; None where none does."""
    counts = range(step, _most(quilt, way) + 1, step)
    at = bisect_left(counts, wanted, key=lambda count: _length(quilt, way, count))
    return counts[at] if at < len(counts) else None


def _most(quilt: Quilt, way: Way) -> int:
    """The most columns or rows that the lattice may have, the others as they are."""
    lattice = quilt.lattice
    if lattice.kind == "straight":
        return MOST_CELLS
    other = lattice.rows if way == "columns" else lattice.columns
    return max(MOST_CELLS // lattice.space_columns - other + 1, 1)


def _length(quilt: Quilt, way: Way, count: int) -> Fraction:
    """How wide or high the center is with so many columns or rows."""
    lattice = quilt.lattice.changed(**{way: count})
    size = frame_of(lattice, quilt.sashing, quilt.triangles.float).size
    return Fraction(size.width if way == "columns" else size.height)


def _finest(laid: Iterable[Laid], quilt: Quilt) -> Fraction:
    """The largest unit on whose grid all blocks, the spaces and the edges of the quilt lie."""
    lattice = quilt.lattice
    cells = {lattice.columns, lattice.rows} if lattice.kind == "straight" else {lattice.space_columns}
    if quilt.sashing is not None or lattice.space_columns > 1:
        cells |= {lattice.space_columns, lattice.space_rows}
    for one in laid:
        cells.update(one[:4])
    return common_measure(*(count * lattice.unit for count in cells))


def _on_unit(quilt: Quilt, unit: Fraction) -> Lattice:
    """The same lattice in cells of another size, of which all its lines are whole multiples."""
    lattice = quilt.lattice
    factor = lattice.unit / unit
    on_point = lattice.kind == "on point"
    columns, rows = int(lattice.columns * factor), int(lattice.rows * factor)
    if max(columns, rows) > MOST_CELLS:
        refuse("too-many-cells", columns=columns, rows=rows, most=MOST_CELLS)
    parted = on_point or quilt.sashing is not None or lattice.space_columns > 1
    return lattice.changed(
        unit=unit,
        columns=lattice.columns if on_point else columns,
        rows=lattice.rows if on_point else rows,
        space_columns=max(int(lattice.space_columns * factor), 1) if parted else 1,
        space_rows=max(int(lattice.space_rows * factor), 1) if parted else 1,
    )


def _lay_if_it_fits(wall: Wall, laid: Laid) -> None:
    try:
        wall.lay(wall.over(Cell(laid.column, laid.row), laid.placement), alone=False)
    except EditError:
        return
