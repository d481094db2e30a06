"""The menu under the pointer: the window's actions that mean the selection, with their words, keys and icons."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu

from piecewright_qt.actions.row import translated
from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.theme.icons import icon

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

Run = Callable[["WallView"], object]
_SHARED: tuple[tuple[str, Run] | None, ...] = (
    ("turn", lambda wall: wall.turn(90)),
    ("turn-back", lambda wall: wall.turn(270)),
    ("next-layer", lambda wall: wall.next_layer()),
    None,
    ("lock", lambda wall: wall.toggle_lock()),
    ("group", lambda wall: wall.group()),
    ("ungroup", lambda wall: wall.ungroup()),
    None,
    ("repeat", lambda wall: wall.repeat()),
    ("select-alike", lambda wall: wall.select_alike()),
    None,
    ("cut", lambda wall: wall.cut()),
    ("copy", lambda wall: wall.copy()),
    ("paste", lambda wall: wall.paste()),
    ("remove", lambda wall: wall.remove()),
)
"""Actions of the window's table by name, in groups."""
_OWN: tuple[tuple[str, object, Run], ...] = (
    (
        "repeat",
        QT_TRANSLATE_NOOP("wall", "Repeat over the whole quilt"),
        lambda wall: wall.repeat_everywhere(),
    ),
    (
        "select-alike",
        QT_TRANSLATE_NOOP("wall", "Select all like this in the same fabrics"),
        lambda wall: wall.select_alike(same_fabrics=True),
    ),
    (
        "remove",
        QT_TRANSLATE_NOOP("wall", "Back to the fabrics of the shelf"),
        lambda wall: wall.restore_fabrics(),
    ),
)
"""What only the wall's menu has: after which shared action, its words, what it does."""


def wall_menu(wall: "WallView") -> QMenu:
    """The menu for what is selected; it goes when it closes."""
    menu = QMenu(wall)
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    usable = bool(wall.selection.cells)
    rows = {row.name: row for row in ACTIONS}
    for entry in _SHARED:
        if entry is None:
            menu.addSeparator()
            continue
        name, run = entry
        row = rows[name]
        keys = QKeySequence(row.keys[0]).toString(QKeySequence.SequenceFormat.NativeText) if row.keys else ""
        _add(menu, wall, f"{translated(row.text)}\t{keys}", run, usable or name == "paste", row.icon)
        for after, text, own in _OWN:
            if after == name:
                _add(menu, wall, QCoreApplication.translate("wall", str(text)), own, usable, None)
    return menu


def _add(menu: QMenu, wall: "WallView", text: str, run: Run, usable: bool, drawing: str | None) -> None:
    action = menu.addAction(text)
    action.setEnabled(usable)
    if drawing is not None:
        action.setIcon(icon(drawing, wall.look.theme))
    action.triggered.connect(lambda _checked=False: run(wall))
