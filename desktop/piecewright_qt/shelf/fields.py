"""Fields that say in place what is wrong with what is typed: lengths, prices, colors."""

from collections.abc import Callable
from fractions import Fraction

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QIcon, QMouseEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import (
    QCheckBox,
    QColorDialog,
    QComboBox,
    QCompleter,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.errors import LengthError, PiecewrightError
from piecewright.model.limits import check_color
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.units.scale import INCHES_BY_UNIT
from piecewright.words.message import message
from piecewright_qt.messages import words
from piecewright_qt.shelf.pictures import EDGE
from piecewright_qt.theme.tokens import SPACE_HAIR, SPACE_TIGHT

_TARGET = 28
"""Least width and height of what is pressed, device-independent pixels."""
_CHIP = QSize(28, 20)
_MOST_DIGITS = 12


class Field(QWidget):
    """A labeled field with room for a sentence below it; `edited` follows every change by the user."""

    edited = Signal()

    def __init__(self, label: str, name: str = "") -> None:
        super().__init__()
        self.label = QLabel(label)
        self.label.setProperty("type", "small")
        self.label.setWordWrap(True)
        self._name = name or label
        self._fault = QLabel()
        self._fault.setProperty("type", "small")
        self._fault.setProperty("tone", "error")
        self._fault.setWordWrap(True)
        self._fault.setTextFormat(Qt.TextFormat.PlainText)
        self._fault.hide()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(SPACE_HAIR)
        self.column.addWidget(self.label)
        self.column.addWidget(self._fault)

    @property
    def fault(self) -> str:
        """What is wrong, in words; "" where nothing is."""
        return self._fault.text()

    def complain(self, text: str) -> None:
        """Say what is wrong, or nothing."""
        self._fault.setText(text)
        self._fault.setVisible(bool(text))

    def hold(self, *controls: QWidget) -> None:
        """Put controls between label and sentence."""
        row = QHBoxLayout()
        row.setSpacing(SPACE_TIGHT)
        for control in controls:
            row.addWidget(control)
        self.column.insertLayout(1, row)
        self.label.setBuddy(controls[-1])
        controls[-1].setAccessibleName(self._name)
        controls[-1].setToolTip(controls[-1].toolTip() or self._name)


class TextField(Field):
    """A line of text, read by `read`, which raises a PiecewrightError for what it can not take."""

    def __init__(self, label: str, name: str = "", read: Callable[[str], object] | None = None) -> None:
        super().__init__(label, name)
        self.line = QLineEdit()
        self._read = read
        self._measure = Measure()
        self.hold(self.line)
        self.line.textEdited.connect(self._typed)

    def show_value(self, text: str) -> None:
        """Show a text as if it had been typed, silently."""
        self.line.setText(text)
        self.complain("")

    def _typed(self, text: str) -> None:
        self.complain(fault_in(self._read, text, self._measure) if self._read is not None else "")
        self.edited.emit()


class LengthField(Field):
    """A length typed any way or chosen; `value` is exact inches, None while what is typed is none."""

    def __init__(
        self,
        label: str,
        measure: Measure,
        choices: tuple[Fraction, ...] = (),
        name: str = "",
        may_be_empty: bool = False,
        may_be_zero: bool = False,
    ) -> None:
        super().__init__(label, name)
        self._measure = measure
        self._may_be_empty = may_be_empty
        self._may_be_zero = may_be_zero
        self.box = QComboBox()
        self.box.setEditable(True)
        self.box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        # completes nothing: "2" typed is 2, whatever longer choice begins with it
        self.box.setCompleter(QCompleter(self.box))
        self._choices = choices
        self.box.addItems([self._written(choice) for choice in choices])
        shrink(self.box)
        self.hold(self.box)
        line = self.box.lineEdit()
        if line is not None:
            line.setAccessibleName(name or label)
        self.value: Fraction | None = None
        self.show_value(choices[0] if choices else None)
        self.box.editTextChanged.connect(self._typed)

    def show_measure(self, measure: Measure) -> None:
        """Show the same length, and read what is typed from now on, in another measure; silently."""
        self._measure = measure
        self.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.box.clear()
        self.box.addItems([self._written(choice) for choice in self._choices])
        self.show_value(self.value)

    def show_value(self, value: Fraction | None) -> None:
        """Show a length, silently."""
        self.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.box.setEditText("" if value is None else self._written(value))
        self.box.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.value = value
        self.complain("")

    def _typed(self, text: str) -> None:
        self.value = None
        if text.strip() or not self._may_be_empty:
            self.complain(fault_in(self._parse, text, self._measure))
        else:
            self.complain("")
        self.edited.emit()

    def _written(self, value: Fraction) -> str:
        return self._measure.length(value)

    def _parse(self, text: str) -> None:
        length = parse_length(text, unit=INCHES_BY_UNIT[self._measure.unit])
        if not length and not self._may_be_zero:
            raise LengthError(message("shelf.size-nothing", size=length), message("shelf.write-size"))
        self.value = length


class PercentField(LengthField):
    """A part of a hundred typed or chosen; `value` is exact, None while what is typed is none."""

    def _written(self, value: Fraction) -> str:
        return f"{self._measure.number(value)} %"

    def _parse(self, text: str) -> None:
        typed = text.strip().removesuffix("%").strip()
        if not typed or len(typed) > _MOST_DIGITS or set(typed) - set("0123456789.,/ "):
            raise LengthError(
                message("shelf.not-a-percentage", text=text.strip()[:40]), message("shelf.write-percentage")
            )
        self.value = parse_length(typed, unit=Fraction(1))


class PriceField(TextField):
    """A price; `value` is None where the field is empty or what is typed is none."""

    def __init__(self, label: str, measure: Measure) -> None:
        super().__init__(label, read=self._parse)
        self._measure = measure
        self.value: Fraction | None = None

    def show_price(self, price: Fraction | None) -> None:
        """Show a price, silently."""
        self.value = price
        self.show_value("" if price is None else _price_text(price, self._measure.comma))

    def _parse(self, text: str) -> None:
        self.value = None
        typed = text.strip().replace(",", ".")
        if not typed:
            return
        if len(typed) > _MOST_DIGITS or not typed.replace(".", "", 1).isdecimal() or not typed.isascii():
            raise LengthError(
                message("shelf.not-a-price", text=text.strip()[:40]), message("shelf.write-price")
            )
        self.value = Fraction(typed)


class ColorField(Field):
    """A color: #rrggbb typed, or chosen in the system's own dialog; `color` is the last one that was right."""

    def __init__(self, label: str, color: str) -> None:
        super().__init__(label)
        self.color = color
        self.chip = QToolButton()
        self.chip.setIconSize(_CHIP)
        self.chip.clicked.connect(self._choose)
        self.line = QLineEdit()
        self.line.setMaxLength(9)
        self.hold(self.chip, self.line)
        self.line.textEdited.connect(self._typed)
        self.rename(label)
        self.show_color(color)

    def rename(self, label: str) -> None:
        """Call the color something else."""
        self.label.setText(label)
        choose = self.tr("Choose: {name}").format(name=label)
        self.chip.setAccessibleName(choose)
        self.chip.setToolTip(choose)
        self.line.setAccessibleName(label)
        self.line.setToolTip(self.tr("{name}: # and six digits or letters a to f").format(name=label))

    def show_color(self, color: str) -> None:
        """Show a color, silently."""
        self.color = color
        self.line.setText(color)
        self.complain("")
        self._paint()

    def _typed(self, text: str) -> None:
        self.complain(fault_in(self._parse, text, Measure()))
        self._paint()
        self.edited.emit()

    def _parse(self, text: str) -> None:
        color = text.strip().lower()
        color = color if color.startswith("#") else f"#{color}"
        if len(color) == 4:
            color = "#" + "".join(2 * digit for digit in color[1:])
        check_color(color)
        self.color = color

    def _choose(self) -> None:
        dialog = QColorDialog(QColor(self.color), self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.colorSelected.connect(self._chosen)
        dialog.open()

    def _chosen(self, color: QColor) -> None:
        self.show_color(color.name())
        self.edited.emit()

    def _paint(self) -> None:
        pixmap = QPixmap(_CHIP * 3)
        pixmap.fill(QColor(self.color))
        painter = QPainter(pixmap)
        painter.setPen(QPen(EDGE, 6))
        painter.drawRect(pixmap.rect())
        painter.end()
        self.chip.setIcon(QIcon(pixmap))


class CheckField(QWidget):
    """A box to tick whose words wrap; pressing the words ticks it too."""

    def __init__(self, label: str, tip: str) -> None:
        super().__init__()
        self.box = QCheckBox()
        self.box.setAccessibleName(label)
        self.box.setToolTip(tip)
        self.box.setMinimumSize(_TARGET, _TARGET)
        self.label = QLabel(label)
        self.label.setWordWrap(True)
        self.label.setToolTip(tip)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.box, 0)
        row.addWidget(self.label, 1)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """A press on the words."""
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.box.click()


def shrink(box: QComboBox) -> None:
    """Let a box be narrower than its longest choice, for narrow columns and large text."""
    box.setMinimumContentsLength(4)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)


def fault_in(read: Callable[[str], object], text: str, measure: Measure) -> str:
    """What reading a text complains of, in words."""
    try:
        read(text)
    except PiecewrightError as error:
        return words(error, measure)
    return ""


def _price_text(price: Fraction, comma: bool) -> str:
    """A price with its cents; exactly, where cents are not enough."""
    text = f"{float(price):.2f}" if price * 100 == int(price * 100) else Measure().number(float(price))
    return text.replace(".", ",") if comma else text
