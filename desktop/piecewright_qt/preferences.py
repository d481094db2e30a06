"""What the user likes of the program itself: theme, size of text, and how lengths are written. All seen at once."""

from fractions import Fraction

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from piecewright.units.sizes import Cut
from piecewright.words.message import message
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import CheckField
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE, SPACE_WIDE

_SIZES = (75, 100, 125, 150, 175, 200, 225, 250)
_EXAMPLE = Cut(Fraction(67, 16), Fraction(25, 3))
_WIDE = 380


class PreferencesDialog(QDialog):
    """Every change is in force at once, and kept; there is nothing to confirm."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.setWindowTitle(self.tr("Preferences"))
        self.theme = self._choice(self.tr("Light or dark"), "theme")
        self.text = self._choice(self.tr("Size of text"), "text_percent")
        self.unit = self._choice(self.tr("Lengths in"), "unit")
        self.fraction = self._choice(self.tr("Written"), "fraction")
        self.comma = CheckField(self.tr("Decimal comma"), self.tr("1,5 in the place of 1.5"))
        self.comma.box.toggled.connect(lambda on: look.prefer(decimal_comma=on))
        self.left_handed = CheckField(
            self.tr("Left-handed"), self.tr("Cloth on the Cutting table is mirrored, never a block")
        )
        self.left_handed.box.toggled.connect(lambda on: look.prefer(left_handed=on))
        self._example = QLabel()
        self._example.setProperty("type", "soft")
        self._example.setWordWrap(True)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_PAGE, SPACE_PAGE, SPACE_PAGE, SPACE_WIDE)
        column.setSpacing(SPACE_WIDE)
        for widget in (
            self.theme,
            self.text,
            self.unit,
            self.fraction,
            self.comma,
            self._example,
            self.left_handed,
        ):
            column.addWidget(widget)
        column.addSpacing(SPACE)
        column.addStretch(1)
        column.addWidget(close)
        look.changed.connect(self.refresh)
        self.refresh()
        self.setMinimumWidth(_WIDE)

    def refresh(self) -> None:
        """Show the preferences in force."""
        liked = self._look.preferences
        self.theme.show_choices(
            [
                ("system", self.tr("As the system is")),
                ("light", self.tr("Light")),
                ("dark", self.tr("Dark")),
            ],
            liked.theme,
        )
        self.text.show_choices([(size, f"{size} %") for size in _SIZES], liked.text_percent)
        self.unit.show_choices(
            [("in", self.tr("Inches")), ("cm", self.tr("Centimeters")), ("mm", self.tr("Millimeters"))],
            liked.unit,
        )
        self.fraction.show_choices(
            [
                (None, self.tr("Exactly")),
                (16, self.tr("To the nearest 1/16 in")),
                (8, self.tr("To the nearest 1/8 in")),
            ],
            liked.fraction,
        )
        self.fraction.setEnabled(liked.unit == "in")
        self.comma.box.setChecked(liked.decimal_comma)
        self.left_handed.box.setChecked(liked.left_handed)
        said = message("plan.size", size=_EXAMPLE).text(self._look.measure)
        self._example.setText(self.tr("For example: {size}").format(size=said))

    def _choice(self, label: str, preference: str) -> ChoiceField:
        field = ChoiceField(label)
        field.edited.connect(lambda: self._look.prefer(**{preference: field.value}))
        return field
