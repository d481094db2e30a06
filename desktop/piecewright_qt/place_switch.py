"""The quiet switch of the top bar between Wall, Sewing table and Cutting table, and the mark of the one in view."""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QMenu, QToolButton, QWidget

from piecewright_qt.actions.table import ROWS
from piecewright_qt.theme.tokens import SPACE_TIGHT

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_BY_ACTION = {"wall": "wall", "table": "sewing-table", "cutting": "cutting-table"}
"""The action that leads to a place, by the name the window has for the place."""


class PlaceSwitch(QWidget):
    """A button for each place; where there is no room for all, one that unfolds them."""

    def __init__(self, window: "Window") -> None:
        super().__init__()
        self._window = window
        self.setAccessibleName(self.tr("Places"))
        self._names = {
            "wall": self.tr("Wall"),
            "table": self.tr("Sewing table"),
            "cutting": self.tr("Cutting table"),
        }
        self.folded = QToolButton()
        self.folded.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.folded.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.folded.setToolTip(self.tr("Places"))
        self.folded.setMenu(self._menu())
        self.folded.hide()
        self.buttons = {place: self._button(place) for place in self._names}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE_TIGHT)
        for button in (*self.buttons.values(), self.folded):
            row.addWidget(button)
        self.show_place("wall")

    def show_place(self, in_view: str) -> None:
        """Mark the place in view; another than the three marks none."""
        for place, button in self.buttons.items():
            button.setChecked(place == in_view)
        self.folded.setText(self._names.get(in_view, self.tr("Places")) + " ▾")
        self.folded.setAccessibleName(self.tr("Places: {name}").format(name=self._names.get(in_view, "")))

    def fit(self, room: int) -> None:
        """All buttons where there is room for them, else the one."""
        widths = [button.sizeHint().width() + SPACE_TIGHT for button in self.buttons.values()]
        is_folded = sum(widths) > room
        self.folded.setVisible(is_folded)
        for button in self.buttons.values():
            button.setVisible(not is_folded)

    def _button(self, place: str) -> QToolButton:
        button, row = QToolButton(), ROWS[_BY_ACTION[place]]
        button.setText(self._names[place])
        button.setCheckable(True)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setAccessibleName(self._names[place])
        button.setToolTip(row.tip)
        button.clicked.connect(partial(self._step_up, place))
        return button

    def _menu(self) -> QMenu:
        menu = QMenu(self)
        for place, name in self._names.items():
            menu.addAction(name).triggered.connect(partial(self._step_up, place))
        return menu

    def _step_up(self, place: str, _checked: bool = False) -> None:
        """Go there; where one stands already, stay: the keys alone go to and fro."""
        if self._window.is_filled and self._window.place != place:
            self._window.actions_by_name[_BY_ACTION[place]].trigger()
        self.show_place(self._window.place)
