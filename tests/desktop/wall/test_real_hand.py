"""On a real X display: blocks dragged by a hand on the mouse, and what a screen reader is told."""

import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QDrag, QMouseEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.note import Note
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.wall.mime import block_mime
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.hands import at, blocks

pytestmark = pytest.mark.x11
ROOT = Path(__file__).resolve().parents[3]


class Card(QLabel):
    """Something to drag a block from."""

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Begin a real drag."""
        del event
        drag = QDrag(self)
        drag.setMimeData(block_mime(quilts.RAIL))
        drag.exec()


@pytest.fixture
def pair(qtbot: QtBot) -> Iterator[tuple[Card, WallView]]:
    """A card beside a wall, in one window."""
    card = Card("A block")
    look = Look(LoadedPreferences(Preferences(theme="light"), (), ()))
    wall = WallView(Document(quilts.mixed()), look)
    window = QWidget()
    row = QHBoxLayout(window)
    row.addWidget(card)
    row.addWidget(wall, 1)
    qtbot.addWidget(window)
    window.setGeometry(50, 50, 1000, 700)
    with qtbot.waitExposed(window):
        window.show()
    wall.settle()
    yield card, wall
    window.close()


def drag_by_hand(start: QPoint, end: QPoint) -> subprocess.Popen[bytes]:
    """Press, ten moves, a pause, release, in a process of its own, as a hand would."""
    steps = ["mousemove", f"{start.x()}", f"{start.y()}", "mousedown", "1"]
    for step in range(1, 11):
        point = start + (end - start) * step / 10
        steps += ["mousemove", f"{point.x()}", f"{point.y()}", "sleep", "0.03"]
    return subprocess.Popen(["xdotool", *steps, "sleep", "0.1", "mouseup", "1"])


def test_a_hand_moves_a_block_on_the_wall(qtbot: QtBot, pair: tuple[Card, WallView]) -> None:
    wall = pair[1]
    port = wall.viewport()
    hand = drag_by_hand(port.mapToGlobal(at(wall, 17, 1)), port.mapToGlobal(at(wall, 17.2, 9.1)))
    qtbot.waitUntil(lambda: wall.document.undo_stack.count() == 1, timeout=10_000)
    assert hand.wait() == 0
    assert blocks(wall.document.design)[(16, 8)] == quilts.FOUR


def test_a_hand_drags_a_block_from_elsewhere_to_the_wall(qtbot: QtBot, pair: tuple[Card, WallView]) -> None:
    card, wall = pair
    previews: list[object] = []
    wall.document.previewed.connect(previews.append)
    end = wall.viewport().mapToGlobal(at(wall, 19.5, 12.5))
    hand = drag_by_hand(card.mapToGlobal(card.rect().center()), end)
    qtbot.waitUntil(lambda: wall.document.undo_stack.count() == 1, timeout=10_000)
    assert hand.wait() == 0
    assert blocks(wall.document.design)[(18, 11)] == quilts.RAIL
    assert any(design is not None for design in previews)


def test_a_hand_moves_a_note_and_measures(qtbot: QtBot, pair: tuple[Card, WallView]) -> None:
    wall = pair[1]
    port, document = wall.viewport(), wall.document
    document.perform(call("pin-note", note=Note("More light", Fraction(30), Fraction(20))))
    wall.settle()
    start = wall.slips.rect(0).center().toPoint()
    hand = drag_by_hand(port.mapToGlobal(start), port.mapToGlobal(start + QPoint(60, 40)))
    qtbot.waitUntil(lambda: document.undo_stack.count() == 2, timeout=10_000)
    assert hand.wait() == 0
    note = document.design.quilt.notes[0]
    assert note.across > 30
    assert note.down > 20
    wall.measure()
    hand = drag_by_hand(port.mapToGlobal(at(wall, 0, 0)), port.mapToGlobal(at(wall, 16, 6)))
    qtbot.waitUntil(lambda: hand.poll() is not None, timeout=10_000)
    found = wall.measuring.measured
    assert found is not None
    unit = wall.scene.design.quilt.lattice.unit
    assert (found.width, found.height) == (16 * unit, 6 * unit)
    assert document.undo_stack.count() == 2


def test_a_hand_drags_a_group_whole(qtbot: QtBot, pair: tuple[Card, WallView]) -> None:
    wall = pair[1]
    port, document = wall.viewport(), wall.document
    before = blocks(document.design)
    document.perform(call("group-blocks", cells=tuple(Cell(*cell) for cell in ((12, 0), (16, 0)))))
    wall.settle()
    hand = drag_by_hand(port.mapToGlobal(at(wall, 17, 1)), port.mapToGlobal(at(wall, 17.2, 9.1)))
    qtbot.waitUntil(lambda: document.undo_stack.count() == 2, timeout=10_000)
    assert hand.wait() == 0
    after = blocks(document.design)
    assert (after[(16, 8)], after[(12, 8)]) == (before[(16, 0)], before[(12, 0)])


def test_a_screen_reader_hears_of_every_block() -> None:
    told = subprocess.run(
        ["dbus-run-session", "--", sys.executable, "-m", "tests.desktop.wall.screen_reader"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    ).stdout.splitlines()
    assert told, "no accessibility bus answered"
    lines = [line.split("\t") for line in told if line.count("\t") == 2]
    assert ["list", "Wall"] in [line[1:] for line in lines]
    items = [line[2] for line in lines if line[1] == "list item"]
    assert len(items) == 8
    assert items[0] == "Middle end for end, column 1 row 1"
    assert items[6] == "Two halves from thirds, column 1 row 7, turned 90"
