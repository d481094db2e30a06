"""Every action of the window in one table: name, words, keys, icon, menu; the help list of keys is made from it."""

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


MenuName = Literal["File", "Edit", "Quilt", "View", "Help"]
MENUS: tuple[MenuName, ...] = ("File", "Edit", "Quilt", "View", "Help")
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


ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "new",
        QT_TRANSLATE_NOOP("actions", "New design"),
        lambda w: w.workroom.new_design(),
        "File",
        ("Ctrl+N",),
        "new",
        needs="always",
    ),
    ActionRow(
        "open",
        QT_TRANSLATE_NOOP("actions", "Open…"),
        lambda w: w.workroom.choose_and_open(w),
        "File",
        ("Ctrl+O",),
        "open",
        needs="always",
    ),
    ActionRow(
        "start",
        QT_TRANSLATE_NOOP("actions", "Recent designs and samples"),
        lambda w: w.workroom.show_start(),
        "File",
        ("Ctrl+Shift+O",),
        "recent",
        needs="always",
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
        ("Ctrl+Shift+P",),
        apart=True,
    ),
    ActionRow(
        "materials-text",
        QT_TRANSLATE_NOOP("actions", "Copy the materials as text"),
        lambda w: w.copy_materials(),
        "File",
        ("Ctrl+Shift+M",),
    ),
    ActionRow(
        "close",
        QT_TRANSLATE_NOOP("actions", "Close"),
        lambda w: w.close(),
        "File",
        ("Ctrl+W",),
        "close",
        needs="always",
        apart=True,
    ),
    ActionRow(
        "quit",
        QT_TRANSLATE_NOOP("actions", "Quit"),
        lambda w: w.workroom.quit(),
        "File",
        ("Ctrl+Q",),
        needs="always",
    ),
    ActionRow(
        "undo",
        QT_TRANSLATE_NOOP("actions", "Undo"),
        lambda w: w.document.undo(),
        "Edit",
        ("Ctrl+Z",),
        "undo",
        needs="undo",
    ),
    ActionRow(
        "redo",
        QT_TRANSLATE_NOOP("actions", "Redo"),
        lambda w: w.document.redo(),
        "Edit",
        ("Ctrl+Shift+Z", "Ctrl+Y"),
        "redo",
        needs="redo",
    ),
    ActionRow(
        "cut",
        QT_TRANSLATE_NOOP("actions", "Cut"),
        lambda w: w.wall.cut(),
        "Edit",
        ("Ctrl+X",),
        needs="selection",
        apart=True,
    ),
    ActionRow(
        "copy",
        QT_TRANSLATE_NOOP("actions", "Copy"),
        lambda w: w.wall.copy(),
        "Edit",
        ("Ctrl+C",),
        "copy",
        needs="selection",
    ),
    ActionRow(
        "paste",
        QT_TRANSLATE_NOOP("actions", "Paste"),
        lambda w: w.wall.paste(),
        "Edit",
        ("Ctrl+V",),
        "paste",
        needs="wall",
    ),
    ActionRow(
        "remove",
        QT_TRANSLATE_NOOP("actions", "Take off the wall"),
        lambda w: w.wall.remove(),
        "Edit",
        ("Del",),
        "delete",
        needs="selection",
    ),
    ActionRow(
        "select-all",
        QT_TRANSLATE_NOOP("actions", "Select all"),
        lambda w: w.wall.select_all(),
        "Edit",
        ("Ctrl+A",),
        needs="wall",
        apart=True,
    ),
    ActionRow(
        "select-alike",
        QT_TRANSLATE_NOOP("actions", "Select all like this"),
        lambda w: w.wall.select_alike(),
        "Edit",
        ("Ctrl+Shift+A",),
        needs="selection",
    ),
    ActionRow(
        "select-same",
        QT_TRANSLATE_NOOP("actions", "Select all like this in the same fabrics"),
        lambda w: w.wall.select_alike(same_fabrics=True),
        "Edit",
        ("Ctrl+Alt+A",),
        needs="selection",
    ),
    ActionRow(
        "preferences",
        QT_TRANSLATE_NOOP("actions", "Preferences…"),
        lambda w: w.show_preferences(),
        "Edit",
        ("Ctrl+,",),
        needs="always",
        apart=True,
    ),
    ActionRow(
        "turn",
        QT_TRANSLATE_NOOP("actions", "Turn"),
        lambda w: w.wall.turn(90),
        "Quilt",
        ("R",),
        "turn",
        needs="selection",
    ),
    ActionRow(
        "turn-back",
        QT_TRANSLATE_NOOP("actions", "Turn back"),
        lambda w: w.wall.turn(270),
        "Quilt",
        ("Shift+R",),
        needs="selection",
    ),
    ActionRow(
        "next-layer",
        QT_TRANSLATE_NOOP("actions", "Next block of the stack"),
        lambda w: w.wall.next_layer(),
        "Quilt",
        ("L",),
        "block",
        needs="selection",
    ),
    ActionRow(
        "repeat",
        QT_TRANSLATE_NOOP("actions", "Repeat over the selection"),
        lambda w: w.wall.repeat(),
        "Quilt",
        ("Ctrl+D",),
        "repeat",
        needs="selection",
    ),
    ActionRow(
        "repeat-everywhere",
        QT_TRANSLATE_NOOP("actions", "Repeat over the whole quilt"),
        lambda w: w.wall.repeat_everywhere(),
        "Quilt",
        ("Ctrl+Alt+D",),
        needs="selection",
    ),
    ActionRow(
        "restore-fabrics",
        QT_TRANSLATE_NOOP("actions", "Back to the fabrics of the shelf"),
        lambda w: w.wall.restore_fabrics(),
        "Quilt",
        ("Ctrl+Alt+F",),
        needs="selection",
    ),
    ActionRow(
        "add-block",
        QT_TRANSLATE_NOOP("actions", "Add a block…"),
        lambda w: w.add_block(),
        "Quilt",
        ("Ctrl+B",),
        "add",
        apart=True,
    ),
    ActionRow(
        "add-fabric",
        QT_TRANSLATE_NOOP("actions", "Add a fabric…"),
        lambda w: w.add_fabric(),
        "Quilt",
        ("Ctrl+Shift+F",),
        "fabric",
    ),
    ActionRow(
        "sewing-table",
        QT_TRANSLATE_NOOP("actions", "Open on the Sewing table"),
        lambda w: w.open_on_table(),
        "Quilt",
        ("F2",),
        "scissors",
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
        "around",
        QT_TRANSLATE_NOOP("actions", "Borders, binding, backing"),
        lambda w: w.show_around(),
        "Quilt",
        ("Ctrl+Shift+B",),
    ),
    ActionRow(
        "settings",
        QT_TRANSLATE_NOOP("actions", "Name and settings of the design"),
        lambda w: w.show_settings(),
        "Quilt",
        ("Ctrl+E",),
        "edit",
    ),
    ActionRow(
        "add-arrangement",
        QT_TRANSLATE_NOOP("actions", "Duplicate the arrangement"),
        lambda w: w.duplicate_arrangement(),
        "Quilt",
        ("Ctrl+Shift+D",),
        "duplicate",
        apart=True,
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
        needs="wall",
    ),
    ActionRow(
        "zoom-true",
        QT_TRANSLATE_NOOP("actions", "True size"),
        lambda w: w.wall.zoom_100(),
        "View",
        ("Ctrl+1",),
        needs="wall",
    ),
    ActionRow(
        "zoom-in",
        QT_TRANSLATE_NOOP("actions", "Closer"),
        lambda w: w.wall.zoom_in(),
        "View",
        ("Ctrl++", "Ctrl+="),
        "zoom-in",
        needs="wall",
    ),
    ActionRow(
        "zoom-out",
        QT_TRANSLATE_NOOP("actions", "Farther"),
        lambda w: w.wall.zoom_out(),
        "View",
        ("Ctrl+-",),
        "zoom-out",
        needs="wall",
    ),
    ActionRow(
        "blocks",
        QT_TRANSLATE_NOOP("actions", "Blocks of the shelf"),
        lambda w: w.show_shelf("blocks"),
        "View",
        ("Ctrl+Shift+1",),
        "block",
        apart=True,
    ),
    ActionRow(
        "fabrics",
        QT_TRANSLATE_NOOP("actions", "Fabrics of the shelf"),
        lambda w: w.show_shelf("fabrics"),
        "View",
        ("Ctrl+Shift+2",),
        "fabric",
    ),
    ActionRow(
        "next-place",
        QT_TRANSLATE_NOOP("actions", "Go to the next place"),
        lambda w: w.go_round(1),
        "View",
        ("F6",),
    ),
    ActionRow(
        "previous-place",
        QT_TRANSLATE_NOOP("actions", "Go to the place before"),
        lambda w: w.go_round(-1),
        "View",
        ("Shift+F6",),
    ),
    ActionRow(
        "theme",
        QT_TRANSLATE_NOOP("actions", "Light or dark"),
        lambda w: w.toggle_theme(),
        "View",
        ("Ctrl+Shift+L",),
        "dark",
        needs="always",
        apart=True,
    ),
    ActionRow(
        "larger-text",
        QT_TRANSLATE_NOOP("actions", "Larger text"),
        lambda w: w.change_text(25),
        "View",
        ("Ctrl+Alt++", "Ctrl+Alt+="),
        "text-size",
        needs="always",
    ),
    ActionRow(
        "smaller-text",
        QT_TRANSLATE_NOOP("actions", "Smaller text"),
        lambda w: w.change_text(-25),
        "View",
        ("Ctrl+Alt+-",),
        needs="always",
    ),
    ActionRow(
        "unit",
        QT_TRANSLATE_NOOP("actions", "Inches, centimeters or millimeters"),
        lambda w: w.next_unit(),
        "View",
        ("Ctrl+Shift+U",),
        needs="always",
    ),
    ActionRow(
        "find",
        QT_TRANSLATE_NOOP("actions", "Find an action…"),
        lambda w: w.find_action(),
        "Help",
        ("Ctrl+K",),
        "search",
        needs="always",
    ),
    ActionRow(
        "keys",
        QT_TRANSLATE_NOOP("actions", "Keys"),
        lambda w: w.show_keys(),
        "Help",
        ("F1",),
        "help",
        needs="always",
    ),
    ActionRow(
        "about",
        QT_TRANSLATE_NOOP("actions", "About Piecewright"),
        lambda w: w.show_about(),
        "Help",
        (),
        needs="always",
    ),
)
"""In the order of the menus."""

ROWS = {row.name: row for row in ACTIONS}
