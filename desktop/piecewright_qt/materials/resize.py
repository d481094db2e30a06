"""Resize by sliders or a target size: wall and materials follow every value; keeping it is one undo step."""

from fractions import Fraction

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.registry import EditCall, call
from piecewright.edit.resizing import leaving_text
from piecewright.errors import PiecewrightError
from piecewright.model.design import Design
from piecewright.plan.layout import layout
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

_MOST_CELLS = 80
_UNITS = tuple(Fraction(n, 2) for n in range(2, 49))
_BORDERS = tuple(Fraction(n, 2) for n in range(33))


class ResizePanel(QWidget):
    """Columns, rows, size of a cell, outer border; a target size typed; before and after beside each other."""

    finished = Signal()

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self._begun: Design = document.design
        self._settling = False
        self.setProperty("place", "foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Resize the quilt"))
        self._build()
        document.changed.connect(self._start_over)
        look.changed.connect(self._show_values)

    def begin(self) -> None:
        """Start from the quilt as it stands."""
        self._begun = self._document.design
        quilt = self._begun.quilt
        self._settling = True
        self.columns.setValue(quilt.lattice.columns)
        self.rows.setValue(quilt.lattice.rows)
        self.unit.setValue(_nearest(_UNITS, quilt.lattice.unit))
        self.border.setEnabled(bool(quilt.borders))
        self.border.setValue(_nearest(_BORDERS, quilt.borders[-1].width) if quilt.borders else 0)
        self._settling = False
        self._touched: set[str] = set()
        self._show_values()
        self.columns.setFocus()

    def cancel(self) -> None:
        """Leave the quilt as it was."""
        self._document.drop_preview()
        self.finished.emit()

    def apply(self) -> None:
        """Set the size down as one undo step."""
        wanted = self._wanted()
        self._document.drop_preview()
        self._document.perform(wanted)
        self.finished.emit()

    def _start_over(self, _before: Design, _after: Design) -> None:
        if self.isVisible():
            self.begin()

    def _build(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_WIDE, SPACE, SPACE_WIDE, SPACE_WIDE)
        title = QLabel(self.tr("Resize"))
        title.setProperty("type", "lead")
        column.addWidget(title)
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        self._values: list[QLabel] = []
        self.columns = self._slider(grid, 0, "columns", self.tr("Columns"), 1, _MOST_CELLS)
        self.rows = self._slider(grid, 1, "rows", self.tr("Rows"), 1, _MOST_CELLS)
        self.unit = self._slider(grid, 2, "unit", self.tr("Cell"), 0, len(_UNITS) - 1)
        self.border = self._slider(grid, 3, "border", self.tr("Outer border"), 0, len(_BORDERS) - 1)
        column.addLayout(grid)
        column.addLayout(self._target_row())
        self.outcome = QLabel()
        self.outcome.setWordWrap(True)
        self.outcome.setTextFormat(Qt.TextFormat.PlainText)
        self.outcome.setAccessibleName(self.tr("Before and after"))
        column.addWidget(self.outcome)
        column.addLayout(self._buttons())

    def _slider(self, grid: QGridLayout, row: int, name: str, text: str, least: int, most: int) -> QSlider:
        label = QLabel(text)
        slider = QSlider(Qt.Orientation.Horizontal)
        slider.setRange(least, most)
        slider.setAccessibleName(text)
        slider.setMinimumHeight(28)
        label.setBuddy(slider)
        value = QLabel()
        value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._values.append(value)
        slider.valueChanged.connect(lambda _value: self._moved(name))
        for place, widget in enumerate((label, slider, value)):
            grid.addWidget(widget, row, place)
        return slider

    def _target_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.width_field = self._field(self.tr("Target width"))
        self.height_field = self._field(self.tr("Target height"))
        go = QPushButton(self.tr("Try"))
        go.setToolTip(self.tr("Set columns and rows as near to the target as whole cells come"))
        go.clicked.connect(self._aim)
        row.addWidget(QLabel(self.tr("Target")))
        row.addWidget(self.width_field)
        row.addWidget(QLabel("×"))
        row.addWidget(self.height_field)
        row.addWidget(go)
        return row

    def _field(self, name: str) -> QLineEdit:
        field = QLineEdit()
        field.setAccessibleName(name)
        field.setPlaceholderText(name.split()[-1])
        field.returnPressed.connect(self._aim)
        return field

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        keep = QPushButton(self.tr("Keep this size"))
        keep.setProperty("weight", "main")
        keep.clicked.connect(self.apply)
        leave = QPushButton(self.tr("As it was"))
        leave.clicked.connect(self.cancel)
        row.addStretch(1)
        row.addWidget(leave)
        row.addWidget(keep)
        return row

    def _moved(self, name: str) -> None:
        if not self._settling:
            self._touched.add(name)
            self._document.preview(self._wanted())
            self._show_values()

    def _wanted(self) -> EditCall:
        """Only what was moved: a slider left alone keeps a value that lies between its steps."""
        values: dict[str, object] = {
            "columns": self.columns.value(),
            "rows": self.rows.value(),
            "unit": _UNITS[self.unit.value()],
            "border": _BORDERS[self.border.value()],
        }
        return call(
            "resize-quilt", **{name: value for name, value in values.items() if name in self._touched}
        )

    def _aim(self) -> None:
        """Set the sliders of columns and rows by a typed size."""
        try:
            width, height = parse_length(self.width_field.text()), parse_length(self.height_field.text())
        except PiecewrightError as error:
            self._say(words(error, self._look.measure), "error")
            return
        quilt = self._begun.quilt
        unit = _UNITS[self.unit.value()] if "unit" in self._touched else quilt.lattice.unit
        borders = 2 * sum((border.width for border in quilt.borders), Fraction(0))
        for slider, length in ((self.columns, width), (self.rows, height)):
            slider.setValue(max(1, int((length - borders) / unit + Fraction(1, 2))))
        self._moved("columns")
        self._moved("rows")

    def _show_values(self) -> None:
        measure, shown = self._look.measure, self._document.shown
        lattice, borders = shown.quilt.lattice, shown.quilt.borders
        outer = measure.length(borders[-1].width) if borders else self.tr("none")
        for label, text in zip(
            self._values,
            (str(lattice.columns), str(lattice.rows), measure.length(lattice.unit), outer),
            strict=True,
        ):
            label.setText(text)
        refusal = self._document.preview_refusal
        if refusal is not None:
            self._say(words(refusal, measure), "error")
            return
        before, after = _size(self._begun, measure), _size(shown, measure)
        left = leaving_text(self._begun, shown).text(measure)
        self._say(
            self.tr("Before: {before}\nAfter: {after}\n{left}").format(before=before, after=after, left=left),
            "",
        )

    def _say(self, text: str, tone: str) -> None:
        self.outcome.setText(text)
        self.outcome.setProperty("tone", tone)
        self.outcome.style().unpolish(self.outcome)
        self.outcome.style().polish(self.outcome)


def _nearest(steps: tuple[Fraction, ...], value: Fraction) -> int:
    return min(range(len(steps)), key=lambda place: abs(steps[place] - value))


def _size(design: Design, measure: Measure) -> str:
    return message("plan.size", size=layout(design).size.finished).text(measure)
