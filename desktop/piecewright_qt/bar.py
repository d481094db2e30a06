"""The one line above everything: the design's name, the menus, undo and redo, and how near one stands."""

import sys
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QMenuBar, QSizePolicy, QToolButton, QWidget

from piecewright_qt.actions.row import MENUS, translated
from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.place_switch import PlaceSwitch
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_BUTTONS = ("undo", "redo", "", "zoom-out", "zoom-true", "zoom-in", "fit", "", "find", "theme")
_ZOOM = ("zoom-out", "zoom-true", "zoom-in", "fit")
_SPARED = ("zoom-out", "zoom-in")
"""Left out first where the line is short: keys and the wheel zoom as well."""
_WIDEST_NAME = 360


class TopBar(QWidget):
    """Made from the table of actions; what it shows it is told."""

    def __init__(self, window: "Window") -> None:
        super().__init__()
        self._window = window
        self.setProperty("place", "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Name, menus and zoom"))
        self.name = QToolButton()
        self.name.setProperty("type", "lead")
        self.name.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.name.clicked.connect(lambda: window.show_drawer("settings"))
        self.percent = QToolButton()
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE_TIGHT, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        row.setSpacing(SPACE_TIGHT)
        row.addWidget(self.name)
        self.menus = self._make_menus()
        if self.menus.parent() is not window:
            row.addWidget(self.menus)
            row.addStretch(1)
        else:
            row.addStretch(1)
        self.switch = PlaceSwitch(window)
        row.addWidget(self.switch)
        row.addStretch(1)
        self._zoom: dict[str, QToolButton] = {}
        for name in _BUTTONS:
            if name:
                button = self._button(name)
                row.addWidget(button)
                if name in _ZOOM:
                    self._zoom[name] = button
            else:
                row.addSpacing(SPACE_WIDE)

    def show_name(self, name: str, changed: bool) -> None:
        """The design's name, with a mark where it has changes that are not saved."""
        metrics = QFontMetrics(self.name.font())
        shown = metrics.elidedText(name, Qt.TextElideMode.ElideMiddle, _WIDEST_NAME)
        self.name.setText(f"{shown} •" if changed else shown)
        self.name.setAccessibleName(
            self.tr("{name}, changes not saved").format(name=name) if changed else name
        )
        self.name.setToolTip(self.tr("{name}: its name and settings").format(name=name))

    def show_place(self, place: str) -> None:
        """Which of the places is in view."""
        self.switch.show_place(place)
        self.make_room()

    def show_percent(self, percent: int) -> None:
        """How large cloth is shown, to true size."""
        self.percent.setText(f"{percent} %")
        self.percent.setAccessibleName(self.tr("Shown at {percent} percent").format(percent=percent))

    def dress(self) -> None:
        """Icons in the ink of the theme, for all actions whose icon can be seen."""
        theme = self._window.look.theme
        for row in ACTIONS:
            action = self._window.actions_by_name[row.name]
            if row.icon is not None and (row.name in _BUTTONS or not action.icon().isNull()):
                action.setIcon(icon(_drawing(row.name, row.icon, theme.name == "dark"), theme))
        self.make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """The places are folded into one button where the line is short."""
        super().resizeEvent(event)
        self.make_room()

    def make_room(self) -> None:
        """Fold the places into one button where the line is short, and leave out buttons of the zoom."""
        row = self.layout()
        if row is None:
            return
        for button in self._zoom.values():
            button.show()
        others = row.sizeHint().width() - self.switch.sizeHint().width()
        self.switch.fit(self.width() - others)
        if row.sizeHint().width() > self.width():
            for name, button in self._zoom.items():
                button.setVisible(self._window.place == "wall" and name not in _SPARED)

    def _make_menus(self) -> QMenuBar:
        """One bar of menus, here in the line; on a Mac at the top of the screen, where menus are."""
        bar = self._window.menuBar() if sys.platform == "darwin" else QMenuBar()
        bar.setAccessibleName(self.tr("Menus"))
        bar.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        for name in MENUS:
            menu = bar.addMenu(f"&{translated(name)}")
            menu.aboutToShow.connect(lambda menu=menu: self._ink(menu))
            for row in ACTIONS:
                if row.menu == name:
                    if row.apart:
                        menu.addSeparator()
                    menu.addAction(self._window.actions_by_name[row.name])
        return bar

    def _ink(self, menu: QMenu) -> None:
        """Draw the icons of a menu when it is first opened."""
        theme = self._window.look.theme
        drawings = {row.name: row.icon for row in ACTIONS}
        for action in menu.actions():
            drawing = drawings.get(action.objectName())
            if drawing is not None:
                action.setIcon(icon(_drawing(action.objectName(), drawing, theme.name == "dark"), theme))

    def _button(self, name: str) -> QToolButton:
        button = self.percent if name == "zoom-true" else QToolButton()
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setIconSize(QSize(20, 20))
        action = self._window.actions_by_name[name]
        if name == "zoom-true":
            button.clicked.connect(action.trigger)
            button.setToolTip(action.toolTip())
        else:
            button.setDefaultAction(action)
            button.setAccessibleName(translated(next(row.text for row in ACTIONS if row.name == name)))
        button.setObjectName(f"bar-{name}")
        return button


def _drawing(name: str, drawing: str, dark: bool) -> str:
    """The theme's button shows what pressing it gives."""
    if name == "theme":
        return "light" if dark else "dark"
    return drawing
