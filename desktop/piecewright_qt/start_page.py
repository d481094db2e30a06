"""The start: what was not saved last time, recent designs with pictures, samples, and a new design. No wizard."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QCloseEvent, QIcon, QPixmap
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.errors import PiecewrightError
from piecewright.files.design_file import load_design
from piecewright.files.folders import journal_folder, state_folder
from piecewright.files.recent import recent_designs
from piecewright.files.recovery import LeftJournal, find_left_journals
from piecewright.model.design import Design
from piecewright_qt.pictures import small_picture
from piecewright_qt.samples import sample_files
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE, SPACE_WIDE

if TYPE_CHECKING:
    from piecewright_qt.workroom import Workroom

_CARD = QSize(190, 190)
_ACROSS = 4


class StartPage(QScrollArea):
    """Opens what is chosen and hides; closing it with nothing open ends the program."""

    def __init__(self, workroom: "Workroom") -> None:
        super().__init__()
        self._workroom = workroom
        self._left: tuple[LeftJournal, ...] = ()
        self.setWindowTitle("Piecewright")
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.resize(1000, 760)

    def refresh(self) -> None:
        """Read the lists anew: recent designs, and journals whose program is gone."""
        self._let_go()
        found = find_left_journals(journal_folder())
        self._left = found.journals
        page = QWidget()
        page.setProperty("place", "panel")
        column = QVBoxLayout(page)
        column.setContentsMargins(SPACE_PAGE * 2, SPACE_PAGE * 2, SPACE_PAGE * 2, SPACE_PAGE)
        column.setSpacing(SPACE_WIDE)
        column.addLayout(self._head())
        for note in found.notes:
            column.addWidget(_line(note.text(self._workroom.look.measure), "soft"))
        self._add(column, self.tr("Not saved last time"), [self._left_card(left) for left in self._left])
        self._add(column, self.tr("Recent"), self._recent_cards())
        self._add(column, self.tr("Samples"), [self._sample_card(path) for path in sample_files()])
        column.addStretch(1)
        self.setWidget(page)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Let go of what was not taken back: the next start offers it again."""
        self._let_go()
        event.accept()
        if not self._workroom.windows:
            self._workroom.quit()

    def _head(self) -> QLayout:
        row = QHBoxLayout()
        words = QVBoxLayout()
        words.addWidget(_line("Piecewright", "title"))
        words.addWidget(
            _line(self.tr("Sew strips, cut, turn, sew again: see the quilt and every number."), "soft")
        )
        row.addLayout(words, 1)
        new = QPushButton(self.tr("New design"))
        new.setProperty("weight", "main")
        new.clicked.connect(lambda: self._go(self._workroom.new_design))
        opening = QPushButton(self.tr("Open…"))
        opening.clicked.connect(lambda: self._workroom.choose_and_open(self))
        for button in (opening, new):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        return row

    def _add(self, column: QVBoxLayout, heading: str, cards: list[QWidget]) -> None:
        if not cards:
            return
        column.addWidget(_line(heading, "lead"))
        grid = QGridLayout()
        grid.setSpacing(SPACE_WIDE)
        for number, card in enumerate(cards):
            grid.addWidget(card, number // _ACROSS, number % _ACROSS, Qt.AlignmentFlag.AlignTop)
        grid.setColumnStretch(_ACROSS, 1)
        column.addLayout(grid)

    def _left_card(self, left: LeftJournal) -> QWidget:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        try:
            recovered = left.recover()
        except PiecewrightError as error:
            column.addWidget(_line(error.sentence(self._workroom.look.measure), "soft"))
            return holder
        words = self.tr("{n} changes, last on {when}").format(
            n=left.edits, when=left.changed[:16].replace("T", " ")
        )
        take = lambda: self._go(lambda: self._workroom.recover(left))  # noqa: E731 - one line a button
        column.addWidget(_card(recovered.design.name, words, small_picture(recovered.design), take))
        row = QHBoxLayout()
        back = QPushButton(self.tr("Take it back"))
        back.setProperty("weight", "main")
        back.clicked.connect(take)
        away = QPushButton(self.tr("Put it aside"))
        away.clicked.connect(lambda: self._put_aside(left))
        row.addWidget(back)
        row.addWidget(away)
        column.addLayout(row)
        return holder

    def _recent_cards(self) -> list[QWidget]:
        cards: list[QWidget] = []
        for recent in recent_designs(state_folder()):
            path = recent.path
            if path.exists():
                cards.append(_card(recent.name, path.name, recent.picture, partial(self._open, path)))
        return cards[: _ACROSS * 2]

    def _sample_card(self, path: Path) -> QWidget:
        design: Design = load_design(path).design
        size = design.about or path.stem
        return _card(
            design.name,
            size,
            small_picture(design),
            lambda: self._go(lambda: self._workroom.open_sample(path)),
        )

    def _open(self, path: Path) -> None:
        self._go(lambda: self._workroom.open(path, self))

    def _put_aside(self, left: LeftJournal) -> None:
        left.keep_aside()
        self.refresh()

    def _go(self, run: Callable[[], object]) -> None:
        run()
        if self._workroom.windows:
            self._let_go()

    def _let_go(self) -> None:
        for left in self._left:
            left.release()
        self._left = ()


def _line(text: str, kind: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label


def _card(name: str, words: str, picture: bytes, run: Callable[[], object]) -> QWidget:
    """A picture to press with a name and a line under it."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(SPACE)
    button = QToolButton()
    pixmap = QPixmap()
    pixmap.loadFromData(picture)
    button.setIcon(QIcon(pixmap))
    button.setIconSize(_CARD - QSize(2 * SPACE, 2 * SPACE))
    button.setFixedSize(_CARD)
    button.setProperty("place", "card")
    button.setAccessibleName(f"{name}: {words}")
    button.setToolTip(name)
    button.clicked.connect(lambda: run())
    column.addWidget(button)
    for text, kind in ((name, "body"), (words, "small")):
        label = _line(text, kind)
        label.setFixedWidth(_CARD.width())
        column.addWidget(label)
    return holder
