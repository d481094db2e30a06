"""Random but sewable: different blocks of a recipe that varies, drawn within limits, looked at, and kept."""

from fractions import Fraction
from random import Random

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.ids import new_ids
from piecewright.edit.registry import apply, call
from piecewright.errors import PiecewrightError
from piecewright.making.names import VaryRange, resolve_names, vary_range
from piecewright.making.recipe import Recipe
from piecewright.making.wonky import Draw, Limits, draw
from piecewright.model.value import Sizes
from piecewright.words.message import message
from piecewright_qt.count_field import CountField
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.draws_sheet import Sheet, SheetModel, SheetView
from piecewright_qt.shelf.cards import faces_of
from piecewright_qt.shelf.fields import LengthField
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE
from piecewright_qt.wall.looks import Looks

_MOST = 40
_FIRST = 8
_EDGES = Fraction(1), Fraction(1, 2), Fraction(2), Fraction(0)
"""The first is meant unless another is chosen."""
_SQUARE = 90
_WIDTH = 240
_ONE_ROW = 1.3  # the largest text scale at which all buttons stand in one row


class DrawsPanel(QWidget):
    """Limits at the left, the blocks drawn at the right. `left` asks to go back to the steps."""

    left = Signal()

    def __init__(self, bench: Bench, look: Look, seed: int | None = None) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._chance = Random(seed)  # noqa: S311 - a draw for the eye, no secret
        self.setAccessibleName(self.tr("Different blocks"))
        self.ranges: dict[str, tuple[LengthField, LengthField]] = {}
        self._offered: dict[str, VaryRange] = {}
        self.model = SheetModel(Pictures(self))
        self.sheet = SheetView(self.model)
        self.sheet.setAccessibleName(self.tr("Blocks drawn"))
        self._make_fields()
        self._lay_out()
        self._connect()
        self._dress()

    # What is asked for -------------------------------------------------------------------------------------------

    def begin(self) -> None:
        """Show the limits of the recipe in hand, and draw blocks at once."""
        self._show_ranges()
        self.model.show(())
        self.draw_again()
        self.again.setFocus()

    def draw_again(self) -> None:
        """Other blocks than those in view and those the design has already."""
        recipe, limits = self._recipe(), self._limits()
        if recipe is None or limits is None:
            self._tell(
                self.tr("Mend the step that does not work first.") if recipe is None else self._mend,
                error=True,
            )
            return
        kept = self._kept()
        seen = [sheet.draw.values for sheet in self.model.sheets]
        seed, count = self._chance.randrange(2**32), self.count.box.value()
        try:
            drawn = draw(recipe, self._bench.given, seed, count, limits, [*kept, *seen])
            if not drawn.draws:  # all there are have been in view
                drawn = draw(recipe, self._bench.given, seed, count, limits, kept)
            self.model.show(self._sheets(drawn.draws))
        except PiecewrightError as error:
            self.model.show(())
            self._tell(words(error, self._look.measure), error=True)
            return
        self._tell(" ".join(said.text(self._look.measure) for said in drawn.messages))
        if drawn.draws:
            self.sheet.setCurrentIndex(self.model.index(0, 0))
            self.sheet.clearSelection()

    def keep(self) -> None:
        """Add the chosen blocks to the shelf of the design, as one undo step."""
        block, document = self._bench.block, self._bench.document
        rows = sorted(self.sheet.rows)
        if block is None or not rows:
            self._tell(
                self.tr(
                    "Choose the blocks to keep: click them, or go to them with the arrows and press Space."
                )
            )
            return
        before = document.design
        draws = tuple(Sizes(self.model.sheets[row].draw.values) for row in rows)
        if document.perform(call("keep-draws", block=block.id, draws=draws)):
            names = (document.design.shelf.blocks[key].name for key in new_ids(before, document.design))
            self._tell(self.tr("Kept on the shelf: {names}").format(names=", ".join(names)))
            self.sheet.clearSelection()

    # How it is done -----------------------------------------------------------------------------------------------

    def _recipe(self) -> Recipe | None:
        standing = self._bench.standing
        return standing.sound if standing is not None and self._bench.facts is not None else None

    def _kept(self) -> list[Sizes]:
        """The values that blocks of this recipe have in the design already."""
        block = self._bench.block
        blocks = self._bench.document.design.blocks
        return [one.draws for one in blocks if block is not None and one.recipe == block.recipe and one.draws]

    def _limits(self) -> Limits | None:
        """The limits as typed; None while one of them is none."""
        between: dict[str, tuple[Fraction, Fraction]] = {}
        for name, (low, high) in self.ranges.items():
            if low.value is None or high.value is None:
                return None
            offered = self._offered[name]
            if (low.value, high.value) != (offered.start, offered.end):
                between[name] = low.value, high.value
        if self.edge.value is None:
            return None
        return Limits(between, self.edge.value, self.least.box.value(), self.most.box.value())

    def _sheets(self, draws: tuple[Draw, ...]) -> tuple[Sheet, ...]:
        """Every draw as it would look, made in a copy of the design that has them all."""
        block, before = self._bench.block, self._bench.document.design
        if block is None:
            return ()
        every = tuple(Sizes(one.values) for one in draws)
        after = apply(before, call("keep-draws", block=block.id, draws=every))
        looks = Looks(after)
        return tuple(
            Sheet(one, faces_of(looks, key, one.facts)[0].look, self._said(number, one))
            for number, (key, one) in enumerate(zip(new_ids(before, after), draws, strict=True), start=1)
        )

    def _said(self, number: int, drawn: Draw) -> str:
        measure = self._look.measure
        values = ", ".join(f"{name} {measure.length(value)}" for name, value in drawn.values.items())
        size = message("plan.size", size=drawn.facts.finished).text(measure)
        return self.tr("Block {number}: {size}; {values}").format(number=number, size=size, values=values)

    def _tell(self, text: str, *, error: bool = False) -> None:
        self.said.setText(text)
        self.said.setVisible(bool(text))
        self.said.setProperty("tone", "error" if error else "")
        self.said.style().polish(self.said)

    def _dress(self) -> None:
        self.sheet.fit(self._look.scale.text)
        self._place_buttons()
        self.model.ratio = self.devicePixelRatioF()
        self._area.setFixedWidth(round(_WIDTH * min(self._look.scale.text, 1.5)))

    def _measure_changed(self) -> None:
        self._dress()
        for field in (self.edge, *(one for pair in self.ranges.values() for one in pair)):
            field.show_measure(self._look.measure)
        if self._bench.block is not None and self.isVisible():
            self.model.show(self._sheets(tuple(sheet.draw for sheet in self.model.sheets)))

    def _show_ranges(self) -> None:
        """Fields for what the recipe in hand varies."""
        while (row := self._range_column.takeAt(0)) is not None:
            inner = row.layout()
            if inner is not None:
                inner.deleteLater()
        for field in (one for pair in self.ranges.values() for one in pair):
            field.hide()
            field.deleteLater()
        self.ranges, self._offered = {}, {}
        recipe = self._recipe()
        if recipe is None:
            return
        names = resolve_names(recipe, self._bench.given)
        for name, varied in recipe.vary.items():
            offered = vary_range(varied, names, f"vary.{name}")
            last = offered.value(offered.count - 1)
            self._offered[name] = VaryRange(offered.start, last, offered.step)
            pair = (
                self._range_field(self.tr("{name}: from"), name, offered.start),
                self._range_field(self.tr("{name}: to"), name, last),
            )
            self.ranges[name] = pair
            row = QHBoxLayout()
            row.setSpacing(SPACE)
            for field in pair:
                row.addWidget(field, 1)
            self._range_column.addLayout(row)

    def _range_field(self, label: str, name: str, value: Fraction) -> LengthField:
        field = LengthField(label.format(name=name), self._look.measure, may_be_zero=True)
        field.show_value(value)
        return field

    # Arranging ----------------------------------------------------------------------------------------------------

    def _make_fields(self) -> None:
        self._mend = self.tr("Mend the limit that is marked first.")
        degrees = self.tr("°")
        self.count = CountField(self.tr("How many blocks"), 1, _MOST)
        self.count.show_value(_FIRST)
        self.edge = LengthField(
            self.tr("Cuts stay from the edge"),
            self._look.measure,
            _EDGES,
            may_be_zero=True,
        )
        self.least = CountField(self.tr("Slants at least"), 0, _SQUARE)
        self.most = CountField(self.tr("Slants at most"), 0, _SQUARE)
        self.most.show_value(_SQUARE // 2)
        for field in (self.least, self.most):
            field.box.setSuffix(degrees)
        self.again = QPushButton(self.tr("Again"))
        self.again.setToolTip(self.tr("Draw other blocks within the limits (F5)"))
        self.keep_button = QPushButton(self.tr("Keep these"))
        self.keep_button.setProperty("weight", "main")
        self.keep_button.setToolTip(self.tr("Put the chosen blocks on the shelf of the design (Enter)"))
        self.back = QPushButton(self.tr("Back to the steps"))
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setProperty("type", "small")
        self.said.hide()

    def _lay_out(self) -> None:
        self._buttons = QGridLayout()
        self._buttons.setSpacing(SPACE)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self._limits_column())
        right = QVBoxLayout()
        right.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE)
        right.addWidget(self.sheet, 1)
        right.addWidget(self.said)
        right.addLayout(self._buttons)
        row.addLayout(right, 1)

    def _place_buttons(self) -> None:
        """In one row; with large text the way back has a row of its own."""
        large = self._look.scale.text > _ONE_ROW
        self._buttons.addWidget(
            self.back, 1 if large else 0, 0, 1, 3 if large else 1, Qt.AlignmentFlag.AlignLeft
        )
        self._buttons.setColumnStretch(0, 0 if large else 1)
        self._buttons.addWidget(self.again, 0, 1)
        self._buttons.addWidget(self.keep_button, 0, 2)

    def _limits_column(self) -> QScrollArea:
        body = QWidget()
        body.setProperty("place", "panel")
        body.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(body)
        column.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE_WIDE)
        column.setSpacing(SPACE)
        heading = QLabel(self.tr("Left to chance, within"))
        heading.setProperty("type", "lead")
        heading.setWordWrap(True)
        for part in (heading, self.count, self.edge, self.least, self.most):
            column.addWidget(part)
        self._range_column = QVBoxLayout()
        self._range_column.setSpacing(SPACE)
        column.addLayout(self._range_column)
        column.addStretch(1)
        self._area = QScrollArea()
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area.setWidgetResizable(True)
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setWidget(body)
        return self._area

    def _connect(self) -> None:
        self.again.clicked.connect(self.draw_again)
        self.keep_button.clicked.connect(self.keep)
        self.back.clicked.connect(self.left)
        self.sheet.taken = self.keep
        self._look.changed.connect(self._measure_changed)
        again = QShortcut(QKeySequence("F5"), self, self.draw_again)
        again.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        back = QShortcut(QKeySequence("Esc"), self, self.left.emit)
        back.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
