"""Covering a shape that is cut out: the cells it needs, as many as it takes, and blocks laid over them."""

from fractions import Fraction
from functools import lru_cache
from itertools import cycle

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import Laid, footprints
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.resizing import Way, least_count, set_columns, set_rows
from piecewright.edit.wall import Wall, check_block
from piecewright.geometry.motion import Point
from piecewright.geometry.polygons import reached
from piecewright.model.design import Design
from piecewright.model.frame import Frame
from piecewright.model.quilt import MOST_CELLS, Placement, Quilt, Turn
from piecewright.model.shape import Shape
from piecewright.words.message import message


@edit("set-shape", undo="edit.undo-shape")
def set_shape(design: Design, *, shape: Shape | None, cover: bool = True) -> Design:
    """Give the arrangement in view a shape to cover, or none.

    `cover`: with as many columns and rows as the shape with its margin takes; what no longer fits leaves the wall.
    """
    shaped = design.with_quilt(design.quilt.changed(shape=shape))
    return shaped if shape is None or not cover else _covering(shaped, shape)


@edit("cover-shape", undo="edit.undo-cover")
def cover_shape(design: Design, *, block: str, turn: Turn = 0) -> Design:
    """Lay a block over every free place that the shape needs, side by side from the top left.

    The blocks of a stack are laid in turn. In a straight setting without sashing columns and rows are added where the
    last blocks would reach beyond the edge. Raises EditError where there is no shape, or nothing that it needs is free.
    """
    check_block(design, block)
    shape = design.quilt.shape
    if shape is None:
        refuse("no-shape", message("edit.choose-shape"))
    first = Wall(design).over(Cell(0, 0), Placement(0, block, turn))
    design = _with_whole_blocks(design, first)
    wall, needed = Wall(design), needed_cells(design.quilt.frame, shape)
    versions = cycle(_versions(design, block))
    laid = 0
    for row in range(0, needed.shape[0], first.rows):
        for column in range(0, needed.shape[1], first.columns):
            one = first._replace(column=column, row=row)
            if _is_wanted(one, needed) and _is_free(wall, design.quilt, one):
                kind, layer = next(versions)
                wall.put(one._replace(placement=one.placement.changed(kind=kind, layer=layer)))
                laid += 1
    if not laid:
        refuse("shape-covered", message("edit.clear-places"), name=wall.name(first))
    return wall.design()


@lru_cache(maxsize=32)
def needed_cells(frame: Frame, shape: Shape) -> NDArray[np.bool_]:
    """Which cells (rows x columns) a shape in the middle of the center, with its margin, reaches into."""
    lattice = frame.lattice
    cells = [
        (column, row)
        for row in range(lattice.down)
        for column in range(lattice.across)
        if lattice.holds(column, row)
    ]
    found = reached(outline(frame, shape), shape.margin, [_corners(frame, *cell) for cell in cells])
    needed = np.zeros((lattice.down, lattice.across), np.bool_)
    for (column, row), is_reached in zip(cells, found, strict=True):
        needed[row, column] = is_reached
    needed.flags.writeable = False
    return needed


def outline(frame: Frame, shape: Shape) -> tuple[tuple[Fraction, Fraction], ...]:
    """The corners of a shape in finished inches from the top left of the center, in whose middle it lies."""
    size = frame.size
    left, top = (Fraction(size.width) - shape.width) / 2, (Fraction(size.height) - shape.height) / 2
    return tuple((left + corner.x, top + corner.y) for corner in shape.outline)


def _covering(design: Design, shape: Shape) -> Design:
    """The design with the fewest columns and rows, in whole spaces, that reach beyond the shape's margin."""
    columns = _count(design.quilt, shape.width + 2 * shape.margin, "columns")
    design = set_columns(design, columns=columns)
    return set_rows(design, rows=_count(design.quilt, shape.height + 2 * shape.margin, "rows"))


def _count(quilt: Quilt, wanted: Fraction, way: Way) -> int:
    lattice = quilt.lattice
    space = lattice.space_columns if way == "columns" else lattice.space_rows
    found = least_count(quilt, wanted, way, 1 if lattice.kind == "on point" else space)
    if found is None:
        refuse("shape-too-many", message("edit.larger-cells"), most=MOST_CELLS)
    return found


def _corners(frame: Frame, column: int, row: int) -> tuple[Point, ...]:
    """The corners of a cell in finished inches from the top left of the center."""
    x, y, unit = frame.x(column), frame.y(row), frame.lattice.unit
    return tuple(
        frame.motion.apply(point) for point in ((x, y), (x + unit, y), (x + unit, y + unit), (x, y + unit))
    )


def _with_whole_blocks(design: Design, one: Laid) -> Design:
    """The design with so many columns and rows that whole blocks fill them."""
    quilt, lattice = design.quilt, design.quilt.lattice
    if lattice.kind != "straight" or quilt.sashing is not None:
        return design
    columns, rows = -(-lattice.columns // one.columns), -(-lattice.rows // one.rows)
    design = set_columns(design, columns=min(columns * one.columns, MOST_CELLS))
    return set_rows(design, rows=min(rows * one.rows, MOST_CELLS))


def _versions(design: Design, block: str) -> list[tuple[int, int]]:
    """Kind and layer of every block that one batch yields."""
    _, kinds = footprints(design).form(block)
    return sorted(
        ((kind, layer) for kind, layers in enumerate(kinds) for layer in layers), key=lambda one: one[1]
    )


def _is_wanted(one: Laid, needed: NDArray[np.bool_]) -> bool:
    return bool(needed[one.row : one.row + one.rows, one.column : one.column + one.columns].any())


def _is_free(wall: Wall, quilt: Quilt, one: Laid) -> bool:
    return quilt.fits(*one[:4]) and next(wall.meeting(*one[:4]), None) is None
