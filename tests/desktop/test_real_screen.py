"""A real X display: the mouse that a person holds reaches a window of ours, press, drag and release."""

import subprocess

import pytest
from PySide6.QtGui import QGuiApplication, QMouseEvent
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

pytestmark = pytest.mark.x11


class Recorder(QWidget):
    """Keeps what the mouse does, in words."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[tuple[str, int, int]] = []

    def _keep(self, word: str, event: QMouseEvent) -> None:
        self.seen.append((word, round(event.position().x()), round(event.position().y())))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The button goes down."""
        self._keep("press", event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The mouse moves with the button held."""
        self._keep("move", event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The button comes up."""
        self._keep("release", event)


@pytest.fixture
def recorder(qtbot: QtBot) -> Recorder:
    widget = Recorder()
    qtbot.addWidget(widget)
    widget.setGeometry(100, 100, 400, 300)
    with qtbot.waitExposed(widget):
        widget.show()
    return widget


def test_the_display_is_real(qapp: QGuiApplication) -> None:
    assert qapp.platformName() == "xcb"
    assert qapp.primaryScreen().size().width() >= 1280


def test_a_drag_by_hand_arrives_whole(qtbot: QtBot, recorder: Recorder) -> None:
    corner = recorder.mapToGlobal(recorder.rect().topLeft())
    path = [(20, 30), (60, 70), (100, 110), (200, 150)]
    moves = [["mousemove", str(corner.x() + x), str(corner.y() + y)] for x, y in path]
    steps = [*moves[0], "mousedown", "1", *(word for move in moves[1:] for word in move), "mouseup", "1"]
    hand = subprocess.Popen(["xdotool", *steps])
    qtbot.waitUntil(lambda: any(word == "release" for word, _, _ in recorder.seen), timeout=10_000)
    assert hand.wait() == 0
    assert recorder.seen[0] == ("press", 20, 30)
    assert recorder.seen[-1] == ("release", 200, 150)
    assert ("move", 200, 150) in recorder.seen
