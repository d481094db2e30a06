"""The drawer of arranging: whom, how, with how many mixes of fabrics; wall and materials show it at once."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QBoxLayout, QLabel, QPushButton

from piecewright.arrange.arranging import Arranged, Scatter, arrange, improve
from piecewright.arrange.waiting import hang_waiting
from piecewright.edit.registry import Cell, EditCall
from piecewright.model.design import Design
from piecewright.plan.dealt import origin
from piecewright.plan.tray import trays
from piecewright_qt.arranging.mixes import MixesPart
from piecewright_qt.arranging.search import Search
from piecewright_qt.arranging.ways import Asked, Way, directions, say, ways
from piecewright_qt.count_field import CountField
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.shelf.fields import CheckField
from piecewright_qt.wall.selection import Selection

_WIDEST = 12
_ROUNDS = 24
"""So often all places are gone through for a better scatter."""
_LARGE = 1.3
"""Type larger than this is large."""


class ArrangeDrawer(Drawer):
    """Nothing is done until it is kept: until then the wall only shows it."""

    def __init__(self, document: Document, look: Look, selection: Selection, runner: Runner) -> None:
        self._selection = selection
        self._runner = runner
        self._search = Search(runner, self._found, self._ended)
        self._ways = ways()
        self._seed = 0
        self._shown: EditCall | None = None
        self._cells: tuple[Cell, ...] = ()
        super().__init__(document, look, say("Arrange"))
        selection.changed.connect(self._follow_selection)

    def build(self) -> None:
        """Whom, how, the answer; then the mixes of fabrics."""
        self.waiting = self.add_note("")
        self.hang = QPushButton(say("Hang what waits"))
        self.hang.setToolTip(
            say("Hang the blocks that are made and not on the wall yet in its free places, in reading order")
        )
        self.hang.clicked.connect(self._show_waiting)
        self.body.addWidget(self.hang)
        self.whom = self.add_note("")
        self.origin = self.add_note("")
        self.way = ChoiceField(say("How"))
        self.way.box.setPlaceholderText(say("Choose a way"))
        self.direction = ChoiceField(say("Where the light lies"))
        self.broad = CountField(say("Cells wide"), 1, _WIDEST)
        self.other = CheckField(say("Light and dark exchanged"), say("The dark where the light would be"))
        self.turning = CheckField(
            say("Blocks may be turned"), say("Scattering also turns blocks where that helps")
        )
        self.turning.box.setChecked(True)
        for field in (self.way, self.direction, self.broad):
            field.edited.connect(self._ask)
            self.body.addWidget(field)
        for box in (self.other, self.turning):
            box.box.clicked.connect(self._ask)
            self.body.addWidget(box)
        self.way.show_choices([(number, way.name) for number, way in enumerate(self._ways)], None)
        self.direction.show_choices(directions(), 90)
        self.broad.show_value(1)
        self.score = QLabel()
        self.score.setWordWrap(True)
        self.score.setTextFormat(Qt.TextFormat.PlainText)
        self.body.addWidget(self.score)
        self.more = self.add_note("")
        self.body.addLayout(self._buttons())
        self.add_heading(say("Mixes of fabrics"))
        self.mixes = MixesPart(self.document, self.look, self._runner)
        self.mixes.wished.connect(self._show_mixes)
        self.body.addWidget(self.mixes)
        self._offer()

    def show_values(self, design: Design) -> None:
        """Whom it is about, as things stand."""
        chosen = self._selection.cells
        self._cells = chosen
        count = len(chosen)
        every = sum(len(row.placements) for row in design.quilt.rows)
        locked = sum(placement.locked for row in design.quilt.rows for placement in row.placements)
        if count:
            said = say("1 selected block") if count == 1 else say("{n} selected blocks").format(n=count)
        else:
            said = say("Every block on the wall: {n}").format(n=every)
        if locked:
            said = say("{who}; {n} locked stay where they are").format(who=said, n=locked)
        self.whom.setText(said)
        waits = sum(tray.to_place for tray in trays(design).values())
        one, many = (
            say("1 block is made and does not hang yet."),
            say("{n} blocks are made and do not hang yet."),
        )
        self.waiting.setText((one if waits == 1 else many).format(n=waits))
        self.waiting.setVisible(bool(waits))
        self._tell_origin(design)
        self.hang.setVisible(bool(waits))
        self.mixes.show_design(design)
        self._offer()

    def _tell_origin(self, design: Design) -> None:
        """Which strip sets the selected block comes from, where one is selected."""
        lines = origin(design, self._cells[0]) if len(self._cells) == 1 else ()
        self.origin.setText("\n".join(line.text(self.look.measure) for line in lines))
        self.origin.setVisible(bool(lines))

    def _follow_selection(self) -> None:
        if self.isVisible() and self._shown is None:
            self.show_values(self.document.design)

    def begin(self) -> None:
        """Pulled out: nothing is asked yet."""
        self._seed = 0
        self._forget()
        super().begin()

    def leave(self) -> None:
        """As it was before."""
        self._search.stop()
        self._forget()
        self.document.drop_preview()

    def keep(self) -> None:
        """Set it down as one step."""
        wanted = self._shown
        self._search.stop()
        self._forget()
        if wanted is not None:
            self.document.perform(wanted)

    def another(self) -> None:
        """The same way by another chance."""
        self._seed += 1
        self._ask()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape puts back what is only shown; once more pushes the drawer in."""
        if event.key() == Qt.Key.Key_Escape and self._shown is not None:
            self.leave()
        else:
            super().keyPressEvent(event)

    @property
    def chosen(self) -> Way | None:
        """The way that is chosen."""
        number = self.way.value
        return self._ways[number] if isinstance(number, int) else None

    def _asked(self) -> Asked:
        degrees = self.direction.value
        return Asked(
            degrees=degrees if isinstance(degrees, int) else 90,
            width=self.broad.box.value(),
            other=self.other.box.isChecked(),
            shape=self._selection.cells,
        )

    def _ask(self) -> None:
        """Work the answer out and show it on the wall."""
        self._search.stop()
        way = self.chosen
        self._offer()
        if way is None:
            return
        wish, turning = way.wish(self._asked()), self.turning.box.isChecked()
        design, cells = self.document.design, self._cells if way.of_selection else ()
        self.more.setText("")
        if isinstance(wish, Scatter):
            answers = improve(design, cells=cells, seed=self._seed, turning=turning, rounds=_ROUNDS)
            first = next(answers, None)
            if first is not None:
                self._found(first)
                if first.call is not None:
                    self.more.setText(say("Looking for a better one…"))
                    self._search.start(answers)
                return
        self._found(arrange(design, wish, cells=cells, seed=self._seed, turning=turning))

    def _found(self, answer: Arranged) -> None:
        self._show(answer.call)
        self.score.setText(answer.score.text(self.look.measure))
        if self._search.is_going:
            self.more.setText(say("Looking for a better one: round {n}").format(n=self._search.rounds))

    def _ended(self) -> None:
        self.more.setText(say("This is the best that was found."))

    def _show_waiting(self) -> None:
        """Show the waiting blocks in the free places; once kept, they are arranged like the others."""
        self._search.stop()
        self._forget()
        found = hang_waiting(self.document.design)
        self._show(found.call)
        self.score.setText(found.said.text(self.look.measure))

    def _show_mixes(self, wanted: EditCall | None) -> None:
        self._search.stop()
        self.way.show_choices([(number, way.name) for number, way in enumerate(self._ways)], None)
        self.score.setText("")
        self.more.setText("")
        self._show(wanted)

    def _show(self, wanted: EditCall | None) -> None:
        self._shown = wanted
        if wanted is None:
            self.document.drop_preview()
        elif not self.document.preview(wanted):
            self._shown = None
        self._offer()

    def _forget(self) -> None:
        self._shown = None
        self.way.show_choices([(number, way.name) for number, way in enumerate(self._ways)], None)
        self.score.setText("")
        self.more.setText("")
        self.mixes.forget()
        self._offer()

    def _offer(self) -> None:
        """Only the fields that the way is asked, and the buttons that do something."""
        way = self.chosen
        besides = way.besides if way else "nothing"
        self.direction.setVisible(besides == "direction")
        self.broad.setVisible(besides == "width")
        self.other.setVisible(besides == "other")
        self.turning.setVisible(way is not None and isinstance(way.wish(self._asked()), Scatter))
        self.again.setEnabled(way is not None and way.seeded)
        self.set_down.setEnabled(self._shown is not None)
        self.put_back.setEnabled(self._shown is not None)

    def _follow(self, before: Design, after: Design) -> None:
        """The design changed under it: what was shown belongs to another one."""
        self._search.stop()
        self._shown = None
        super()._follow(before, after)

    def _buttons(self) -> QBoxLayout:
        row = self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self.again = QPushButton(say("Another"))
        self.again.setToolTip(say("The same way by another chance"))
        self.again.clicked.connect(self.another)
        self.put_back = QPushButton(say("As it was"))
        self.put_back.setToolTip(say("Put the blocks back (Escape)"))
        self.put_back.clicked.connect(self.leave)
        self.set_down = QPushButton(say("Keep"))
        self.set_down.setProperty("weight", "main")
        self.set_down.setToolTip(say("Hang the blocks so, as one step that can be undone"))
        self.set_down.clicked.connect(self.keep)
        for button in (self.again, self.put_back, self.set_down):
            row.addWidget(button)
        row.insertStretch(1, 1)
        self._turn_row()
        return row

    def _turn_row(self) -> None:
        """With large type the buttons stand below each other."""
        large = self.look.scale.text > _LARGE
        ways = QBoxLayout.Direction
        self._row.setDirection(ways.TopToBottom if large else ways.LeftToRight)

    def _follow_look(self) -> None:
        self._turn_row()
        super()._follow_look()
