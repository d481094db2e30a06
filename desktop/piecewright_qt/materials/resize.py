"""Resize by a wish with its ways, or by sliders: wall and materials follow; keeping it is one undo step."""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from fractions import Fraction

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.registry import EditCall, apply, call
from piecewright.errors import PiecewrightError
from piecewright.model.design import Design
from piecewright.plan.resize_ways import Way
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.before_after import BeforeAfter, Verdict
from piecewright_qt.materials.stop_slider import Number, StopSlider
from piecewright_qt.materials.stops import border_stops, count_stops, sash_width, sashing_stops, unit_stops
from piecewright_qt.materials.ways_part import WaysPart
from piecewright_qt.messages import words
from piecewright_qt.replan import Replan, planned_or_none
from piecewright_qt.runner import Runner
from piecewright_qt.theme.tokens import SPACE, SPACE_HAIR, SPACE_TIGHT, SPACE_WIDE

_MOST_AHEAD = 8
"""Sizes of blocks worked out before they are asked for."""


class ResizePanel(QWidget):
    """A wish and the ways to it; columns, rows, size of a cell, outer border, sashing; before and after side by side.

    `resized`: it needs more or less room.
    """

    finished = Signal()
    resized = Signal()

    def __init__(self, document: Document, replan: Replan, look: Look, runner: Runner | None = None) -> None:
        super().__init__()
        self._document = document
        self._replan = replan
        self._look = look
        self._begun: Design = document.design
        self._base: Way | None = None
        self.ways = WaysPart(look, runner or Runner(self))
        self._touched: set[str] = set()
        self._first: dict[str, Number | None] = {}
        self._busy = False
        self._ahead: list[EditCall] = []
        self._looking_ahead = QTimer(self)
        self._looking_ahead.setInterval(0)
        self._looking_ahead.timeout.connect(self._look_ahead)
        self.setProperty("place", "foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Resize the quilt"))
        self._make()
        self._lay_out()
        document.changed.connect(self._start_over)
        document.previewed.connect(self._follow)
        look.changed.connect(self._start_over)

    def begin(self) -> None:
        """Start from the quilt as it stands."""
        self._base = None
        self.ways.forget_choice()
        self._settle(self._document.design)
        self._show()
        self.ways.begin(self._document.design)

    def _settle(self, design: Design) -> None:
        """Let the sliders stand where a design is, nothing moved yet."""
        self._begun = design
        self._touched.clear()
        measure, lattice, borders = self._look.measure, design.quilt.lattice, design.quilt.borders
        self.columns.set_stops(count_stops(design, lattice.columns), lattice.columns, "")
        self.rows.set_stops(count_stops(design, lattice.rows), lattice.rows, "")
        one_size = self.tr("The blocks on the wall can be made in this size only.")
        self.unit.set_stops(unit_stops(design, measure), lattice.unit, one_size)
        width = borders[-1].width if borders else None
        self.border.set_stops(border_stops(design, measure), width, self.tr("This quilt has no border yet."))
        no_cloth = self.tr("Hang blocks and add a fabric first.")
        self.sashing.set_stops(sashing_stops(design, measure), sash_width(design), no_cloth)
        self._first = {name: slider.value for name, slider in self._sliders.items()}
        self._ahead = self._sizes_near()
        self._looking_ahead.start()

    def cancel(self) -> None:
        """Leave the quilt as it was."""
        self.ways.leave()
        with self._at_work():
            self._document.drop_preview()
        self.finished.emit()

    def apply(self) -> None:
        """Set the size down as one undo step."""
        wanted = self._wanted()
        self.ways.leave()
        with self._at_work():
            self._document.drop_preview()
            if wanted is not None:
                self._document.perform(wanted)
        self.finished.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape leaves the quilt as it was."""
        if event.key() == Qt.Key.Key_Escape:
            self.cancel()
        else:
            super().keyPressEvent(event)

    # What is moved ---------------------------------------------------------------------------------------------------

    def _moved(self, name: str) -> None:
        self._note(name)
        self._try()

    def _try(self) -> None:
        """Show what is wanted now."""
        self._preview(self._wanted())

    def _preview(self, wanted: EditCall | None) -> None:
        with self._at_work():
            if wanted is not None:
                self._document.preview(wanted)
            else:
                self._document.drop_preview()
        self._show()

    def _take_way(self, way: Way) -> None:
        """A way was chosen: wall and materials show it, and the sliders go on from it."""
        self._base = way
        self._settle(way.design)
        self._try()

    def _hover(self, way: Way | None) -> None:
        """The way under the pointer is seen; when the pointer leaves, what was wanted before."""
        self._preview(self._wanted() if way is None or way is self._base else way.call)

    def _note(self, *names: str) -> None:
        """Remember which sliders stand elsewhere than they began."""
        for name in names:
            if self._sliders[name].value == self._first[name]:
                self._touched.discard(name)
            else:
                self._touched.add(name)

    def _wanted(self) -> EditCall | None:
        """The chosen way and what was moved since; what was left alone stays to the last fraction."""
        moved = {name: self._sliders[name].value for name in sorted(self._touched)}
        by_hand = (call("resize-quilt", **moved),) if moved else ()
        if self._base is None:
            return by_hand[0] if by_hand else None
        return call("do-together", edits=(*self._base.calls, *by_hand), purpose="resize")

    @contextmanager
    def _at_work(self) -> Iterator[None]:
        """What the document tells meanwhile comes from here."""
        self._busy = True
        yield
        self._busy = False

    def _sizes_near(self) -> list[EditCall]:
        """The other sizes of blocks, the nearest first: every set of the quilt is another in them."""
        unit = self._begun.quilt.lattice.unit
        others = [stop for stop in self.unit.stops if stop != unit] if self._begun.quilt.blocks else []
        others.sort(key=lambda stop: abs(Fraction(stop) - unit))
        return [call("resize-quilt", unit=stop) for stop in others[:_MOST_AHEAD]]

    def _look_ahead(self) -> None:
        """Work a size out while the window has nothing else to do: the plan remembers, and the slider does not wait."""
        if not self._ahead or not self.isVisible():
            self._looking_ahead.stop()
            return
        wanted = self._ahead.pop(0)
        with suppress(PiecewrightError):
            planned_or_none(apply(self._begun, wanted))

    def _start_over(self) -> None:
        if self.isVisible() and not self._busy:
            with self._at_work():
                self._document.drop_preview()
            self.begin()

    def _follow(self, design: Design | None) -> None:
        """Something else was tried out and put back: so are the sliders."""
        if design is None and not self._busy and self.isVisible():
            self.begin()

    # What is shown ---------------------------------------------------------------------------------------------------

    def _show(self) -> None:
        measure, shown = self._look.measure, self._document.shown
        lattice, borders = shown.quilt.lattice, shown.quilt.borders
        finished = self.tr("{length} finished")
        self.columns.say(str(lattice.columns))
        self.rows.say(str(lattice.rows))
        self.unit.say(finished.format(length=measure.length(lattice.unit)))
        width = finished.format(length=measure.length(borders[-1].width)) if borders else self.tr("none yet")
        self.border.say(width)
        sash = sash_width(shown)
        self.sashing.say(finished.format(length=measure.length(sash)) if sash else self.tr("none"))
        refusal = self._document.preview_refusal
        self._keep.setEnabled((bool(self._touched) or self._base is not None) and refusal is None)
        self.outcome.show_both(self._replan.standing, self._replan.shown, measure)
        if refusal is not None:
            self._say_wanted()
            self.verdict.say(words(refusal, measure), "error")
        else:
            self.verdict.say_leaving(self._document.design, shown)

    def _show_first(self) -> None:
        """Bring the best way into sight: with large type it would lie below."""
        cards = self.ways.list
        bottom = cards.mapTo(self._holder, cards.visualRect(cards.cards.index(0, 0)).bottomLeft()).y()
        self._scroll.ensureVisible(0, bottom, 0, SPACE)

    def _complain(self, text: str) -> None:
        self.verdict.say(text, "error")

    def _say_wanted(self) -> None:
        """A refused size shows nothing new; the sliders still say where they stand."""
        for name in self._touched:
            value = self._sliders[name].value
            said = self._look.measure.length(value) if isinstance(value, Fraction) else str(value)
            self._sliders[name].say(said)

    def _make(self) -> None:
        self.columns = StopSlider(self.tr("Columns"), self.tr("More or fewer columns, at the right"))
        self.rows = StopSlider(self.tr("Rows"), self.tr("More or fewer rows, at the bottom"))
        self.unit = StopSlider(self.tr("Cell, blocks with it"), self.tr("Make every block larger or smaller"))
        self.border = StopSlider(self.tr("Outer border"), self.tr("How wide the outermost border is"))
        self.sashing = StopSlider(self.tr("Sashing"), self.tr("How wide the strips between the blocks are"))
        self._sliders = {
            "columns": self.columns,
            "rows": self.rows,
            "unit": self.unit,
            "sashing": self.sashing,
            "border": self.border,
        }
        for name, slider in self._sliders.items():
            slider.moved.connect(lambda name=name: self._moved(name))
        self.ways.chosen.connect(self._take_way)
        self.ways.hovered.connect(self._hover)
        self.ways.kept.connect(self.apply)
        self.ways.complained.connect(self._complain)
        self.ways.resized.connect(self.resized)
        self.ways.arrived.connect(lambda: QTimer.singleShot(0, self, self._show_first))
        self.outcome = BeforeAfter()
        self.verdict = Verdict()
        self._keep = QPushButton(self.tr("Keep this size"))
        self._keep.setProperty("weight", "main")
        self._keep.setToolTip(self.tr("Set the size down as one step that can be undone"))
        self._keep.clicked.connect(self.apply)
        self._leave = QPushButton(self.tr("As it was"))
        self._leave.setToolTip(self.tr("Leave the quilt as it was (Escape)"))
        self._leave.clicked.connect(self.cancel)

    def wanted_height(self) -> int:
        """As high as it is with everything in sight."""
        column, margins = self._column, self._column.contentsMargins()
        width = self.width() - margins.left() - margins.right()
        parts = [self._inside.totalHeightForWidth(width), self._title.sizeHint().height()]
        parts += [
            self.verdict.minimumHeight(),
            self._keep.sizeHint().height(),
            margins.top() + margins.bottom(),
        ]
        return sum(parts) + 3 * column.spacing() + SPACE_HAIR

    def _lay_out(self) -> None:
        column = self._column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_WIDE, SPACE, SPACE_WIDE, SPACE_WIDE)
        column.setSpacing(SPACE)
        self._title = QLabel(self.tr("Resize"))
        self._title.setProperty("type", "lead")
        column.addWidget(self._title)
        column.addWidget(self._scrolled(), 1)
        column.addWidget(self.verdict)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self._leave)
        buttons.addWidget(self._keep)
        column.addLayout(buttons)

    def _scrolled(self) -> QScrollArea:
        """The sliders and the typed size; with large type in a low window they scroll, the outcome stays."""
        holder = self._holder = QWidget()
        column = self._inside = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE_TIGHT)
        column.addWidget(self.ways)
        for slider in self._sliders.values():
            column.addWidget(slider)
        column.addWidget(self.outcome)
        self._scroll = QScrollArea()
        self._scroll.setWidget(holder)
        holder.setAutoFillBackground(False)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        return self._scroll
