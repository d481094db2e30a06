"""Who may hang where: the blocks that may be moved, the places they leave, and what stays as it is."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import sqrt

import numpy as np

from piecewright.arrange.looks import Look, Looks
from piecewright.arrange.targets import Places
from piecewright.edit.arranging import Hung
from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.errors import PiecewrightError
from piecewright.model.design import Design
from piecewright.model.quilt import Turn, turned_by
from piecewright.plan.layout import layout

Form = tuple[int, int]
"""Columns and rows of a place: only blocks that lay on as many may come there."""
_HALF_TURN: tuple[Turn, ...] = (0, 180)
_ANY_TURN: tuple[Turn, ...] = (0, 90, 180, 270)


@dataclass(frozen=True, eq=False)
class Item:
    """A block that may be hung elsewhere: as it lay, how it looks, and the turns it may take."""

    laid: Laid
    look: Look
    turns: tuple[Turn, ...]


@dataclass(frozen=True)
class Hanging:
    """Which item hangs at which place, by number, and how it is turned: one for every place, in order."""

    items: tuple[int, ...]
    turns: tuple[Turn, ...]


@dataclass(frozen=True, eq=False)
class Room:
    """A wall to arrange: `items` may be moved, to each other's places; `fixed` stay."""

    design: Design
    items: tuple[Item, ...]
    fixed: tuple[Item, ...]
    fabrics: int

    @cached_property
    def forms(self) -> Mapping[Form, tuple[int, ...]]:
        """The numbers of the items by the form of the place they lie in."""
        found: dict[Form, list[int]] = {}
        for number, item in enumerate(self.items):
            found.setdefault((item.laid.columns, item.laid.rows), []).append(number)
        return {form: tuple(numbers) for form, numbers in found.items()}

    @cached_property
    def places(self) -> Places:
        """Where the items lie, in their order."""
        laid_out = layout(self.design)
        frame, motion = laid_out.frame, laid_out.motion
        rects = [laid_out.rect(*item.laid[:4]) for item in self.items]
        middles = [motion.apply((rect.x + rect.width / 2, rect.y + rect.height / 2)) for rect in rects]
        sizes = np.array([(rect.width, rect.height) for rect in rects], np.float64).reshape(-1, 2)
        if frame.on_point:
            sizes = np.repeat(sizes.sum(axis=1)[:, None] / sqrt(2), 2, axis=1)
        pitch = frame.lattice.unit + frame.sash_columns / frame.lattice.space_columns
        return Places(
            np.array([item.laid[:4] for item in self.items], np.int64).reshape(-1, 4),
            np.array(middles, np.float64).reshape(-1, 2),
            sizes,
            float(pitch) * (sqrt(2) if frame.on_point else 1),
            frame.on_point,
        )

    @property
    def now(self) -> Hanging:
        """Everything as it hangs."""
        return Hanging(tuple(range(len(self.items))), tuple(item.laid.placement.turn for item in self.items))

    def call(self, hanging: Hanging) -> EditCall | None:
        """The edit that hangs the blocks so; None where nothing changes."""
        lift, lay = [], []
        for place, number, turn in zip(self.items, hanging.items, hanging.turns, strict=True):
            there = place.laid
            placement = self.items[number].laid.placement.changed(column=there.column, turn=turn)
            if placement != there.placement:
                lift.append(Cell(there.column, there.row))
                lay.append(Hung(there.row, placement))
        return call("arrange-blocks", lift=tuple(lift), lay=tuple(lay)) if lay else None


def room_of(design: Design, cells: Iterable[Cell] = (), *, turning: bool = True) -> Room:
    """The wall in view with the blocks that cover these cells free to move, or with all free; none that is locked.

    `turning`: blocks may also be turned. A block that can not be made stays where it is; so do groups, which belong
    together, unless they are chosen.
    """
    looks = Looks(design)
    chosen = {(cell.column, cell.row) for cell in cells}
    items: list[Item] = []
    fixed: list[Item] = []
    for laid in all_laid(design, design.quilt):
        item = _item(looks, laid, turning=turning)
        if item is None:
            continue
        free = not chosen or any(laid.covers(*cell) for cell in chosen)
        stays = laid.placement.locked or (laid.placement.group and not chosen)
        (items if free and not stays else fixed).append(item)
    return Room(design, tuple(items), tuple(fixed), looks.fabrics)


def _item(looks: Looks, laid: Laid, *, turning: bool) -> Item | None:
    turn = laid.placement.turn
    across = turn in (90, 270)
    columns, rows = (laid.rows, laid.columns) if across else (laid.columns, laid.rows)
    try:
        look = looks.of(laid.placement, columns, rows)
    except (PiecewrightError, IndexError):
        return None
    by = (0,) if not turning else _ANY_TURN if columns == rows else _HALF_TURN
    return Item(laid, look, tuple(turned_by(turn, each) for each in by))
