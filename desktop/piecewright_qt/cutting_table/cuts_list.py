"""The cutting list: one setting of the ruler at a time, each line with a box to tick, and what is worth keeping."""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListWidget, QListWidgetItem

from piecewright.cutting.any_order import AnyOrderPlan, cuts_said
from piecewright.cutting.cutting_list import cutting_list
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.table import DesignCutting, FabricCutting
from piecewright.cutting.table_text import piece_names
from piecewright.units.measure import Measure
from piecewright.units.sizes import Cut
from piecewright.words.message import Arg, message
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.look import Look

Ticked = tuple[str, str, str]
"""A fabric's id, a heading and a line: what is ticked stays so while it reads the same."""
_LINE = Qt.ItemDataRole.UserRole


@dataclass(frozen=True)
class CutLine:
    """One line: a heading (no cuts to tick), or cuts with the keys of the pieces that they end in."""

    name: Ticked
    text: str
    is_heading: bool = False
    keys: frozenset[str] = frozenset()


class CutsList(QListWidget):
    """`pointed` tells which pieces the line in hand cuts; `ticked` that a box has changed.

    Ticks are of this sitting at the table: they are kept while the program runs and are no part of the design.
    """

    pointed = Signal(object)
    ticked = Signal()

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self._ticks: set[Ticked] = set()
        self._lines: tuple[CutLine, ...] = ()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWordWrap(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setAccessibleName(self.tr("Cutting list"))
        self.setAccessibleDescription(self.tr("Space ticks a line; the drawing shows what it cuts."))
        self.setToolTip(self.tr("Tick what is cut (Space)"))
        self.itemChanged.connect(self._take_tick)
        self.currentItemChanged.connect(lambda _now, _before: self._point())
        look.changed.connect(self.refresh)

    @property
    def done(self) -> tuple[int, int]:
        """Lines ticked, and all there are to tick."""
        cuts = [line for line in self._lines if not line.is_heading]
        return sum(line.name in self._ticks for line in cuts), len(cuts)

    def refresh(self) -> None:
        """The list of the fabric in view."""
        each = self._work.chosen
        lines = () if each is None else tuple(cut_lines(self._work.table, each, self._look.measure))
        row = self.currentRow() if lines == self._lines else -1
        self._lines = lines
        self.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.clear()
        for line in lines:
            self.addItem(self._item(line))
        self.setCurrentRow(row)
        self.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.ticked.emit()

    def untick(self) -> None:
        """Begin the fabric in view anew."""
        self._ticks -= {line.name for line in self._lines}
        self.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Another width breaks lines anew."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def _item(self, line: CutLine) -> QListWidgetItem:
        item = QListWidgetItem(line.text)
        item.setData(_LINE, line)
        if line.is_heading:
            item.setFlags(Qt.ItemFlag.ItemIsEnabled)
            font = QFont("Inter")
            font.setPixelSize(self._look.scale.body)
            font.setWeight(QFont.Weight.DemiBold)
            item.setFont(font)
            item.setSizeHint(QSize())
        else:
            item.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable
            )
            ticked = line.name in self._ticks
            item.setCheckState(Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked)
            self._dress(item, ticked=ticked)
        return item

    def _dress(self, item: QListWidgetItem, *, ticked: bool) -> None:
        theme = self._look.theme
        item.setForeground(QColor(theme.text_soft if ticked else theme.text))

    def _take_tick(self, item: QListWidgetItem) -> None:
        line: CutLine | None = item.data(_LINE)
        if line is None or line.is_heading:
            return
        ticked = item.checkState() == Qt.CheckState.Checked
        (self._ticks.add if ticked else self._ticks.discard)(line.name)
        self.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self._dress(item, ticked=ticked)
        self.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.ticked.emit()

    def _point(self) -> None:
        item = self.currentItem()
        line: CutLine | None = item.data(_LINE) if item is not None else None
        self.pointed.emit(line.keys if line is not None else frozenset())


def cut_lines(table: DesignCutting, each: FabricCutting, measure: Measure) -> Iterator[CutLine]:
    """The list of one fabric: by the choice of the table grouped by the ruler, or cut by cut in any order."""
    plan = table.shown(each)
    if isinstance(plan, AnyOrderPlan):
        title = message("cutting.order-title").text(measure)
        yield CutLine((each.fabric, title, ""), title, is_heading=True)
        for number, told in enumerate(cuts_said(plan), 1):
            text = told.text(measure)
            yield CutLine((each.fabric, title, f"{number} {text}"), text)
        return
    for setting in cutting_list(each.plan):
        title = message(f"cutting.setting-{setting.stage}", ruler=setting.ruler).text(measure)
        yield CutLine((each.fabric, title, ""), title, is_heading=True)
        for line in setting.lines:
            text = line.said.text(measure)
            if line.keys:
                names: tuple[Arg, ...] = piece_names(each.plan, line.keys)
                text = f"{text}, {message('cutting.for', names=names).text(measure)}"
            keys = frozenset(key for key, _ in line.keys)
            yield CutLine((each.fabric, title, text), text, keys=keys)
    yield from _kept(each, measure)


def _kept(each: FabricCutting, measure: Measure) -> Iterator[CutLine]:
    kept = left_overs(each.plan)
    if not kept:
        return
    title = message("cutting.left-overs").text(measure)
    yield CutLine((each.fabric, title, ""), title, is_heading=True)
    for left in kept:
        size = Cut(left.width, left.height)
        text = message("cutting.left-over", count=left.count, size=size).text(measure)
        yield CutLine((each.fabric, title, text), text)
