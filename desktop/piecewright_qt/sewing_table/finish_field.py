"""The other way round: type what the block is to finish at, and the lengths that give it are found."""

import re
from fractions import Fraction

from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QSizePolicy, QWidget

from piecewright.edit.registry import call
from piecewright.errors import PiecewrightError
from piecewright.making.goals import Finish
from piecewright.making.solve import Solution, solve
from piecewright.model.value import Sizes
from piecewright.units.length import parse_length
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_TIMES = re.compile(r"[x\u00d7]", re.IGNORECASE)


class FinishField(QWidget):
    """Width, or width x height, finished; Enter asks for it. What was found, or why nothing was, is said under it."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._refused = False
        grid = QGridLayout(self)
        grid.setContentsMargins(0, SPACE_TIGHT, 0, 0)
        grid.setHorizontalSpacing(SPACE)
        label = QLabel(self.tr("Make it finish at"))
        self.line = QLineEdit()
        self.line.setAccessibleName(label.text())
        self.line.setPlaceholderText(self.tr("12, or 6 x 12"))
        self.line.setToolTip(
            self.tr("Finished width, or width x height; Enter finds the lengths that give it")
        )
        self.line.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        label.setBuddy(self.line)
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setProperty("type", "small")
        self.said.setVisible(False)
        grid.addWidget(label, 0, 0)
        grid.addWidget(self.line, 0, 1)
        grid.addWidget(self.said, 1, 0, 1, 2)
        self.line.returnPressed.connect(self.ask)
        self.line.textEdited.connect(lambda _text: self._say(""))
        look.changed.connect(self._tint)

    def ask(self) -> None:
        """Find the lengths that give what is typed, and set them as one undo step."""
        recipe = self._bench.standing.sound if self._bench.standing is not None else None
        if recipe is None or self._bench.facts is None:
            self._say(self.tr("Mend the step that does not work first."), refused=True)
            return
        try:
            goal = _read(self.line.text())
            found = solve(recipe, self._bench.given, goal)
        except PiecewrightError as error:
            self._say(words(error, self._look.measure), refused=True)
            return
        self._set(found)
        self._say(" ".join(said.text(self._look.measure) for said in found.messages))

    def _set(self, found: Solution) -> None:
        block, standing = self._bench.block, self._bench.standing
        if block is None or standing is None:
            return
        if found.recipe != standing.sound:
            self._bench.change(found.recipe.plain)
        else:
            sizes = Sizes({**block.sizes, **found.given.sizes})
            self._bench.document.perform(call("change-block", block=block.changed(sizes=sizes)))

    def _say(self, text: str, *, refused: bool = False) -> None:
        self._refused = refused
        self.said.setText(text)
        self.said.setVisible(bool(text))
        self._tint()

    def _tint(self) -> None:
        theme = self._look.theme
        self.said.setStyleSheet(f"color: {theme.error if self._refused else theme.text_soft}")


def _read(text: str) -> Finish:
    """A width, or a width and a height. Raises LengthError."""
    lengths: list[Fraction] = [parse_length(part) for part in _TIMES.split(text)]
    if len(lengths) > 2:
        parse_length(text)  # says what is wrong with it
    return Finish(lengths[0], lengths[1] if len(lengths) > 1 else None)
