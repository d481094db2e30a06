"""The window of one open design: it arranges the places and hands on what the user asks; it calculates nothing.

An empty one is painted first; `fill` reads the engine in and hangs the design.
"""

from collections.abc import Callable
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent, QGuiApplication
from PySide6.QtWidgets import QMainWindow, QSplitter

from piecewright.errors import PiecewrightError
from piecewright_qt.actions.row import make_action
from piecewright_qt.actions.table import ACTIONS, ROWS
from piecewright_qt.asking import ask_where_to_save
from piecewright_qt.bar import TopBar
from piecewright_qt.columns import column_of, show_in, stack_of
from piecewright_qt.drawers import Drawers
from piecewright_qt.focusing import focus_first, follow
from piecewright_qt.messages import words
from piecewright_qt.notice import NoticeBar
from piecewright_qt.side_room import fold_beside
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.window_place import remember_place, restore_place

if TYPE_CHECKING:
    from piecewright.plan.why import Refers
    from piecewright_qt.arrangements.strip import ArrangementStrip
    from piecewright_qt.cutting_table.table import CuttingTable
    from piecewright_qt.document import Document
    from piecewright_qt.keeping import Keeping
    from piecewright_qt.materials.column import MaterialsColumn
    from piecewright_qt.recipe_files import RecipeFiles
    from piecewright_qt.replan import Replan
    from piecewright_qt.saving import Saving
    from piecewright_qt.sewing_plan.page import SewingPlan
    from piecewright_qt.sewing_table.table import SewingTable
    from piecewright_qt.shelf.letter_slots import ElidedLabel
    from piecewright_qt.shelf.shelf import Shelf
    from piecewright_qt.wall.view import WallView
    from piecewright_qt.workroom import Workroom

_LEAST_RIGHT, _LEAST_LEFT, _LEFT_GROWS = 272, 264, 1.4
_TEXT_PERCENT = (75, 100, 125, 150, 175, 200, 225, 250)


class Window(QMainWindow):
    """Shelf, wall and materials of one design, with its bar, arrangements and status line."""

    workroom: "Workroom"
    document: "Document"
    keeping: "Keeping"
    saving: "Saving"
    replan: "Replan"
    wall: "WallView"
    shelf: "Shelf"
    materials: "MaterialsColumn"
    strip: "ArrangementStrip"
    _status: "ElidedLabel"

    def __init__(
        self, workroom: "Workroom", document: "Document | None" = None, keeping: "Keeping | None" = None
    ) -> None:
        super().__init__()
        self.workroom = workroom
        self.look = workroom.look
        self.is_filled = False
        self.notice = NoticeBar(self.look)
        self.actions_by_name: dict[str, QAction] = {row.name: make_action(row, self) for row in ACTIONS}
        self.addActions(list(self.actions_by_name.values()))
        self.setAcceptDrops(True)
        self.bar = TopBar(self)
        self._lay_out()
        self._drawers = Drawers(self._side, self._close_drawer)
        restore_place(self)
        self.look.changed.connect(self._dress)
        self._dress()
        if document is not None and keeping is not None:
            self.fill(document, keeping)
        else:
            self.refresh()

    def fill(self, document: "Document", keeping: "Keeping") -> None:
        """Hang a design: only now is the engine read in."""
        from piecewright_qt.places import Places
        from piecewright_qt.saving import Saving
        from piecewright_qt.shelf.letter_slots import ElidedLabel

        places = Places(document, self.look, self.workroom.runner)
        self.document, self.keeping, self.replan = document, keeping, places.replan
        self.wall, self.shelf, self.materials = places.wall, places.shelf, places.materials
        self.strip = places.strip
        self._status = ElidedLabel()
        self._status.setProperty("type", "soft")
        self._status.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        show_in(self._side, self.shelf)
        show_in(self._right, self.materials)
        show_in(self.places, column_of(self.wall, self.strip, self._status, stretched=self.wall))
        self.is_filled = True
        self.saving = Saving(self, document, keeping)
        self._connect()
        self._order_tabs()
        self.bar.show_percent(self.wall.percent)
        self.refresh()
        self.wall.setFocus()

    @cached_property
    def table(self) -> "SewingTable":
        """The Sewing table, made when it is first worked at."""
        from piecewright_qt.sewing_table.table import SewingTable

        table = SewingTable(self.document, self.look, self.workroom.runner)
        table.left.connect(self.back_to_wall)
        fold_beside(self, table)
        self.places.addWidget(table)
        return table

    @cached_property
    def cutting(self) -> "CuttingTable":
        """The Cutting table, made when it is first stepped up to."""
        from piecewright_qt.cutting_table.table import CuttingTable

        table = CuttingTable(self.document, self.look, self.workroom.runner)
        table.left.connect(self.back_to_wall)
        table.refers.connect(self.show_on_wall)
        fold_beside(self, table)
        self.places.addWidget(table)
        return table

    @cached_property
    def sewing_plan(self) -> "SewingPlan":
        """The sewing plan of the top, made when it is first looked at."""
        from piecewright_qt.sewing_plan.page import SewingPlan

        plan = SewingPlan(self.document, self.look, self.workroom.runner)
        plan.left.connect(self.back_to_wall)
        plan.picture_asked.connect(self.save_sewing_plan)
        fold_beside(self, plan)
        self.places.addWidget(plan)
        return plan

    @cached_property
    def recipes(self) -> "RecipeFiles":
        """Recipes that come from files and go to files, and the user's own shelf of them."""
        from piecewright_qt.recipe_files import RecipeFiles

        return RecipeFiles(self)

    @property
    def place(self) -> str:
        """The place in view: wall, table, cutting or sewing_plan."""
        shown, made = self.places.currentWidget(), self.__dict__
        return next((one for one in ("table", "cutting", "sewing_plan") if made.get(one) is shown), "wall")

    # What the actions ask for ----------------------------------------------------------------------------------

    def save(self) -> bool:
        """Save to the design's file; ask for a name where it has none or the file is not ours. True when saved."""
        return self.saving.save()

    def save_as(self) -> bool:
        """Save under a name the user chooses. True when saved."""
        return self.saving.save_as()

    def save_picture(self) -> None:
        """Save a picture of the quilt as PNG or SVG."""
        from piecewright_qt.pictures import picture_bytes

        suggested = self.workroom.last_folder() / f"{self.document.design.name}.png"
        chosen = ask_where_to_save(
            self, self.tr("Save a picture"), suggested, ("PNG (*.png)", "SVG (*.svg)"), ".png"
        )
        if chosen is not None:
            self._guard(
                lambda: self.workroom.write(chosen, picture_bytes(self.document.design, chosen.suffix)),
                self.tr("Picture saved: {name}").format(name=chosen.name),
            )

    def save_sewing_plan(self) -> None:
        """Save how the top is sewn, every step drawn, as SVG."""
        from piecewright.render.sewing_page import sewing_svg

        name = self.tr("{name}, sewing plan").format(name=self.document.design.name)
        suggested = self.workroom.last_folder() / f"{name}.svg"
        chosen = ask_where_to_save(self, self.tr("Save the sewing plan"), suggested, ("SVG (*.svg)",), ".svg")
        if chosen is not None:
            self._guard(
                lambda: self.workroom.write(
                    chosen, sewing_svg(self.document.design, self.look.measure).encode()
                ),
                self.tr("Sewing plan saved: {name}").format(name=chosen.name),
            )

    def copy_materials(self) -> None:
        """Put the materials on the clipboard as text."""
        QGuiApplication.clipboard().setText(self.replan.text(self.look.measure))
        self.show_status(self.tr("The materials are on the clipboard."))

    def add_block(self) -> None:
        """Make a new block for the shelf."""
        self.show_shelf("blocks")
        self.shelf.blocks.add_one()

    def add_fabric(self) -> None:
        """Put a new fabric on the shelf."""
        self.show_shelf("fabrics")
        self.shelf.fabrics.add_one()

    def show_shelf(self, page: str) -> None:
        """Bring a page of the shelf to the front, and the keys to it."""
        self._side.setCurrentWidget(self.shelf)
        self._side.show()
        shown = self.shelf.blocks if page == "blocks" else self.shelf.fabrics
        (self.shelf.show_blocks if page == "blocks" else self.shelf.show_fabrics)()
        shown.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_resize(self) -> None:
        """Unfold the sliders that resize the quilt."""
        self.back_to_wall()
        self.materials.show_resize()

    def show_drawer(self, name: str) -> None:
        """Pull out a drawer where the shelf is; asked for again, the shelf comes back."""
        from piecewright_qt.drawer_makers import AT_THE_WALL, DRAWERS

        if name in AT_THE_WALL:
            self.back_to_wall()
        self._drawers.show(name, lambda: DRAWERS[name](self))

    def show_notes(self, index: int = -1, *, pin: bool = False) -> None:
        """The notes on the wall, where the shelf was: one of them chosen, or a new one pinned."""
        from piecewright_qt.notes_drawer import NotesDrawer

        make, asked = (lambda: NotesDrawer(self.document, self.look, self.wall)), pin or index >= 0
        drawer = self._drawers.show("notes", make, stays=asked)
        if isinstance(drawer, NotesDrawer) and asked:
            drawer.pin_one() if pin else drawer.choose(index)

    def show_preferences(self) -> None:
        """What the user likes of the program itself."""
        from piecewright_qt.preferences import PreferencesDialog

        PreferencesDialog(self.look, self).exec()

    def duplicate_arrangement(self) -> None:
        """Keep the arrangement in view and go on with a copy."""
        self.strip.duplicate()

    def compare(self) -> None:
        """Show two arrangements side by side with their materials."""
        from piecewright_qt.arrangements.side_by_side import SideBySide

        SideBySide(self.document, self.look, self).exec()

    def open_on_table(self) -> None:
        """Take the selected block, or the first on the shelf, to the Sewing table; from there, back to the wall."""
        if self.place == "table":
            self.back_to_wall()
            return
        chosen = self.block_in_view()
        if chosen is None:
            self.back_to_wall()
            self.show_status(
                self.tr("Add a block to the shelf first; then it can be opened on the Sewing table.")
            )
            return
        self.table.open_block(chosen)
        self.places.setCurrentWidget(self.table)

    def begin_block(self) -> None:
        """Begin a block from nothing at the Sewing table."""
        from piecewright_qt.sewing_table.inventing import begin_block

        begun = begin_block(self.document, self.tr("By hand"))
        if begun is None:
            self.back_to_wall()
            self.show_status(self.tr("Put a fabric on the shelf first; then a strip of it can be laid."))
            return
        self.table.open_block(begun)
        self.places.setCurrentWidget(self.table)

    def open_cutting(self) -> None:
        """To the Cutting table; from there, back to the wall."""
        if self.place == "cutting":
            self.back_to_wall()
            return
        self.places.setCurrentWidget(self.cutting)
        self.cutting.begin()

    def open_sewing_plan(self) -> None:
        """To the sewing plan of the top; from there, back to the wall."""
        if self.place == "sewing_plan":
            self.back_to_wall()
            return
        self.places.setCurrentWidget(self.sewing_plan)
        self.sewing_plan.begin()

    def show_on_wall(self, refers: "Refers") -> None:
        """Select the blocks that a number is about, on the wall."""
        from piecewright_qt.wall.pointing import cells_to_show, shown_said

        if self.places.currentIndex() != 0:
            self.back_to_wall()
        cells = cells_to_show(self.document.design, refers)
        self.wall.selection.select(cells)
        self.show_status(shown_said(self.document.design, refers, len(cells), self.look.measure))

    def back_to_wall(self) -> None:
        """From another place to the wall."""
        self.places.setCurrentIndex(0)
        self.wall.setFocus()

    def go_round(self, by: int) -> None:
        """Take the keys to the next part of the window: bar, left column, middle, materials."""
        stations = [one for one in (self.bar, self._side, self.places, self._right) if one.isVisible()]
        focus = self.focusWidget()
        here = next((n for n, one in enumerate(stations) if focus and one.isAncestorOf(focus)), 0)
        focus_first(stations[(here + by) % len(stations)])

    def toggle_theme(self) -> None:
        """From light to dark or back."""
        self.look.prefer(theme="light" if self.look.theme.name == "dark" else "dark")

    def change_text(self, percent: int) -> None:
        """Larger or smaller text everywhere."""
        wanted = self.look.preferences.text_percent + percent
        self.look.prefer(text_percent=min(_TEXT_PERCENT, key=lambda step: abs(step - wanted)))

    def next_unit(self) -> None:
        """From inches to centimeters to millimeters and on; only what is shown, never what is cut."""
        following = {"in": "cm", "cm": "mm", "mm": "in"}
        self.look.prefer(unit=following[self.look.preferences.unit])

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

    @property
    def status_text(self) -> str:
        """What the line below the wall says."""
        return self._status.toolTip()

    def show_status(self, text: str, tone: str = "") -> None:
        """One quiet sentence at the foot of the window."""
        if self._status.property("tone") != tone:
            self._status.setProperty("tone", tone)
            self._status.style().polish(self._status)
        self._status.show_text(text)

    # Qt's own calls -------------------------------------------------------------------------------------------

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask about unsaved changes; then let go of the file and end the journal."""
        if self.is_filled:
            if not self.saving.may_close():
                event.ignore()
                return
            self.document.undo_stack.blockSignals(True)  # noqa: FBT003 - Qt's own signature
            self.saving.end()
            self.document.undo_stack.clear()
        remember_place(self)
        event.accept()
        self.workroom.forget(self)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A recipe file may be dropped anywhere on the window."""
        from piecewright_qt.shelf.recipe_column import recipe_path

        if self.is_filled and recipe_path(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Add a block made by the recipe of the file."""
        from piecewright_qt.shelf.recipe_column import recipe_path

        path = recipe_path(event.mimeData())
        if self.is_filled and path is not None:
            event.acceptProposedAction()
            self.recipes.open(path)

    # Keeping the window true ------------------------------------------------------------------------------------

    def refresh(self, *_what: object) -> None:
        """Actions, names and the changed mark as they are now."""
        usable = self._usable()
        for row in ACTIONS:
            self.actions_by_name[row.name].setEnabled(usable[row.needs])
        if not self.is_filled:
            self.setWindowTitle("Piecewright")
            return
        stack, name = self.document.undo_stack, self.document.design.name
        self._name_steps(stack.undoText(), stack.redoText())
        self.bar.show_place(self.place)
        self.bar.show_name(name, self.document.is_changed)
        self.setWindowTitle(f"{name}[*] – Piecewright")
        self.setWindowModified(self.document.is_changed)

    def _usable(self) -> dict[str, bool]:
        filled = self.is_filled
        on_wall = filled and self.places.currentIndex() == 0
        return {
            "always": True,
            "design": filled,
            "wall": on_wall,
            "selection": on_wall and bool(self.wall.selection.cells),
            "undo": filled and self.document.undo_stack.canUndo(),
            "redo": filled and self.document.undo_stack.canRedo(),
        }

    def _name_steps(self, undo: str, redo: str) -> None:
        for name, step in (("undo", undo), ("redo", redo)):
            row, action = ROWS[name], self.actions_by_name[name]
            action.setText(f"{row.words}: {step}" if step else row.words)
            action.setToolTip(f"{action.text()} ({row.spoken_keys})")

    def _dress(self) -> None:
        self.bar.dress()
        text = max(1.0, self.look.scale.text)
        self._right.setMinimumWidth(round(_LEAST_RIGHT * text))
        self._side.setMinimumWidth(round(_LEAST_LEFT * min(text, _LEFT_GROWS)) if text > 1 else 0)

    def _say_refused(self, error: PiecewrightError) -> None:
        self.show_status(words(error, self.look.measure), "warn")

    # Arranging ------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        """Bar above; left, middle and right column, empty as yet, in their final sizes."""
        self._side, self.places, self._right = (stack_of(place) for place in ("panel", "flannel", "panel"))
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self.splitter.setHandleWidth(1)
        self.splitter.setChildrenCollapsible(False)
        middle = column_of(self.notice, self.places, stretched=self.places)
        for widget in (self._side, middle, self._right):
            self.splitter.addWidget(widget)
        self.splitter.setStretchFactor(1, 1)
        self.setCentralWidget(column_of(self.bar, self.splitter, stretched=self.splitter))

    def _connect(self) -> None:
        stack = self.document.undo_stack
        for signal in (self.document.changed, stack.cleanChanged, stack.indexChanged):
            signal.connect(self.refresh)
        self.document.refused.connect(self._say_refused)
        self.materials.panel.pointed.connect(self.show_on_wall)
        self.materials.panel.keep.went_over.connect(lambda text: self.show_status(text, "warn"))
        self.wall.selection.changed.connect(self.refresh)
        self.wall.zoom_changed.connect(self.bar.show_percent)
        self.wall.status_changed.connect(self.show_status)
        self.wall.note_asked.connect(self.show_notes)
        self.places.currentChanged.connect(self.refresh)

    def _order_tabs(self) -> None:
        """Tab goes from the bar to the left column, the wall, its arrangements, and the materials."""
        for before, after in pairwise((self.bar, self._side, self.places, self._right)):
            follow(before, after)

    def _close_drawer(self) -> None:
        self._side.setCurrentWidget(self.shelf)
        self.wall.setFocus()

    def block_in_view(self) -> str | None:
        """The block chosen on the shelf while that has the keys, else the selected one, else the first; by its id."""
        from piecewright.edit.footprint import placement_at

        design = self.document.design
        chosen = self.shelf.blocks.chosen
        if chosen is not None and self.shelf.blocks.list.hasFocus():
            return chosen.id
        for cell in self.wall.selection.cells:
            laid = placement_at(design.quilt, design, cell.column, cell.row)
            if laid is not None:
                return laid.placement.block
        return design.blocks[0].id if design.blocks else None

    def _guard(self, run: Callable[[], object], said: str) -> None:
        try:
            run()
        except PiecewrightError as error:
            self.notice.say(words(error, self.look.measure))
        else:
            self.show_status(said)
