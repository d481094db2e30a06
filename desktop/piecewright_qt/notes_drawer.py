"""The drawer of notes: every note pinned to the wall, to be written, moved and taken off by keys alone."""

from fractions import Fraction
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QListWidget, QPushButton

from piecewright.edit.registry import call
from piecewright.model.design import Design
from piecewright.model.note import Note
from piecewright.words.message import message
from piecewright_qt.design_settings import NotesField
from piecewright_qt.document import Document
from piecewright_qt.drawer import Drawer
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.view import WallView

_STEP = Fraction(1)
_LIST_HIGH = 132
_LINES = 4


class NotesDrawer(Drawer):
    """A note that is written is one step to undo, and so are its moves in a row."""

    def __init__(self, document: Document, look: Look, wall: WallView) -> None:
        self._wall = wall
        self._row = -1
        super().__init__(document, look, self.tr("Notes"))
        wall.note_chosen.connect(self._follow_wall)

    def build(self) -> None:
        """A button to pin one; the list; the chosen note's words, its place, and the way off the wall."""
        self.pin = self._button(
            self.tr("Pin a note"), self.tr("Pin a note in the middle of what is selected")
        )
        self.pin.setProperty("weight", "main")
        self.pin.clicked.connect(self.pin_one)
        self.body.addWidget(self.pin)
        self.none = self.add_note(
            self.tr("Nothing is pinned to this arrangement yet. Notes are part of nothing that is made.")
        )
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Notes on the wall"))
        self.list.setToolTip(self.tr("Notes on the wall"))
        self.list.setFixedHeight(round(_LIST_HIGH * max(1.0, self.look.scale.text)))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentRowChanged.connect(self._show_chosen)
        self.body.addWidget(self.list)
        self.text = NotesField(self.tr("What it says"))
        self.text.area.setFixedHeight(round(_LINES * 1.4 * self.look.scale.body) + 2 * SPACE)
        self.text.edited.connect(self._write)
        self.body.addWidget(self.text)
        self.place = self.add_note("")
        self.body.addLayout(self._ways())
        self.off = self._button(self.tr("Take it off the wall"), self.tr("Take the chosen note off the wall"))
        self.off.clicked.connect(self._remove)
        self.body.addWidget(self.off)

    def show_values(self, design: Design) -> None:
        """The notes of the arrangement in view; the chosen one stays chosen."""
        notes = design.quilt.notes
        row = self._wall.slips.chosen if self._wall.slips.chosen is not None else self.list.currentRow()
        self.list.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        while self.list.count() > len(notes):
            self.list.takeItem(self.list.count() - 1)
        for number, note in enumerate(notes):
            if number == self.list.count():
                self.list.addItem("")
            self.list.item(number).setText(" ".join(note.text.split()))
        self.list.setCurrentRow(min(max(row, 0), len(notes) - 1))
        self.list.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.none.setVisible(not notes)
        self._show_chosen(self.list.currentRow())

    def pin_one(self) -> None:
        """Pin a note and take the keys to its words."""
        across, down = self._wall.slips.place()
        note = Note(self.tr("Note {n}").format(n=len(self.document.design.quilt.notes) + 1), across, down)
        if self.document.perform(call("pin-note", note=note)):
            self.choose(len(self.document.design.quilt.notes) - 1)

    def choose(self, index: int) -> None:
        """Choose a note and take the keys to its words."""
        self._wall.slips.choose(index)
        self.show_values(self.document.design)
        self.text.area.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.text.area.selectAll()

    def focus_first(self) -> None:
        """The keys go to the notes, or to where one is pinned."""
        first = self.list if self.list.count() else self.pin
        first.setFocus(Qt.FocusReason.ShortcutFocusReason)

    @property
    def _chosen(self) -> Note | None:
        row, notes = self.list.currentRow(), self.document.design.quilt.notes
        return notes[row] if 0 <= row < len(notes) else None

    def _show_chosen(self, row: int) -> None:
        note = self._chosen
        for widget in (self.list, self.text, self.place, self.off, *self._moves):
            widget.setVisible(note is not None)
        self._wall.slips.choose(row if note is not None else None)
        if row != self._row:
            self._gesture, self._row = object(), row
        if note is not None:
            self.text.show_value(note.text)
            self.text.complain("")
            said = message("wall.note-place", across=note.across, down=note.down)
            self.place.setText(words(said, self.look.measure))

    def _follow_wall(self, index: int | None) -> None:
        """Another note was pressed on the wall: it is the chosen one here too."""
        if self.isVisible() and index is not None:
            self.list.setCurrentRow(index)

    def _ways(self) -> QGridLayout:
        """Four buttons that move the chosen note; held down they go on."""
        grid = QGridLayout()
        grid.setSpacing(SPACE_TIGHT)
        grid.setContentsMargins(0, 0, 0, SPACE)
        inch = self.look.measure.length(_STEP)
        self._moves: list[QPushButton] = []
        ways = (
            (self.tr("Left"), -1, 0, 0, 0),
            (self.tr("Right"), 1, 0, 0, 1),
            (self.tr("Up"), 0, -1, 1, 0),
            (self.tr("Down"), 0, 1, 1, 1),
        )
        for text, across, down, row, column in ways:
            button = self._button(text, self.tr("{way}: move the note by {inch}").format(way=text, inch=inch))
            button.setAutoRepeat(True)
            button.clicked.connect(partial(self._move, across, down))
            self._moves.append(button)
            grid.addWidget(button, row, column)
        return grid

    def _button(self, text: str, tip: str) -> QPushButton:
        button = QPushButton(text)
        button.setToolTip(tip)
        button.setAccessibleName(tip)
        return button

    def _write(self) -> None:
        self.text.complain("")
        row, text = self.list.currentRow(), self.text.area.toPlainText()
        self.try_edit(self.text, lambda: call("write-note", index=row, text=text))

    def _move(self, across: int, down: int) -> None:
        edit = call("move-note", index=self.list.currentRow(), across=across * _STEP, down=down * _STEP)
        self.document.perform(edit, (self._gesture, "move"))

    def _remove(self) -> None:
        row = self.list.currentRow()
        self._wall.slips.choose(None)
        self.document.perform(call("remove-note", index=row))
        self.focus_first()
