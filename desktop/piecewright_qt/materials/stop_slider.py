"""A slider over given values, with its name and its value above it."""

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSlider, QVBoxLayout, QWidget

from piecewright_qt.theme.tokens import SPACE

Number = int | Fraction


class StopSlider(QWidget):
    """`moved` follows every value it is brought to by hand, key or `bring`; `set_stops` is silent."""

    moved = Signal()

    def __init__(self, name: str, tip: str) -> None:
        super().__init__()
        self.name = name
        self._tip = tip
        self._stops: tuple[Number, ...] = ()
        self._settling = False
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setMinimumHeight(26)
        self.slider.setToolTip(tip)
        self.slider.valueChanged.connect(self._tell)
        label = QLabel(name)
        label.setBuddy(self.slider)
        label.setWordWrap(True)
        self._shown = QLabel()
        self._shown.setWordWrap(True)
        self._shown.setTextFormat(Qt.TextFormat.PlainText)
        self._shown.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        self.setFocusProxy(self.slider)
        row = QHBoxLayout()
        row.setSpacing(SPACE)
        row.addWidget(label, 1)
        row.addWidget(self._shown, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(row)
        column.addWidget(self.slider)

    @property
    def stops(self) -> tuple[Number, ...]:
        """The values it stops at, rising."""
        return self._stops

    @property
    def value(self) -> Number | None:
        """The value it stands at; None where it has no stops."""
        return self._stops[self.slider.value()] if self._stops else None

    @property
    def shown(self) -> str:
        """The value in words."""
        return self._shown.text()

    def set_stops(self, stops: Sequence[Number], value: Number | None, why_still: str) -> None:
        """Give it values and let it stand at one; with fewer than two it stays still and says why."""
        self._settling = True
        self._stops = tuple(stops)
        self.slider.setRange(0, max(0, len(self._stops) - 1))
        self.slider.setPageStep(max(1, len(self._stops) // 10))
        if value is not None and self._stops:
            self.slider.setValue(nearest(self._stops, value))
        self.slider.setEnabled(len(self._stops) > 1)
        tip = self._tip if len(self._stops) > 1 else why_still
        self.slider.setToolTip(tip)
        self.slider.setAccessibleDescription(tip)
        self.setToolTip(tip)
        self._settling = False

    def bring(self, value: Number) -> None:
        """Bring it to the stop nearest to a value."""
        self.slider.setValue(nearest(self._stops, value))

    def say(self, text: str) -> None:
        """Show the value in words, to eyes and screen readers."""
        if text != self._shown.text():
            self._shown.setText(text)
            self.slider.setAccessibleName(f"{self.name}, {text}")

    def _tell(self) -> None:
        if not self._settling:
            self.moved.emit()


def nearest(stops: Sequence[Number], value: Number) -> int:
    """The place of the stop nearest to a value."""

    def distance(place: int) -> Fraction:
        return abs(Fraction(stops[place]) - value)

    return min(range(len(stops)), key=distance)
