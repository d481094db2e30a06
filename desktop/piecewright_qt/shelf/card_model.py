"""Cards as a Qt list: told anew, it changes only the rows that differ."""

from collections.abc import Callable, Sequence
from typing import Any, Generic, Protocol, TypeVar

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

Index = QModelIndex | QPersistentModelIndex
CARD = int(Qt.ItemDataRole.UserRole)
_ROOT = QModelIndex()


class Card(Protocol):
    """What a list can show: a value with an id of its own."""

    @property
    def id(self) -> str:
        """What tells it from the others."""


C = TypeVar("C", bound=Card)


class CardModel(QAbstractListModel, Generic[C]):
    """A list of cards; `speak` gives what a screen reader says of one, `hint` its tooltip."""

    def __init__(
        self,
        speak: Callable[[C], str],
        hint: Callable[[C], str],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._speak = speak
        self._hint = hint
        self._cards: list[C] = []

    @property
    def cards(self) -> tuple[C, ...]:
        """The cards shown, in order."""
        return tuple(self._cards)

    def card(self, index: Index) -> C | None:
        """The card at a place of the list."""
        return self._cards[index.row()] if index.isValid() and index.row() < len(self._cards) else None

    def index_of(self, key: str) -> QModelIndex:
        """Where the card with an id is; nowhere, if it is not shown."""
        row = next((row for row, card in enumerate(self._cards) if card.id == key), -1)
        return self.index(row, 0) if row >= 0 else QModelIndex()

    def show(self, cards: Sequence[C]) -> None:
        """Show these cards. Rows that stay keep what the list knows of them."""
        wanted = {card.id for card in cards}
        for row in range(len(self._cards) - 1, -1, -1):
            if self._cards[row].id not in wanted:
                self.beginRemoveRows(_ROOT, row, row)
                del self._cards[row]
                self.endRemoveRows()
        for row, card in enumerate(cards):
            self._put(row, card)

    def refresh(self) -> None:
        """Everything shown may look or sound different: another measure, another choice."""
        if self._cards:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._cards) - 1, 0))

    def rowCount(self, parent: Index = _ROOT) -> int:  # noqa: N802 - Qt's name
        """How many cards there are."""
        return 0 if parent.isValid() else len(self._cards)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """A card's name to hear and to search by, its tooltip, or itself."""
        card = self.card(index)
        if card is None:
            return None
        if role == CARD:
            return card
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return self._speak(card)
        return self._hint(card) if role == Qt.ItemDataRole.ToolTipRole else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every card can be chosen and dragged."""
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsDragEnabled
        return flags if index.isValid() else Qt.ItemFlag.NoItemFlags

    def _put(self, row: int, card: C) -> None:
        """Let a row show a card: moved here, brought in, or exchanged where it differs."""
        at = next((n for n in range(row, len(self._cards)) if self._cards[n].id == card.id), None)
        if at is None:
            self.beginInsertRows(_ROOT, row, row)
            self._cards.insert(row, card)
            self.endInsertRows()
            return
        if at != row:
            self.beginMoveRows(_ROOT, at, at, _ROOT, row)
            self._cards.insert(row, self._cards.pop(at))
            self.endMoveRows()
        if self._cards[row] != card:
            self._cards[row] = card
            self.dataChanged.emit(self.index(row, 0), self.index(row, 0))
