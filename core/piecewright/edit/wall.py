"""The wall while an edit works on it: blocks lifted and laid, only touched rows rebuilt."""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import product
from operator import attrgetter
from typing import NoReturn

from piecewright.edit.footprint import Laid, footprints
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Quilt, Row
from piecewright.words.message import Arg, Message, message

_COLUMN = attrgetter("column")
_ROW = attrgetter("row")
_FAR = 8
"""How many cells away a free place is looked for when a block is refused."""
_NEAR_FIRST = sorted(
    product(range(-_FAR, _FAR + 1), repeat=2), key=lambda way: (way[0] ** 2 + way[1] ** 2, way[1], way[0])
)


class Wall:
    """One arrangement, opened for laying and lifting; `design` gives it back."""

    def __init__(self, design: Design, quilt: Quilt | None = None) -> None:
        self._design = design
        self._quilt = quilt or design.quilt
        self._lattice = self._quilt.lattice
        self._sizes = footprints(design, self._lattice.unit)
        self._rows: dict[int, list[Placement]] = {}
        self._reach = self._sizes.reach(self._quilt)

    def over(self, cell: Cell, placement: Placement) -> Laid:
        """A block as it would lie with its top left on a cell, not yet checked against the wall.

        Raises EditError where it can not be made or fits no whole cells.
        """
        return Laid(cell.column, cell.row, *self._sizes.of(placement), placement)

    def at(self, cell: Cell) -> Laid:
        """The block that covers a cell. Raises EditError where none does."""
        exact = [placement for placement in self._row(cell.row) if placement.column == cell.column]
        if exact:
            return Laid(cell.column, cell.row, *self._sizes.extent(exact[0]), exact[0])
        found = next(self.meeting(cell.column, cell.row, 1, 1), None)
        if found is None:
            refuse("nothing-there", column=cell.column + 1, row=cell.row + 1)
        return found

    def all_at(self, cells: Iterable[Cell]) -> tuple[Laid, ...]:
        """The blocks that cover these cells, each once, from the top left.

        Raises EditError for none or a free cell.
        """
        found = {laid[:2]: laid for laid in map(self.at, cells)}
        if not found:
            refuse("nothing-selected", message("edit.select-first"))
        return tuple(sorted(found.values(), key=lambda laid: (laid.row, laid.column)))

    def meeting(self, column: int, row: int, columns: int, rows: int) -> Iterator[Laid]:
        """The blocks that lie on any of these cells."""
        for number in range(max(0, row - self._reach + 1), row + rows):
            placements = self._row(number)
            start = bisect_left(placements, column - self._reach + 1, key=_COLUMN)
            for placement in placements[start:]:
                if placement.column >= column + columns:
                    break
                laid = Laid(placement.column, number, *self._sizes.extent(placement), placement)
                if laid.meets(column, row, columns, rows):
                    yield laid

    def lift(self, laid: Laid) -> None:
        """Take a block off the wall. Raises EditError where it is locked."""
        if laid.placement.locked:
            here = {"column": laid.column + 1, "row": laid.row + 1}
            refuse("locked", message("edit.unlock-first"), name=self.name(laid), **here)
        self._open(laid.row).remove(laid.placement)

    def lay(self, laid: Laid, *, alone: bool = True) -> Laid:
        """Put a block on the wall, and give it as it lies.

        Where it is one of several, no place for it alone is named.

        Raises EditError where it leaves the quilt, meets another block, or is one that no batch yields.
        """
        if not self.is_inside(laid):
            self._refuse_outside(laid, alone)
        other = next(self.meeting(*laid[:4]), None)
        if other is not None:
            room = self._nearest_room(laid) if alone else message("edit.make-room")
            here = {"column": laid.column + 1, "row": laid.row + 1}
            refuse("occupied", room, name=self.name(laid), other=self.name(other), **here)
        self._check_batch(laid)
        return self.put(laid)

    def lay_all(self, several: Sequence[Laid]) -> tuple[Laid, ...]:
        """Put blocks on the wall. Raises EditError as `lay` does."""
        return tuple(self.lay(laid, alone=len(several) == 1) for laid in several)

    def put(self, laid: Laid) -> Laid:
        """Put a block where it is known to fit, and give it as it lies."""
        self._reach = max(self._reach, laid.columns, laid.rows)
        placement = laid.placement
        if placement.column != laid.column:
            placement = placement.changed(column=laid.column)
        row = self._open(laid.row)
        row.insert(bisect_left(row, laid.column, key=_COLUMN), placement)
        return laid._replace(placement=placement)

    def replace(self, laid: Laid, placement: Placement) -> None:
        """Change a block in its place, which stays the same cells."""
        row = self._open(laid.row)
        row[row.index(laid.placement)] = placement

    def is_inside(self, laid: Laid) -> bool:
        """Whether a block lies wholly in the lattice, and on no sash."""
        return self._quilt.fits(*laid[:4])

    def name(self, laid: Laid) -> str:
        """The name of a block on the wall."""
        return self._design.shelf.blocks[laid.placement.block].name

    def quilt(self) -> Quilt:
        """The arrangement as it now is; rows that were not touched are the very same values."""
        rows = list(self._quilt.rows)
        for number, placements in self._rows.items():
            index = bisect_left(rows, number, key=_ROW)
            there = index < len(rows) and rows[index].row == number
            if there and rows[index].placements == tuple(placements):
                continue
            rows[index : index + there] = [Row(number, tuple(placements))] if placements else []
        after = tuple(rows)
        return self._quilt if after == self._quilt.rows else self._quilt.changed(rows=after)

    def design(self) -> Design:
        """The design with the arrangement in view as it now is."""
        after = self.quilt()
        return self._design if after is self._design.quilt else self._design.with_quilt(after)

    def _row(self, number: int) -> list[Placement] | tuple[Placement, ...]:
        if number in self._rows:
            return self._rows[number]
        row = self._quilt.by_row.get(number)
        return row.placements if row else ()

    def _open(self, number: int) -> list[Placement]:
        return self._rows.setdefault(number, list(self._row(number)))

    def _refuse_outside(self, laid: Laid, alone: bool) -> NoReturn:
        lattice = self._lattice
        args: dict[str, Arg] = {"name": self.name(laid), "columns": laid.columns, "rows": laid.rows}
        if lattice.kind == "on point" or lattice.holds(*laid[:4]):
            room = self._nearest_room(laid) if alone else message("edit.move-less")
            here: dict[str, Arg] = {"column": laid.column + 1, "row": laid.row + 1}
            if self._quilt.sashing is not None and lattice.holds(*laid[:4]):
                space: dict[str, Arg] = {"columns": lattice.space_columns, "rows": lattice.space_rows}
                refuse("over-sash", room, **{**args, **here, **space})
            refuse("outside-on-point", room, **args, **here)
        columns, rows = lattice.columns, lattice.rows
        if laid.columns > columns or laid.rows > rows:
            refuse(
                "larger-than-quilt", message("edit.widen-quilt"), all_columns=columns, all_rows=rows, **args
            )
        column = min(max(laid.column, 0), columns - laid.columns)
        row = min(max(laid.row, 0), rows - laid.rows)
        nearest = message("edit.nearest-inside", column=column + 1, row=row + 1)
        refuse(
            "outside",
            nearest if alone else message("edit.move-less"),
            all_columns=columns,
            all_rows=rows,
            **args,
        )

    def _check_batch(self, laid: Laid) -> None:
        """Refuse a kind or layer that no batch of the block yields."""
        placement = laid.placement
        kinds = self._sizes.facts(placement.block).kinds
        if placement.kind >= len(kinds):
            refuse("no-such-kind", name=self.name(laid), kind=placement.kind + 1, count=len(kinds))
        layers = kinds[placement.kind].layers
        if placement.layer not in layers:
            known = tuple(layer + 1 for layer in layers)
            refuse("no-such-layer", name=self.name(laid), layer=placement.layer + 1, layers=known)

    def _nearest_room(self, laid: Laid) -> Message:
        """Where the block would fit, near the place it was refused."""
        for x, y in _NEAR_FIRST:
            there = laid._replace(column=laid.column + x, row=laid.row + y)
            if self.is_inside(there) and next(self.meeting(*there[:4]), None) is None:
                return message("edit.nearest-room", column=there.column + 1, row=there.row + 1)
        return message("edit.make-room")


def with_placements(quilt: Quilt, change: Callable[[Placement], Placement]) -> tuple[Row, ...]:
    """The rows with each placement changed in its place; a row in which nothing changed is the very same."""
    rows = []
    for row in quilt.rows:
        placements = tuple(change(one) for one in row.placements)
        same = all(old is new for old, new in zip(row.placements, placements, strict=True))
        rows.append(row if same else row.changed(placements=placements))
    return tuple(rows)


def check_block(design: Design, block: str) -> None:
    """Refuse a block id that the design has not."""
    if block not in design.shelf.blocks:
        refuse("no-block", message("edit.add-block-first"), id=block)
