"""The window of one open design: it arranges the places and hands on what the user asks; it calculates nothing."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QGuiApplication
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QMessageBox,
    QSplitter,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.footprint import placement_at
from piecewright.errors import FileError, PiecewrightError
from piecewright_qt.actions import ACTIONS, MENUS, make_action, translated
from piecewright_qt.arrangements.side_by_side import SideBySide
from piecewright_qt.arrangements.strip import ArrangementStrip
from piecewright_qt.document import Document
from piecewright_qt.keeping import Keeping
from piecewright_qt.materials.column import MaterialsColumn
from piecewright_qt.messages import words
from piecewright_qt.notice import NoticeBar
from piecewright_qt.replan import Replan
from piecewright_qt.sewing_table.table import SewingTable
from piecewright_qt.shelf.shelf import Shelf
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.view import WallView

if TYPE_CHECKING:
    from piecewright_qt.workroom import Workroom

ENDING = ".piecewright"
_SYNC_EVERY = 1000
_BAR = ("undo", "redo", "", "save", "", "*", "zoom-out", "fit", "zoom-in", "", "theme")


class Window(QMainWindow):
    """Shelf, wall and materials of one design, with its bar, arrangements and status line."""

    workroom: "Workroom"
    document: Document
    wall: WallView

    def __init__(self, workroom: "Workroom", document: Document, keeping: Keeping) -> None:
        super().__init__()
        self.workroom = workroom
        self.look = workroom.look
        self.document = document
        self.keeping = keeping
        self.replan = Replan(document)
        self.wall = WallView(document, self.look)
        self.shelf = Shelf(document, self.look, self.wall)
        self.materials = MaterialsColumn(document, self.replan, self.look)
        self.strip = ArrangementStrip(document, self.look)
        self.table = SewingTable(document, self.look)
        self.notice = NoticeBar(self.look)
        self.actions_by_name: dict[str, QAction] = {}
        self._make_actions()
        self._lay_out()
        self._connect()
        self._tell_about_the_file()
        self._refresh()

    # What the actions ask for ----------------------------------------------------------------------------------

    def save(self) -> bool:
        """Save to the design's file; ask for a name where it has none or the file is not ours. True when saved."""
        if self.keeping.path is None or self.keeping.read_only:
            return self.save_as()
        if self.keeping.changed_outside() and not self._overwrites_knowingly():
            return False
        return self._save_to(None)

    def save_as(self) -> bool:
        """Save under a name the user chooses. True when saved."""
        suggested = str(self.keeping.path or Path.home() / f"{self.document.design.name}{ENDING}")
        chosen, _ = QFileDialog.getSaveFileName(
            self, self.tr("Save the design"), suggested, self.workroom.file_filter()
        )
        if not chosen:
            return False
        path = Path(chosen)
        return self._save_to(path if path.suffix else path.with_suffix(ENDING))

    def save_picture(self) -> None:
        """Save a picture of the quilt as PNG or SVG."""
        from piecewright_qt.pictures import picture_bytes

        suggested = f"{self.document.design.name}.png"
        chosen, _ = QFileDialog.getSaveFileName(
            self, self.tr("Save a picture"), suggested, "PNG (*.png);;SVG (*.svg)"
        )
        if chosen:
            self._guard(
                lambda: self.workroom.write(
                    Path(chosen), picture_bytes(self.document.design, Path(chosen).suffix)
                )
            )

    def copy_materials(self) -> None:
        """Put the materials on the clipboard as text."""
        QGuiApplication.clipboard().setText(self.replan.text(self.look.measure))
        self.show_status(self.tr("The materials are on the clipboard."))

    def show_resize(self) -> None:
        """Unfold the sliders that resize the quilt."""
        self.materials.show_resize()

    def duplicate_arrangement(self) -> None:
        """Keep the arrangement in view and go on with a copy."""
        self.strip.duplicate()

    def compare(self) -> None:
        """Show two arrangements side by side with their materials."""
        SideBySide(self.document, self.look, self).exec()

    def open_on_table(self) -> None:
        """Take the selected block, or the first on the shelf, to the Sewing table; from there, back to the wall."""
        if self.places.currentWidget() is self.table:
            self.back_to_wall()
            return
        chosen = self._block_in_view()
        if chosen is None:
            self.show_status(
                self.tr("Add a block to the shelf first; then it can be opened on the Sewing table.")
            )
            return
        self.table.open_block(chosen)
        self.places.setCurrentWidget(self.table)

    def back_to_wall(self) -> None:
        """From the Sewing table to the wall."""
        self.places.setCurrentIndex(0)
        self.wall.setFocus()

    def toggle_theme(self) -> None:
        """From light to dark or back."""
        self.look.prefer(theme="light" if self.look.theme.name == "dark" else "dark")

    def change_text(self, percent: int) -> None:
        """Larger or smaller text everywhere."""
        self.look.prefer(text_percent=min(max(self.look.preferences.text_percent + percent, 75), 250))

    def toggle_unit(self) -> None:
        """From inches to centimeters or back; only what is shown, never what is cut."""
        self.look.prefer(unit="cm" if self.look.preferences.unit == "in" else "in")

    def find_action(self) -> None:
        """A field in which any action is found by its words."""
        from piecewright_qt.finder import Finder

        Finder(self).exec()

    def show_keys(self) -> None:
        """Every action with its keys."""
        from piecewright_qt.help import KeysHelp

        KeysHelp(self).exec()

    def show_about(self) -> None:
        """What this is, its version, and the cautions usual in the trade."""
        from piecewright_qt.help import about

        about(self)

    def show_status(self, text: str) -> None:
        """One quiet sentence at the foot of the window."""
        self._status.setText(text)

    def _block_in_view(self) -> str | None:
        design = self.document.design
        for cell in self.wall.selection.cells:
            laid = placement_at(design.quilt, design, cell.column, cell.row)
            if laid is not None:
                return laid.placement.block
        return design.blocks[0].id if design.blocks else None

    # Qt's own calls -------------------------------------------------------------------------------------------

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask about unsaved changes; then let go of the file and end the journal."""
        if not self._may_close():
            event.ignore()
            return
        self._sync.stop()
        self.document.undo_stack.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.keeping.release()
        self.workroom.forget(self)
        event.accept()

    # Arranging ------------------------------------------------------------------------------------------------

    def _make_actions(self) -> None:
        for row in ACTIONS:
            action = make_action(row, self, self.look.theme)
            self.actions_by_name[row.name] = action
            self.addAction(action)
        for name in MENUS:
            menu = self.menuBar().addMenu(translated(name))
            for row in ACTIONS:
                if row.menu == name:
                    if row.apart:
                        menu.addSeparator()
                    menu.addAction(self.actions_by_name[row.name])

    def _lay_out(self) -> None:
        self._status = QLabel()
        self._status.setProperty("type", "soft")
        self._status.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        self._status.setAccessibleName(self.tr("Under the pointer"))
        self._status.setTextFormat(Qt.TextFormat.PlainText)
        hung = _column(self.notice, self.wall, self.strip, self._status, stretched=self.wall)
        middle = self.places = QStackedWidget()
        middle.addWidget(hung)
        middle.addWidget(self.table)
        splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.setHandleWidth(1)
        splitter.setChildrenCollapsible(False)
        for widget in (self.shelf, middle, self.materials):
            splitter.addWidget(widget)
        splitter.setStretchFactor(1, 1)
        splitter.setSizes([264, 900, 320])
        self.setCentralWidget(_column(self._bar(), splitter, stretched=splitter))
        self.resize(1480, 920)

    def _bar(self) -> QWidget:
        bar = QWidget()
        bar.setProperty("place", "bar")
        bar.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = QHBoxLayout(bar)
        row.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        self._name = QLabel()
        self._name.setProperty("type", "lead")
        self._name.setTextFormat(Qt.TextFormat.PlainText)
        row.addWidget(self._name)
        for name in _BAR:
            if name == "*":
                row.addStretch(1)
            elif not name:
                row.addSpacing(SPACE * 2)
            else:
                row.addWidget(self._button(name))
                if name == "zoom-out":
                    self._percent = QLabel()
                    self._percent.setProperty("type", "soft")
                    self._percent.setAccessibleName(self.tr("Zoom"))
                    row.addWidget(self._percent)
        return bar

    def _button(self, name: str) -> QToolButton:
        button = QToolButton()
        button.setDefaultAction(self.actions_by_name[name])
        button.setAccessibleName(self.actions_by_name[name].text())
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def _connect(self) -> None:
        self.document.changed.connect(self._refresh)
        self.document.undo_stack.cleanChanged.connect(self._refresh)
        self.document.undo_stack.indexChanged.connect(self._refresh)
        self.document.refused.connect(self._say_refused)
        self.document.record_failed.connect(self._say_record_failed)
        self.wall.selection.changed.connect(self._refresh)
        self.wall.zoom_changed.connect(lambda percent: self._percent.setText(f"{percent} %"))
        self.wall.status_changed.connect(self.show_status)
        self.look.changed.connect(self._dress)
        self.table.left.connect(self.back_to_wall)
        self._sync = QTimer(self)
        self._sync.setInterval(_SYNC_EVERY)
        self._sync.timeout.connect(self._sync_journal)
        self._sync.start()

    # Keeping the window true ------------------------------------------------------------------------------------

    def _refresh(self, *_what: object) -> None:
        """Actions, names and the changed mark as they are now."""
        stack = self.document.undo_stack
        usable = {
            "nothing": True,
            "selection": bool(self.wall.selection.cells),
            "undo": stack.canUndo(),
            "redo": stack.canRedo(),
        }
        for row in ACTIONS:
            self.actions_by_name[row.name].setEnabled(usable[row.needs])
        self._name_steps(stack.undoText(), stack.redoText())
        name = self.document.design.name
        self._name.setText(f"{name} •" if self.document.is_changed else name)
        self._name.setAccessibleName(
            self.tr("{name}, changed").format(name=name) if self.document.is_changed else name
        )
        self.setWindowTitle(f"{name}[*] – Piecewright")
        self.setWindowModified(self.document.is_changed)

    def _name_steps(self, undo: str, redo: str) -> None:
        for name, step in (("undo", undo), ("redo", redo)):
            action = self.actions_by_name[name]
            word = translated(next(row.text for row in ACTIONS if row.name == name))
            action.setText(f"{word}: {step}" if step else word)
            action.setToolTip(f"{action.text()} ({action.shortcut().toString()})")

    def _dress(self) -> None:
        theme = self.look.theme
        for row in ACTIONS:
            if row.icon is not None:
                name = ("light" if theme.name == "dark" else "dark") if row.name == "theme" else row.icon
                self.actions_by_name[row.name].setIcon(icon(name, theme))

    def _tell_about_the_file(self) -> None:
        holder = self.keeping.held_by
        if holder is not None:
            who = holder.user or self.tr("another window")
            self.notice.say(
                self.tr(
                    "This design is open elsewhere ({who}). Changes here can be saved under another name."
                ).format(who=who),
                self.tr("Save as…"),
                self.save_as,
            )
        elif self.keeping.read_only:
            self.notice.say(
                self.tr(
                    "This file is from a newer Piecewright and stays as it is. Save under another name to keep changes."
                ),
                self.tr("Save as…"),
                self.save_as,
            )

    def _say_refused(self, error: PiecewrightError) -> None:
        self.show_status(words(error, self.look.measure))

    def _say_record_failed(self, error: PiecewrightError) -> None:
        self.notice.say(words(error, self.look.measure), self.tr("Save as…"), self.save_as)

    def _sync_journal(self) -> None:
        error = self.keeping.sync()
        if error is not None:
            self._say_record_failed(error)

    # Saving and closing -------------------------------------------------------------------------------------------

    def _save_to(self, path: Path | None) -> bool:
        document = self.document
        try:
            saved = self.keeping.save(document.design, document.pictures, path)
            self.keeping.begin_journal(document.design)
            document.recorder = self.keeping.journal
        except FileError as error:
            self._say_not_saved(error)
            return False
        document.undo_stack.setClean()
        self.notice.clear()
        self.workroom.remember(saved, document.design)
        self.show_status(self.tr("Saved: {name}").format(name=saved.name))
        return True

    def _say_not_saved(self, error: FileError) -> None:
        box = QMessageBox(self)
        box.setIcon(QMessageBox.Icon.Warning)
        box.setWindowTitle(self.tr("Not saved"))
        box.setText(self.tr("The design could not be saved. It is still here, with all its changes."))
        box.setInformativeText(error.sentence(self.look.measure))
        elsewhere = box.addButton(self.tr("Save a copy elsewhere…"), QMessageBox.ButtonRole.AcceptRole)
        box.addButton(self.tr("Go on"), QMessageBox.ButtonRole.RejectRole)
        box.exec()
        if box.clickedButton() is elsewhere:
            self.save_as()

    def _overwrites_knowingly(self) -> bool:
        box = QMessageBox(self)
        box.setIcon(QMessageBox.Icon.Warning)
        box.setWindowTitle(self.tr("The file was changed elsewhere"))
        box.setText(
            self.tr(
                "Another program changed this file since it was opened. Nothing is overwritten without your word."
            )
        )
        copy = box.addButton(self.tr("Save a copy…"), QMessageBox.ButtonRole.AcceptRole)
        over = box.addButton(self.tr("Overwrite it"), QMessageBox.ButtonRole.DestructiveRole)
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.exec()
        if box.clickedButton() is copy:
            self.save_as()
        if box.clickedButton() is over:
            self.keeping.digest = ""
            return True
        return False

    def _may_close(self) -> bool:
        if not self.document.is_changed:
            return True
        box = QMessageBox(self)
        box.setWindowTitle(self.tr("Keep the changes?"))
        box.setText(
            self.tr("“{name}” has changes that are not saved.").format(name=self.document.design.name)
        )
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        answer = box.exec()
        return answer == buttons.Discard or (answer == buttons.Save and self.save())

    def _guard(self, run: Callable[[], object]) -> None:
        try:
            run()
        except PiecewrightError as error:
            self.notice.say(words(error, self.look.measure))


def _column(*widgets: QWidget, stretched: QWidget) -> QWidget:
    """Widgets above each other without gaps; one takes all the room there is."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    for widget in widgets:
        column.addWidget(widget, 1 if widget is stretched else 0)
    return holder
