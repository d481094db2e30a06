"""Groups: blocks that are selected, moved and turned together."""

from collections.abc import Iterable, Sequence

from piecewright.edit.footprint import Laid
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall, with_placements
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_GROUP, Placement, Quilt
from piecewright.words.message import message


@edit("group-blocks", undo="edit.undo-group")
def group_blocks(design: Design, *, cells: tuple[Cell, ...]) -> Design:
    """Make one group of two blocks or more; those of them that were in another group leave it."""
    wall = Wall(design)
    several = wall.all_at(cells)
    if len(several) < 2:
        refuse("group-of-one", message("edit.select-several"))
    number = _free_numbers(design.quilt, 1)[0]
    for laid in several:
        wall.replace(laid, laid.placement.changed(group=number))
    return wall.design()


@edit("ungroup-blocks", undo="edit.undo-ungroup")
def ungroup_blocks(design: Design, *, cells: tuple[Cell, ...]) -> Design:
    """Take the groups of these blocks apart, whole."""
    numbers = {laid.placement.group for laid in Wall(design).all_at(cells)} - {0}
    if not numbers:
        refuse("no-group")

    def freed(placement: Placement) -> Placement:
        return placement.changed(group=0) if placement.group in numbers else placement

    return design.with_quilt(design.quilt.changed(rows=with_placements(design.quilt, freed)))


def with_groups(quilt: Quilt, cells: Iterable[Cell]) -> tuple[Cell, ...]:
    """Top left cells of blocks, each followed by those of the rest of its group; every cell once."""
    groups: dict[int, list[Cell]] = {}
    placed: dict[Cell, int] = {}
    for row in quilt.rows:
        for placement in row.placements:
            if placement.group:
                cell = Cell(placement.column, row.row)
                placed[cell] = placement.group
                groups.setdefault(placement.group, []).append(cell)
    found: dict[Cell, None] = {}
    for cell in cells:
        found[cell] = None
        if placed:
            found |= dict.fromkeys(groups.get(placed.get(cell, 0), ()))
    return tuple(found)


def grouped_anew(quilt: Quilt, copies: Sequence[Laid]) -> list[Laid]:
    """Copies of placed blocks, in groups of their own where their originals were grouped."""
    numbers = list(dict.fromkeys(copy.placement.group for copy in copies if copy.placement.group))
    fresh = dict(zip(numbers, _free_numbers(quilt, len(numbers)), strict=True))
    return [
        copy._replace(placement=copy.placement.changed(group=fresh[copy.placement.group]))
        if copy.placement.group
        else copy
        for copy in copies
    ]


def _free_numbers(quilt: Quilt, count: int) -> list[int]:
    """The lowest numbers that no group of an arrangement has."""
    taken = {placement.group for row in quilt.rows for placement in row.placements}
    free = (number for number in range(1, MOST_GROUP + 1) if number not in taken)
    return [next(free) for _ in range(count)]
