"""A drawer of the setting pulled out over a wall."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.setting.drawer import SettingDrawer
from piecewright_qt.wall.selection import Selection
from tests.desktop.wall.quilts import rails

Pull = Callable[..., "Place"]


class Place:
    """The drawer and what it works on."""

    def __init__(self, qtbot: QtBot, runner: Runner, design: Design, percent: int = 100) -> None:
        self.qtbot, self.runner = qtbot, runner
        self.document = Document(design)
        self.selection = Selection()
        look = Look(LoadedPreferences(Preferences(text_percent=percent)))
        look.dress()
        self.drawer = SettingDrawer(self.document, look, self.selection, runner)
        qtbot.addWidget(self.drawer)
        self.drawer.resize(264, 1400)
        with qtbot.waitExposed(self.drawer):
            self.drawer.show()
        self.drawer.begin()
        self.settle()

    def settle(self) -> None:
        """Until every way is worked out and has its picture."""
        self.runner.finish()
        self.qtbot.waitUntil(lambda: self.drawer.pictures.is_idle, timeout=20_000)

    @property
    def design(self) -> Design:
        """The design as it stands."""
        return self.document.design

    def point_at(self, number: int) -> None:
        """Move the mouse onto a card."""
        cards = self.drawer.cards
        QTest.mouseMove(cards.viewport(), cards.visualItemRect(cards.item(number)).center())

    def choose(self, field: object, value: object) -> None:
        """Choose in a field as a user does."""
        box = field.box  # type: ignore[attr-defined]
        index = next(n for n in range(box.count()) if box.itemData(n) == value)
        box.setCurrentIndex(index)
        box.activated.emit(index)


@pytest.fixture
def runner() -> Iterator[Runner]:
    """A runner that is stopped at the end."""
    made = Runner()
    yield made
    made.stop()


@pytest.fixture
def pull(qtbot: QtBot, runner: Runner) -> Pull:
    """Pulls the drawer out: `pull(design)`."""
    return lambda design=None, percent=100: Place(qtbot, runner, design or rails(4, 4), percent)


def on_point() -> Design:
    """Rails on point, with triangles not chosen yet."""
    return apply(rails(4, 4), call("change-setting", kind="on point", columns=3, rows=3))
