"""What an action is: name, words, keys, icon, menu, and when it can be used."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction, QKeySequence

if TYPE_CHECKING:
    from piecewright_qt.window import Window


def QT_TRANSLATE_NOOP(_context: str, text: str) -> str:  # noqa: N802 - texts to translate are found by this name
    """The text as it is; it is translated where it is shown."""
    return text


MenuName = Literal["File", "Edit", "Blocks", "Quilt", "View", "Help"]
MENUS: tuple[MenuName, ...] = ("File", "Edit", "Blocks", "Quilt", "View", "Help")
Needs = Literal["always", "design", "wall", "selection", "undo", "redo"]


@dataclass(frozen=True)
class ActionRow:
    """One action.

    `needs` tells when it can be used: always, once a design is there, while the wall is in view, with a selection on
    it, with something to undo or redo; `apart` draws a line above it in its menu.
    """

    name: str
    text: str
    run: "Callable[[Window], object]"
    menu: MenuName
    keys: tuple[str, ...] = ()
    icon: str | None = None
    needs: Needs = "design"
    apart: bool = False

    @property
    def words(self) -> str:
        """What it is called, in the user's language."""
        return translated(self.text)

    @property
    def spoken_keys(self) -> str:
        """Its keys as the platform writes them."""
        native = QKeySequence.SequenceFormat.NativeText
        return ", ".join(QKeySequence(keys).toString(native) for keys in self.keys)

    @property
    def tip(self) -> str:
        """Its words with its keys."""
        words = self.words.rstrip(".…")
        return f"{words} ({self.spoken_keys})" if self.keys else words


def translated(text: str) -> str:
    """The words of an action or a menu in the user's language."""
    return QCoreApplication.translate("actions", text)


def make_action(row: ActionRow, window: "Window") -> QAction:
    """A Qt action for a row: run on the window it belongs to."""
    action = QAction(row.words, window)
    action.setObjectName(row.name)
    action.setShortcuts([QKeySequence(keys) for keys in row.keys])
    action.setToolTip(row.tip)
    action.triggered.connect(lambda _checked=False: row.run(window))
    return action
