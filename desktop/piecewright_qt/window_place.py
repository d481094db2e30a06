"""Where the window stood and how wide its columns were, kept with the preferences from one start to the next."""

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QByteArray, QRect
from PySide6.QtGui import QGuiApplication

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_FIRST = (1480, 920)
_COLUMNS = (264, 320)
_SHARE = 0.94
"""Of a small screen, at first."""


class _Place(msgspec.Struct, frozen=True):
    window: bytes
    columns: bytes


def restore_place(window: "Window") -> None:
    """As it was left; as it is at first where nothing was noted, or nothing that can be understood."""
    _set_first(window)
    try:
        place = msgspec.json.decode(window.look.preferences.window, type=_Place)
    except (msgspec.MsgspecError, ValueError):
        return
    window.restoreGeometry(QByteArray(place.window))
    window.splitter.restoreState(QByteArray(place.columns))


def remember_place(window: "Window") -> None:
    """Note it with the preferences."""
    place = _Place(bytes(window.saveGeometry().data()), bytes(window.splitter.saveState().data()))
    window.look.note(window=msgspec.json.encode(place))


def _set_first(window: "Window") -> None:
    screen = QGuiApplication.primaryScreen()
    room = screen.availableGeometry() if screen is not None else QRect(0, 0, *_FIRST)
    width = min(_FIRST[0], round(room.width() * _SHARE))
    height = min(_FIRST[1], round(room.height() * _SHARE))
    window.resize(width, height)
    left, right = _COLUMNS
    window.splitter.setSizes([left, width - left - right, right])
