"""A section of the panel: a heading that folds, and under it what is reckoned only while it is open."""

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QGraphicsOpacityEffect, QLabel, QSizePolicy, QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.reckoner import Question, Reckoner, question_of
from piecewright_qt.sewing_table.numbers.wrap_button import FoldButton
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_PATIENCE = 150
"""Milliseconds that numbers no longer true stand as they are, before they turn pale."""
_FADED = 0.45


class Line(NamedTuple):
    """One sentence: its words, and the kind and the tone of its type."""

    text: str
    type: str = ""
    tone: str = ""


class Lines(QWidget):
    """Sentences under each other."""

    def __init__(self) -> None:
        super().__init__()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(SPACE_TIGHT)
        self._labels: list[QLabel] = []

    @property
    def texts(self) -> list[str]:
        """What is said."""
        return [label.text() for label in self._labels if label.isVisibleTo(self)]

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Say these, and no more."""
        while len(self._labels) < len(lines):
            label = QLabel()
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
            self._labels.append(label)
            self._column.addWidget(label)
        for number, label in enumerate(self._labels):
            line = lines[number] if number < len(lines) else None
            label.setVisible(line is not None)
            if line is not None:
                label.setText(line.text)
                _dress(label, line)


def _dress(label: QLabel, line: Line) -> None:
    if (label.property("type") or "", label.property("tone") or "") != (line.type, line.tone):
        label.setProperty("type", line.type)
        label.setProperty("tone", line.tone)
        label.style().polish(label)


class Section(QWidget):
    """Folded at first. Subclasses build their `body`, and say what to `reckon` and how to `show_answer`.

    `opened` follows folding and unfolding; `is_quick` says that reckoning takes less than a frame.
    """

    opened = Signal(bool)
    is_quick = True

    def __init__(self, name: str, title: str, bench: Bench, look: Look, reckoner: Reckoner) -> None:
        super().__init__()
        self.name, self.bench, self.look, self._reckoner = name, bench, look, reckoner
        self.head = FoldButton(title, look)
        self.head.toggled.connect(self._fold)
        self.trouble = Lines()
        self.body = QWidget()
        self.column = QVBoxLayout(self.body)
        self.column.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, SPACE_WIDE)
        self.column.setSpacing(SPACE)
        self.column.addWidget(self.trouble)
        self.inside = QWidget()
        self._inner = QVBoxLayout(self.inside)
        self._inner.setContentsMargins(0, 0, 0, 0)
        self._inner.setSpacing(SPACE)
        self.column.addWidget(self.inside)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.head)
        column.addWidget(self.body)
        self._is_built = False
        self._asked: tuple[object, ...] | None = None
        self.is_behind = False
        self._patience = QTimer(self, interval=_PATIENCE, singleShot=True)
        self._patience.timeout.connect(self._fade)
        self.body.hide()
        reckoner.give_up_with(self, name)
        self._dress_head()

    # For subclasses ---------------------------------------------------------------------------------------------

    def build(self) -> None:
        """Put what the section holds into it, by `add`."""
        raise NotImplementedError

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The work to be done: a pure function. It may raise PiecewrightError."""
        raise NotImplementedError

    def show_answer(self, question: Question, answer: Any) -> None:
        """Show what came of it."""
        raise NotImplementedError

    def beside(self, _question: Question) -> tuple[object, ...]:
        """What the answer hangs on beside recipe and given."""
        return ()

    def add(self, *widgets: QWidget) -> None:
        """Put widgets under what is there."""
        for widget in widgets:
            self._inner.addWidget(widget)

    def said(self, what: Any) -> str:
        """A sentence of the engine in words."""
        return words(what, self.look.measure)

    # Folding and showing ----------------------------------------------------------------------------------------

    @property
    def is_open(self) -> bool:
        """Whether it is unfolded."""
        return self.head.isChecked()

    def unfold(self) -> None:
        """Show what it holds."""
        self.head.setChecked(True)

    def refresh(self) -> None:
        """Reckon anew if it is open and something it hangs on has changed."""
        self._dress_head()
        if not self.is_open:
            return
        question = question_of(self.bench)
        if question is None:
            self._reckoner.give_up(self.name)
            self._asked = None
            self._settle()
            self._say_why_not()
            return
        asked = (*question.key(), *self.beside(question), self.look.measure)
        if asked == self._asked:
            return
        self._asked, self.is_behind = asked, True
        self._dress_head()
        self._patience.start()
        self._reckoner.reckon(
            self.name,
            self.reckon(question),
            lambda answer: self._take(question, answer),
            quick=self.is_quick,
        )

    def _fade(self) -> None:
        """Numbers that no longer hold are paler until those that do are there."""
        faded = QGraphicsOpacityEffect(self.inside)
        faded.setOpacity(_FADED)
        self.inside.setGraphicsEffect(faded)

    def _settle(self) -> None:
        self.is_behind = False
        self._patience.stop()
        if self.inside.graphicsEffect() is not None:
            self.inside.setGraphicsEffect(None)  # type: ignore[arg-type]  # Qt takes it off so

    def _take(self, question: Question, answer: Any) -> None:
        self._settle()
        self._dress_head()
        failed = isinstance(answer, PiecewrightError)
        self.trouble.show_lines([Line(self.said(answer), tone="warn")] if failed else [])
        self.trouble.setVisible(failed)
        self.inside.setVisible(not failed)
        if not failed:
            self.show_answer(question, answer)

    def _say_why_not(self) -> None:
        self.inside.hide()
        self.trouble.show()
        if self.bench.block is None:
            text = self.tr("No block is in hand.")
        else:
            text = self.tr("Mend the step that does not work first; then the numbers are here again.")
        self.trouble.show_lines([Line(text, "soft")])

    def _fold(self, is_open: bool) -> None:
        if is_open and not self._is_built:
            self._is_built = True
            self.build()
        self.body.setVisible(is_open)
        self.refresh()
        self.opened.emit(is_open)

    def _dress_head(self) -> None:
        self.head.dress(waiting=self.is_behind)
        state = self.tr("unfolded") if self.is_open else self.tr("folded")
        if self.is_behind:
            state = self.tr("being worked out")
        self.head.setAccessibleDescription(state)
        self.head.setToolTip(f"{self.head.accessibleName()} ({state})")
