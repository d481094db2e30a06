"""The drawer of the setting: ways as pictures of the own quilt, sashing, triangles, gaps and the grid unit."""

from fractions import Fraction

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QLabel, QPushButton

from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright_qt.arrangements.quilt_pictures import QuiltPictures
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer, FabricField
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.runner import Job, Runner
from piecewright_qt.setting.between import SashingPart, TrianglesPart
from piecewright_qt.setting.cards import PICTURE, WayCards
from piecewright_qt.setting.gaps import GapsPart
from piecewright_qt.setting.ways import Asked, Tried, say, tried, ways
from piecewright_qt.shelf.fields import LengthField
from piecewright_qt.wall.selection import Selection

_UNITS = tuple(Fraction(n, 2) for n in (2, 3, 4, 6, 8, 12, 16, 18, 24))
_KEY = "setting-ways"
_LINES = 3
"""Lines kept for what a way does, so that the cards below it stay where they are."""


class SettingDrawer(Drawer):
    """A card looked at is shown on the wall; chosen, it is one step. Fields are edits at once.

    `sewing_asked` wants to see how the top is sewn so.
    """

    sewing_asked = Signal()

    def __init__(self, document: Document, look: Look, selection: Selection, runner: Runner) -> None:
        self._selection, self._runner = selection, runner
        self._ways = ways()
        self._tried: tuple[Tried, ...] = ()
        self._tried_for: tuple[Design, Asked] | None = None
        self._shown: EditCall | None = None
        super().__init__(document, look, say("Setting of the quilt"))
        self.pictures = QuiltPictures(parent=self)
        self.pictures.arrived.connect(self._show_picture)
        selection.changed.connect(self._follow_selection)
        look.changed.connect(self._show_pictures)

    def build(self) -> None:
        """Ways first; then what lies between the blocks, what fills gaps, and the grid."""
        self.cards = WayCards(self.look)
        self.cards.setAccessibleName(say("Ways to set the blocks"))
        self.cards.show_names([(way.name, way.words) for way in self._ways])
        self.cards.looked.connect(self.look_at)
        self.cards.taken.connect(self.take)
        self.said = QLabel()
        self.said.setProperty("type", "small")
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.said.setMinimumHeight(_LINES * self.said.fontMetrics().lineSpacing())
        self.body.addWidget(self.said)
        self.body.addWidget(self.cards)
        self.plain = FabricField(say("Plain blocks"), self.document, name=say("Plain blocks: fabric"))
        self.plain.edited.connect(self._try_ways)
        self.body.addWidget(self.plain)
        self.short = ChoiceField(say("Columns shorter than the quilt"), say("Columns shorter than the quilt"))
        self.short.show_choices(
            [
                ("spread", say("Blocks spread, gaps between them")),
                ("top", say("Begin at the top")),
                ("middle", say("Lie in the middle")),
            ],
            "spread",
        )
        self.short.edited.connect(self._try_ways)
        self.body.addWidget(self.short)
        self.add_heading(say("Sashing"))
        self.sashing = SashingPart(self)
        self.body.addWidget(self.sashing)
        self._triangles_head = self.add_heading(say("Setting triangles"))
        self.triangles = TrianglesPart(self)
        self.body.addWidget(self.triangles)
        self.add_heading(say("Gaps"))
        self.gaps = GapsPart(self)
        self.gaps.wished.connect(self._show_wish)
        self.gaps.kept.connect(self.keep)
        self.body.addWidget(self.gaps)
        self.add_heading(say("Grid"))
        self.unit = LengthField(
            say("Grid unit, finished: the side of a cell"), self.look.measure, _UNITS, say("Grid unit")
        )
        self.unit.edited.connect(self._set_unit)
        self.body.addWidget(self.unit)
        sewing = QPushButton(say("How it is sewn"))
        sewing.setToolTip(say("The sewing plan of the top, step by step (F4)"))
        sewing.clicked.connect(self.sewing_asked)
        self.body.addWidget(sewing)

    def show_values(self, design: Design) -> None:
        """What the arrangement in view has."""
        quilt = design.quilt
        known = {fabric.id for fabric in design.fabrics}
        chosen = self.plain.value if self.plain.value in known else self._first_plain(design)
        self.plain.show_fabric(chosen if isinstance(chosen, str) else None)
        self.plain.setVisible(bool(known))
        self.sashing.show_design(design)
        on_point = quilt.lattice.kind == "on point"
        self.cards.show_current(int(on_point))
        self._triangles_head.setVisible(on_point)
        self.triangles.setVisible(on_point)
        self.triangles.show_design(design)
        self.gaps.show_design(design)
        if self.unit.value != quilt.lattice.unit:
            self.unit.show_value(quilt.lattice.unit)
        self._tell("")
        if self.isVisible():
            self._try_ways()

    def begin(self) -> None:
        """Pulled out: nothing is looked at yet."""
        super().begin()
        self._try_ways()

    # Looking at ways ----------------------------------------------------------------------------------------------

    def look_at(self, number: int) -> None:
        """Show a way on the wall and say what has to move; -1: the quilt as it is."""
        if number < 0:
            if self._shown is not None:
                self.put_back()
            return
        way = self._ways[number]
        wanted = way.edit(self.document.design, self._asked())
        self._show(wanted)
        self._tell(self._about(number))

    def take(self, number: int) -> None:
        """Set the blocks so, as one step; or say why not."""
        wanted = self._ways[number].edit(self.document.design, self._asked())
        before = self._about(number)
        self._forget()
        if wanted is not None and self.document.perform(wanted):
            self._tell(before)
        else:
            self._tell(before or say("The quilt is set so already."))

    def keep(self) -> None:
        """Set down what is shown, as one step."""
        wanted = self._shown
        self._forget()
        if wanted is not None:
            self.document.perform(wanted)

    def put_back(self) -> None:
        """The wall shows the quilt as it is."""
        self._forget()
        self.document.drop_preview()
        self._tell("")

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape puts back what is only shown; once more pushes the drawer in."""
        if event.key() == Qt.Key.Key_Escape and self._shown is not None:
            self.gaps.forget()
            self.put_back()
        else:
            super().keyPressEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802 - Qt's name
        """Pushed in: what was only shown is gone."""
        super().hideEvent(event)
        self._runner.give_up(_KEY)
        if self._shown is not None:
            self.put_back()

    def _about(self, number: int) -> str:
        """What a way would do with the blocks, in words."""
        design, asked = self.document.design, self._asked()
        if self._tried_for == (design, asked) and number < len(self._tried):
            return self._words(number, self._tried[number])
        return self._words(number, tried(design, self._ways[number], asked))

    def _words(self, number: int, answer: Tried) -> str:
        if answer.refusal is not None:
            return words(answer.refusal, self.look.measure)
        if answer.call is None:
            return say("Hang blocks on the wall first.")
        if answer.design == self.document.design:
            return say("The quilt is set so already.")
        moved = answer.moves.text(self.look.measure) if answer.moves is not None else ""
        return f"{self._ways[number].name}: {moved}"

    def _show(self, wanted: EditCall | None) -> None:
        self._shown = wanted
        if wanted is None or not self.document.preview(wanted):
            self._shown = None
            self.document.drop_preview()

    def _show_wish(self, wanted: EditCall | None) -> None:
        self._tell("")
        self._show(wanted)

    def _forget(self) -> None:
        self._shown = None

    def _tell(self, text: str) -> None:
        self.said.setText(text or say("Look at a way to see it on the wall; choose it to set the blocks so."))

    # Pictures -----------------------------------------------------------------------------------------------------

    def _try_ways(self) -> None:
        """Work out every way off the window's thread."""
        design, asked, offered = self.document.design, self._asked(), self._ways
        if self._tried_for == (design, asked):
            self._show_pictures()
            return
        self._tried_for, self._tried = (design, asked), ()

        def work(job: Job) -> tuple[Tried, ...]:
            return tuple(tried(design, way, asked) for way in offered if not job.is_given_up)

        self._runner.run(_KEY, work, self._take_tried)

    def _take_tried(self, answers: tuple[Tried, ...]) -> None:
        self._tried = answers
        for number, answer in enumerate(answers):
            self.cards.show_words(number, f"{self._ways[number].words}. {self._words(number, answer)}")
        self._show_pictures()

    def _show_pictures(self) -> None:
        for number in range(len(self._tried)):
            self._show_picture(number)

    def _show_picture(self, slot: object) -> None:
        if not isinstance(slot, int) or slot >= len(self._tried):
            return
        shown = self._tried[slot].design or self.document.design
        ratio = self.devicePixelRatioF()
        picture = self.pictures.picture(slot, shown, PICTURE, self.look.theme, ratio)
        if picture is not None:
            self.cards.show_picture(slot, picture)

    # What the fields say ------------------------------------------------------------------------------------------

    def _asked(self) -> Asked:
        plain, short = self.plain.value, self.short.value
        return Asked(
            plain if isinstance(plain, str) else None,
            self._selection.cells,
            short if short in ("top", "middle") else "spread",
        )

    def _first_plain(self, design: Design) -> str | None:
        quilt = design.quilt
        wanted = quilt.triangles.fabric or quilt.coping
        return wanted or (design.fabrics[0].id if design.fabrics else None)

    def _set_unit(self) -> None:
        unit = self.unit.value
        if unit is not None:
            self.try_edit(self.unit, lambda: call("set-unit", unit=unit))

    def _follow_selection(self) -> None:
        if self.isVisible():
            self._try_ways()

    def _follow(self, before: Design, after: Design) -> None:
        """The design changed under it: what was shown belongs to another one."""
        self._forget()
        told = self.said.text()
        super()._follow(before, after)
        self.said.setText(told)

    def _follow_look(self) -> None:
        super()._follow_look()
        if self.isVisible():
            self._try_ways()
