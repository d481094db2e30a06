"""Everything the sliders of a resize set, as one edit: block size, sashing, columns and rows, the outermost border."""

from fractions import Fraction

from piecewright.edit.borders import change_border
from piecewright.edit.registry import edit
from piecewright.edit.resizing import set_block_size, set_columns, set_rows
from piecewright.edit.setting import set_sashing
from piecewright.model.design import Design
from piecewright.model.setting import Sashing


@edit("resize-quilt", undo="edit.undo-resize")
def resize_quilt(
    design: Design,
    *,
    columns: int | None = None,
    rows: int | None = None,
    unit: Fraction | None = None,
    border: Fraction | None = None,
    sashing: Fraction | None = None,
) -> Design:
    """Give the quilt in view another cell size with blocks to match, other columns and rows, another outer border.

    What is None stays. `unit`, `border` and `sashing` are finished inches; `border` is the width of the outermost
    border, which is left alone where there is none; `sashing` how wide that is, both ways where there is none yet, of
    the cloth that `cloth_around` names, and 0 for none. Raises EditError as the single edits do.
    """
    if unit is not None and unit != design.quilt.lattice.unit:
        design = set_block_size(design, unit=unit)
    if sashing is not None:
        design = _with_sashing(design, sashing)
    if columns is not None:
        design = set_columns(design, columns=columns)
    if rows is not None:
        design = set_rows(design, rows=rows)
    borders = design.quilt.borders
    if border is not None and borders:
        design = change_border(design, index=len(borders) - 1, border=borders[-1].changed(width=border))
    return design


def cloth_around(design: Design) -> str | None:
    """A cloth for sashing and borders that are added: of a border, the sashing, the binding, or the first there is."""
    quilt = design.quilt
    chosen = [border.fabric for border in quilt.borders[-1:]]
    chosen += [quilt.sashing.fabric] if quilt.sashing else []
    chosen += [quilt.binding.fabric] if quilt.binding.fabric else []
    chosen += [fabric.id for fabric in design.fabrics]
    return chosen[0] if chosen else None


def sashing_of_width(sashing: Sashing, width: Fraction) -> Sashing:
    """Sashing as wide as that both ways; a way that has none stays without."""
    none = Fraction(0)
    return sashing.changed(columns=width if sashing.columns else none, rows=width if sashing.rows else none)


def _with_sashing(design: Design, width: Fraction) -> Design:
    before, fabric = design.quilt.sashing, cloth_around(design)
    if not width or (before is None and fabric is None):
        return set_sashing(design, sashing=None)
    wide = sashing_of_width(before, width) if before else Sashing(fabric or "", width, width)
    return set_sashing(design, sashing=wide)
