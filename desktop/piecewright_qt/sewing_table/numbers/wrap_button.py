"""Buttons whose words wrap, for narrow columns and large text."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from piecewright_qt.look import Look
from piecewright_qt.theme.icons import inked
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_NARROWEST = 100


class WrapButton(QPushButton):
    """Named by its words for the ear; they are drawn by a label, which wraps them."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.words = QLabel(text)
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.words.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        self.row.addWidget(self.words, 1)
        self.setAccessibleName(text)
        self.setToolTip(text)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def rename(self, text: str) -> None:
        """Call it something else."""
        if text != self.accessibleName():
            self.words.setText(text)
            self.setAccessibleName(text)
            self.setToolTip(text)
            self.updateGeometry()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As its words take."""
        width = max(self.width(), _NARROWEST)
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As `sizeHint`."""
        return self.sizeHint()

    def hasHeightForWidth(self) -> bool:  # noqa: N802 - Qt's name
        """Its words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802 - Qt's name
        """The height its words take."""
        margins = self.row.contentsMargins()
        inner = width - margins.left() - margins.right() - self._aside
        words = self.words.heightForWidth(max(inner, 40)) + margins.top() + margins.bottom()
        return max(words + 2, self.minimumHeight())

    @property
    def _aside(self) -> int:
        """What stands beside the words."""
        return 0


class FoldButton(WrapButton):
    """The heading of a section: its words, and an arrow that tells whether it is folded."""

    def __init__(self, text: str, look: Look) -> None:
        self._look = look
        self._arrow = QLabel()
        super().__init__(text)
        self.setCheckable(True)
        self.setProperty("weight", "fold")
        self.words.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.words.setProperty("type", "strong")
        self._arrow.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.row.setContentsMargins(SPACE, SPACE_TIGHT, SPACE_WIDE, SPACE_TIGHT)
        self.row.setSpacing(SPACE_TIGHT)
        self.row.insertWidget(0, self._arrow)
        self.dress()

    def dress(self, *, waiting: bool = False) -> None:
        """The arrow as it is now, and dots after the words while something is waited for."""
        self.words.setText(f"{self.accessibleName()} …" if waiting else self.accessibleName())
        name = "up" if self.isChecked() else "down"
        side = self._look.scale.body
        self._arrow.setPixmap(inked(name, self._look.theme.text, side, self.devicePixelRatioF()))

    @property
    def _aside(self) -> int:
        return self._look.scale.body + SPACE_TIGHT


class ButtonColumn(QWidget):
    """Buttons under each other, made anew each time; hidden where there are none."""

    def __init__(self) -> None:
        super().__init__()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(SPACE_TIGHT)
        self.buttons: list[WrapButton] = []

    def show_buttons(self, buttons: Sequence[tuple[str, Callable[[], object]]]) -> None:
        """Offer these, each with what it does."""
        for old in self.buttons:
            old.setParent(None)
            old.deleteLater()
        self.buttons = []
        for text, act in buttons:
            button = WrapButton(text)
            button.clicked.connect(lambda _checked=False, act=act: act())
            self._column.addWidget(button)
            self.buttons.append(button)
        self.setVisible(bool(buttons))
