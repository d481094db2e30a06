"""From what a number is about to the blocks that show it on the wall, and what is said of them."""

from PySide6.QtCore import QCoreApplication

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.plan.why import Refers
from piecewright.units.measure import Measure
from piecewright.words.message import message


def cells_to_show(design: Design, refers: Refers) -> tuple[Cell, ...]:
    """The cells that a term names; where it names only blocks, wherever these hang."""
    if refers.cells:
        return refers.cells
    blocks = frozenset(refers.blocks)
    return tuple(
        Cell(placement.column, row.row)
        for row in design.quilt.rows
        for placement in row.placements
        if placement.block in blocks
    )


def shown_said(design: Design, refers: Refers, count: int, measure: Measure) -> str:
    """What is shown: so many blocks, and what else a number is about that is no block."""
    parts = [_part(part, measure) for part in refers.parts]
    if count:
        one, many = _say("1 block of this number is selected"), _say("{n} blocks of this number are selected")
        parts.insert(0, (one if count == 1 else many).format(n=count))
    if not parts:
        names = [design.shelf.fabrics[each].name for each in refers.fabrics if each in design.shelf.fabrics]
        parts = [_say("This number is about {fabrics}").format(fabrics=", ".join(names))] if names else []
    return "; ".join(parts) or _say("This number is about no block on the wall")


def _part(part: str, measure: Measure) -> str:
    name, _, number = part.partition(" ")
    if name == "batting":
        return _say("for the batting")
    return message(f"plan.part-{name}", number=number).text(measure)


def _say(text: str) -> str:
    return QCoreApplication.translate("wall", text)
