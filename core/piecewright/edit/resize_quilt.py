"""Everything the sliders of a resize set, as one edit: block size, columns and rows, the outermost border."""

from fractions import Fraction

from piecewright.edit.borders import change_border
from piecewright.edit.registry import edit
from piecewright.edit.resizing import set_block_size, set_columns, set_rows
from piecewright.model.design import Design


@edit("resize-quilt", undo="edit.undo-resize")
def resize_quilt(
    design: Design,
    *,
    columns: int | None = None,
    rows: int | None = None,
    unit: Fraction | None = None,
    border: Fraction | None = None,
) -> Design:
    """Give the quilt in view another cell size with blocks to match, other columns and rows, another outer border.

    What is None stays. `unit` and `border` are finished inches; `border` is the width of the outermost border,
    which is left alone where there is none. Raises EditError as the single edits do.
    """
    if unit is not None and unit != design.quilt.lattice.unit:
        design = set_block_size(design, unit=unit)
    if columns is not None:
        design = set_columns(design, columns=columns)
    if rows is not None:
        design = set_rows(design, rows=rows)
    borders = design.quilt.borders
    if border is not None and borders:
        design = change_border(design, index=len(borders) - 1, border=borders[-1].changed(width=border))
    return design
