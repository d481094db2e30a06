"""What both pages of the shelf have: a search field, a list of cards, words for an empty one, a button to add."""

from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.registry import EditCall
from piecewright.errors import PiecewrightError
from piecewright.words.message import Message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import Card, CardModel
from piecewright_qt.shelf.search_field import SearchField
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

C = TypeVar("C", bound=Card)
_SIGN = 20


class Page(QWidget, Generic[C]):
    """A page of cards; `all_cards` gives every card of the design, `finds` those that the search means."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__()
        self.document = document
        self.look = look
        self.model = CardModel[C](self.spoken, self.hint, self)
        self.list = CardList(self.model)
        self.search = SearchField(look)
        self.add = QPushButton()
        self._said = note_label("warn")
        self._asking = False
        self._lay_out()
        self._connect()

    # What a page says for itself -------------------------------------------------------------------------------

    def all_cards(self) -> list[C]:
        """Every card, in order."""
        raise NotImplementedError

    def finds(self, card: C, text: str) -> bool:
        """Whether the text of the search field means a card."""
        raise NotImplementedError

    def spoken(self, card: C) -> str:
        """A card as a screen reader says it."""
        raise NotImplementedError

    def hint(self, card: C) -> str:
        """A card's tooltip."""
        raise NotImplementedError

    def empty_words(self) -> str:
        """What to say where there is nothing yet."""
        raise NotImplementedError

    def add_one(self) -> None:
        """Begin a new one."""
        raise NotImplementedError

    # What it does ---------------------------------------------------------------------------------------------

    @property
    def chosen(self) -> C | None:
        """The chosen card."""
        return self.model.card(self.list.currentIndex())

    def refresh(self) -> None:
        """Show the design as it stands, as far as the search means it; the chosen card stays chosen."""
        text = self.search.text().strip()
        everything = self.all_cards()
        self.model.show([card for card in everything if not text or self.finds(card, text)])
        self._empty_text.setText(
            self.tr("Nothing here is called “{text}”.").format(text=text)
            if everything
            else self.empty_words()
        )
        self._empty_way.setText(self.tr("Show all") if everything else self.add.text())
        self._stack.setCurrentIndex(0 if self.model.rowCount() else 1)

    def perform(self, edit: EditCall, gesture: object | None = None) -> bool:
        """Do an edit. One that is refused is told here, where it was asked for, as well as below the wall."""
        self.say("")
        self._asking = True
        try:
            return self.document.perform(edit, gesture)
        finally:
            self._asking = False

    def say(self, text: str) -> None:
        """One sentence under the list; nothing takes it away."""
        self._said.setText(text)
        self._said.setVisible(bool(text))

    def choose(self, key: str) -> None:
        """Choose the card with an id."""
        index = self.model.index_of(key)
        if index.isValid():
            self.list.choose(index)

    def text(self, said: Message) -> str:
        """A message in the measure in force."""
        return said.text(self.look.measure)

    # Arranging ------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self._stack = QStackedWidget()
        self._stack.addWidget(self.list)
        self._stack.addWidget(self._empty())
        foot = QWidget()
        foot.setProperty("place", "foot")
        foot.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = QHBoxLayout(foot)
        row.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        row.addWidget(self.add)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        head = QHBoxLayout()
        head.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        head.addWidget(self.search)
        column.addLayout(head)
        column.addWidget(self._stack, 1)
        column.addWidget(self._said)
        column.addWidget(foot)
        self.say("")
        self.dress()

    def _empty(self) -> QWidget:
        holder = QWidget()
        holder.setProperty("place", "panel")
        holder.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._empty_text = QLabel()
        self._empty_text.setProperty("type", "soft")
        self._empty_text.setWordWrap(True)
        self._empty_text.setTextFormat(Qt.TextFormat.PlainText)
        self._empty_way = QPushButton()
        self._empty_way.clicked.connect(self._go_on)
        column = QVBoxLayout(holder)
        column.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE_WIDE)
        column.setSpacing(SPACE_WIDE)
        column.addWidget(self._empty_text)
        column.addWidget(self._empty_way, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(holder)
        return scroll

    def _connect(self) -> None:
        self.search.textChanged.connect(self._searched)
        self.search.returnPressed.connect(self._to_the_list)
        self.search.down.connect(self._to_the_list)
        self.add.clicked.connect(self.add_one)
        self.document.changed.connect(self._follow)
        self.document.refused.connect(self._hear_refusal)
        self.look.changed.connect(self.dress)
        self._shortcut("Ctrl+F", self._to_the_search)
        self._shortcut("Ins", self.add_one)

    def _shortcut(self, keys: str, run: Callable[[], object]) -> None:
        shortcut = QShortcut(QKeySequence(keys), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(run)

    def dress(self) -> None:
        """Icons in the theme's ink; cards at the text scale."""
        self.add.setIcon(icon("add", self.look.theme))
        side = round(_SIGN * self.look.scale.text)
        self.add.setIconSize(QSize(side, side))
        self.model.refresh()
        self.list.scheduleDelayedItemsLayout()

    def _follow(self, before: object, after: object) -> None:
        del before, after
        self.say("")
        self.refresh()

    def _searched(self, text: str) -> None:
        del text
        self.say("")
        self.refresh()

    def _to_the_list(self) -> None:
        """From the search field to the first card found."""
        if self.model.rowCount():
            self.list.choose(self.model.index(0, 0))
            self.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _to_the_search(self) -> None:
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def _go_on(self) -> None:
        if self.search.text().strip() and self.all_cards():
            self.search.clear()
        else:
            self.add_one()

    def _hear_refusal(self, error: PiecewrightError) -> None:
        if self._asking:
            self.say(words(error, self.look.measure))


def note_label(tone: str = "") -> QLabel:
    """A small sentence that wraps, in a tone."""
    label = QLabel()
    label.setProperty("type", "small")
    label.setProperty("tone", tone)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
    return label
