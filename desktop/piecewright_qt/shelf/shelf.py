"""The left column of the window: blocks and fabrics, two pages behind two plain tabs."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QStackedWidget, QTabBar, QVBoxLayout, QWidget

from piecewright.model.fabric import Fabric
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.shelf.blocks_page import BlocksPage, Wall
from piecewright_qt.shelf.fabric_editor import FabricEditor
from piecewright_qt.shelf.fabrics_page import FabricsPage
from piecewright_qt.shelf.photos import Photo
from piecewright_qt.shelf.pictures import Pictures

WIDTH = 264
_LEAST = 224


class Shelf(QWidget):
    """Follows the document by itself; what is dragged or taken from it goes to the wall."""

    def __init__(self, document: Document, look: Look, wall: Wall) -> None:
        super().__init__()
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Shelf"))
        self.setMinimumWidth(_LEAST)
        pictures = Pictures(self)
        self.blocks = BlocksPage(document, look, wall, pictures)
        self.fabrics = FabricsPage(document, look, wall.selection, pictures)
        self.fabric_editor = FabricEditor(document, look, pictures)
        self.tabs = QTabBar()
        self.tabs.setAccessibleName(self.tr("Pages of the shelf"))
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        for number, text in enumerate((self.tr("Blocks"), self.tr("Fabrics"))):
            self.tabs.addTab(text)
            self.tabs.setTabToolTip(
                number, self.tr("{name} (arrow keys, once the tabs have the focus)").format(name=text)
            )
        self._cloth = QStackedWidget()
        self._cloth.addWidget(self.fabrics)
        self._cloth.addWidget(self.fabric_editor)
        self._pages = QStackedWidget()
        self._pages.addWidget(self.blocks)
        self._pages.addWidget(self._cloth)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.tabs)
        column.addWidget(self._pages, 1)
        self.tabs.currentChanged.connect(self._pages.setCurrentIndex)
        self.fabrics.wanted.connect(self._edit_fabric)
        self.fabric_editor.done.connect(self._fabric_done)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """A narrow column."""
        return QSize(WIDTH, 600)

    def show_blocks(self) -> None:
        """Bring the blocks to the front."""
        self.tabs.setCurrentIndex(0)

    def show_fabrics(self) -> None:
        """Bring the fabrics to the front."""
        self.tabs.setCurrentIndex(1)

    def _edit_fabric(self, fabric: Fabric | None, photo: Photo | None) -> None:
        self.show_fabrics()
        self._cloth.setCurrentIndex(1)
        self.fabric_editor.open(fabric, photo)

    def _fabric_done(self, saved: str) -> None:
        self._cloth.setCurrentIndex(0)
        if saved:
            self.fabrics.search.clear()
            self.fabrics.choose(saved)
        self.fabrics.list.setFocus()
