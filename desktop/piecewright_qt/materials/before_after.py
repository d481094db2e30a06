"""The quilt before and after a resize: size and totals side by side, and in a sentence what leaves the wall."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from piecewright.edit.resizing import leaving
from piecewright.model.design import Design
from piecewright.plan.materials import Materials
from piecewright.units.measure import Measure
from piecewright_qt.materials.lister import all_bought
from piecewright_qt.theme.tokens import SPACE, SPACE_HAIR

_SHARES = (2, 5, 5)


class BeforeAfter(QWidget):
    """Numbers in two columns."""

    def __init__(self) -> None:
        super().__init__()
        self.names = (self.tr("Finished"), self.tr("Blocks"), self.tr("Sets"), self.tr("Cloth"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, SPACE, 0, 0)
        self._grid.setVerticalSpacing(SPACE_HAIR)
        self._grid.setHorizontalSpacing(SPACE)
        for column, share in enumerate(_SHARES):
            self._grid.setColumnStretch(column, share)
        self._put(0, 1, "small").setText(self.tr("Before"))
        self._put(0, 2, "small").setText(self.tr("After"))
        self.cells: list[tuple[QLabel, QLabel]] = []
        for row, name in enumerate(self.names, 1):
            self._put(row, 0, "soft").setText(name)
            self.cells.append((self._put(row, 1, "soft"), self._put(row, 2, "")))

    def show_both(self, before: Materials, after: Materials, measure: Measure) -> None:
        """Show the numbers of both."""
        old, new = _numbers(before, measure), _numbers(after, measure)
        for (was, now), left, right in zip(self.cells, old, new, strict=True):
            _set(was, left)
            _set(now, right)
        said = self.tr("{name}: {before} before, {after} after")
        whole = (
            said.format(name=name, before=a, after=b) for name, a, b in zip(self.names, old, new, strict=True)
        )
        self.setAccessibleName(". ".join(whole))

    def _put(self, row: int, column: int, kind: str) -> QLabel:
        label = QLabel()
        label.setProperty("type", kind)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setWordWrap(bool(column))
        if column:
            label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._grid.addWidget(label, row, column)
        return label


class Verdict(QLabel):
    """One sentence: what leaves the wall, or why a size is not possible. Two lines are always kept free."""

    def __init__(self) -> None:
        super().__init__()
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)

    def say_leaving(self, before: Design, after: Design) -> None:
        """Say which blocks leave the wall."""
        gone = leaving(before, after)
        if not gone:
            self.say(self.tr("Every block stays on the wall."))
            return
        parts, count = ", ".join(f"{each} {name}" for name, each in gone), sum(each for _, each in gone)
        one, many = (
            self.tr("1 block leaves the wall: {parts}."),
            self.tr("{n} blocks leave the wall: {parts}."),
        )
        self.say((one if count == 1 else many).format(n=count, parts=parts), "warn")

    def say(self, text: str, tone: str = "") -> None:
        """Say a sentence in a tone."""
        _set(self, text)
        if self.property("tone") != tone:
            self.setProperty("tone", tone)
            self.style().unpolish(self)
            self.style().polish(self)
        self.setMinimumHeight(2 * self.fontMetrics().lineSpacing())


def _numbers(plan: Materials, measure: Measure) -> tuple[str, ...]:
    finished = plan.size.finished
    cloth = measure.yards(all_bought(plan, measure).shown)
    size = measure.size(finished.width, finished.height)
    return size, str(plan.block_count), str(plan.set_count), cloth


def _set(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)
