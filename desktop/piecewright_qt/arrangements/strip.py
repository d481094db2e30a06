"""The arrangements under the wall: one tab each, with duplicate, rename and remove."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QInputDialog, QMenu, QTabBar, QToolButton, QWidget

from piecewright.edit.registry import call
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE


class ArrangementStrip(QWidget):
    """Follows the design; every change is an edit."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self._settling = False
        self.setProperty("place", "foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        self.tabs = QTabBar()
        self.tabs.setAccessibleName(self.tr("Arrangements"))
        self.tabs.setExpanding(False)
        self.tabs.setDrawBase(False)
        self.tabs.setElideMode(Qt.TextElideMode.ElideRight)
        self.tabs.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.tabs.customContextMenuRequested.connect(lambda point: self._menu(self.tabs.tabAt(point)))
        self.tabs.tabBarDoubleClicked.connect(self.rename)
        self.tabs.currentChanged.connect(self._switch)
        self._more = QToolButton()
        self._more.setAccessibleName(self.tr("Duplicate, rename or remove the arrangement"))
        self._more.setToolTip(self.tr("Duplicate, rename or remove the arrangement"))
        self._more.clicked.connect(lambda: self._menu(self.tabs.currentIndex()))
        row.addWidget(self.tabs)
        row.addWidget(self._more)
        row.addStretch(1)
        document.changed.connect(lambda *_: self.refresh())
        look.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the arrangements as they are."""
        design = self._document.design
        self._settling = True
        while self.tabs.count() > len(design.arrangements):
            self.tabs.removeTab(self.tabs.count() - 1)
        for index, quilt in enumerate(design.arrangements):
            if index >= self.tabs.count():
                self.tabs.addTab(quilt.name)
            self.tabs.setTabText(index, quilt.name)
            self.tabs.setTabToolTip(index, quilt.name)
        self.tabs.setCurrentIndex(design.current)
        self._more.setIcon(icon("more", self._look.theme))
        self._settling = False

    def duplicate(self) -> None:
        """Keep the arrangement in view and go on with a copy."""
        design = self._document.design
        name = self.tr("{name}, copy {n}").format(name=design.quilt.name, n=len(design.arrangements))
        self._document.perform(call("duplicate-arrangement", index=design.current, name=name))

    def rename(self, index: int) -> None:
        """Ask for another name."""
        if index < 0:
            return
        old = self._document.design.arrangements[index].name
        name, given = QInputDialog.getText(self, self.tr("Rename the arrangement"), self.tr("Name"), text=old)
        if given and name.strip():
            self._document.perform(call("rename-arrangement", index=index, name=name.strip()))

    def remove(self, index: int) -> None:
        """Take an arrangement away; undo brings it back."""
        self._document.perform(call("remove-arrangement", index=index))

    def _switch(self, index: int) -> None:
        if not self._settling and index >= 0 and index != self._document.design.current:
            self._document.perform(call("switch-arrangement", index=index))

    def _menu(self, index: int) -> None:
        if index < 0:
            return
        menu = QMenu(self)
        menu.addAction(self.tr("Duplicate"), self.duplicate)
        menu.addAction(self.tr("Rename…"), lambda: self.rename(index))
        removing = menu.addAction(self.tr("Remove"), lambda: self.remove(index))
        removing.setEnabled(self.tabs.count() > 1)
        menu.popup(self._more.mapToGlobal(self._more.rect().topLeft()))
