"""Every action of the window in one table: name, words, keys, icon, menu; the help list of keys is made from it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction, QKeySequence

from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import Theme

if TYPE_CHECKING:
    from piecewright_qt.window import Window


def QT_TRANSLATE_NOOP(_context: str, text: str) -> str:  # noqa: N802 - texts to translate are found by this name
    """The text as it is; it is translated where it is shown."""
    return text


MenuName = Literal["File", "Edit", "Quilt", "View", "Help"]
MENUS: tuple[MenuName, ...] = ("File", "Edit", "Quilt", "View", "Help")


@dataclass(frozen=True)
class ActionRow:
    """One action. `needs` tells when it can be used: always, with a selection, with something to undo or redo."""

    name: str
    text: str
    run: "Callable[[Window], object]"
    menu: MenuName
    keys: tuple[str, ...] = ()
    icon: str | None = None
    needs: Literal["nothing", "selection", "undo", "redo"] = "nothing"
    apart: bool = False


def translated(text: str) -> str:
    """The words of an action in the user's language."""
    return QCoreApplication.translate("actions", text)


def make_action(row: ActionRow, window: "Window", theme: Theme) -> QAction:
    """A Qt action for a row: run on the window it belongs to."""
    action = QAction(translated(row.text), window)
    action.setObjectName(row.name)
    action.setShortcuts([QKeySequence(keys) for keys in row.keys])
    if row.icon is not None:
        action.setIcon(icon(row.icon, theme))
    keys = ", ".join(QKeySequence(one).toString(QKeySequence.SequenceFormat.NativeText) for one in row.keys)
    action.setToolTip(
        f"{translated(row.text).rstrip('.…')} ({keys})" if keys else translated(row.text).rstrip(".…")
    )
    action.triggered.connect(lambda _checked=False: row.run(window))
    return action


ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "new",
        QT_TRANSLATE_NOOP("actions", "New design"),
        lambda w: w.workroom.new_design(),
        "File",
        ("Ctrl+N",),
        "new",
    ),
    ActionRow(
        "open",
        QT_TRANSLATE_NOOP("actions", "Open…"),
        lambda w: w.workroom.choose_and_open(w),
        "File",
        ("Ctrl+O",),
        "open",
    ),
    ActionRow(
        "start",
        QT_TRANSLATE_NOOP("actions", "Recent and samples"),
        lambda w: w.workroom.show_start(),
        "File",
        (),
        "recent",
    ),
    ActionRow(
        "save",
        QT_TRANSLATE_NOOP("actions", "Save"),
        lambda w: w.save(),
        "File",
        ("Ctrl+S",),
        "save",
        apart=True,
    ),
    ActionRow(
        "save-as", QT_TRANSLATE_NOOP("actions", "Save as…"), lambda w: w.save_as(), "File", ("Ctrl+Shift+S",)
    ),
    ActionRow(
        "picture",
        QT_TRANSLATE_NOOP("actions", "Save a picture…"),
        lambda w: w.save_picture(),
        "File",
        (),
        apart=True,
    ),
    ActionRow(
        "materials-text",
        QT_TRANSLATE_NOOP("actions", "Copy the materials as text"),
        lambda w: w.copy_materials(),
        "File",
    ),
    ActionRow(
        "close", QT_TRANSLATE_NOOP("actions", "Close"), lambda w: w.close(), "File", ("Ctrl+W",), apart=True
    ),
    ActionRow("quit", QT_TRANSLATE_NOOP("actions", "Quit"), lambda w: w.workroom.quit(), "File", ("Ctrl+Q",)),
    ActionRow(
        "undo",
        QT_TRANSLATE_NOOP("actions", "Undo"),
        lambda w: w.document.undo(),
        "Edit",
        ("Ctrl+Z",),
        "undo",
        "undo",
    ),
    ActionRow(
        "redo",
        QT_TRANSLATE_NOOP("actions", "Redo"),
        lambda w: w.document.redo(),
        "Edit",
        ("Ctrl+Shift+Z", "Ctrl+Y"),
        "redo",
        "redo",
    ),
    ActionRow(
        "cut",
        QT_TRANSLATE_NOOP("actions", "Cut"),
        lambda w: w.wall.cut(),
        "Edit",
        ("Ctrl+X",),
        "scissors",
        "selection",
        apart=True,
    ),
    ActionRow(
        "copy",
        QT_TRANSLATE_NOOP("actions", "Copy"),
        lambda w: w.wall.copy(),
        "Edit",
        ("Ctrl+C",),
        "copy",
        "selection",
    ),
    ActionRow(
        "paste", QT_TRANSLATE_NOOP("actions", "Paste"), lambda w: w.wall.paste(), "Edit", ("Ctrl+V",), "paste"
    ),
    ActionRow(
        "remove",
        QT_TRANSLATE_NOOP("actions", "Take off the wall"),
        lambda w: w.wall.remove(),
        "Edit",
        ("Del",),
        "delete",
        "selection",
    ),
    ActionRow(
        "select-all",
        QT_TRANSLATE_NOOP("actions", "Select all"),
        lambda w: w.wall.select_all(),
        "Edit",
        ("Ctrl+A",),
        apart=True,
    ),
    ActionRow(
        "select-alike",
        QT_TRANSLATE_NOOP("actions", "Select all like this"),
        lambda w: w.wall.select_alike(),
        "Edit",
        ("Ctrl+Shift+A",),
        None,
        "selection",
    ),
    ActionRow(
        "turn",
        QT_TRANSLATE_NOOP("actions", "Turn"),
        lambda w: w.wall.turn(90),
        "Quilt",
        ("R",),
        "turn",
        "selection",
    ),
    ActionRow(
        "turn-back",
        QT_TRANSLATE_NOOP("actions", "Turn back"),
        lambda w: w.wall.turn(270),
        "Quilt",
        ("Shift+R",),
        None,
        "selection",
    ),
    ActionRow(
        "repeat",
        QT_TRANSLATE_NOOP("actions", "Repeat over the selection"),
        lambda w: w.wall.repeat(),
        "Quilt",
        ("Ctrl+D",),
        "repeat",
        "selection",
    ),
    ActionRow(
        "next-layer",
        QT_TRANSLATE_NOOP("actions", "Next block of the stack"),
        lambda w: w.wall.next_layer(),
        "Quilt",
        ("L",),
        "block",
        "selection",
    ),
    ActionRow(
        "sewing-table",
        QT_TRANSLATE_NOOP("actions", "Open on the Sewing table"),
        lambda w: w.open_on_table(),
        "Quilt",
        ("F2",),
        "scissors",
        apart=True,
    ),
    ActionRow(
        "resize",
        QT_TRANSLATE_NOOP("actions", "Resize the quilt"),
        lambda w: w.show_resize(),
        "Quilt",
        ("Ctrl+R",),
        "resize",
        apart=True,
    ),
    ActionRow(
        "add-arrangement",
        QT_TRANSLATE_NOOP("actions", "Duplicate the arrangement"),
        lambda w: w.duplicate_arrangement(),
        "Quilt",
        ("Ctrl+Shift+D",),
        "duplicate",
    ),
    ActionRow(
        "compare",
        QT_TRANSLATE_NOOP("actions", "Compare two arrangements"),
        lambda w: w.compare(),
        "Quilt",
        ("Ctrl+Shift+C",),
        "compare",
    ),
    ActionRow(
        "fit",
        QT_TRANSLATE_NOOP("actions", "Show the whole quilt"),
        lambda w: w.wall.fit(),
        "View",
        ("Ctrl+0",),
        "fit",
    ),
    ActionRow(
        "zoom-in",
        QT_TRANSLATE_NOOP("actions", "Closer"),
        lambda w: w.wall.zoom_in(),
        "View",
        ("Ctrl++", "Ctrl+="),
        "zoom-in",
    ),
    ActionRow(
        "zoom-out",
        QT_TRANSLATE_NOOP("actions", "Farther"),
        lambda w: w.wall.zoom_out(),
        "View",
        ("Ctrl+-",),
        "zoom-out",
    ),
    ActionRow(
        "theme",
        QT_TRANSLATE_NOOP("actions", "Light or dark"),
        lambda w: w.toggle_theme(),
        "View",
        ("Ctrl+Shift+L",),
        "dark",
        apart=True,
    ),
    ActionRow(
        "larger-text",
        QT_TRANSLATE_NOOP("actions", "Larger text"),
        lambda w: w.change_text(25),
        "View",
        ("Ctrl+Alt++",),
        "text-size",
    ),
    ActionRow(
        "smaller-text",
        QT_TRANSLATE_NOOP("actions", "Smaller text"),
        lambda w: w.change_text(-25),
        "View",
        ("Ctrl+Alt+-",),
    ),
    ActionRow(
        "unit",
        QT_TRANSLATE_NOOP("actions", "Inches or centimeters"),
        lambda w: w.toggle_unit(),
        "View",
        ("Ctrl+Shift+U",),
        apart=True,
    ),
    ActionRow(
        "find",
        QT_TRANSLATE_NOOP("actions", "Find an action…"),
        lambda w: w.find_action(),
        "Help",
        ("Ctrl+K",),
        "search",
    ),
    ActionRow("keys", QT_TRANSLATE_NOOP("actions", "Keys"), lambda w: w.show_keys(), "Help", ("F1",), "help"),
    ActionRow("about", QT_TRANSLATE_NOOP("actions", "About Piecewright"), lambda w: w.show_about(), "Help"),
)
"""In the order of the menus; `apart` draws a line above."""
