"""The hand over the wall: what it carries, by mouse, by keys or from the shelf, and what becomes of it."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt, QTimer

from piecewright.edit.registry import Cell
from piecewright.edit.turning import QuarterTurn
from piecewright_qt.wall import commands
from piecewright_qt.wall.carrying import Carrying, middle
from piecewright_qt.wall.loads import Load, ShelfLoad, WallLoad

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

Keys = Qt.KeyboardModifier
_TICK = 16
"""Milliseconds between two steps of panning while something is held at the edge of the view."""
_PATIENCE = 20
"""Ticks that it must be held there first: what comes in from the shelf comes in over the edge."""
_EDGE = 28.0


class Hand:
    """Carries at most one load. What is `held` by keys waits where it is aimed; what is on the pointer follows it."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self.carrying: Carrying | None = None
        self.is_held = False
        self._ticks = 0
        self._at = (QPointF(), Keys.NoModifier)
        self._pull = QTimer(wall)
        self._pull.setInterval(_TICK)
        self._pull.timeout.connect(self._pull_on)

    def hold(self, load: Load, cell: Cell) -> None:
        """Take something in hand, aimed at a cell: arrows or the pointer move it, Enter or a click sets it down."""
        wall = self._wall
        wall.setFocus(Qt.FocusReason.OtherFocusReason)
        self.carry(Carrying(wall, load, middle(load, wall.still)))
        self.is_held = True
        self.aim_cell(cell)
        if self.carrying is not None and self.carrying.refusal is None:
            wall.say(load.in_hand)

    def take_up(self, cells: Iterable[Cell]) -> None:
        """Take blocks of the wall in hand."""
        laid = self._wall.laid_at(cells)
        if laid:
            load = WallLoad(self._wall.still.design, laid)
            self.hold(load, Cell(load.column, load.row))

    def carry(self, carrying: Carrying) -> None:
        """Begin to carry on the pointer; whatever was carried is put back."""
        self.put_back()
        self.carrying, self.is_held = carrying, False
        self._wall.shows_cursor = False
        self._wall.viewport().update()

    def aim(self, point: QPointF, keys: Keys) -> None:
        """Aim what is carried at a point of the view: Ctrl copies, Alt lets it follow freely."""
        carrying = self.carrying
        if carrying is None:
            return
        before = self._wall.marks.carried_rect()
        carrying.aim(
            self._wall.camera.inches(point),
            free=bool(keys & Keys.AltModifier),
            copying=bool(keys & Keys.ControlModifier),
        )
        self._show(before)
        self._at = (point, keys)
        self._watch_edges()

    def aim_again(self, keys: Keys) -> None:
        """A key that changes the meaning went down or up."""
        self.aim(self._at[0], keys)

    def aim_cell(self, cell: Cell) -> None:
        """Aim what is carried at a cell."""
        carrying = self.carrying
        if carrying is not None:
            before = self._wall.marks.carried_rect()
            carrying.free = False
            carrying.aim_cell(cell, carrying.copying)
            self._show(before)
            self._wall.reveal(self._wall.marks.landing_rect())

    def move(self, columns: int, rows: int) -> None:
        """Move what is in hand by cells."""
        carrying = self.carrying
        if carrying is not None and carrying.cell is not None:
            at = carrying.cell
            self.aim_cell(Cell(at.column + columns, at.row + rows))

    def turn(self, by: QuarterTurn) -> None:
        """Turn what is carried, where it can be turned in the hand."""
        turned = None if self.carrying is None else self.carrying.load.turned(by)
        if turned is not None:
            self._exchange(turned)

    def next_layer(self) -> None:
        """Carry the next block of the same batch."""
        if self.carrying is None or not isinstance(self.carrying.load, ShelfLoad):
            return
        placement = self.carrying.load.placement
        version = commands.next_version(self._wall, placement)
        if version is not None:
            changed = placement.changed(kind=version[0], layer=version[1])
            self._exchange(ShelfLoad(self._wall.still.design, changed))

    def set_down(self, keep_one: bool = False) -> bool:
        """Lay what is carried where it is aimed. `keep_one`: one more of the shelf's block stays in hand.

        False where it may not lie there: a load held by keys then stays in hand, one on the pointer goes back.
        """
        carrying, wall = self.carrying, self._wall
        if carrying is None:
            return False
        if carrying.refusal is not None:
            refusal = carrying.refusal
            if not self.is_held:
                self._let_go()
            wall.say(refusal)
            return False
        done, cell = carrying.settle(), carrying.cell
        self._let_go()
        if cell is not None:
            wall.set_cursor_cell(cell)
            if keep_one and isinstance(carrying.load, ShelfLoad):
                another = ShelfLoad(wall.still.design, carrying.load.placement)
                self.hold(another, Cell(cell.column + carrying.load.columns, cell.row))
        return done

    def put_back(self) -> None:
        """Give up what is carried; the wall is as it was."""
        if self.carrying is not None:
            self._let_go()
            self._wall.describe_pointer()

    def _exchange(self, load: Load) -> None:
        if self.carrying is not None:
            before = self._wall.marks.carried_rect()
            self.carrying.exchange(load)
            self._show(before)

    def _show(self, before: QRectF) -> None:
        """What is carried lies elsewhere: only where it was and where it is, is painted anew."""
        for rect in (before, self._wall.marks.carried_rect()):
            self._wall.update_rect(rect)
        if self.carrying is not None:
            self._wall.say(self.carrying.said)

    def _let_go(self) -> None:
        carrying, self.carrying = self.carrying, None
        self._pull.stop()
        if carrying is not None:
            carrying.leave()
        self._wall.marks.forget()
        self._wall.viewport().update()

    def _watch_edges(self) -> None:
        """Pan on while something on the pointer is held at the edge of the view and the quilt goes on there."""
        pulled = edge_pull(QRectF(self._wall.viewport().rect()), self._at[0], _EDGE)
        if pulled.isNull() or self.is_held:
            self._pull.stop()
        elif not self._pull.isActive():
            self._ticks = 0
            self._pull.start()

    def _pull_on(self) -> None:
        self._ticks += 1
        if self._ticks <= _PATIENCE:
            return
        view = QRectF(self._wall.viewport().rect())
        pulled, seen = edge_pull(view, self._at[0], _EDGE), self._wall.camera.rect(self._wall.scene.whole)
        across = _as_far(pulled.x(), view.left() - seen.left(), seen.right() - view.right())
        down = _as_far(pulled.y(), view.top() - seen.top(), seen.bottom() - view.bottom())
        if self.carrying is None or not (across or down):
            self._pull.stop()
            return
        self._wall.pan(QPointF(across, down))
        self.aim(*self._at)


def edge_pull(view: QRectF, point: QPointF, reach: float) -> QPointF:
    """How far to pan in one tick for a point near an edge of the view; nothing further inside than `reach`."""
    return QPointF(
        _pulled(point.x(), view.left(), view.right(), reach),
        _pulled(point.y(), view.top(), view.bottom(), reach),
    )


def _pulled(at: float, low: float, high: float, reach: float) -> float:
    if at < low + reach:
        return min((low + reach - at) / 2, reach)
    return -min((at - high + reach) / 2, reach) if at > high - reach else 0.0


def _as_far(pull: float, before: float, after: float) -> float:
    """A pull no further than the quilt goes on out of view: `before` and `after` are what is hidden there."""
    return min(pull, max(before, 0.0)) if pull > 0 else max(pull, -max(after, 0.0))
