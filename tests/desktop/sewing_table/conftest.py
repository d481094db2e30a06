"""Sewing tables to work at, off-screen, with a block in hand."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.value import Letters
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.grip import Grip
from piecewright_qt.sewing_table.table import SewingTable

Key = Qt.Key
NONE, ALT = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.AltModifier
COLORS = ("#1d2733", "#f4f1e8", "#7d8c5c", "#b4634a", "#b9c4cb")


@dataclass
class Work:
    """A table with a block in hand, and the hands that work at it."""

    table: SewingTable
    document: Document
    refusals: list[str]

    @property
    def bench(self) -> Bench:
        return self.table.bench

    @property
    def steps(self) -> list[dict[str, Any]]:
        assert self.bench.draft is not None
        return self.bench.draft.steps

    @property
    def in_design(self) -> Recipe:
        block = self.bench.block
        assert block is not None
        return self.document.design.shelf.recipes[block.recipe]

    def index_of(self, verb: str) -> int:
        return next(at for at, step in enumerate(self.steps) if verb in step)

    def show(self, step: int) -> None:
        """Click a step in the list."""
        view = self.table.list
        view.scrollTo(view.model().index(step, 0))
        rect = view.visualRect(view.model().index(step, 0))
        QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, NONE, rect.center())
        assert self.bench.step == step
        QApplication.processEvents()

    def grip(self, key: str, index: int | None = None) -> Grip:
        return next(
            grip
            for grip in self.table.canvas.grips
            if grip.handle.place.key == key and grip.handle.place.index == index
        )

    def take(self, grip: Grip) -> QPoint:
        at = grip.middle.toPoint()
        QTest.mousePress(self.table.canvas, Qt.MouseButton.LeftButton, NONE, at)
        return at

    def pull(self, grip: Grip, inches: float, keys: Qt.KeyboardModifier = NONE) -> QPoint:
        """Take a handle and move it by so many inches of cloth, the button still held."""
        start = self.take(grip)
        toward = QPointF(*grip.handle.toward)
        for share in (0.3, 0.7, 1.0):
            at = QPointF(start) + toward * inches * grip.pixels * share
            move(self.table.canvas, at, keys)
        return (QPointF(start) + toward * inches * grip.pixels).toPoint()

    def drag(self, grip: Grip, inches: float, keys: Qt.KeyboardModifier = NONE) -> None:
        end = self.pull(grip, inches, keys)
        QTest.mouseRelease(self.table.canvas, Qt.MouseButton.LeftButton, keys, end)
        QApplication.processEvents()

    def line(self, name: str) -> QLineEdit:
        fields = self.table.form.findChildren(QLineEdit)
        return next(one for one in fields if one.accessibleName() == name and one.isVisibleTo(self.table))

    def choice(self, name: str) -> QComboBox:
        return next(box for box in self.table.form.findChildren(QComboBox) if box.accessibleName() == name)

    def type_in(self, name: str, text: str) -> None:
        """Type over a field and leave it by Enter."""
        line = self.line(name)
        line.setFocus()
        line.selectAll()
        QTest.keyClicks(line, text)
        QTest.keyClick(line, Key.Key_Return)
        QApplication.processEvents()

    def add(self, verb: str) -> None:
        """Choose a verb in the menu under "Add a step"."""
        action = next(one for one in self.table.add.menu().actions() if one.data() == verb)
        action.trigger()
        QApplication.processEvents()

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NONE, on: QWidget | None = None) -> None:
        QTest.keyClick(on or self.table.list, key, keys)
        QApplication.processEvents()


def move(widget: QWidget, at: QPointF, keys: Qt.KeyboardModifier) -> None:
    """Move the pointer with the left button held."""
    button = Qt.MouseButton.LeftButton
    place = widget.mapToGlobal(at)
    QApplication.sendEvent(
        widget, QMouseEvent(QEvent.Type.MouseMove, at, place, Qt.MouseButton.NoButton, button, keys)
    )


SetUp = Callable[..., Work]


@pytest.fixture
def set_up(qtbot: QtBot) -> Iterator[SetUp]:
    """Sets a table up with a recipe, shipped (by name) or given: `set_up("middle-end-for-end", theme="dark")`."""

    def made(recipe: str | Recipe, size: tuple[int, int] = (1180, 760), **preferences: object) -> Work:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(**preferences)))  # type: ignore[arg-type]
        look.dress()
        document = Document(with_block(recipe))
        table = SewingTable(document, look)
        qtbot.addWidget(table)
        table.resize(*size)
        with qtbot.waitExposed(table):
            table.show()
        table.activateWindow()
        table.open_block(document.design.blocks[0].id)
        QApplication.processEvents()
        refusals: list[str] = []
        document.refused.connect(lambda error: refusals.append(error.message.code))
        kept.append(Work(table, document, refusals))
        return kept[-1]

    kept: list[Work] = []
    yield made
    for work in kept:  # the binding frees commands twice where the collector meets a whole document at once
        work.document.undo_stack.clear()


def with_block(recipe: str | Recipe) -> Design:
    """A design with one block of a recipe, of five fabrics."""
    made = shipped_recipes()[recipe] if isinstance(recipe, str) else recipe
    design = Design("Table")
    for number, color in enumerate(COLORS):
        design = apply(design, call("add-fabric", name=f"Cloth {number}", color=color, print=None))
    ids = tuple(fabric.id for fabric in design.fabrics)
    if made.stack > 1:
        letters = dict.fromkeys(made.letters, ids)
    else:
        letters = {letter: (ids[at % len(ids)],) for at, letter in enumerate(made.letters)}
    return apply(design, call("add-block", name="In hand", new_recipe=made, fabrics=Letters(letters)))


def on_wall(design: Design) -> Design:
    """The design with its first block placed."""
    return apply(design, call("place-block", block=design.blocks[0].id, cell=Cell(0, 0)))
