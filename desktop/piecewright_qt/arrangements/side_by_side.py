"""Two arrangements side by side, each with its picture and materials, and what the second takes more or less."""

from collections.abc import Iterator

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QComboBox, QDialog, QGridLayout, QLabel, QWidget

from piecewright.model.design import Design
from piecewright.plan.materials import Materials
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.arrangements.quilt_pictures import QuiltPictures
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.head import totals_text
from piecewright_qt.materials.list_view import MaterialsList
from piecewright_qt.materials.lister import Lister
from piecewright_qt.materials.rows import Comparison, Note, Row, compared
from piecewright_qt.replan import planned_or_none
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE

_SIZE = QSize(1120, 800)
_PICTURE = QSize(320, 280)


class SideBySide(QDialog):
    """Choose two: pictures, sizes and lists of both, and the differences line by line."""

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._design = document.design
        self._look = look
        self._lister = Lister()
        self.setWindowTitle(self.tr("Two arrangements side by side"))
        self.pictures = QuiltPictures(settled=0, parent=self)
        self.pictures.arrived.connect(self._show_picture)
        names = (self.tr("First arrangement"), self.tr("Second arrangement"))
        self.choices = tuple(self._choice(name) for name in names)
        self.canvases = (QLabel(), QLabel())
        self.totals = (_text(""), _text(""))
        self.lists = tuple(
            self._list(document, self.tr("Materials of the {name}").format(name=name.lower()))
            for name in names
        )
        self.difference = self._list(document, self.tr("What the second takes more or less"))
        self.summary = _text("")
        self._lay_out()
        current = self._design.current
        self.choices[0].setCurrentIndex(current)
        self.choices[1].setCurrentIndex((current + 1) % len(self._design.arrangements))
        for choice in self.choices:
            choice.currentIndexChanged.connect(self.refresh)
        self.resize(_SIZE)
        self.refresh()
        self.choices[1].setFocus()

    def refresh(self) -> None:
        """Show the two that are chosen."""
        measure = self._look.measure
        designs = [self._shown(side) for side in (0, 1)]
        plans = [planned_or_none(design) for design in designs]
        rows = [() if plan is None else self._lister.rows(plan, measure) for plan in plans]
        for side in (0, 1):
            self._show_picture(side)
            self.totals[side].setText(self._total(plans[side], rows[side], measure))
            self.lists[side].show_rows(Comparison(rows[side], {}), designs[side].shelf.fabrics)
        told = tuple(differences(rows[0], rows[1], measure))
        self.difference.show_rows(Comparison(told, {}), designs[0].shelf.fabrics)
        lines = sum(1 for row in told if row.kind == "line")
        both = self.tr("Both take the same.")
        one, many = self.tr("1 line differs."), self.tr("{n} lines differ.")
        self.summary.setText((one if lines == 1 else many).format(n=lines) if lines else both)

    def _shown(self, side: int) -> Design:
        return self._design.changed(current=self.choices[side].currentIndex())

    def _show_picture(self, side: int) -> None:
        ratio = self.devicePixelRatioF()
        design = self._shown(side)
        found: QPixmap | None = self.pictures.picture(side, design, _PICTURE, self._look.theme, ratio)
        canvas = self.canvases[side]
        canvas.setAccessibleName(self.tr("Picture of {name}").format(name=design.quilt.name))
        if found is not None:
            canvas.setPixmap(found)

    def _total(self, plan: Materials | None, rows: tuple[Row, ...], measure: Measure) -> str:
        if plan is None:
            return self.tr("This arrangement could not be worked out.")
        size = message("plan.size", size=plan.size.finished).text(measure)
        return f"{size}\n{totals_text(plan, rows)}"

    def _choice(self, name: str) -> QComboBox:
        choice = QComboBox()
        choice.setAccessibleName(name)
        choice.setToolTip(name)
        choice.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        choice.addItems([quilt.name for quilt in self._design.arrangements])
        return choice

    def _list(self, document: Document, name: str) -> MaterialsList:
        made = MaterialsList(self._look, document.pictures)
        made.setAccessibleName(name)
        return made

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(SPACE_PAGE, SPACE_PAGE, SPACE_PAGE, SPACE_PAGE)
        grid.setHorizontalSpacing(SPACE_PAGE)
        grid.setVerticalSpacing(SPACE)
        for side in (0, 1):
            canvas = self.canvases[side]
            canvas.setFixedHeight(_PICTURE.height())
            self.totals[side].setAlignment(Qt.AlignmentFlag.AlignTop)
            canvas.setAlignment(Qt.AlignmentFlag.AlignCenter)
            for row, widget in enumerate((self.choices[side], canvas, self.totals[side], self.lists[side])):
                grid.addWidget(widget, row, side)
        heading = _text("lead")
        heading.setText(self.tr("The second takes"))
        grid.addWidget(heading, 0, 2)
        grid.addWidget(self.difference, 1, 2, 3, 1)
        grid.addWidget(self.summary, 4, 2)
        for column in range(3):
            grid.setColumnStretch(column, 1)
        grid.setRowStretch(3, 1)

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """A screen of other sharpness needs other pictures."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.DevicePixelRatioChange:
            self.refresh()


def differences(first: tuple[Row, ...], second: tuple[Row, ...], measure: Measure) -> Iterator[Row]:
    """What the second takes more or less than the first: rows whose number is the difference, under their headings."""
    found = compared(first, second, measure)
    old = {row.key: row for row in first}
    heading: Row | None = None
    for row in found.rows:
        if row.kind == "heading":
            heading = row
        mark = found.marks.get(row.key)
        if row.kind != "line" or mark is None or not mark.delta:
            continue
        if heading is not None and heading.section == row.section:
            total = found.marks.get(heading.key)
            yield _told(heading, total.delta if total is not None else "", None)
            heading = None
        yield _told(row, mark.delta, old.get(row.key))


def _told(row: Row, delta: str, was: Row | None) -> Row:
    if row.kind == "heading":
        return Row(row.key, row.section, "heading", row.label, delta)
    before = was.value if was is not None and was.value else "0"
    after = row.value or "0"
    notes = (*((Note(row.under),) if row.under else ()), Note(f"{before} → {after}"))
    return Row(row.key, row.section, "line", row.label, delta, None, notes, row.why, row.fabrics)


def _text(kind: str) -> QLabel:
    label = QLabel()
    label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
