"""A field for a whole number."""

from PySide6.QtWidgets import QSpinBox

from piecewright_qt.shelf.fields import Field


class CountField(Field):
    """A whole number."""

    def __init__(self, label: str, least: int, most: int) -> None:
        super().__init__(label)
        self.box = QSpinBox()
        self.box.setRange(least, most)
        self.hold(self.box)
        self.box.valueChanged.connect(lambda _value: self.edited.emit())

    def show_value(self, value: int) -> None:
        """Show a number, silently."""
        self.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.box.setValue(value)
        self.box.blockSignals(False)  # noqa: FBT003 - Qt's own signature
