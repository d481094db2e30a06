"""Whether everything on the walls still fits when blocks, recipes or settings change."""

from typing import NamedTuple

from piecewright.edit.footprint import Laid, all_laid, footprints
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Quilt
from piecewright.words.message import message


class Misfit(NamedTuple):
    """A placed block that can not lie where it does, and why."""

    laid: Laid
    why: EditError


def misfits(design: Design, quilt: Quilt) -> tuple[Misfit, ...]:
    """The placed blocks of an arrangement that leave it, meet one before them, or can not be made."""
    wall = Wall(design, quilt.changed(rows=()))
    found = []
    for laid in all_laid(design, quilt):
        try:
            wall.lay(wall.over(Cell(laid.column, laid.row), laid.placement), alone=False)
        except EditError as why:
            found.append(Misfit(laid, why))
    return tuple(found)


def check_still_fits(before: Design, after: Design) -> Design:
    """The design after a change to blocks or settings.

    Raises EditError where placed blocks no longer fit that did before.
    """
    for index, quilt in enumerate(after.arrangements):
        if _same_footprints(before, after, quilt):
            continue
        found = misfits(after, quilt)
        if found and len(found) > len(misfits(before, before.arrangements[index])):
            first = found[0].why.message
            refuse(
                "no-longer-fit", message("edit.lift-first"), count=len(found), quilt=quilt.name, first=first
            )
    return after


def _same_footprints(before: Design, after: Design, quilt: Quilt) -> bool:
    """Whether every block on the wall covers the same cells, in the same kinds and layers, as before."""
    old, new = footprints(before, quilt.lattice.unit), footprints(after, quilt.lattice.unit)
    try:
        return all(old.form(block) == new.form(block) for block in quilt.blocks)
    except EditError:
        return False
