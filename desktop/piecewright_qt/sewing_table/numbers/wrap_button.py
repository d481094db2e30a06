"""A button whose words wrap, for narrow columns and large text."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QVBoxLayout

from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT


class WrapButton(QPushButton):
    """Named by its words for the ear; they are drawn by a label, which wraps them."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.words = QLabel(text)
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.words.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        column.addWidget(self.words)
        self.setAccessibleName(text)
        self.setToolTip(text)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As its words take."""
        return QSize(120, self.heightForWidth(max(self.width(), 120)))

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As `sizeHint`."""
        return self.sizeHint()

    def hasHeightForWidth(self) -> bool:  # noqa: N802 - Qt's name
        """Its words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802 - Qt's name
        """The height its words take."""
        return max(self.words.heightForWidth(width - 2 * SPACE) + 2 * SPACE_TIGHT, self.minimumHeight()) + 2
