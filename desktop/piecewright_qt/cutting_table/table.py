"""The Cutting table: fabrics at the left, the plan of one drawn large, the list to cut by, and what to buy."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QTabBar,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.cutting.why import piece_why
from piecewright_qt.cutting_table.canvas import CuttingCanvas
from piecewright_qt.cutting_table.choosing import ChoiceBox
from piecewright_qt.cutting_table.cuts_list import CutsList
from piecewright_qt.cutting_table.fabrics_list import FabricsList
from piecewright_qt.cutting_table.list_menu import ListMenu
from piecewright_qt.cutting_table.shopping_page import ShoppingPage
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.shelf.letter_slots import ElidedLabel
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_BESIDE = 1.3  # the largest text scale at which the fabrics are listed beside the cloth


class CuttingTable(QWidget):
    """All that is cut. `left` asks to go back to the wall, `refers` to show on it what a number is about."""

    left = Signal()
    refers = Signal(object)

    def __init__(self, document: Document, look: Look, runner: Runner | None = None) -> None:
        super().__init__()
        self._look = look
        self.work = CuttingWork(document, runner)
        self.fabrics = FabricsList(self.work, look, document.pictures)
        self.canvas = CuttingCanvas(self.work, look)
        self.cuts = CutsList(self.work, look)
        self.choice = ChoiceBox(self.work, look)
        self.shopping = ShoppingPage(self.work, look)
        self.files = ListMenu(self.work, look)
        self._icons: list[tuple[QToolButton, str]] = []
        self.setAccessibleName(self.tr("Cutting table"))
        self._lay_out()
        self._connect()
        self._dress()

    def begin(self) -> None:
        """The table is stepped up to."""
        self.work.open()
        self.fabrics.setFocus()

    def show_page(self, page: int) -> None:
        """The cutting (0) or the shopping list (1)."""
        self.tabs.setCurrentIndex(page)
        self.pages.setCurrentIndex(page)
        self.shopping.refresh()

    # Qt's own calls -----------------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Plan anew what has changed meanwhile."""
        super().showEvent(event)
        self.work.open()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802 - Qt's name
        """Nobody looks: nothing is planned."""
        super().hideEvent(event)
        self.work.close()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape goes back to the wall."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Escape goes back from the lists too, which would take it for themselves."""
        pressed = event.key() if isinstance(event, QKeyEvent) else None
        if event.type() == QEvent.Type.KeyPress and pressed == Qt.Key.Key_Escape:
            self.left.emit()
            return True
        return super().eventFilter(watched, event)

    # Following ----------------------------------------------------------------------------------------------------

    def _planned(self) -> None:
        self.fabrics.refresh()
        self._show_fabric()

    def _show_fabric(self) -> None:
        self.fabrics.follow_fabric()
        self.choice.refresh()
        self.canvas.lay_out()
        self.cuts.refresh()
        behind = self.work.is_behind
        self.behind.setVisible(behind)

    def _show_progress(self) -> None:
        searching = self.work.is_searching
        self.progress.setVisible(searching)
        self.stop.setVisible(searching or self.work.was_stopped)
        self.stop.setText(self.tr("Stop") if searching else self.tr("Search on"))
        self.progress.setValue(round(100 * self.work.share))
        self.choice.refresh()

    def _stop_or_go_on(self) -> None:
        if self.work.is_searching:
            self.work.stop()
        else:
            self.work.search_again()

    def _show_done(self) -> None:
        done, whole = self.cuts.done
        self.done.setText(self.tr("{done} of {n} ticked").format(done=done, n=whole) if whole else "")
        self.untick.setEnabled(bool(done))

    def _point_out(self, key: str) -> None:
        """What a piece is for, on the wall."""
        each = self.work.chosen
        if each is not None and key in each.plan.pieces_cut:
            self.refers.emit(piece_why(self.work.design, each, key).refers)

    def _say(self, text: str) -> None:
        self.status.show_text(text or self.tr("Point at a piece, or walk with the arrow keys"))

    def _dress(self) -> None:
        for button, name in self._icons:
            button.setIcon(icon(name, self._look.theme))
        self._arrange()
        self._planned()

    def _arrange(self) -> None:
        """Fabrics beside the cloth; above it where large text would leave neither enough room."""
        large = self._look.scale.text > _BESIDE
        self.title.setVisible(not large)
        wanted = Qt.Orientation.Vertical if large else Qt.Orientation.Horizontal
        if self.across.orientation() != wanted:
            self.across.setOrientation(wanted)
            self.across.setSizes([200, 640] if large else [250, 640])

    # Arranging ----------------------------------------------------------------------------------------------------

    def _connect(self) -> None:
        work = self.work
        work.planned.connect(self._planned)
        work.fabric_chosen.connect(self._show_fabric)
        work.progressed.connect(self._show_progress)
        self.fabrics.fabric_chosen.connect(work.choose_fabric)
        self.fabrics.pointed.connect(self.refers)
        self.canvas.said.connect(self._say)
        self.canvas.asked.connect(self._point_out)
        self.cuts.pointed.connect(self.canvas.mark)
        self.cuts.ticked.connect(self._show_done)
        self.files.said.connect(self._say)
        self.tabs.currentChanged.connect(self.show_page)
        self._look.changed.connect(self._dress)
        for widget in (self.fabrics, self.cuts, self.tabs, self.shopping.page):
            widget.installEventFilter(self)
        for keys, act in (
            ("Ctrl++", self.canvas.zoom_in),
            ("Ctrl+=", self.canvas.zoom_in),
            ("Ctrl+-", self.canvas.zoom_out),
            ("Ctrl+0", self.canvas.fit),
        ):
            QShortcut(QKeySequence(keys), self, act, context=Qt.ShortcutContext.WidgetWithChildrenShortcut)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head())
        self.pages = QStackedWidget()
        self.pages.addWidget(self._cutting())
        self.pages.addWidget(self.shopping)
        column.addWidget(self.pages, 1)

    def _head(self) -> QWidget:
        head = _holder("bar")
        row = self.head_row = QHBoxLayout(head)
        row.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        self.title = QLabel(self.tr("Cutting table"))
        self.title.setProperty("type", "lead")
        row.addWidget(self.title)
        row.addSpacing(SPACE_WIDE)
        self.tabs = QTabBar()
        self.tabs.setAccessibleName(self.tr("Pages of the Cutting table"))
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setUsesScrollButtons(False)
        self.tabs.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        for number, text in enumerate((self.tr("Cutting"), self.tr("Shopping list"))):
            self.tabs.addTab(text)
            tip = self.tr("{name} (arrow keys, once the tabs have the focus)")
            self.tabs.setTabToolTip(number, tip.format(name=text))
        row.addWidget(self.tabs)
        row.addStretch(1)
        back = QPushButton(self.tr("Back to the wall"))
        back.setToolTip(self.tr("Back to the wall (Esc)"))
        back.clicked.connect(self.left)
        row.addWidget(back)
        return head

    def _cutting(self) -> QWidget:
        self.across = across = QSplitter(Qt.Orientation.Horizontal)
        across.setHandleWidth(1)
        across.setChildrenCollapsible(False)
        self.fabrics.setMinimumWidth(180)
        across.addWidget(self.fabrics)
        down = QSplitter(Qt.Orientation.Vertical)
        down.setHandleWidth(1)
        down.setChildrenCollapsible(False)
        down.addWidget(self._drawing())
        down.addWidget(self._list())
        down.setSizes([480, 300])
        across.addWidget(down)
        across.setStretchFactor(1, 1)
        across.setSizes([250, 640])
        return across

    def _drawing(self) -> QWidget:
        holder = _holder("panel")
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        row.setSpacing(SPACE_TIGHT)
        row.addWidget(self.choice, 1)
        self.progress = QProgressBar()
        self.progress.setRange(0, 100)
        self.progress.setMaximumWidth(120)
        self.progress.setAccessibleName(self.tr("How far the search for the best plan is"))
        self.progress.hide()
        self.stop = QPushButton(self.tr("Stop"))
        self.stop.setToolTip(self.tr("End the search with the best plan found so far, or go on with it"))
        self.stop.clicked.connect(self._stop_or_go_on)
        self.stop.hide()
        row.addWidget(self.progress)
        row.addWidget(self.stop)
        for name, tip, act in (
            ("zoom-out", self.tr("Farther (Ctrl+-)"), self.canvas.zoom_out),
            ("fit", self.tr("As wide as there is room (Ctrl+0)"), self.canvas.fit),
            ("zoom-in", self.tr("Closer (Ctrl++)"), self.canvas.zoom_in),
        ):
            button = QToolButton()
            button.setToolTip(tip)
            button.setAccessibleName(tip)
            button.clicked.connect(act)
            self._icons.append((button, name))
            row.addWidget(button)
        column.addLayout(row)
        self.behind = QLabel(self.tr("This plan is from before the last change: it could not be worked out."))
        self.behind.setProperty("tone", "warn")
        self.behind.setWordWrap(True)
        self.behind.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, SPACE_TIGHT)
        column.addWidget(self.behind)
        column.addWidget(self.canvas, 1)
        return holder

    def _list(self) -> QWidget:
        holder = _holder("foot")
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.status = ElidedLabel()
        self.status.setProperty("type", "soft")
        self.status.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        self._say("")
        column.addWidget(self.status)
        beside = QHBoxLayout()
        beside.setContentsMargins(SPACE, 0, 0, 0)
        beside.addWidget(self.cuts)
        column.addLayout(beside, 1)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        row.setSpacing(SPACE)
        self.done = QLabel()
        self.done.setProperty("type", "soft")
        self.untick = QPushButton(self.tr("Untick all"))
        self.untick.setToolTip(self.tr("Begin the list of this fabric anew"))
        self.untick.clicked.connect(self.cuts.untick)
        row.addWidget(self.done, 1)
        row.addWidget(self.untick)
        row.addWidget(self.files)
        column.addLayout(row)
        return holder


def _holder(place: str) -> QWidget:
    holder = QWidget()
    holder.setProperty("place", place)
    holder.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
    return holder
