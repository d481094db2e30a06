"""The start: what was not saved last time, recent designs with pictures, samples, and a new design. No wizard."""

from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QDateTime, QLocale, Qt
from PySide6.QtGui import QCloseEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.files.folders import journal_folder, state_folder
from piecewright_qt.actions.table import ROWS
from piecewright_qt.start_cards import CardGrid, PictureCard
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE, SPACE_WIDE

if TYPE_CHECKING:
    from piecewright.files.recovery import LeftJournal
    from piecewright_qt.opening import Left, Offer
    from piecewright_qt.workroom import Workroom

_MOST_RECENT = 8
_SIZE = (1000, 760)


class StartPage(QScrollArea):
    """Opens what is chosen and steps back; closing it with nothing open ends the program."""

    def __init__(self, workroom: "Workroom") -> None:
        super().__init__()
        self._workroom = workroom
        self._left: list[LeftJournal] = []
        self.setWindowTitle("Piecewright")
        self.setAccessibleName(self.tr("Start"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        page = QWidget()
        page.setProperty("place", "panel")
        self._column = QVBoxLayout(page)
        self._column.setContentsMargins(SPACE_PAGE * 2, SPACE_PAGE * 2, SPACE_PAGE * 2, SPACE_PAGE)
        self._column.setSpacing(SPACE_WIDE)
        self._column.addLayout(self._head())
        self._notes = _line("", "soft")
        self._column.addWidget(self._notes)
        self._notes.hide()
        self.left = self._section(self.tr("Not saved last time"))
        self.recent = self._section(self.tr("Recent"))
        self.samples = self._section(self.tr("Samples"))
        self._column.addStretch(1)
        self.setWidget(page)
        self._add_keys()
        self.resize(*_SIZE)

    def fill(self) -> None:
        """Read the lists anew: recent designs, samples, and journals whose program is gone."""
        from piecewright_qt.opening import offers, recent_offers, sample_offers

        self._let_go()
        runner = self._workroom.runner
        self.left.show_cards([])
        self._show_offers(self.recent, recent_offers(state_folder())[:_MOST_RECENT], self._open)
        self._show_offers(self.samples, sample_offers(), self._open_sample)
        runner.run(("left", id(self)), lambda _job: offers(journal_folder()), self._show_left)

    def step_back(self) -> None:
        """Something was opened: make room for it. What was not taken back is offered again at the next start."""
        self._let_go()
        self.hide()

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Closed by its user; with nothing open, the program ends."""
        self.step_back()
        event.accept()
        self._workroom.end_if_idle()

    # What it shows ------------------------------------------------------------------------------------------------

    def _head(self) -> QLayout:
        row = QHBoxLayout()
        words = QVBoxLayout()
        words.setSpacing(SPACE)
        words.addWidget(_line("Piecewright", "title"))
        words.addWidget(
            _line(self.tr("Sew strips, cut, turn, sew again: see the quilt and every number."), "soft")
        )
        row.addLayout(words, 1)
        opening = QPushButton(self.tr("Open…"))
        opening.setToolTip(ROWS["open"].tip)
        opening.clicked.connect(lambda: self._workroom.choose_and_open(self))
        new = QPushButton(self.tr("New design"))
        new.setProperty("weight", "main")
        new.setToolTip(ROWS["new"].tip)
        new.clicked.connect(self._workroom.new_design)
        for button in (opening, new):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        new.setFocus()
        return row

    def _section(self, heading: str) -> CardGrid:
        grid = CardGrid(heading)
        self._column.addWidget(grid)
        return grid

    def _show_offers(self, grid: CardGrid, offered: "list[Offer]", take: Callable[[Path], object]) -> None:
        cards = []
        for offer in offered:
            card = PictureCard(offer.name, offer.words, partial(take, offer.path))
            cards.append(card)
            if offer.picture:
                card.show_picture(offer.picture)
            else:
                self._workroom.runner.run(("picture", offer.path), offer.drawn, card.show_picture)
        grid.show_cards(cards)

    def _show_left(self, found: "Left") -> None:
        measure = self._workroom.look.measure
        self._notes.setText("\n".join(note.text(measure) for note in found.notes))
        self._notes.setVisible(bool(found.notes))
        self._left = [one.journal for one in found.journals]
        if not self.isVisible():
            self._let_go()
            return
        cards = []
        for one in found.journals:
            take = partial(self._workroom.recover, one.journal)
            card = PictureCard(one.name, self._words(one.edits, one.changed), take, one.fault)
            card.show_picture(one.picture)
            back = card.add_way(self.tr("Take it back"), take)
            back.setProperty("weight", "main")
            back.setEnabled(not one.fault)
            aside = card.add_way(self.tr("Put it aside"), partial(self._put_aside, one.journal))
            aside.setToolTip(self.tr("It is kept on the disk, and not offered again"))
            cards.append(card)
        self.left.show_cards(cards)

    def _words(self, edits: int, changed: str) -> str:
        moment = QDateTime.fromSecsSinceEpoch(int(datetime.fromisoformat(changed).timestamp()))
        when = QLocale().toString(moment, QLocale.FormatType.ShortFormat)
        if not edits:
            return self.tr("recovered before, {when}").format(when=when)
        if edits == 1:
            return self.tr("1 change, {when}").format(when=when)
        return self.tr("{n} changes, {when}").format(n=edits, when=when)

    # What it does ---------------------------------------------------------------------------------------------------

    def _open(self, path: Path) -> None:
        self._workroom.open(path, self)

    def _open_sample(self, path: Path) -> None:
        self._workroom.open_sample(path)

    def _put_aside(self, journal: "LeftJournal") -> None:
        journal.keep_aside()
        self.fill()

    def _let_go(self) -> None:
        for journal in self._left:
            journal.release()
        self._left = []

    def _add_keys(self) -> None:
        """The keys of the table that mean something here."""
        for name, run in (
            ("new", self._workroom.new_design),
            ("open", lambda: self._workroom.choose_and_open(self)),
            ("close", self.close),
            ("quit", self._workroom.quit),
        ):
            for keys in ROWS[name].keys:
                QShortcut(QKeySequence(keys), self, run)


def _line(text: str, kind: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
