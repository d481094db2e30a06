"""The arrangements under the wall: a tab with a small picture each; duplicate, rename in place, remove, compare."""

from collections.abc import Callable
from itertools import count

from PySide6.QtCore import QEvent, QObject, QPoint, QSize, Qt
from PySide6.QtGui import QIcon, QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QMenu, QTabBar, QToolButton, QWidget

from piecewright.edit.registry import call
from piecewright_qt.arrangements.quilt_pictures import QuiltPictures
from piecewright_qt.arrangements.side_by_side import SideBySide
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_PICTURE = QSize(54, 54)
_LEAST_FIELD = 120


class ArrangementStrip(QWidget):
    """Follows the design; every change is an edit. Pictures follow once edits have settled."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self._settling = False
        self.pictures = QuiltPictures(parent=self)
        self.pictures.arrived.connect(self._show_picture)
        self.setProperty("place", "foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Arrangements of this quilt"))
        self.tabs = self._make_tabs()
        self.field = self._make_field()
        self._buttons = {
            "duplicate": self._button(self.tr("Duplicate the arrangement (Ctrl+Shift+D)"), self.duplicate),
            "compare": self._button(self.tr("Compare two arrangements (Ctrl+Shift+C)"), self.compare),
            "more": self._button(self.tr("Duplicate, rename or remove the arrangement"), self._more),
        }
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, 0)
        row.setSpacing(SPACE_TIGHT)
        row.addWidget(self.tabs, 1)
        for button in self._buttons.values():
            row.addWidget(button)
        document.changed.connect(self.refresh)
        look.changed.connect(self.refresh)
        self.refresh()

    # What the actions ask for --------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the arrangements as they are."""
        design = self._document.design
        self._settling = True
        while self.tabs.count() > len(design.arrangements):
            self.pictures.forget(self.tabs.count() - 1)
            self.tabs.removeTab(self.tabs.count() - 1)
        for index, quilt in enumerate(design.arrangements):
            if index >= self.tabs.count():
                self.tabs.addTab("")
            name = quilt.name.replace("&", "&&")
            if self.tabs.tabText(index) != name:
                self.tabs.setTabText(index, name)
                self.tabs.setTabToolTip(index, self.tr("{name} (F2 renames)").format(name=quilt.name))
                self.tabs.setAccessibleTabName(index, quilt.name)
            self._show_picture(index)
        self.tabs.setCurrentIndex(design.current)
        side = round(1.4 * self._look.scale.body)
        for name, button in self._buttons.items():
            button.setIcon(icon(name, self._look.theme))
            button.setIconSize(QSize(side, side))
        self._buttons["compare"].setEnabled(len(design.arrangements) > 1)
        self._settling = False

    def duplicate(self) -> None:
        """Keep the arrangement in view and go on with a copy."""
        self._duplicate(self._document.design.current)

    def remove(self, index: int) -> None:
        """Take an arrangement away; undo brings it back."""
        self._document.perform(call("remove-arrangement", index=index))

    def rename(self, index: int) -> None:
        """Write the name anew, in its place: Enter keeps it, Escape leaves the old one."""
        if not 0 <= index < self.tabs.count():
            return
        rect = self.tabs.tabRect(index)
        left = rect.left() + _PICTURE.width() + 2 * SPACE
        self.field.setProperty("arrangement", index)
        self.field.setText(self._document.design.arrangements[index].name)
        wanted = self.field.fontMetrics().horizontalAdvance(self.field.text()) + 4 * SPACE
        self.field.resize(max(_LEAST_FIELD, min(wanted, self.tabs.width())), self.field.sizeHint().height())
        place = QPoint(
            min(left, self.tabs.width() - self.field.width()), rect.center().y() - self.field.height() // 2
        )
        self.field.move(self.tabs.mapTo(self, place))
        self.field.selectAll()
        self.field.show()
        self.field.raise_()
        self.field.setFocus()

    def compare(self) -> None:
        """Show two arrangements side by side."""
        SideBySide(self._document, self._look, self.window()).exec()

    # Keys and mouse ------------------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Keys of the tabs and of the name that is being written."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if watched is self.tabs and self._tab_key(event.key()):
                return True
            if watched is self.field and event.key() == Qt.Key.Key_Escape:
                self._end_naming()
                return True
        return super().eventFilter(watched, event)

    def _tab_key(self, key: int) -> bool:
        index = self.tabs.currentIndex()
        if key == Qt.Key.Key_F2:
            self.rename(index)
        elif key == Qt.Key.Key_Delete:
            self.remove(index)
        elif key == Qt.Key.Key_Menu:
            self._open_menu(index)
        else:
            return False
        return True

    def _duplicate(self, index: int) -> None:
        design = self._document.design
        taken = {quilt.name for quilt in design.arrangements}
        copies = (
            self.tr("{name}, copy {n}").format(name=design.arrangements[index].name, n=n) for n in count(2)
        )
        name = next(name for name in copies if name not in taken)
        self._document.perform(call("duplicate-arrangement", index=index, name=name))

    def _keep_name(self) -> None:
        if self.field.isHidden():
            return
        name, index = self.field.text().strip(), int(self.field.property("arrangement"))
        self._end_naming()
        quilts = self._document.design.arrangements
        if name and index < len(quilts) and name != quilts[index].name:
            self._document.perform(call("rename-arrangement", index=index, name=name))

    def _end_naming(self) -> None:
        self.field.hide()
        self.tabs.setFocus()

    def _switch(self, index: int) -> None:
        if not self._settling and index >= 0 and index != self._document.design.current:
            self._document.perform(call("switch-arrangement", index=index), gesture=self)

    def _more(self) -> None:
        self._open_menu(self.tabs.currentIndex())

    def _open_menu(self, index: int) -> None:
        if index >= 0:
            rect = self.tabs.tabRect(index)
            self.menu(index).popup(self.tabs.mapToGlobal(rect.topLeft()))

    def menu(self, index: int) -> QMenu:
        """What can be done with an arrangement."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction(self.tr("Duplicate"), lambda: self._duplicate(index))
        menu.addAction(self.tr("Rename\tF2"), lambda: self.rename(index))
        several = self.tabs.count() > 1
        menu.addAction(self.tr("Compare…"), self.compare).setEnabled(several)
        menu.addSeparator()
        menu.addAction(self.tr("Remove\tDel"), lambda: self.remove(index)).setEnabled(several)
        return menu

    # Making --------------------------------------------------------------------------------------------------

    def _show_picture(self, index: int) -> None:
        design = self._document.design
        if not 0 <= index < min(self.tabs.count(), len(design.arrangements)):
            return
        shown = design if index == design.current else design.changed(current=index)
        ratio = self.devicePixelRatioF()
        found = self.pictures.picture(index, shown, _PICTURE, self._look.theme, ratio)
        if found is not None:
            self.tabs.setTabIcon(index, QIcon(found))

    def _make_tabs(self) -> QTabBar:
        tabs = QTabBar()
        tabs.setAccessibleName(self.tr("Arrangements"))
        tabs.setIconSize(_PICTURE)
        tabs.setExpanding(False)
        tabs.setDrawBase(False)
        tabs.setElideMode(Qt.TextElideMode.ElideRight)
        tabs.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        tabs.customContextMenuRequested.connect(lambda point: self._open_menu(tabs.tabAt(point)))
        tabs.tabBarDoubleClicked.connect(self.rename)
        tabs.currentChanged.connect(self._switch)
        tabs.installEventFilter(self)
        return tabs

    def _make_field(self) -> QLineEdit:
        field = QLineEdit(self)
        field.setAccessibleName(self.tr("Name of the arrangement"))
        field.setMaxLength(200)
        field.editingFinished.connect(self._keep_name)
        field.installEventFilter(self)
        field.hide()
        return field

    def _button(self, name: str, run: Callable[[], object]) -> QToolButton:
        button = QToolButton()
        button.setAccessibleName(name.partition(" (")[0])
        button.setToolTip(name)
        button.clicked.connect(lambda: run())
        return button
