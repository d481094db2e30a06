"""Copying blocks out of a design and into another, with the fabrics and recipes they need."""

from collections.abc import Iterable
from fractions import Fraction
from typing import TypeVar

from piecewright.edit.grouping import grouped_anew
from piecewright.edit.ids import with_new_id
from piecewright.edit.placing import lift_alike
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement, Row
from piecewright.model.value import Value
from piecewright.words.message import message


class Clip(Value, frozen=True):
    """Blocks copied from a wall, with all they need; rows and columns count from their own top left.

    Ids are those of the design they come from. No rows: blocks copied from a shelf.
    """

    unit: Fraction
    fabrics: tuple[Fabric, ...]
    recipes: tuple[RecipeEntry, ...]
    blocks: tuple[Block, ...]
    rows: tuple[Row, ...] = ()


def clip_of(design: Design, cells: tuple[Cell, ...]) -> Clip:
    """The selected blocks of the wall in view. Raises EditError where a cell is free or none is selected."""
    laid = Wall(design).all_at(cells)
    left, top = min(one.column for one in laid), min(one.row for one in laid)
    rows: dict[int, list[Placement]] = {}
    for one in laid:
        rows.setdefault(one.row - top, []).append(one.placement.changed(column=one.column - left))
    wall = tuple(Row(number, tuple(placements)) for number, placements in rows.items())
    return _clip(design, {one.placement.block for one in laid}, wall)


def clip_of_shelf(design: Design, blocks: Iterable[str]) -> Clip:
    """Blocks of the shelf, by id, without places."""
    return _clip(design, frozenset(blocks), ())


@edit("paste-blocks", undo="edit.undo-paste")
def paste_blocks(design: Design, *, clip: Clip, cell: Cell, replace: bool = False) -> Design:
    """Lay copied blocks with their top left on a cell.

    Fabrics, recipes and blocks that the design has already (but for the id) are used, the others added under
    new ids. `replace`: in the place of those that cover just the same cells. Raises EditError where a block
    has no room, or does not start on a cell of this lattice.
    """
    merged, names = _with_shelf(design, clip)
    wall = Wall(merged)
    factor = clip.unit / design.quilt.lattice.unit
    places = [
        (_scaled(cell, one.column, row.row, factor), one) for row in clip.rows for one in row.placements
    ]
    laid = grouped_anew(merged.quilt, [wall.over(place, _renamed(one, names)) for place, one in places])
    if replace:
        for one in laid:
            lift_alike(wall, one)
    wall.lay_all(laid)
    return wall.design()


def _clip(design: Design, blocks: Iterable[str], rows: tuple[Row, ...]) -> Clip:
    shelf = design.shelf
    wanted = [shelf.blocks[block].changed(made=0) for block in shelf.blocks if block in blocks]
    recipes = {block.recipe for block in wanted}
    fabrics = frozenset[str]().union(
        *(block.fabrics.ids() for block in wanted), *(row.fabrics for row in rows)
    )
    return Clip(
        unit=design.quilt.lattice.unit,
        fabrics=tuple(fabric for fabric in design.fabrics if fabric.id in fabrics),
        recipes=tuple(entry for entry in design.recipes if entry.id in recipes),
        blocks=tuple(wanted),
        rows=rows,
    )


def _with_shelf(design: Design, clip: Clip) -> tuple[Design, dict[str, str]]:
    """The design with all that the clip needs, and the id that each of the clip's ids has in it."""
    names: dict[str, str] = {}
    for fabric in clip.fabrics:
        design = _with_fabric(design, fabric, names)
    for entry in clip.recipes:
        design = _with_recipe(design, entry, names)
    for block in clip.blocks:
        design = _with_block(design, block, names)
    return design, names


def _with_fabric(design: Design, fabric: Fabric, names: dict[str, str]) -> Design:
    known = _alike(design.fabrics, fabric)
    if known:
        names[fabric.id] = known
        return design
    names[fabric.id], design = with_new_id(design, "f")
    return design.changed(fabrics=(*design.fabrics, fabric.changed(id=names[fabric.id])))


def _with_recipe(design: Design, entry: RecipeEntry, names: dict[str, str]) -> Design:
    known = _alike(design.recipes, entry)
    if known:
        names[entry.id] = known
        return design
    names[entry.id], design = with_new_id(design, "r")
    return design.changed(recipes=(*design.recipes, RecipeEntry(names[entry.id], entry.recipe)))


def _with_block(design: Design, block: Block, names: dict[str, str]) -> Design:
    _check_names(block, names)
    here = block.changed(recipe=names[block.recipe], fabrics=block.fabrics.renamed(names), made=0)
    known = _alike((old.changed(made=0) for old in design.blocks), here)
    if known:
        names[block.id] = known
        return design
    names[block.id], design = with_new_id(design, "b")
    return design.changed(blocks=(*design.blocks, here.changed(id=names[block.id])))


K = TypeVar("K", Fabric, RecipeEntry, Block)


def _alike(known: Iterable[K], new: K) -> str | None:
    """The id of a thing that equals a new one in all but the id; the one of the same id, if several do."""
    alike = [old.id for old in known if old.changed(id=new.id) == new]
    return new.id if new.id in alike else next(iter(alike), None)


def _check_names(block: Block, names: dict[str, str]) -> None:
    for name in (block.recipe, *sorted(block.fabrics.ids())):
        if name not in names:
            refuse("clip-lacks", name=block.name, id=name)


def _renamed(placement: Placement, names: dict[str, str]) -> Placement:
    for name in (placement.block, *sorted(placement.fabrics.ids())):
        if name not in names:
            refuse("clip-lacks", name=placement.block, id=name)
    return placement.changed(block=names[placement.block], fabrics=placement.fabrics.renamed(names))


def _scaled(cell: Cell, column: int, row: int, factor: Fraction) -> Cell:
    across, down = column * factor, row * factor
    if across.denominator != 1 or down.denominator != 1:
        refuse("paste-off-grid", message("edit.finer-grid"), column=column + 1, row=row + 1)
    return Cell(cell.column + int(across), cell.row + int(down))
