"""Where blocks lie: off the grid, over the edge of the quilt, or on one another."""

from collections.abc import Iterator

import numpy as np

from piecewright.edit.footprint import footprints
from piecewright.errors import EditError, Finding
from piecewright.model.design import Design
from piecewright.plan.layout import Layout, PlacedBlock, layout
from piecewright.words.message import Message, message


def placing_findings(design: Design) -> Iterator[Finding]:
    """The findings about the places of blocks in the arrangement in view."""
    yield from _off_grid(design)
    laid_out = layout(design)
    yield from _outside(design, laid_out)
    yield from _overlaps(design, laid_out)


def place_of(column: int, row: int) -> str:
    """A cell as a place, counted from 1 as on the wall."""
    return str(message("checks.place", column=column + 1, row=row + 1))


def _off_grid(design: Design) -> Iterator[Finding]:
    """Blocks on the wall that do not cover whole cells; those that can not be made are the plan's to tell."""
    sizes = footprints(design)
    for block in sorted(design.quilt.blocks):
        try:
            sizes.unturned(block)
        except EditError as fault:
            if fault.message.code != "edit.cannot-be-made":
                yield Finding(fault.message.code, "error", fault.message, block, fault.hint)


def _outside(design: Design, laid_out: Layout) -> Iterator[Finding]:
    """Blocks that stick out of the lattice, or lie on a sash."""
    quilt, lattice = design.quilt, laid_out.lattice
    for block in laid_out.blocks if _may_stick_out(laid_out) else ():
        if quilt.fits(*block.laid[:4]):
            continue
        if lattice.holds(*block.laid[:4]):
            said = message("checks.on-sash", block=_name(design, block))
            yield _at(block, "checks.on-sash", said, message("checks.move-inside"))
        else:
            said = message(
                "checks.outside", block=_name(design, block), columns=lattice.columns, rows=lattice.rows
            )
            yield _at(block, "checks.outside", said, message("checks.move-inside"))


def _may_stick_out(laid_out: Layout) -> bool:
    """Whether it is worth asking block by block: not in a plain setting where all lie inside."""
    lattice, cells = laid_out.lattice, laid_out.cells
    if laid_out.frame.on_point or laid_out.frame.sashing is not None:
        return True
    columns, rows = cells[:, 0] + cells[:, 2], cells[:, 1] + cells[:, 3]
    return bool(((columns > lattice.columns) | (rows > lattice.rows)).any())


def _overlaps(design: Design, laid_out: Layout) -> Iterator[Finding]:
    """One finding for each block that lies on cells where another lies too, the first of them left out."""
    crowded = laid_out.covered() > 1
    if not crowded.any():
        return
    owners: dict[tuple[int, int], PlacedBlock] = {}
    for block in laid_out.blocks:
        laid = block.laid
        area = crowded[laid.row : laid.row + laid.rows, laid.column : laid.column + laid.columns]
        cells = [(laid.column + x, laid.row + y) for y, x in np.argwhere(area).tolist()]
        other = next((owners[cell] for cell in cells if cell in owners), None)
        if other is not None:
            names = {"block": _name(design, block), "other": _name(design, other)}
            yield _at(
                block, "checks.overlap", message("checks.overlap", **names), message("checks.move-apart")
            )
        owners |= dict.fromkeys(cells, block)


def _at(block: PlacedBlock, code: str, said: Message, hint: Message) -> Finding:
    return Finding(code, "error", said, place_of(block.laid.column, block.laid.row), hint)


def _name(design: Design, block: PlacedBlock) -> str:
    return design.shelf.blocks[block.laid.placement.block].name
