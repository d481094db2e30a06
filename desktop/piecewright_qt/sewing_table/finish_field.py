"""The other way round: ask for a finished size, or for strips used up, and the lengths for it are found."""

import re
from collections.abc import Callable
from fractions import Fraction
from functools import partial

from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QLineEdit, QPushButton, QSizePolicy, QWidget

from piecewright.errors import PiecewrightError
from piecewright.making.goals import Fill, Finish, Goal, UseUp
from piecewright.making.no_answer import NoAnswerError
from piecewright.making.solve import solve
from piecewright.units.length import parse_length
from piecewright.units.scale import INCHES_BY_UNIT
from piecewright.units.sizes import Finished
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.matters import FreeLengths
from piecewright_qt.sewing_table.numbers.setting import set_made
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_TIMES = re.compile(r"[x\u00d7]", re.IGNORECASE)
_MOST_NEAR = 3
_ONE_ROW = 1.3  # the largest text scale at which wish and lengths stand in one row


class FinishField(QWidget):
    """A kind of wish and its lengths; Enter asks for it. What was found, or why nothing was, is said under it.

    Sizes near that have an answer are buttons. Only the lengths in `free` move, where there are some.
    """

    def __init__(self, bench: Bench, look: Look, free: FreeLengths) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._free = free
        self._refused = False
        self._grid = grid = QGridLayout(self)
        grid.setContentsMargins(0, SPACE_TIGHT, 0, 0)
        grid.setHorizontalSpacing(SPACE)
        self.wishes = QComboBox()
        self.wishes.addItem(self.tr("Make it finish at"), "finish")
        self.wishes.addItem(self.tr("As large as a strip allows"), "fill")
        self.wishes.addItem(self.tr("Use inches up"), "use-up")
        self.wishes.setAccessibleName(self.tr("What to ask for"))
        self.wishes.setToolTip(self.tr("What to ask for; the lengths that give it are found"))
        self.wishes.setMinimumContentsLength(13)
        self.wishes.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.wishes.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.line = QLineEdit()
        self.line.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setProperty("type", "small")
        self.said.setVisible(False)
        self.held = QLabel()
        self.held.setWordWrap(True)
        self.held.setProperty("type", "small")
        self.held.setVisible(False)
        self.near = [QPushButton() for _ in range(_MOST_NEAR)]
        for button in self.near:
            button.hide()
        self._arrange()
        self.line.returnPressed.connect(self.ask)
        self.line.textEdited.connect(lambda _text: self._say(""))
        self.wishes.currentIndexChanged.connect(lambda _index: self._name_line())
        free.changed.connect(self._tell_free)
        bench.changed.connect(lambda: self._say(""))
        look.changed.connect(self._tint)
        look.changed.connect(self._arrange)
        self._name_line()

    def _arrange(self) -> None:
        """The kind of wish and its lengths in one row; with large text in two."""
        large = self._look.scale.text > _ONE_ROW
        whole = 2 * _MOST_NEAR
        self._grid.addWidget(self.wishes, 0, 0, 1, whole if large else _MOST_NEAR)
        self._grid.addWidget(
            self.line, int(large), 0 if large else _MOST_NEAR, 1, whole if large else _MOST_NEAR
        )
        self._grid.addWidget(self.said, 2, 0, 1, whole)
        for number, button in enumerate(self.near):
            self._grid.addWidget(button, 3, 2 * number, 1, 2)
        self._grid.addWidget(self.held, 4, 0, 1, whole)

    def _tell_free(self) -> None:
        """How many lengths may move, where not all may."""
        count = len(self._free.spots)
        text = self.tr("Lengths that may move, as ticked under \u201cWhich numbers matter\u201d: {n}")
        self.held.setText(text.format(n=count))
        self.held.setVisible(bool(count))

    def ask(self) -> None:
        """Find the lengths that give what is asked, and set them as one undo step."""
        try:
            goal = self._goal()
        except PiecewrightError as error:
            self._say(words(error, self._look.measure), refused=True)
        else:
            self._ask_for(goal)

    def _ask_for(self, goal: Goal) -> None:
        standing = self._bench.standing
        if standing is None or standing.sound is None or self._bench.facts is None:
            self._say(self.tr("Mend the step that does not work first."), refused=True)
            return
        try:
            found = solve(standing.sound, self._bench.given, goal, self._free.spots)
        except NoAnswerError as error:
            self._say(words(error, self._look.measure), refused=True)
            self._offer(error.near)
        except PiecewrightError as error:
            self._say(words(error, self._look.measure), refused=True)
        else:
            refused = set_made(self._bench, found.recipe, found.given)
            if refused is not None:
                self._say(words(refused, self._look.measure), refused=True)
            else:
                self._say(" ".join(said.text(self._look.measure) for said in found.messages))

    def _goal(self) -> Goal:
        """What is asked for. Raises LengthError."""
        lengths = _read(self.line.text(), INCHES_BY_UNIT[self._look.measure.unit])
        first, second = lengths[0], lengths[1] if len(lengths) > 1 else None
        goals: dict[str, Callable[[], Goal]] = {
            "finish": lambda: Finish(first, second),
            "fill": lambda: Fill(second, first),
            "use-up": lambda: UseUp(first),
        }
        return goals[self.wishes.currentData()]()

    def _name_line(self) -> None:
        """What is to be typed for the kind of wish chosen."""
        names = {
            "finish": (
                self.tr("12, or 6 x 12"),
                self.tr("Finished width, or width x height; Enter finds the lengths that give it"),
            ),
            "fill": (
                self.tr("2 1/2, or 2 1/2 x 40"),
                self.tr("Width of the strips, or width x length; Enter makes the largest block of them"),
            ),
            "use-up": (self.tr("42"), self.tr("Length of the strips to use up; Enter finds the lengths")),
        }
        hint, tip = names[self.wishes.currentData()]
        self.line.setPlaceholderText(hint)
        self.line.setToolTip(tip)
        self.line.setAccessibleName(self.wishes.currentText())
        self._say("")

    def _offer(self, near: tuple[Finished, ...]) -> None:
        """A button for each size near that has an answer."""
        for button, size in zip(self.near, near, strict=False):
            button.setText(self._look.measure.size(size.width, size.height))
            button.setToolTip(self.tr("Make it finish at this size"))
            button.clicked.connect(partial(self._take, size))
            button.show()

    def _take(self, size: Finished) -> None:
        self._ask_for(Finish(Fraction(size.width), Fraction(size.height)))

    def _say(self, text: str, *, refused: bool = False) -> None:
        self._refused = refused
        self.said.setText(text)
        self.said.setVisible(bool(text))
        for button in self.near:
            if button.isVisibleTo(self):
                button.clicked.disconnect()
                button.hide()
        self._tint()

    def _tint(self) -> None:
        theme = self._look.theme
        self.said.setStyleSheet(f"color: {theme.error if self._refused else theme.text_soft}")


def _read(text: str, unit: Fraction) -> list[Fraction]:
    """A length, or two. Raises LengthError."""
    lengths = [parse_length(part, unit=unit) for part in _TIMES.split(text)]
    if len(lengths) > 2:
        parse_length(text)  # says what is wrong with it
    return lengths
