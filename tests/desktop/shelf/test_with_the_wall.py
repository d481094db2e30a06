"""Shelf and wall together: what leaves the one arrives on the other."""

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtGui import QDrag, QDragEnterEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.shelf.shelf import Shelf
from piecewright_qt.wall.view import WallView
from tests.desktop.shelf.designs import block_named, fabric_named, small_design
from tests.desktop.shelf.hands import Button, Key, drag, press

NONE = Qt.KeyboardModifier.NoModifier
COPY = Qt.DropAction.CopyAction


class Both(QWidget):
    """A shelf beside a wall, of one document."""

    def __init__(self) -> None:
        super().__init__()
        self.look = Look(LoadedPreferences(Preferences(theme="light")))
        self.document = Document(small_design())
        self.wall = WallView(self.document, self.look)
        self.shelf = Shelf(self.document, self.look, self.wall)
        row = QHBoxLayout(self)
        row.addWidget(self.shelf)
        row.addWidget(self.wall, 1)


@pytest.fixture
def both(qtbot: QtBot) -> Both:
    register_fonts()
    made = Both()
    qtbot.addWidget(made)
    made.resize(1100, 760)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    QApplication.processEvents()
    return made


@pytest.fixture
def carried(monkeypatch: pytest.MonkeyPatch) -> list[QMimeData]:
    """What drags off the shelf carry."""
    found: list[QMimeData] = []
    monkeypatch.setattr(QDrag, "exec", lambda one, _actions: found.append(one.mimeData()))
    return found


def drop(wall: WallView, mime: QMimeData, at: QPointF) -> None:
    """Carry data over the wall and let go."""
    viewport = wall.viewport()
    QApplication.sendEvent(viewport, QDragEnterEvent(at.toPoint(), COPY, mime, Button, NONE))
    QApplication.sendEvent(viewport, QDragMoveEvent(at.toPoint(), COPY, mime, Button, NONE))
    QApplication.sendEvent(viewport, QDropEvent(at, COPY, mime, Button, NONE))


def test_a_block_dragged_from_the_shelf_lies_on_the_wall(both: Both, carried: list[QMimeData]) -> None:
    page = both.shelf.blocks
    index = page.model.index_of(block_named(both.document.design, "Windows"))
    row = page.list.visualRect(index)
    places = page._delegate.places(index, row.width())
    drag(page.list.viewport(), places.faces[2].center() + row.topLeft(), row.center() - row.topLeft())
    drop(both.wall, carried[0], both.wall.camera.point((12.0, 12.0)))
    (line,) = both.document.design.quilt.rows
    assert [(one.block, one.layer) for one in line.placements] == [
        (block_named(both.document.design, "Windows"), 2)
    ]
    assert "1 on the wall" in page.model.data(index)


def test_a_block_taken_by_keys_lies_on_the_wall(both: Both) -> None:
    page = both.shelf.blocks
    page.list.setFocus()
    page.list.choose(page.model.index_of(block_named(both.document.design, "Windows")))
    press(page.list, Key.Key_Right)
    press(page.list, Key.Key_Return)
    press(both.wall, Key.Key_Return)
    placements = [one for row in both.document.design.quilt.rows for one in row.placements]
    assert [(one.block, one.layer) for one in placements] == [
        (block_named(both.document.design, "Windows"), 1)
    ]


def test_a_fabric_dragged_onto_a_patch_recolors_it(both: Both, carried: list[QMimeData]) -> None:
    page = both.shelf.blocks
    page.list.choose(page.model.index_of(block_named(both.document.design, "Rails")))
    drag(page.list.viewport(), page.list.visualRect(page.list.currentIndex()).center(), page.rect().center())
    drop(both.wall, carried[0], both.wall.camera.point((12.0, 12.0)))
    both.shelf.show_fabrics()
    cloth = both.shelf.fabrics
    mist = fabric_named(both.document.design, "Mist")
    cloth.list.choose(cloth.model.index_of(mist))
    drag(
        cloth.list.viewport(), cloth.list.visualRect(cloth.list.currentIndex()).center(), page.rect().center()
    )
    drop(both.wall, carried[1], both.wall.camera.point((12.0, 12.0)))
    (line,) = both.document.design.quilt.rows
    assert mist in line.placements[0].fabrics.ids()
    assert both.document.undo_stack.count() == 2
