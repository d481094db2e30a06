"""The user's own shelf of recipes, pulled out where the shelf is: add a block, rename, take off, put back."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QPushButton, QSizePolicy, QWidget

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.own_recipes import OwnRecipe, own_recipes, put_back, remove_recipe, rename_recipe
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.drawer import Drawer
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.theme.tokens import SPACE

Add = Callable[[Path], bool]
_ONE_ROW = 1.3  # the largest text scale at which both buttons stand in one row


class RecipeRow(QWidget):
    """One recipe: its name to change in place, and what can be done with it; or why it could not be read."""

    def __init__(self, own: OwnRecipe, fault: str, large: bool) -> None:
        super().__init__()
        self.own = own
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, SPACE)
        grid.setSpacing(SPACE)
        self.name = QLineEdit(own.name)
        self.name.setAccessibleName(self.tr("Name of the recipe {name}").format(name=own.name))
        self.name.setToolTip(self.tr("Another name (Enter)"))
        title = QLabel(own.name)
        title.setWordWrap(True)
        title.setTextFormat(Qt.TextFormat.PlainText)
        self.add = _button(self.tr("Add a block"), self.tr("Add a block by {name}").format(name=own.name))
        self.away = _button(self.tr("Take off"), self.tr("Take {name} off my shelf").format(name=own.name))
        self.said = QLabel(fault)
        self.said.setProperty("type", "small")
        self.said.setProperty("tone", "error")
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setVisible(bool(fault))
        readable = own.recipe is not None
        for widget, shown in ((self.name, readable), (self.add, readable), (title, not readable)):
            widget.setParent(self)
            widget.setVisible(shown)
        grid.addWidget(self.name if readable else title, 0, 0, 1, 2)
        grid.addWidget(self.said, 1, 0, 1, 2)
        if readable:
            grid.addWidget(self.add, 2, 0, 1, 2 if large else 1)
        apart = large or not readable
        grid.addWidget(self.away, 3 if apart else 2, 0 if apart else 1, 1, 2 if apart else 1)

    def complain(self, text: str) -> None:
        """Say under the name what can not be; nothing where all is well."""
        self.said.setText(text)
        self.said.setVisible(bool(text))


class MyRecipes(Drawer):
    """Every file of the shelf as it is on the disk when it is pulled out, or changed here.

    `add` makes a block by a recipe file.
    """

    def __init__(self, document: Document, look: Look, folder: Path, add: Add) -> None:
        self._folder = folder
        self._add = add
        self._taken: tuple[OwnRecipe, bytes] | None = None
        self.rows: tuple[RecipeRow, ...] = ()
        self.back: QPushButton | None = None
        super().__init__(document, look, self.tr("My recipes"))

    def begin(self) -> None:
        """Pulled out: look at what is there by now."""
        self._taken = None
        self.rebuild()
        super().begin()

    def build(self) -> None:
        """A row for each recipe; a way to put back what was taken off last."""
        self.back, self.rows = None, ()
        try:
            kept = own_recipes(self._folder)
        except PiecewrightError as error:
            self.add_note(self._said(error))
            return
        if self._taken is not None:
            self._offer_back(self._taken[0])
        if not kept:
            self.add_note(
                self.tr(
                    "No recipes of your own yet. Keep the recipe of a block here (File, Keep the recipe on my "
                    "shelf), and it is at hand in every design."
                )
            )
        self.rows = tuple(self._row(own) for own in kept)

    def show_values(self, design: Design) -> None:
        """Recipes of the shelf do not follow the design."""

    def _row(self, own: OwnRecipe) -> RecipeRow:
        fault = "" if own.fault is None else words(own.fault, self.look.measure)
        row = RecipeRow(own, fault, self.look.scale.text > _ONE_ROW)
        row.name.editingFinished.connect(partial(self._rename, row))
        row.add.clicked.connect(lambda _checked=False: self._add(own.path))
        row.away.clicked.connect(lambda _checked=False: self._take_off(row))
        self.body.addWidget(row)
        return row

    def _rename(self, row: RecipeRow) -> None:
        name = row.name.text().strip()
        if row.own.recipe is None or name == row.own.name:
            row.complain("" if row.own.fault is None else words(row.own.fault, self.look.measure))
            return
        try:
            row.own = rename_recipe(self._folder, row.own, name)
        except FileError as error:
            row.complain(words(error, self.look.measure))
            return
        row.complain("")

    def _take_off(self, row: RecipeRow) -> None:
        try:
            self._taken = row.own, remove_recipe(row.own)
        except FileError as error:
            row.complain(words(error, self.look.measure))
            return
        self.rebuild()
        self.focus_first()

    def _offer_back(self, own: OwnRecipe) -> None:
        self.add_note(self.tr("Taken off: {name}").format(name=own.name))
        self.back = _button(self.tr("Put it back"), self.tr("Put {name} back").format(name=own.name))
        self.back.clicked.connect(self._put_back)
        self.body.addWidget(self.back)

    def _put_back(self) -> None:
        if self._taken is None:
            return
        try:
            put_back(*self._taken)
        except FileError as error:
            self.add_note(self._said(error))
            return
        self._taken = None
        self.rebuild()
        self.focus_first()

    def _said(self, error: PiecewrightError) -> str:
        said = words(error, self.look.measure)
        return f"{error.where}: {said}" if error.where else said


def _button(text: str, spoken: str) -> QPushButton:
    button = QPushButton(text)
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return button
