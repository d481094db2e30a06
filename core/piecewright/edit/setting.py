"""The setting of the quilt in view: straight or on point, sashing, setting triangles; the blocks are kept."""

from math import ceil
from typing import Literal

from piecewright.edit.footprint import all_laid
from piecewright.edit.recoloring import check_fabric
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import edit, last_wins
from piecewright.edit.spaces import bunches, hung, largest_space, spaces_of
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_CELLS, Lattice, Quilt
from piecewright.model.setting import Sashing, Triangles
from piecewright.words.message import message


@edit("change-setting", undo="edit.undo-setting")
def change_setting(
    design: Design,
    *,
    kind: Literal["straight", "on point"],
    columns: int | None = None,
    rows: int | None = None,
    space: int | None = None,
) -> Design:
    """Hang the blocks in another setting, in the order they are read; `moves_text` tells what became of them.

    `columns` and `rows` are those of the new setting, on point in spaces of `space` x `space` cells; what is None is
    chosen so that all blocks find room, the quilt about as wide for its height as before. Sashing of unlike widths is
    made alike on point, as wide as the wider.
    """
    quilt, old = design.quilt, design.quilt.lattice
    if kind == old.kind and (columns, rows, space) == (None, None, None):
        return design
    step = space or (old.space_columns if old.kind == "on point" else largest_space(design))
    if not 1 <= step <= MOST_CELLS:
        refuse("space-size", count=step, most=MOST_CELLS)
    wide, high = (step, step) if old.kind == "straight" else (old.space_columns, old.space_rows)
    several = bunches(design, wide, high)
    across, down = _counts(quilt, kind, len(several), step)
    lattice = _lattice(old, kind, columns or across, rows or down, step)
    after = quilt.changed(lattice=lattice, sashing=_sashing(quilt.sashing, kind), rows=())
    return hung(design, after, zip(spaces_of(_spaced(after, step)), several, strict=False))


def _lattice(
    old: Lattice, kind: Literal["straight", "on point"], columns: int, rows: int, step: int
) -> Lattice:
    if kind == "on point":
        return Lattice(old.unit, columns, rows, kind, step, step)
    return Lattice(old.unit, columns, rows, kind, old.space_columns, old.space_rows)


def _spaced(quilt: Quilt, step: int) -> Quilt:
    """The same arrangement told in spaces of so many cells: where bunches are hung."""
    return quilt.changed(lattice=quilt.lattice.changed(space_columns=step, space_rows=step), sashing=None)


def _sashing(sashing: Sashing | None, kind: str) -> Sashing | None:
    if sashing is None or kind == "straight" or sashing.columns == sashing.rows:
        return sashing
    wide = max(sashing.columns, sashing.rows)
    return sashing.changed(columns=wide, rows=wide)


def _counts(quilt: Quilt, kind: str, wanted: int, step: int) -> tuple[int, int]:
    """Columns and rows that hold so many spaces, in about the shape of the quilt; straight ones in cells."""
    size = quilt.frame.size
    shape = float(size.height) / float(size.width)
    across = 1
    while True:
        down = max(ceil(across * shape - 0.5), 1)
        holds = across * down + ((across - 1) * (down - 1) if kind == "on point" else 0)
        if holds >= wanted:
            break
        across += 1
    return (across, down) if kind == "on point" else (across * step, down * step)


@edit("set-sashing", undo="edit.undo-sashing", merge=last_wins())
def set_sashing(
    design: Design,
    *,
    sashing: Sashing | None,
    space_columns: int | None = None,
    space_rows: int | None = None,
) -> Design:
    """Lay sashing between the blocks, round spaces of so many cells; None takes it away.

    What is None of a space stays as it is; at first it is as large as the largest block. Raises EditError where a
    block reaches over a sash.
    """
    quilt, lattice = design.quilt, design.quilt.lattice
    for fabric in sashing.fabrics if sashing else ():
        check_fabric(design, fabric)
    if sashing is not None and quilt.sashing is None and lattice.kind == "straight":
        largest = largest_space(design)
        space_columns, space_rows = space_columns or largest, space_rows or largest
    after = quilt.changed(
        sashing=sashing,
        lattice=lattice.changed(
            space_columns=space_columns or lattice.space_columns, space_rows=space_rows or lattice.space_rows
        ),
    )
    check_spaces(design, after)
    return design.with_quilt(after)


def check_spaces(design: Design, quilt: Quilt) -> None:
    """Refuse an arrangement in which a block reaches over a sash."""
    if quilt.sashing is None:
        return
    names = design.shelf.blocks
    for laid in all_laid(design, quilt):
        if not quilt.fits(*laid[:4]):
            refuse(
                "over-sash",
                message("edit.larger-space"),
                name=names[laid.placement.block].name,
                column=laid.column + 1,
                row=laid.row + 1,
                columns=quilt.lattice.space_columns,
                rows=quilt.lattice.space_rows,
            )


@edit("set-triangles", undo="edit.undo-triangles", merge=last_wins())
def set_triangles(design: Design, *, triangles: Triangles) -> Design:
    """Cut the setting triangles so, and of this fabric."""
    if triangles.fabric is not None:
        check_fabric(design, triangles.fabric)
    return design.with_quilt(design.quilt.changed(triangles=triangles))


@edit("set-coping", undo="edit.undo-coping", merge=last_wins())
def set_coping(design: Design, *, fabric: str | None) -> Design:
    """Fill what the blocks leave free with coping strips of a fabric; None leaves it free."""
    if fabric is not None:
        check_fabric(design, fabric)
    return design.with_quilt(design.quilt.changed(coping=fabric))
