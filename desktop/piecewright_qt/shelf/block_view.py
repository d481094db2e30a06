"""What a block will be: its picture, its sizes, what to cut for it, and what to mind."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright.words.message import Message, message
from piecewright_qt.look import Look as Dress
from piecewright_qt.messages import words
from piecewright_qt.shelf.block_draft import Outcome, strips_to_cut
from piecewright_qt.shelf.painting import paint_edge, paint_shadow
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE
from piecewright_qt.wall.looks import Look

_SIDE = 168
_SMALL = 48
_ACROSS = 5


class Portrait(QWidget):
    """The first face of a block large, all of them small below where there are several."""

    def __init__(self, dress: Dress, pictures: Pictures) -> None:
        super().__init__()
        self._dress = dress
        self._pictures = pictures
        self._looks: tuple[Look, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_looks(self, looks: tuple[Look, ...], spoken: str) -> None:
        """Show these faces; none where nothing can be made."""
        self._looks = looks
        self.setAccessibleName(spoken)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """The large picture, and rows of small ones."""
        rows = -(-len(self._looks) // _ACROSS) if len(self._looks) > 1 else 0
        width = max(_SIDE, _ACROSS * (_SMALL + SPACE_TIGHT) - SPACE_TIGHT if rows else 0)
        return QSize(width + SPACE, _SIDE + SPACE + rows * (_SMALL + SPACE_TIGHT))

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802, ARG002 - Qt's name
        """Paint the faces."""
        painter = QPainter(self)
        if not self._looks:
            painter.setPen(QPen(QColor(self._dress.theme.outline), 1, Qt.PenStyle.DashLine))
            painter.drawRect(QRect(QPoint(4, 4), QSize(_SIDE - 8, _SIDE - 8)))
        else:
            self._paint(painter, self._looks[0], QPoint(4, 4), _SIDE - 4)
            several = self._looks if len(self._looks) > 1 else ()
            for number, look in enumerate(several):
                step = _SMALL + SPACE_TIGHT
                corner = QPoint(4 + number % _ACROSS * step, _SIDE + SPACE + number // _ACROSS * step)
                self._paint(painter, look, corner, _SMALL - 4)
        painter.end()

    def _paint(self, painter: QPainter, look: Look, corner: QPoint, side: int) -> None:
        pixmap = self._pictures.block(look, side, self.devicePixelRatioF())
        place = QRect(QPoint(0, 0), pixmap.deviceIndependentSize().toSize())
        place.moveCenter(QRect(corner, QSize(side, side)).center())
        paint_shadow(painter, place)
        painter.drawPixmap(place.topLeft(), pixmap)
        paint_edge(painter, place)


class BlockView(QWidget):
    """Portrait on the left, sizes and cutting on the right, what to mind below."""

    def __init__(self, dress: Dress, pictures: Pictures) -> None:
        super().__init__()
        self._dress = dress
        self.portrait = Portrait(dress, pictures)
        self._size, self._more, self._cut = _line("lead"), _line("soft"), _line("")
        self.notes = _line("small")
        self._size.setAccessibleName(self.tr("Finished size"))
        facts = QVBoxLayout()
        facts.setSpacing(SPACE_TIGHT)
        for label in (self._size, self._more, self._cut, self.notes):
            facts.addWidget(label)
        facts.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE_WIDE)
        row.addWidget(self.portrait, 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(facts, 1)

    def show_outcome(self, outcome: Outcome, name: str) -> None:
        """Show what a draft gives, or what stops it."""
        looks = tuple(face.look for face in outcome.faces)
        made = outcome.facts
        if made is None:
            self.portrait.show_looks((), self.tr("No picture yet"))
            for label in (self._size, self._more, self._cut):
                label.clear()
            self._mind((outcome.fault,) if outcome.fault is not None else (), "error")
            return
        finished = self._say(message("plan.size", size=made.finished))
        self.portrait.show_looks(looks, f"{name}, {finished}")
        self._size.setText(finished)
        unfinished = self._say(message("plan.size", size=made.unfinished))
        batch = self._say(message("shelf.batch", count=made.blocks))
        self._more.setText(f"{unfinished}\n{batch}")
        self._cut.setText("\n".join(self._say(line).strip() for line in strips_to_cut(made)))
        self._mind(outcome.notes, "warn")

    def say_fault(self, text: str) -> None:
        """What is typed can not be: the last good picture stays, the sentence says so."""
        self.notes.setProperty("tone", "error")
        self._polish(text)

    def _mind(self, notes: tuple[Message | PiecewrightError, ...], tone: str) -> None:
        self.notes.setProperty("tone", tone)
        self._polish("\n".join(words(note, self._dress.measure) for note in notes))

    def _polish(self, text: str) -> None:
        self.notes.style().unpolish(self.notes)
        self.notes.style().polish(self.notes)
        self.notes.setText(text)
        self.notes.setVisible(bool(text))

    def _say(self, said: Message) -> str:
        return said.text(self._dress.measure)


def _line(kind: str) -> QLabel:
    label = QLabel()
    label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
